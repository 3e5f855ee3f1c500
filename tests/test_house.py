"""The house rules that no other tool holds: who knows MkDocs, what lies where, what is never said.

The arrow of imports between the rooms is held by import-linter, from pyproject.toml.
"""

from __future__ import annotations

import ast
import inspect
import re
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

import shoplog
from shoplog.tables import table, table_names

TOP = Path(__file__).resolve().parent.parent
ON_TOP = set(
    "README.md DEVELOPERS.md LICENSE Makefile pyproject.toml mkdocs.yml shop.yml .ci .gitignore"
    " benchmarks changelog.d data docs plugins shoplog tests".split()
)
PLUGIN_LINES = 200
KINDS_OF_CHANGE = ("added", "changed", "fixed", "removed")


def kept_files() -> list[Path]:
    """Every file that git keeps or would keep, from the top."""
    if not (TOP / ".git").exists():
        pytest.skip("not a git checkout, so nothing says which files are kept")
    listed = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=TOP,
        check=True,
        capture_output=True,
    )
    paths = [Path(name) for name in listed.stdout.decode().split("\0") if name]
    return [path for path in paths if (TOP / path).is_file()]


def imported(path: Path) -> Iterator[str]:
    """The modules that a file imports, wherever in it."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            yield node.module


def first_words(modules: Iterator[str]) -> set[str]:
    return {module.partition(".")[0] for module in modules}


def test_the_library_and_the_command_import_no_mkdocs() -> None:
    files = sorted((TOP / "shoplog").rglob("*.py"))
    guilty = [
        str(file.relative_to(TOP))
        for file in files
        if first_words(imported(file)) & {"mkdocs", "material", "shoplog_mkdocs"}
    ]
    assert files
    assert guilty == []


def test_an_import_inside_a_function_is_seen(tmp_path: Path) -> None:
    file = tmp_path / "module.py"
    file.write_text("import os\n\ndef late():\n    from mkdocs.config import base\n")
    assert first_words(imported(file)) == {"os", "mkdocs"}


def test_the_plugin_stays_thin() -> None:
    files = sorted((TOP / "plugins" / "shoplog_mkdocs").rglob("*.py"))
    lines = {file.name: len(file.read_text("utf-8").splitlines()) for file in files}
    assert "__init__.py" in lines
    assert {name: count for name, count in lines.items() if count >= PLUGIN_LINES} == {}


def test_the_top_level_holds_what_is_allowed_and_nothing_else() -> None:
    assert {path.parts[0] for path in kept_files()} - ON_TOP == set()


def fragment_faults(folder: Path) -> list[str]:
    """What is wrong with the changelog's fragments."""
    faults = []
    for file in sorted(folder.iterdir()):
        if file.name in ("README.md", "released.md"):
            continue
        if not re.fullmatch(rf"[a-z0-9_-]+\.({'|'.join(KINDS_OF_CHANGE)})\.md", file.name):
            faults.append(f"{file.name}: not NAME.KIND.md, KIND one of {KINDS_OF_CHANGE}")
        lines = file.read_text("utf-8").splitlines()
        if len(lines) != 1 or not lines[0].strip():
            faults.append(f"{file.name}: {len(lines)} lines, one is wanted")
    return faults


def test_each_changelog_fragment_is_one_line_with_a_kind_in_its_name() -> None:
    assert list((TOP / "changelog.d").glob("*.added.md"))
    assert fragment_faults(TOP / "changelog.d") == []


def test_a_changelog_fragment_that_is_wrong_is_told(tmp_path: Path) -> None:
    (tmp_path / "good.fixed.md").write_text("A size is read.\n")
    (tmp_path / "two.added.md").write_text("One.\nTwo.\n")
    (tmp_path / "empty.added.md").write_text("\n")
    (tmp_path / "new.md").write_text("A thing.\n")
    assert [fault.partition(":")[0] for fault in fragment_faults(tmp_path)] == [
        "empty.added.md",
        "new.md",
        "two.added.md",
    ]


def test_every_csv_of_the_data_folder_is_shipped_as_a_table() -> None:
    in_folder = sorted(file.stem for file in (TOP / "data").rglob("*.csv"))
    assert in_folder
    assert list(table_names()) == in_folder


@pytest.mark.parametrize("name", table_names())
def test_a_table_says_its_title_source_edition_and_what_is_from_memory(name: str) -> None:
    found = table(name)  # raises where the head lacks one of them, or a row is too short
    assert all(found.head[key] for key in ("title", "source", "edition", "from memory"))
    assert len(set(found.columns)) == len(found.columns)
    assert found.rows


# Put together from pieces, so that this file does not hold what it looks for.
_FOLDERS = "|".join(("wo" + "rk", "ro" + "ot", "ho" + "me", "Us" + "ers", "tm" + "p"))
_HOSTS = "|".join(
    (
        "pypi" + r"\.org",
        "python" + r"hosted\.org",
        "npm" + r"js\.(?:org|com)",
        "debian" + r"\.org",
        r"index-" + r"url",
    )
)
FORBIDDEN = re.compile(rf"(?<![\w.*)}}\]/-])/(?:{_FOLDERS})/|[A-Z]:\\Users\\|\b(?:{_HOSTS})\b")


def test_no_file_names_a_folder_of_a_machine_or_the_host_of_a_registry() -> None:
    guilty = []
    for path in kept_files():
        try:
            text = (TOP / path).read_text("utf-8")
        except UnicodeDecodeError:
            continue  # a picture
        guilty += [f"{path}: {found.group()}" for found in FORBIDDEN.finditer(text)]
    assert guilty == []


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("see /" + "home/someone/log", True),
        ('"/' + "tmp/x" + '"', True),
        ("https://py" + "pi.org/simple", True),
        ("C:" + "\\Users\\someone", True),
        ("docs/" + "work/page.md", False),
        ("../" + "home/", False),
        ("#!/usr/bin/env bash", False),
    ],
)
def test_a_path_or_a_host_is_told_from_what_looks_like_one(text: str, found: bool) -> None:
    assert bool(FORBIDDEN.search(text)) is found


def test_everything_public_is_there_and_explained() -> None:
    names = shoplog.__all__
    assert len(set(names)) == len(names)
    public = {name: getattr(shoplog, name) for name in names}
    unexplained = [
        name
        for name, what in public.items()
        if (inspect.isclass(what) or inspect.isroutine(what)) and not inspect.getdoc(what)
    ]
    assert names
    assert unexplained == []


def commands_of(target: str) -> list[str]:
    """What `make` would run for a target."""
    printed = subprocess.run(
        ["make", "--no-print-directory", "--dry-run", "--always-make", target],
        cwd=TOP,
        check=True,
        capture_output=True,
        text=True,
    )
    return printed.stdout.splitlines()


def test_the_demo_site_is_built_strict_and_never_quiet() -> None:
    (build,) = (line for line in commands_of("site") if "mkdocs build" in line)
    assert build.split()[1:] == ["build", "--strict"]


def test_make_test_runs_each_tool_in_turn() -> None:
    tools = [line.split()[0].rpartition("/")[2] for line in commands_of("test")[-5:]]
    assert tools == ["ruff", "ruff", "mypy", "lint-imports", "pytest"]


def test_ci_runs_make_test_and_nothing_else() -> None:
    lines = (TOP / ".ci" / "run").read_text("utf-8").splitlines()
    assert lines[0] == "#!/usr/bin/env bash"
    assert lines[1] == "set -euo pipefail"
    assert lines[-1] == "exec make test"
    assert (TOP / ".ci" / "run").stat().st_mode & 0o111
