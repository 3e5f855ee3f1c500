"""Whatever a shop profile says, it is read to its end and every problem stands in it."""

from __future__ import annotations

import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from shoplog.calc.show import show
from shoplog.log.profile.keys import SHOP, THINGS
from shoplog.log.profile.schema import shop_schema
from shoplog.log.profile.scope import shop_scope
from shoplog.log.profile.shop import read_shop
from shoplog.render.profile_text import profile_json, profile_lines

KEYS = sorted({key.name for thing in (SHOP, *THINGS.values()) for key in thing.keys} | {"nmae"})
EXAMPLES = sorted(
    {one for thing in (SHOP, *THINGS.values()) for key in thing.keys for one in key.examples}
)
VALUES = st.one_of(
    st.sampled_from(EXAMPLES),
    st.sampled_from(
        ["", "0 mm", "-3 mm", "5 to 3 mm", "1e300 mm", "x x x", "±", "..", "M9 to 0 BA"]
    ),
    st.text("0123456789./-x ,:#mMinrpto°±'\"[]{}", max_size=20),
    st.text(max_size=12),
)
TREES = st.recursive(
    VALUES,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.sampled_from(KEYS), inner),
    max_leaves=12,
)


def read(text: str) -> None:
    shop, problems = read_shop(text)
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    for found in problems:
        assert 1 <= found.place.line <= len(lines)
        assert 1 <= found.place.column <= len(found.place.source) + 1
        assert found.message
        assert found.text.startswith("shop.yml:")
    assert all(label and show(value) for thing in shop.things for label, value in thing.facts())
    assert all(show(value) for value in shop_scope(shop).known.values())
    assert len(list(profile_lines(shop))) >= len(shop.things)
    assert len(profile_json(shop)["things"]) == len(shop.things)


@settings(max_examples=300, deadline=None)
@given(st.dictionaries(st.sampled_from(KEYS), TREES, max_size=4))
def test_any_tree_of_keys_and_values_is_read(tree: dict[str, object]) -> None:
    read(yaml.safe_dump(tree, allow_unicode=True, sort_keys=False))


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(sorted(THINGS)), st.lists(st.tuples(st.sampled_from(KEYS), VALUES)))
def test_any_line_of_a_thing_is_read(key: str, parts: list[tuple[str, str]]) -> None:
    line = ", ".join(f"{name} {value}" for name, value in parts)
    read(yaml.safe_dump({key: {"a thing": line}}, allow_unicode=True))
    read(yaml.safe_dump({key: [f"a thing, {line}"]}, allow_unicode=True))


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=80))
def test_any_text_is_read(text: str) -> None:
    read(text)


@settings(max_examples=200, deadline=None)
@given(st.data())
def test_a_broken_good_profile_is_read(data: st.DataObject) -> None:
    text = (
        "machines:\n  - name: lathe\n    speeds: {slow: 60 rpm, fast: [200 rpm, 300 rpm]}\n"
        "    travel: 400 mm long, 150 mm cross\ntaps: M3 to M6\nreamers: [10 mm H7]\n"
        "materials:\n  - brass, round bar 25 mm\n"
    )
    at = data.draw(st.integers(0, len(text)))
    put = data.draw(st.sampled_from([*":,-[]{}#&*!|>'\"%@`\n\t", "\x00", "é", "  ", "0"]))
    read(text[:at] + put + text[at + data.draw(st.integers(0, 2)) :])


def test_the_schema_is_the_same_however_often_it_is_asked_for() -> None:
    assert shop_schema() is shop_schema()
