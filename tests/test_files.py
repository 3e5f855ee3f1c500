"""A file is written whole or not at all, whatever happens on the way."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from shoplog import files
from shoplog.files import shown_folder, site_above, write_whole


def test_a_file_is_written_with_its_folder_and_as_it_is(tmp_path: Path) -> None:
    path = tmp_path / "new" / "all.csv"
    write_whole(path, "a\r\nb\r\n")
    assert path.read_bytes() == b"a\r\nb\r\n"
    assert [one.name for one in path.parent.iterdir()] == ["all.csv"]
    umask = os.umask(0o022)
    os.umask(umask)
    assert path.stat().st_mode & 0o777 == 0o666 & ~umask


def test_a_file_that_is_there_is_left_alone_unless_it_is_to_be_replaced(tmp_path: Path) -> None:
    path = tmp_path / "all.csv"
    path.write_text("mine", "utf-8")
    with pytest.raises(FileExistsError, match=r"all\.csv is there already$"):
        write_whole(path, "new")
    assert path.read_text("utf-8") == "mine"
    write_whole(path, "new", over=True)
    assert path.read_text("utf-8") == "new"
    assert [one.name for one in tmp_path.iterdir()] == ["all.csv"]


def test_a_file_that_comes_while_another_is_written_is_left_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "all.csv"
    path.write_text("theirs", "utf-8")
    monkeypatch.setattr(Path, "exists", lambda _self: False)
    with pytest.raises(FileExistsError, match="is there already"):
        write_whole(path, "ours")
    assert path.read_text("utf-8") == "theirs"
    assert [one.name for one in tmp_path.iterdir()] == ["all.csv"]


def test_where_a_disk_knows_no_links_a_file_is_still_never_replaced(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_links(*_: object) -> None:
        raise PermissionError("no links here")

    monkeypatch.setattr(files.os, "link", no_links)
    path = tmp_path / "all.csv"
    write_whole(path, "ours")
    assert path.read_text("utf-8") == "ours"
    with pytest.raises(FileExistsError):
        write_whole(path, "again")


def test_a_write_that_fails_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(files.os, "fsync", full)
    with pytest.raises(OSError, match="No space left"):
        write_whole(tmp_path / "all.csv", "text")
    assert list(tmp_path.iterdir()) == []


def test_the_site_of_a_folder_is_the_nearest_one_above(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    deep = tmp_path / "log" / "docs" / "winch"
    deep.mkdir(parents=True)
    assert site_above(deep) is None
    for folder in (tmp_path, tmp_path / "log"):
        (folder / "mkdocs.yml").write_text("", "utf-8")
    assert site_above(deep) == (tmp_path / "log").resolve()
    monkeypatch.chdir(deep)
    assert site_above(Path()) == (tmp_path / "log").resolve()


def test_a_folder_is_named_from_here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "docs").mkdir()
    monkeypatch.chdir(tmp_path / "docs")
    assert [shown_folder(one) for one in (Path(), tmp_path, tmp_path / "docs" / "a")] == [
        "", "../", "a/",
    ]  # fmt: skip


def test_bytes_are_written_as_they_are(tmp_path: Path) -> None:
    write_whole(tmp_path / "sheet.pdf", b"%PDF\xff")
    assert (tmp_path / "sheet.pdf").read_bytes() == b"%PDF\xff"
