"""Bench sheets as HTML: one document of its own, black on white, for paper of a stated size."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from importlib import resources

from shoplog.outcomes import OUTCOMES
from shoplog.render.html import Html, join, printed, tag
from shoplog.render.pictures.drawing import drawing
from shoplog.render.sheet.gather import Sheet, SizeLine, ValueLine
from shoplog.render.sheet.work import Figure, WorkLine
from shoplog.render.style import style_sheet

__all__ = ["PAPERS", "sheets_html"]

PAPERS = {"A4": "A4 portrait", "A5": "A5 portrait", "Letter": "letter portrait"}
"""Each paper and the size that CSS calls it."""
_SHEET = "assets/sheet.css"
MOST_BESIDE = 2
"""Boxes that stand beside a size."""
DEFERS = (
    "The machine's manual, what is marked on chuck and cutter, and local rules come before this"
    " sheet."
)


def sheets_html(sheets: Iterable[Sheet], paper: str, log_name: str = "") -> str:
    """A document with each sheet on paper of its own.

    Parameters
    ----------
    sheets : iterable of Sheet [-]
        In the order in which they are printed.
    paper : str [-]
        One of `PAPERS`.
    log_name : str [-]
        What the workshop is called; stands small at the head.
    """
    made = list(sheets)
    title = made[0].title if len(made) == 1 else log_name or "Bench sheets"
    style = resources.files("shoplog.render").joinpath(_SHEET).read_text("utf-8")
    page = f"@page {{ size: {PAPERS[paper]}; }}\n"
    head = join(
        [
            Html('<meta charset="utf-8">'),
            Html('<meta name="viewport" content="width=device-width, initial-scale=1">'),
            tag("title", f"Bench sheet: {title}"),
            # A style sheet is no text of a page: it is read as it is, and holds no `<`.
            tag("style", Html(f"{style_sheet()}\n{page}{style}")),
        ],
        "\n",
    )
    articles = (_sheet(sheet, number, log_name) for number, sheet in enumerate(made, 1))
    main = tag("main", join(articles, "\n"))
    body = tag("body", main, class_=f"shoplog-sheets shoplog-{paper.lower()}")
    return f"<!DOCTYPE html>\n{tag('html', tag('head', head), body, lang='en')}\n"


def _sheet(sheet: Sheet, number: int, log_name: str) -> Html:
    return tag(
        "article",
        _head(sheet, log_name),
        *_warning(sheet),
        *_sizes(sheet.sizes, sheet.made or 1),
        *_listed("Lay out", sheet.tools, "shoplog-tools"),
        *_work(sheet.work),
        *_listed("Mind", sheet.cautions, "shoplog-cautions"),
        *_stated(sheet),
        *_values(sheet.values),
        *_pictures(sheet, number),
        tag("footer", tag("p", DEFERS), tag("p", sheet.page)),
        class_="shoplog-sheet",
    )


def _head(sheet: Sheet, log_name: str) -> Html:
    made = f"{sheet.made} to make" if sheet.made else ""
    facts = (log_name, sheet.part, made, ", ".join(sheet.materials), sheet.date)
    told = " · ".join(fact for fact in facts if fact)
    return tag("header", tag("h1", sheet.title), tag("p", told) if told else "")


def _warning(sheet: Sheet) -> Iterator[Html]:
    """A page that is wrong somewhere still has its sheet, and says so where it is not missed."""
    if sheet.problems:
        count = "a problem" if sheet.problems == 1 else f"{sheet.problems} problems"
        text = f"✗ This page has {count}: run shoplog check before anything is cut by this sheet."
        yield tag("p", text, class_="shoplog-stop")


def _section(title: str, *content: Html, class_: str = "") -> Html:
    return tag("section", tag("h2", title), *content, **({"class_": class_} if class_ else {}))


def _table(heads: Iterable[str], rows: Iterable[Html], class_: str) -> Html:
    cells = [tag("th", head, scope="col") if head else tag("td") for head in heads]
    return tag(
        "table", tag("thead", tag("tr", *cells)), tag("tbody", join(rows, "\n")), class_=class_
    )


def _sizes(sizes: tuple[SizeLine, ...], made: int) -> Iterator[Html]:
    if not sizes:
        return
    most = max(size.boxes for size in sizes)
    measured = ("as measured",) if most == 1 else tuple(f"no. {n + 1}" for n in range(most))
    beside = measured if most <= MOST_BESIDE else ()
    rows = [row for size in sizes for row in _size_rows(size, beside)]
    table = _table(("", "size", "mm", "inch", *beside), rows, "shoplog-sizes")
    more = f"Nos. {most + 1} to {made} are written on paper of their own."
    yield _section("Sizes", table, *([tag("p", more)] if made > most else []))


def _size_rows(size: SizeLine, beside: tuple[str, ...]) -> Iterator[Html]:
    """A size with its boxes beside it; those of a batch stand in a row of their own."""
    boxes = [tag("td", "", class_="shoplog-box") for _ in beside]
    yield tag("tr", *_size_cells(size), *boxes)
    if not beside:
        numbered = [
            tag("span", tag("small", f"{n + 1}"), class_="shoplog-box") for n in range(size.boxes)
        ]
        yield tag("tr", tag("td", *numbered, colspan="4", class_="shoplog-batch"))


def _size_cells(size: SizeLine) -> tuple[Html, ...]:
    stated = size.shown.stated
    note = [tag("small", size.note)] if size.note else []
    return (
        tag("th", size.name.replace("_", " "), *note, scope="row"),
        tag("td", printed(stated), class_="shoplog-stated"),
        tag("td", _limits(size.shown.metric)),
        tag("td", _limits(size.shown.inch)),
    )


def _limits(text: str) -> Html:
    """Least and greatest under each other: that is how they are read at a micrometer."""
    least, to, most = printed(text).partition(" to ")
    if not to:
        return join([least])
    unit = most.rpartition(" ")[2] if " " in most else ""
    low = least if not unit or least.endswith(unit) else f"{least} {unit}"
    return join([tag("span", most), tag("br"), tag("span", low)])


def _work(work: tuple[WorkLine, ...]) -> Iterator[Html]:
    if work:
        cards = tuple(_work_card(line) for line in work)
        yield _section("Work, in order", *cards, class_="shoplog-work")


def _work_card(line: WorkLine) -> Html:
    feature = f": {line.feature.replace('_', ' ')}" if line.feature else ""
    step = f"{line.step}. " if line.step else ""
    facts = [tag("div", tag("dt", name), tag("dd", text)) for name, text in line.places]
    went = tag(
        "p",
        "went: ",
        *(tag("span", f"☐ {word} ") for word in OUTCOMES),
        tag("span", "", class_="shoplog-line-to-write"),
        class_="shoplog-went",
    )
    return tag(
        "div",
        tag("div", tag("h3", f"{step}{line.operation}{feature}"), went, class_="shoplog-card-head"),
        tag("dl", *facts),
        _figures(line),
        class_="shoplog-card",
    )


def _figures(line: WorkLine) -> Html:
    """What to set, side by side, and below each a box for what ran."""
    figures = [*line.figures, *(Figure(label, "–") for label in _unset(line.figures))]
    kind = "planned" if line.planned else f"ran before{_outcome(line.outcome)}"
    heads = [tag("th", figure.label, scope="col") for figure in figures]
    boxes = [tag("td", "", class_="shoplog-box") for _ in figures]
    rows = (
        tag("tr", tag("th", kind, scope="row"), *map(_figure, figures)),
        tag("tr", tag("th", "ran", scope="row"), *boxes),
    )
    head = tag("thead", tag("tr", tag("td"), *heads))
    return tag("table", head, tag("tbody", *rows), class_="shoplog-figures")


def _figure(figure: Figure) -> Html:
    other = [tag("small", printed(figure.other))] if figure.other else []
    after = [tag("small", figure.after, class_="shoplog-dial")] if figure.after else []
    return tag("td", tag("strong", printed(figure.own)), *other, *after)


def _outcome(word: str) -> str:
    return f" ({word})" if word else ""


def _unset(figures: tuple[Figure, ...]) -> list[str]:
    """What has a box although nothing was planned for it, so that it can be written down."""
    known = {figure.label for figure in figures}
    return [label for label in ("speed", "feed", "depth of cut") if label not in known]


def _values(values: tuple[ValueLine, ...]) -> Iterator[Html]:
    """Everything else that has a name, close together: read once, and not at every cut."""
    if not values:
        return
    items = [
        tag("li", tag("b", value.name.replace("_", " ")), f" {printed(value.text)}", *_note(value))
        for value in values
    ]
    yield _section("Other values", tag("ul", *items), class_="shoplog-values")


def _note(line: ValueLine) -> Iterator[Html]:
    if line.note:
        yield tag("small", f" {line.note}")


def _listed(title: str, texts: tuple[str, ...], class_: str) -> Iterator[Html]:
    if texts:
        items = [tag("li", text) for text in texts]
        yield _section(title, tag("ul", *items), class_=class_)


def _stated(sheet: Sheet) -> Iterator[Html]:
    """What goes together, what does not hold, and what was conceded; the rest is counted."""
    rows = [
        tag("li", "✓ " if one.holds else "✗ ", tag("code", one.text), f" {one.how}")
        for one in sheet.stated
        if one.mate or not one.holds
    ]
    held = sum(one.holds and not one.mate for one in sheet.stated)
    if held:
        rows.append(tag("li", f"✓ {held} check{'s hold' if held > 1 else ' holds'}"))
    rows += [tag("li", f"◑ conceded: {name}, because {why}") for name, why in sheet.concessions]
    if rows:
        yield _section("Must hold", tag("ul", *rows), class_="shoplog-stated-list")


def _pictures(sheet: Sheet, number: int) -> Iterator[Html]:
    if sheet.drawn:
        drawn = [
            drawing(value, text, f"sheet-{number}-{order}")
            for order, (text, value) in enumerate(sheet.drawn, 1)
        ]
        block = tag("div", *drawn, class_="shoplog-block shoplog-drawn")
        yield _section("Drawn", block, class_="shoplog-pictures")
