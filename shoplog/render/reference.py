"""The reference, made from declarations: formulas, units, messages, setup keys, shop keys, tables.

`python -m shoplog.render.reference FOLDER` writes its pages; a test holds that the committed ones
are what it writes. Nothing on them is said twice: each text is the one of its declaration.
"""

from __future__ import annotations

import inspect
import pkgutil
import re
import sys
from collections.abc import Iterable, Iterator
from importlib import import_module
from pathlib import Path
from types import ModuleType

import shoplog.calc
import shoplog.find
import shoplog.log
from shoplog.calc.wrong import EVERYDAY_UNITS
from shoplog.log import read_log
from shoplog.log.profile.keys import SHOP, THINGS, ShopKey, ShopThing
from shoplog.log.setups.keys import SETUP_KEYS, SetupKey
from shoplog.problems import CATALOGUE, Grade, Message, Problem
from shoplog.render.reference_formulas import formula_pages
from shoplog.tables import table, table_names
from shoplog.units import COMPOUND_UNITS, PLACES, SIMPLE_UNITS, Unit, unit, write_quantity

__all__ = ["example_finding", "main", "pages"]

LONGEST_EXAMPLE = 300
MADE = (
    "<!-- Made by python -m shoplog.render.reference; change the declarations, not this page. -->"
)

_DECLARED = re.compile(r'\bmessage\(\s*"([\w-]+)"')

# Rooms of many modules that are one subject to a reader.
_ROOMS = ("shoplog.find", "shoplog.log.profile", "shoplog.log.setups")

# Which messages a module declares, in the reader's words; others stand under the module's name.
_GROUPS = {
    "fences": "Blocks and fences",
    "source": "Front matter and the page's file",
    "header": "Front matter and the page's file",
    "folder": "Front matter and the page's file",
    "prose": "Values in prose",
    "spelling": "How numbers, units and texts are spelt",
    "parse": "How a line is put together",
    "statements": "How a line is put together",
    "wrong": "How a line is put together",
    "values": "Quantities and arithmetic",
    "evaluate": "Quantities and arithmetic",
    "literals": "Quantities and arithmetic",
    "declare": "Quantities and arithmetic",
    "build": "Quantities and arithmetic",
    "compare": "Quantities and arithmetic",
    "functions": "Formulas and their arguments",
    "formulas": "Formulas and their arguments",
    "scope": "Names",
    "readings": "Mates, checks, readings and concessions",
    "mates": "Mates, checks, readings and concessions",
    "work": "Mates, checks, readings and concessions",
    "past": "Past setups",
    "find": "Past setups",
    "pages": "Other pages",
    "setups": "Setup blocks",
    "profile": "The shop profile",
}


def pages() -> dict[str, str]:
    """The text of every page that is made, by its path in the reference's folder."""
    made = {
        "units.md": _units(),
        "messages.md": _messages(),
        "setup-keys.md": _setup_keys(),
        "shop-profile.md": _shop_keys(),
        "tables.md": _tables(),
        **{f"formulas/{name}": text for name, text in formula_pages().items()},
    }
    return {name: f"{text.strip()}\n\n{MADE}\n" for name, text in made.items()}


def _code(text: str) -> str:
    """A text as inline code, whatever it holds: the fence is longer than any run in it."""
    text = " ".join(text.split())
    runs = [len(run) for run in re.findall("`+", text)]
    fence = "`" * (max(runs, default=0) + 1)
    space = " " if text.startswith("`") or text.endswith("`") else ""
    return f"{fence}{space}{text}{space}{fence}".replace("|", r"\|")


def _units() -> str:
    named: dict[Unit, list[str]] = {}
    for text in (*SIMPLE_UNITS, *COMPOUND_UNITS):
        named.setdefault(unit(text), []).append(text)
    kinds: dict[str, list[Unit]] = {}
    for one in named:
        kinds.setdefault(one.kind if "quantity in" not in one.kind else "others", []).append(one)
    lines = [
        "# Units",
        "",
        "Every unit that a page may write. A unit is read after a number or after `to`, and a",
        "compound one is written without spaces. Shown is how one of it is written: the number of",
        "places goes by the unit, and never by the digits that a page gave.",
        "",
    ]
    for kind, units in kinds.items():
        title = kind.removeprefix("a ").removeprefix("an ")
        lines += [f"## {title[0].upper()}{title[1:]}", "", *_unit_table(units, named), ""]
    lines += ["## What people write, and what this log writes", ""]
    lines += ["| written | the unit here |", "|---|---|"]
    lines += [f"| {_code(word)} | {_code(known)} |" for word, known in EVERYDAY_UNITS.items()]
    return "\n".join(lines)


def _unit_table(units: Iterable[Unit], named: dict[Unit, list[str]]) -> Iterator[str]:
    yield "| unit | may be written | one is shown as | places |"
    yield "|---|---|---|---|"
    for one in units:
        places = PLACES.get(one.text)
        told = "six digits" if places is None else str(places)
        written = ", ".join(_code(text) for text in named[one])
        yield f"| {_code(one.text)} | {written} | {write_quantity(1, one)} | {told} |"


def _messages() -> str:
    groups: dict[str, list[Message]] = {}
    for name, one in _by_module():
        groups.setdefault(_GROUPS.get(name, "Others"), []).append(one)
    lines = [
        "# Messages",
        "",
        "Every finding that a log can have, by what it is about. The words in braces are filled",
        "in where it is met. Each finding has a short name, which stands above it here, and which",
        "`shoplog check --json` gives as `code`.",
        "",
        "A caution or a note says so behind its name; all others are problems, and fail a build.",
        "",
    ]
    for title, found in groups.items():
        lines += [f"## {title}", "", *(line for one in found for line in _message(one))]
    return "\n".join(lines)


def _by_module() -> Iterator[tuple[str, Message]]:
    """Each message with the module that declares it: by group, then as each module has them."""
    homes: dict[str, str] = {}
    for name, module in _modules():
        codes = _DECLARED.findall(inspect.getsource(module))
        home = next((room for room in _ROOMS if name.startswith(f"{room}.")), name)
        homes |= dict.fromkeys(codes, home.rpartition(".")[2])
    titles = list(dict.fromkeys(_GROUPS.values()))
    ranks = {name: (titles.index(title), n) for n, (name, title) in enumerate(_GROUPS.items())}
    found = [(homes[one.code], one) for one in CATALOGUE.values() if one.code in homes]
    yield from sorted(found, key=lambda pair: ranks.get(pair[0], (len(titles), 0)))


def _modules() -> Iterator[tuple[str, ModuleType]]:
    """Every module that may declare a message, whether or not anything has asked for it yet."""
    for package in (shoplog.calc, shoplog.log, shoplog.find):
        for found in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            yield found.name, import_module(found.name)
    yield "shoplog.values", import_module("shoplog.values")


def _message(found: Message) -> Iterator[str]:
    grade = "" if found.grade is Grade.PROBLEM else f" ({found.grade})"
    yield from (f"### {found.code}{grade} {{#{found.code}}}", "", _code(found.text), "")
    if found.hint:
        yield from (f"Hint: {_code(found.hint)}", "")
    if not found.example:
        return
    if len(found.example) <= LONGEST_EXAMPLE:
        yield from ("Such as:", "", "````text", _printable(found.example.rstrip("\n")), "````", "")
    met = example_finding(found)
    if met is not None and len(met.place.source) <= LONGEST_EXAMPLE:
        yield from ("It says:", "", "````text", _printable(met.text), "````", "")


def _printable(text: str) -> str:
    return "".join(sign if sign.isprintable() or sign == "\n" else "·" for sign in text)


def example_finding(found: Message) -> Problem | None:
    """The finding that a message's example causes, if it does."""
    text = found.example
    if found.code.startswith("shop-"):
        log = read_log({}, shop_profile=text)
    else:
        page = text if text.endswith("\n") else f"```calc\n{text}\n```\n"
        log = read_log({"page.md": page})
    return next((problem for problem in log.problems if problem.code == found.code), None)


def _setup_keys() -> str:
    titles = {
        "setup": "At the margin",
        "planned": "Under `planned:`",
        "ran": "Under `ran:`",
    }
    lines = [
        "# Setup keys",
        "",
        "What a setup block may say. A line is `key: text`, and the text is read by its key alone.",
        "",
    ]
    for where, title in titles.items():
        lines += [f"## {title}", "", "| key | what it reads | what it is |", "|---|---|---|"]
        lines += [
            f"| `{key.name}` | {_reads(key)} | {key.doc} |"
            for key in SETUP_KEYS.values()
            if where in key.where
        ]
        lines.append("")
    return "\n".join(lines)


def _reads(key: SetupKey) -> str:
    if key.units:
        return f"{key.wanted}, such as {', '.join(_code(text) for text in key.units)}"
    if key.choices and not key.wanted.startswith("one of"):
        return f"{key.wanted}; known are {', '.join(key.choices)}"
    return key.wanted


def _shop_keys() -> str:
    lines = [
        "# Shop profile keys",
        "",
        "What `shop.yml` may say. It stands beside `mkdocs.yml`. Everything works without it.",
        "`shoplog profile --schema` prints the same as a JSON Schema, by which an editor completes",
        "and checks the file.",
        "",
        *_keys_of(SHOP, "At the margin."),
    ]
    behind: dict[int, list[str]] = {}
    for key, thing in THINGS.items():
        behind.setdefault(id(thing), []).append(key)
    for keys in behind.values():
        under = " and ".join(f"`{key}`" for key in keys)
        lines += _keys_of(THINGS[keys[0]], f"Under {under}.{_one_line(THINGS[keys[0]])}")
    return "\n".join(lines)


def _one_line(thing: ShopThing) -> str:
    """How a thing is written in one line, in words."""
    if thing.whole:
        return f" In one line: its {thing.whole}."
    return f" In one line: {', '.join(thing.in_line)}, then `key value` with commas between."


def _keys_of(thing: ShopThing, where: str) -> Iterator[str]:
    yield from (f"## {thing.title}", "", where, "")
    yield from ("| key | what it reads | what it is | such as |", "|---|---|---|---|")
    for key in thing.keys:
        such = ", ".join(_code(text) for text in key.examples)
        yield f"| `{key.name}` | {_shop_reads(key)} | {key.doc} | {such} |"
    yield ""


def _shop_reads(key: ShopKey) -> str:
    """What a key of the profile reads, with the kinds of its quantities."""
    if key.units and key.kind not in key.wanted:
        return f"{key.wanted}: {key.kind}"
    return key.wanted


def _tables() -> str:
    lines = [
        "# Tables",
        "",
        "The tables that the formulas read, with where their values come from. A value that was",
        "recalled and not read is named as such.",
        "",
    ]
    for name in table_names():
        found = table(name)
        lines += [
            f"## {found.head['title']} {{#{name}}}",
            "",
            f"- file: `data/{name}.csv`",
            f"- source: {found.head['source']}",
            f"- edition: {found.head['edition']}",
            f"- from memory: {found.head['from memory']}",
            f"- rows: {len(found.rows)}",
            f"- columns: {', '.join(_code(column) for column in found.columns)}",
            "",
        ]
    return "\n".join(lines)


def main(folder: Path) -> None:
    """Write every page into a folder."""
    for name, text in pages().items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("usage: python -m shoplog.render.reference FOLDER")
    main(Path(sys.argv[1]))
