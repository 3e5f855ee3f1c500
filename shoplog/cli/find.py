"""`shoplog find`: past setups, and sizes, of a log."""

from __future__ import annotations

import json
import shutil
import sys
from collections.abc import Callable, Iterable
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import click

from shoplog.files import site_above
from shoplog.find.answers import (
    answer_csv,
    answer_json,
    answer_lines,
    size_lines,
    sizes_csv,
    sizes_json,
    why_nothing,
)
from shoplog.find.asking import Answer, FoundSize, Source, answer, find_sizes, nearest_to
from shoplog.find.indexing.index import Index, ask_index
from shoplog.find.indexing.stored import NAMED
from shoplog.find.questions import SORTS, Question, read_day, read_outcomes
from shoplog.find.ranges import RANGED, read_range
from shoplog.find.wrong import WrongQuestion

__all__ = ["find"]

MOST_ROWS = 50
_NAMED_HELP = {
    "material": "By any of its names, or by its group.",
    "operation": "What was done: turning, slot milling.",
    "cutter": "The kind of cutter, or what the shop calls it.",
    "cutter_material": "What its edge is of: HSS, carbide.",
    "machine": "The machine.",
    "project": "The folder of the page.",
    "part": "What the page makes.",
    "fault": "What went wrong.",
}
_RANGED_HELP = {
    "diameter": "The size before the cut: 16mm, 3..5mm, 3mm..1/4in.",
    "cutter-diameter": "Of a cutter that turns: 6 mm, 3..5mm.",
    "cutter-width": "Of a grooving or parting tool, or a saw: 1..2mm.",
    "speed": "The speed of the spindle: 300..600 rpm.",
    "cutting-speed": "How fast the edge cut: 20..30 m/min, 90 ft/min.",
    "feed": "A rev, a tooth or a minute: 0.05..0.1 mm/rev.",
    "depth": "The depth of cut.",
}


def _narrowing(command: Callable[..., None]) -> Callable[..., None]:
    """The options that narrow a question, each of them declared with what is asked."""
    for name in reversed(RANGED):
        option = click.option(f"--{name}", metavar="RANGE", help=_RANGED_HELP[name])
        command = option(command)
    for name in reversed((*NAMED, "fault")):
        spelt = f"--{name.replace('_', '-')}"
        option = click.option(spelt, multiple=True, metavar="NAME", help=_NAMED_HELP[name])
        command = option(command)
    return command


def _schema_wanted(context: click.Context, _option: click.Parameter, wanted: bool) -> None:
    if wanted:
        from shoplog.find.published import SCHEMA

        _print_json(SCHEMA)
        context.exit()


@click.command()
@click.argument("words", nargs=-1)
@click.option(
    "--log",
    "folder",
    type=click.Path(path_type=Path, exists=True, file_okay=False),
    help="The folder of mkdocs.yml, or a folder of pages; else the log that you are in.",
)
@_narrowing
@click.option("--outcome", metavar="WORDS", help="good, usable, poor, spoiled; several by commas.")
@click.option("--since", metavar="DAY", help="From this day, month or year on.")
@click.option("--until", metavar="DAY", help="Up to this day, month or year.")
@click.option("--ran", is_flag=True, help="Only what ran.")
@click.option("--planned-only", is_flag=True, help="Only what was planned and did not run.")
@click.option("--private/--no-private", default=True, help="With private setups, or without.")
@click.option("--like", metavar="PAGE#SETUP", help="The nearest to this setup, and why.")
@click.option("--thread", metavar="THREAD", help="Pages with a thread: M8x1.25.")
@click.option("--size", metavar="SIZE", help="Pages with a size: '14 mm H7', '14 mm'.")
@click.option("--taper", metavar="TAPER", help="Pages with a taper: 'Morse 2', 1:20.")
@click.option(
    "--also",
    multiple=True,
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Ask the setups.json of another log too.",
)
@click.option("--sort", default="date", metavar="ORDER", help=f"{', '.join(SORTS)}; - turns it.")
@click.option("--limit", type=click.IntRange(min=1), help=f"Rows at most; {MOST_ROWS} in a table.")
@click.option("--inch", "system", flag_value="inch", help="Show inches only.")
@click.option("--metric", "system", flag_value="metric", help="Show metric units only.")
@click.option("--json", "form", flag_value="json", help="Print the answer as JSON.")
@click.option("--csv", "form", flag_value="csv", help="Print the answer as CSV.")
@click.option(
    "--schema",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=_schema_wanted,
    help="Print the JSON Schema of setups.json.",
)
def find(folder: Path | None, **asked: Any) -> None:
    """Find past setups by WORDS and conditions, or the pages that have a size.

    Words are found in remarks, features, operations, parts, projects, materials by every name they
    have, and cutters by kind. A condition narrows the answer; given twice, either will do.
    """
    try:
        ask = _sizes(asked) or _setups(asked)
        ask_index(folder or _log_here(), ask)(asked["form"], asked["system"] or "both")
    except WrongQuestion as wrong:
        raise click.UsageError(str(wrong)) from None
    except ValueError as error:
        from shoplog.log import NoLog  # loads the whole engine, which an answer does not need

        if isinstance(error, NoLog):
            raise click.UsageError(str(error)) from None
        raise


def _log_here() -> Path:
    """The folder that one is in, where it is in a log: any other is not read unasked."""
    if site_above(Path()) is None:
        raise WrongQuestion(
            "there is no mkdocs.yml here or above; name the folder of your pages with --log"
        )
    return Path()


# What narrows an answer of setups and means nothing for sizes.
_NOT_OF_SIZES = (
    *("words", "like", "also", "outcome", "since", "until", "ran", "planned_only"),
    *(*NAMED, "fault", *(name.replace("-", "_") for name in RANGED)),
)

Printed = Callable[[str | None, str], None]


def _setups(asked: dict[str, Any]) -> Callable[[Index], Printed]:
    question = _question(asked)

    def ask(index: Index) -> Printed:
        for note in index.notes:
            click.echo(f"note: {note}", err=True)
        own = Source(index.store, index.root, index.within)
        limit = asked["limit"] or (None if asked["form"] else MOST_ROWS)
        like, except_for = nearest_to(own, asked["like"]) if asked["like"] else (None, ("", ""))
        with ExitStack() as opened:
            sources = [own, *_others(asked["also"], opened)]
            found = answer(
                question,
                sources,
                sort=asked["sort"],
                limit=limit,
                like=like,
                except_for=except_for,
            )
        return lambda form, system: _print_setups(found, form, system, len(sources) > 1)

    return ask


def _question(asked: dict[str, Any]) -> Question:
    if asked["ran"] and asked["planned_only"]:
        raise WrongQuestion("--ran and --planned-only leave nothing; give one of them")
    spelt = {name: name.replace("-", "_") for name in RANGED}
    return Question(
        words=tuple(word for word in asked["words"] if word.strip()),
        named={name: asked[name] for name in (*NAMED, "fault") if asked[name]},
        ranges=tuple(read_range(name, asked[key]) for name, key in spelt.items() if asked[key]),
        outcomes=read_outcomes(asked["outcome"]) if asked["outcome"] is not None else (),
        since=read_day("since", asked["since"]) if asked["since"] else "",
        until=read_day("until", asked["until"]) if asked["until"] else "",
        ran=True if asked["ran"] else False if asked["planned_only"] else None,
        private=asked["private"],
    )


def _others(files: Iterable[Path], opened: ExitStack) -> Iterable[Source]:
    """The other logs that can be asked; of one that cannot, why not is told."""
    if not files:
        return
    from shoplog.find.others import other_source
    from shoplog.find.published import NotPublished

    for file in files:
        try:
            source, notes = other_source(file)
        except NotPublished as wrong:
            click.echo(f"note: skipped: {wrong}", err=True)
            continue
        opened.callback(source.store.close)
        for note in notes:
            click.echo(f"note: {note}", err=True)
        yield source


def _print_setups(found: Answer, form: str | None, system: str, several: bool) -> None:
    if form == "json":
        _print_json(answer_json(found))
    elif form == "csv":
        click.echo(answer_csv(found, several=several), nl=False)
    elif found.count:
        for line in answer_lines(found, system=system, width=_width(), several=several):
            click.echo(line)
    else:
        click.echo(why_nothing(found))
    sys.exit(not found.count)


def _sizes(asked: dict[str, Any]) -> Callable[[Index], Printed] | None:
    """What is asked of the sizes, where one is."""
    given = [name for name in ("thread", "size", "taper") if asked[name] is not None]
    if not given:
        return None
    if len(given) > 1 or any(asked[name] for name in _NOT_OF_SIZES):
        raise WrongQuestion(f"--{given[0]} is asked for alone")
    from shoplog.find.sizes_asked import asked_size, asked_taper, asked_thread

    read = {"thread": asked_thread, "size": asked_size, "taper": asked_taper}
    wanted = read[given[0]](asked[given[0]])

    def ask(index: Index) -> Printed:
        for note in index.notes:
            click.echo(f"note: {note}", err=True)
        found = find_sizes(Source(index.store, index.root, index.within), wanted)
        return lambda form, _: _print_sizes(found, wanted.text, form)

    return ask


def _print_sizes(found: tuple[FoundSize, ...], text: str, form: str | None) -> None:
    if form == "json":
        _print_json(sizes_json(found))
    elif form == "csv":
        click.echo(sizes_csv(found), nl=False)
    elif found:
        for line in size_lines(found, _width()):
            click.echo(line)
    else:
        click.echo(f"no page has {text}")
    sys.exit(not found)


def _print_json(data: object) -> None:
    click.echo(json.dumps(data, ensure_ascii=False, indent=2))


def _width() -> int | None:
    """The width of the terminal; none where the answer goes elsewhere."""
    return shutil.get_terminal_size().columns if sys.stdout.isatty() else None
