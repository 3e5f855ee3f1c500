"""A wheel installed in an empty environment, away from the checkout, has all that it needs."""

from __future__ import annotations

import shutil
import subprocess
import sys
import tomllib
import venv
import zipfile
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parent.parent
# Where each package's files lie in the checkout, and where an installed wheel has them.
ROOTS = {"shoplog": "shoplog", "data": "shoplog/data", "plugins/shoplog_mkdocs": "shoplog_mkdocs"}
NOT_SOURCE = shutil.ignore_patterns(
    *(".git", ".venv", ".*_cache", ".hypothesis", "site", "build", "dist", "*.egg-info"),
    "__pycache__",
)
PAGE = """\
# Bush

The bore is [=bore].

```calc
bore    = 30 mm H7
journal = 30 mm f7
check bore.min > journal.max
```
"""
SITE = """\
site_name: A log
theme: {name: material, font: false}
plugins: [search, shoplog]
"""

# One worker builds and installs for every test that asks for it.
pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("packaging")]


def project() -> dict[str, object]:
    return tomllib.loads((TOP / "pyproject.toml").read_text("utf-8"))


def source_files() -> set[str]:
    """What the wheel must hold, by the names that it has there."""
    return {
        f"{there}/{file.relative_to(TOP / here).as_posix()}"
        for here, there in ROOTS.items()
        for file in (TOP / here).rglob("*")
        if file.is_file() and file.suffix != ".pyc"
    }


def run(*command: object, cwd: Path, code: int = 0) -> str:
    """Run a command away from the checkout, and give what it printed."""
    done = subprocess.run(
        [str(part) for part in command],
        cwd=cwd,
        capture_output=True,
        text=True,
        env={"PATH": "/usr/bin:/bin", "PYTHONUTF8": "1", "NO_MKDOCS_2_WARNING": "1"},
        check=False,
    )
    printed = done.stdout + done.stderr
    assert done.returncode == code, printed
    return printed


def files_of(wheel: Path) -> dict[str, bytes]:
    """A wheel's files but its own records."""
    with zipfile.ZipFile(wheel) as packed:
        return {name: packed.read(name) for name in packed.namelist() if ".dist-info/" not in name}


def built_wheel(source: Path, folder: Path) -> Path:
    """The wheel of a source folder or archive, built with the tools of this environment."""
    run(
        *(sys.executable, "-m", "pip", "wheel", "--quiet", "--disable-pip-version-check"),
        *("--no-deps", "--no-build-isolation", "--wheel-dir", folder, source),
        cwd=folder,
    )
    (wheel,) = folder.glob("*.whl")
    return wheel


@pytest.fixture(scope="module")
def checkout(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the checkout, as a build writes beside what it builds."""
    copy = tmp_path_factory.mktemp("copy") / "shoplog"
    shutil.copytree(TOP, copy, ignore=NOT_SOURCE)
    return copy


@pytest.fixture(scope="module")
def wheel(checkout: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    return built_wheel(checkout, tmp_path_factory.mktemp("wheel"))


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of commands of an empty environment with the wheel and what it depends on."""
    home = tmp_path_factory.mktemp("empty") / "venv"
    venv.create(home, with_pip=True)
    python = home / "bin" / "python"
    subprocess.run(
        [python, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", wheel],
        cwd=home,
        check=True,
    )
    return home / "bin"


def test_the_packages_listed_are_the_folders_with_an_init() -> None:
    tools = project()["tool"]
    assert isinstance(tools, dict)
    folders = {
        f"{there}/{file.parent.relative_to(TOP / here).as_posix()}".removesuffix("/.")
        for here, there in ROOTS.items()
        for file in (TOP / here).rglob("__init__.py")
    }
    assert sorted(tools["setuptools"]["packages"]) == sorted(
        folder.replace("/", ".") for folder in folders
    )


def test_every_folder_with_python_files_is_a_package() -> None:
    folders = {file.parent for here in ROOTS for file in (TOP / here).rglob("*.py")}
    assert [str(folder) for folder in folders if not (folder / "__init__.py").is_file()] == []


def test_the_wheel_holds_every_file_of_its_packages_and_nothing_else(wheel: Path) -> None:
    assert set(files_of(wheel)) == source_files()


def test_the_wheel_made_from_the_source_archive_is_the_same(
    checkout: Path, wheel: Path, tmp_path: Path
) -> None:
    build = f"import setuptools.build_meta as b; b.build_sdist({str(tmp_path)!r})"
    run(sys.executable, "-c", build, cwd=checkout)
    (archive,) = tmp_path.glob("*.tar.gz")
    again = tmp_path / "again"
    again.mkdir()
    assert files_of(built_wheel(archive, again)) == files_of(wheel)


def test_the_installed_library_is_the_wheels_and_not_the_checkouts(
    installed: Path, tmp_path: Path
) -> None:
    where = "import shoplog, shoplog_mkdocs; print(shoplog.__file__, shoplog_mkdocs.__file__)"
    printed = run(installed / "python", "-c", where, cwd=tmp_path)
    assert printed.count("site-packages") == 2
    assert str(TOP) not in printed.replace(str(installed.parent), "")


def test_the_installed_command_works_out_a_size_with_limits(
    installed: Path, tmp_path: Path
) -> None:
    printed = run(installed / "shoplog", "calc", "30 mm H7", cwd=tmp_path)
    assert "30.000" in printed
    assert "30.021" in printed


def test_the_installed_command_finds_no_fit_between_sizes_that_differ(
    installed: Path, tmp_path: Path
) -> None:
    printed = run(installed / "shoplog", "calc", "fit(30 mm H7, 24 mm p6)", cwd=tmp_path, code=1)
    assert "nominal sizes differ" in printed


def test_the_installed_library_finds_its_tables_and_its_units(
    installed: Path, tmp_path: Path
) -> None:
    read = (
        "from shoplog.tables import table, table_names\n"
        "from shoplog.units import unit\n"
        "print(*table_names(), len(table('iso286_grades').rows) > 5, unit('mm/min').text)"
    )
    names = sorted(file.stem for file in (TOP / "data").rglob("*.csv"))
    printed = run(installed / "python", "-c", read, cwd=tmp_path)
    assert printed.split() == [*names, "True", "mm/min"]


def test_the_entry_points_of_the_plugin_and_the_extension_load(
    installed: Path, tmp_path: Path
) -> None:
    load = (
        "from importlib.metadata import entry_points\n"
        "for group in ('mkdocs.plugins', 'markdown.extensions'):\n"
        "    (point,) = entry_points(group=group, name='shoplog')\n"
        "    print(point.load().__name__)"
    )
    printed = run(installed / "python", "-c", load, cwd=tmp_path)
    assert printed.split() == ["ShoplogPlugin", "ShoplogExtension"]


def test_a_small_log_becomes_a_site_with_the_installed_plugin(
    installed: Path, tmp_path: Path
) -> None:
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs" / "index.md").write_text(PAGE, "utf-8")
    (tmp_path / "mkdocs.yml").write_text(SITE, "utf-8")
    run(installed / "mkdocs", "build", "--strict", cwd=tmp_path)
    shown = (tmp_path / "site" / "index.html").read_text("utf-8")
    assert "30.021" in shown
    assert "[=bore]" not in shown


def test_a_check_that_fails_stops_the_strict_build_of_the_installed_plugin(
    installed: Path, tmp_path: Path
) -> None:
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs" / "index.md").write_text(PAGE.replace("30 mm f7", "31 mm f7"), "utf-8")
    (tmp_path / "mkdocs.yml").write_text(SITE, "utf-8")
    printed = run(installed / "mkdocs", "build", "--strict", cwd=tmp_path, code=1)
    assert "docs/index.md:8:" in printed


def test_a_page_is_worked_out_by_the_installed_markdown_extension(
    installed: Path, tmp_path: Path
) -> None:
    (tmp_path / "page.md").write_text(PAGE, "utf-8")
    convert = ("-m", "markdown", "-x", "shoplog", "page.md")
    shown = run(installed / "python", *convert, cwd=tmp_path)
    assert "30.021" in shown
    assert "```" not in shown
