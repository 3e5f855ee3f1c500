"""A page for each machine, holder, cutter and instrument of the shop, and one of them all."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import chain

from shoplog.find.record import Record
from shoplog.log.profile.shop import Holder, Machine, ShopProfile
from shoplog.log.profile.things import HOLDER_LISTS, Instrument, ShopRecord
from shoplog.log.setups.cutters import Cutter
from shoplog.problems import counted
from shoplog.render.findings import caution, note
from shoplog.render.html import Html, capital, join, scrolled, tag
from shoplog.render.made_pages.fact_tables import facts_table
from shoplog.render.made_pages.made_text import block, chart_block, page, title, words
from shoplog.render.made_pages.setup_rows import (
    Key,
    Reference,
    from_to,
    key_of,
    newest,
    quantity,
    setups_section,
    tally,
)
from shoplog.render.made_pages.step_chart import (
    DIAMETERS,
    SpindleLine,
    spindle_lines,
    step_chart,
)
from shoplog.render.pictures.ratio_scale import drawable
from shoplog.render.systems import in_line
from shoplog.trade.machining.cutting import cutting_speed

__all__ = ["paged_things", "shop_index", "shop_page"]

MANUAL = "the machine's manual, the speed that is marked on what turns, and local rules come first"
NOT_MARKED = (
    "no marked speed is known, so no setup was held to one: it stands on the body, or in the"
    " maker's sheet"
)
TURNING = ("chuck", "faceplate")
"""Holders that carry their own marked speed as a rule."""
MOST_STEPS = 60
SHOP = "shop"


def paged_things(shop: ShopProfile) -> Iterator[tuple[Key, ShopRecord, str]]:
    """What gets a page: its key, the thing, and what it is in one word."""
    for one in shop.machines:
        yield key_of("machine", one.name), one, "machine"
    for holder in shop.holders:
        yield key_of("holder", holder.name), holder, holder.kind
    for cutter in shop.cutters:
        yield key_of("cutter", cutter.name), cutter, "cutter"
    for instrument in shop.instruments:
        yield key_of("instrument", instrument.name), instrument, "instrument"


def shop_page(
    thing: ShopRecord, key: Key, records: Sequence[Record], here: str, to: Reference
) -> str:
    """The page of a thing: what it is, its limits, and every setup that used it."""
    listed = newest(records)
    facts = [*thing.facts()]
    return page(
        title(thing.name),
        _sentence(thing, key, records),
        "## What it is" if facts or not isinstance(thing, Instrument) else "",
        block(facts_table(facts), *_cautions(thing)),
        *(_speeds(thing) if isinstance(thing, Machine) else ()),
        *setups_section(records, listed, here, key, to),
    )


def _sentence(thing: ShopRecord, key: Key, records: Sequence[Record]) -> str:
    what = words(capital(_kind(thing)), 400)
    return f"{what}." if key[0] == "instrument" else f"{what}. {tally(records).capitalize()}."


def _kind(thing: ShopRecord) -> str:
    """What a thing is, in a few words of the profile."""
    if isinstance(thing, Machine):
        return f"{thing.kind or 'machine'}{_drive(thing)}"
    if isinstance(thing, Holder):
        speed = thing.marked_speed
        marked = f", marked {speed.nominal:g} {speed.unit.text}" if speed else ""
        return f"{thing.form or thing.kind}{marked}"
    if isinstance(thing, Cutter):
        return ", ".join(filter(None, (thing.kind, thing.material)))
    return getattr(thing, "kind", "") or "measuring instrument"


def _drive(machine: Machine) -> str:
    lines = spindle_lines(machine)
    if not lines:
        return ""
    ends = f"{lines[0].speed:.0f} to {lines[-1].speed:.0f} rpm"
    steps = counted(len(machine.steps), "speed")
    return f" with {steps}, {ends}" if machine.steps else f", {ends}"


def _cautions(thing: ShopRecord) -> Iterator[Html]:
    if isinstance(thing, Machine):
        yield caution(MANUAL)
    elif isinstance(thing, Holder) and thing.kind in TURNING and thing.marked_speed is None:
        yield caution(NOT_MARKED)


# ---- the speeds of a machine ----


def _speeds(machine: Machine) -> Iterator[str]:
    lines = spindle_lines(machine)
    if not lines:
        return
    yield "## Speeds"
    if chart := step_chart(machine, "drawing"):
        caption = "Which cutting speed each speed of the spindle gives, by the diameter at the edge"
        yield chart_block(chart, caption)
    yield block(_speed_table(lines[:MOST_STEPS]), *_more(lines), search=False)


def _more(lines: Sequence[SpindleLine]) -> Iterator[Html]:
    if len(lines) > MOST_STEPS:
        yield note(f"{len(lines) - MOST_STEPS} more steps are not listed")


def _speed_table(lines: Sequence[SpindleLine]) -> Html:
    named = any(one.name for one in lines)
    heads = [
        tag("th", "Spindle", scope="col"),
        *([tag("th", "Step", scope="col")] if named else []),
        *(tag("th", _diameter(size), scope="col") for size in DIAMETERS),
    ]
    rows = [
        tag(
            "tr",
            tag("th", quantity(one.speed, "rpm"), scope="row"),
            *([tag("td", one.name)] if named else []),
            *(tag("td", _cutting_speed(one.speed, size)) for size in DIAMETERS),
        )
        for one in lines
    ]
    table = tag(
        "table",
        tag("thead", tag("tr", *heads)),
        tag("tbody", *rows),
        class_="shoplog-table shoplog-speeds",
    )
    return scrolled(table, "Cutting speed of each step, by diameter")


def _diameter(size: float) -> Html:
    shown = from_to(size, size, "mm", "in", digits=3)
    return join(["⌀\u00a0", in_line(shown.own, shown)])


def _cutting_speed(speed: float, size: float) -> Html:
    found = cutting_speed(speed, size)
    return quantity(found, "m/min") if drawable(found) else Html("–")


# ---- the page of the whole shop ----


def shop_index(
    shop: ShopProfile, records: Mapping[Key, Sequence[Record]], here: str, to: Reference
) -> str:
    """What the workshop has: what has a page of its own with its setups, and the rest in a line."""
    listed: dict[str, list[str]] = {}
    for key, thing, what in paged_things(shop):
        if key in to.pages:
            heading = what if key[0] != "holder" else HOLDER_LISTS[what]
            listed.setdefault(heading, []).append(_item(key, thing, records.get(key, ()), to))
    titles = {"machine": "machines", "cutter": "cutters", "instrument": "instruments"}
    parts = [
        (f"## {titles.get(heading, heading).capitalize()}", "\n".join(items))
        for heading, items in listed.items()
    ]
    return page(
        title(shop.name or "The workshop"),
        "What the shop profile has, and how it went with each. A page of the log calls it by its"
        " name.",
        *chain.from_iterable(parts),
        *_rest(shop),
    )


def _item(key: Key, thing: ShopRecord, records: Sequence[Record], to: Reference) -> str:
    file = to.pages[key].rpartition("/")[2]
    told = words(_kind(thing), 400)
    if key[0] != "instrument":
        told = f"{told}; {tally(records)}"
    return f"- [{words(thing.name)}]({file}): {told}"


def _rest(shop: ShopProfile) -> Iterator[str]:
    """What has no page: taps and dies, reamers, gauge blocks, dividing heads, stock, drills."""
    lists: tuple[tuple[str, Sequence[ShopRecord]], ...] = (
        ("Taps and dies", shop.tap_sets),
        ("Reamers", shop.reamers),
        ("Gauge blocks", shop.block_sets),
        ("Dividing", shop.dividing_heads),
        ("Materials on the rack", shop.stock),
    )
    for heading, things in lists:
        if things:
            yield f"## {heading}"
            yield block(*(_told(thing) for thing in things))
    if shop.drill_sets:
        yield "## Drills"
        yield words(", ".join(shop.drill_sets), 400)


def _told(thing: ShopRecord) -> Html:
    return tag("div", tag("p", tag("strong", thing.name)), facts_table(thing.facts()))
