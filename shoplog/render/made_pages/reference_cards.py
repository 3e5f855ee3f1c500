"""The pages of machines, holders, cutters, instruments, materials and operations of a log."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from urllib.parse import urlencode

from shoplog.find.clean import clean
from shoplog.find.record import Record
from shoplog.find.whole import WholeLog
from shoplog.problems import counted
from shoplog.render.made_pages.made_text import (
    Addresses,
    MadeLink,
    directory_link,
    page,
    words,
)
from shoplog.render.made_pages.material_pages import material_page, material_title
from shoplog.render.made_pages.operation_pages import is_known, operation_page
from shoplog.render.made_pages.setup_rows import Key, Reference, keys_of, tally
from shoplog.render.made_pages.setups_page import SETUPS_PAGE
from shoplog.render.made_pages.shop_pages import SHOP, paged_things, shop_index, shop_page
from shoplog.trade.materials import material_known

__all__ = ["reference_pages"]

MOST_PAGES = 2000
"""Pages of one kind."""
MOST_UNKNOWN = 30
MOST_CALLED = 40

MadePage = Callable[[Sequence[Record], str, Reference], str]


@dataclass(frozen=True, slots=True)
class _Kind:
    """Pages that are made of what the records met."""

    name: str
    folder: str
    title: str
    told: str
    of: Callable[[Record], str]
    """What the page of a record is called; nothing where it gets none."""
    text: Callable[[Record], str]
    """What the record calls it."""
    make: MadePage


_KINDS = (
    _Kind(
        "material",
        "materials",
        "Materials",
        "What the log has cut: each material with its row of the tables, what handbooks give for"
        " it, and the log's own setups.",
        material_title,
        lambda one: one.material,
        material_page,
    ),
    _Kind(
        "operation",
        "operations",
        "Operations",
        "What the log has done, each kind with what handbooks give by group of materials, and the"
        " log's own setups.",
        lambda one: one.operation_kind if is_known(one) else "",
        lambda one: one.operation,
        operation_page,
    ),
)


def reference_pages(whole: WholeLog, link: MadeLink = directory_link) -> dict[str, str]:
    """The pages of a log's workshop, and of the materials and operations that it met.

    Parameters
    ----------
    whole : WholeLog [-]
        The log as it came out; records that are private are left out here.
    link : MadeLink [-]
        Gives the address of a page as seen from another.

    Returns
    -------
    dict of str to str [-]
        Markdown by its path among the pages; none takes the place of a page of the log.
    """
    records = [one for one in whole.records if not one.private]
    places = Addresses(whole.log.pages)
    grouped = _grouped(records)
    kinds = [(kind, _met(kind, records, grouped)) for kind in _KINDS]
    pages = dict(_shop_pages(whole, places))
    for kind, met in kinds:
        for key, group in met.items():
            pages[key] = places.give(kind.folder, kind.of(group[0]), kind.name)
    to = Reference(link, pages, _all_setups(whole, link))
    return dict(
        [
            *_of_shop(whole, grouped, places, to),
            *(made for kind, met in kinds for made in _of_kind(kind, met, records, places, to)),
        ]
    )


def _grouped(records: Iterable[Record]) -> dict[Key, list[Record]]:
    found: dict[Key, list[Record]] = {}
    for one in records:
        for key in keys_of(one):
            found.setdefault(key, []).append(one)
    return found


def _all_setups(whole: WholeLog, link: MadeLink) -> Callable[[str, Key, Record], str]:
    """What leads to the page of setups, so filtered as its address says it."""
    taken = {"setups.md", SETUPS_PAGE} & set(whole.log.pages)

    def address(here: str, about: Key, one: Record) -> str:
        asked = _ASKED[about[0]](one)
        return "" if taken else f"{link(here, SETUPS_PAGE, '')}?{urlencode(asked)}"

    return address


def _material_words(one: Record) -> dict[str, str]:
    """By its group, and within it by the name that the fewest others have too."""
    known = material_known(one.material_row) if one.material_row else None
    words = {"words": known.designation or known.name} if known else {}
    return {**words, "material": one.material_group}


_ASKED: dict[str, Callable[[Record], dict[str, str]]] = {
    "machine": lambda one: {"machine": clean(one.machine)},
    "holder": lambda one: {"words": clean(one.holding.partition(",")[0])},
    "cutter": lambda one: {"words": clean(one.cutter_name)},
    "material": _material_words,
    "operation": lambda one: {"operation": clean(one.operation_kind)},
}


# ---- the workshop ----


def _shop_pages(whole: WholeLog, places: Addresses) -> Iterator[tuple[Key, str]]:
    """Where each thing's page stands."""
    if whole.log.shop is None:
        return
    seen: set[Key] = set()
    for key, thing, what in paged_things(whole.log.shop):
        if key not in seen and len(seen) < MOST_PAGES:
            seen.add(key)
            yield key, places.give(SHOP, thing.name, what)


def _of_shop(
    whole: WholeLog, grouped: Mapping[Key, Sequence[Record]], places: Addresses, to: Reference
) -> Iterator[tuple[str, str]]:
    shop = whole.log.shop
    if shop is None:
        return
    made: set[str] = set()
    for key, thing, _ in paged_things(shop):
        uri = to.pages.get(key, "")
        if uri and uri not in made:
            made.add(uri)
            yield uri, shop_page(thing, key, grouped.get(key, ()), uri, to)
    index = places.index(SHOP)
    if index and shop.things:
        yield index, shop_index(shop, grouped, index, to)


# ---- what the records met ----


def _met(
    kind: _Kind, records: Iterable[Record], grouped: Mapping[Key, list[Record]]
) -> dict[Key, list[Record]]:
    """The records of each page of a kind, in the order of the pages' names."""
    known = [
        (kind.of(group[0]).casefold(), key, group)
        for key, group in grouped.items()
        if key[0] == kind.name and kind.of(group[0])
    ]
    return {key: group for _, key, group in sorted(known, key=lambda one: one[:2])[:MOST_PAGES]}


def _of_kind(
    kind: _Kind,
    met: Mapping[Key, Sequence[Record]],
    records: Sequence[Record],
    places: Addresses,
    to: Reference,
) -> Iterator[tuple[str, str]]:
    for key, group in met.items():
        yield to.pages[key], kind.make(group, to.pages[key], to)
    index = places.index(kind.folder)
    unknown = [one for one in records if kind.text(one) and not kind.of(one)]
    if index and (met or unknown):
        yield index, _index(kind, met, unknown, to)


def _index(
    kind: _Kind, met: Mapping[Key, Sequence[Record]], unknown: Sequence[Record], to: Reference
) -> str:
    items = [
        f"- [{words(kind.of(group[0]))}]({to.pages[key].rpartition('/')[2]})"
        f"{_called(kind, group)}: {tally(group)}"
        for key, group in met.items()
    ]
    return page(
        f"# {kind.title}",
        kind.told,
        "\n".join(items),
        *_unknown(kind, unknown),
    )


def _called(kind: _Kind, records: Sequence[Record]) -> str:
    """What the log mostly calls a material, where that is not the name of its row."""
    if kind.name != "material":
        return ""
    own = kind.of(records[0]).casefold()
    names = Counter(kind.text(one) for one in records if kind.text(one).casefold() != own)
    found = [words(name, MOST_CALLED) for name, _ in names.most_common(2)]
    return f" ({', '.join(found)})" if found else ""


def _unknown(kind: _Kind, records: Sequence[Record]) -> Iterator[str]:
    """What no table knows, as it was written."""
    found: dict[str, list[Record]] = {}
    for one in records:
        found.setdefault(words(kind.text(one)), []).append(one)
    if not found:
        return
    yield "## Not known to the tables"
    often = sorted(found.items(), key=lambda item: (-len(item[1]), item[0]))
    yield "\n".join(f"- {name}: {tally(group)}" for name, group in often[:MOST_UNKNOWN])
    if len(often) > MOST_UNKNOWN:
        yield f"And {counted(len(often) - MOST_UNKNOWN, f'more {kind.name}')}."
