"""Tables are read once, with their heads; a file that is not as it must be is named at its line."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from shoplog import tables


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    monkeypatch.setattr(tables.resources, "files", lambda _package: tmp_path)
    tables.table.cache_clear()
    yield tmp_path
    tables.table.cache_clear()


HEAD = "# title: T\n# source: a book,\n#   table 3\n# edition: 2nd\n# from memory: nothing\n"


def test_a_table_has_its_head_and_its_rows(folder: Path) -> None:
    (folder / "t.csv").write_text(f'{HEAD}size,"a, b"\n1,2\n3,"4, 5"\n', "utf-8")
    found = tables.table("t")
    assert found.columns == ("size", "a, b")
    assert found.rows == ({"size": "1", "a, b": "2"}, {"size": "3", "a, b": "4, 5"})
    assert found.source == "a book, table 3 (2nd)"
    assert tables.table("t") is found


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("size\n1\n", "data/t.csv:1: the head does not say title, source, edition, from memory"),
        (
            HEAD.replace("# edition: 2nd\n", "") + "size\n1\n",
            "data/t.csv:1: the head does not say edition",
        ),
        (f"{HEAD}a,b\n1,2\n3\n", "data/t.csv:8: 1 cells under 2 columns"),
    ],
)
def test_a_faulty_table_is_refused_at_its_line(folder: Path, text: str, said: str) -> None:
    (folder / "t.csv").write_text(text, "utf-8")
    with pytest.raises(tables.TableFault) as refused:
        tables.table("t")
    assert str(refused.value) == said


def test_a_table_that_is_not_there_is_named(folder: Path) -> None:
    with pytest.raises(tables.TableFault, match=r"^data/none\.csv:0: there is no such table$"):
        tables.table("none")


@pytest.mark.parametrize("name", tables.table_names())
def test_every_shipped_table_can_be_read(name: str) -> None:
    found = tables.table(name)
    assert found.rows
    assert len(set(found.columns)) == len(found.columns)
