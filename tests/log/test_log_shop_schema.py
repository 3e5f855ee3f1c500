"""The JSON Schema of the shop profile, held against the reader: what one takes the other takes."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator
from jsonschema.exceptions import best_match

from shoplog.log.profile.keys import SHOP, THINGS, Reads
from shoplog.log.profile.schema import SCHEMA_FILE, shop_schema
from shoplog.log.profile.shop import read_shop
from shoplog.log.starter import start_log
from shoplog.problems import Grade

ROOT = Path(__file__).parents[2]
VALID = Draft202012Validator(shop_schema())


class _Core(yaml.SafeLoader):
    """Reads scalars as YAML 1.2 does, by which editors go: `no` and `1:50` are texts."""


_Core.yaml_implicit_resolvers = {}
for _tag, _pattern, _first in (
    ("bool", r"true|false", "tf"),
    ("null", r"null|~|", "n~"),
    ("int", r"[-+]?[0-9]+", "-+0123456789"),
    ("float", r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?", "-+.0123456789"),
):
    _Core.add_implicit_resolver(
        f"tag:yaml.org,2002:{_tag}", re.compile(f"^(?:{_pattern})$"), [*_first, ""]
    )
_Core.add_constructor("tag:yaml.org,2002:int", lambda loader, node: int(node.value))


def faults(text: str, loader: type[Any] = _Core) -> list[str]:
    """What the schema finds wrong, by the places in the file."""
    data = yaml.load(text, Loader=loader)
    return ["/".join(map(str, found.path)) for found in VALID.iter_errors(data)]


def problems(text: str) -> list[str]:
    found = read_shop(text)[1]
    return [one.line for one in found if one.grade is Grade.PROBLEM]


def listings(page: str) -> list[str]:
    """The profiles that a page of the guide shows."""
    text = (ROOT / "docs" / "guide" / page).read_text("utf-8")
    return re.findall(r"^```yaml\n(.*?)^```$", text, re.M | re.S)


def machine(line: str) -> str:
    return f"machines:\n  - name: lathe\n    {line}\n"


def instrument(line: str) -> str:
    return f"instruments:\n  - name: micrometer\n    {line}\n"


GOOD = [
    "",
    "# nothing yet\n",
    "name: 12\n",
    "name: no\n",
    "remarks: [a, b]\n",
    "machines: lathe, mill\n",
    "machines: [lathe, {name: mill}]\n",
    "machines: {lathe: , mill: {kind: mill}}\n",
    "machines: {name: lathe, kind: lathe}\n",
    machine("speeds: 120 rpm, 200 rpm"),
    machine("speeds: [120 rpm, 200 rev/min]"),
    machine("speeds: 120 rpm to 2000 rpm"),
    machine("speeds: from 120 to 2000 rpm"),
    machine("speeds: {from: 120 rpm, to: 2000 rpm}"),
    machine("speeds: {from: 120, to: 2000 rpm}"),
    machine("speeds: {belt 1: {open: 400 rpm, back gear: 60 rpm}, belt 2: 3 rpm}"),
    machine("speeds: {slow: '60 rpm, 90 rpm', fast: [200 rpm, 300 rpm]}"),
    machine("feeds: 0.05 mm/rev, 1 thou/rev"),
    machine("feeds: 20 mm/min to 300 mm/min"),
    machine("power feed: long, cross"),
    machine("power feed: [x, y]"),
    machine("power feed: Yes"),
    machine("power: 3/4 hp, at the motor"),
    machine("power: .55 kW"),
    machine("torque: 40 N*m"),
    machine("feed force: 1.2e3 N"),
    machine("travel: 400 mm long, 150 mm cross"),
    machine("travel: {long: 400 mm, top slide: 90 mm}"),
    machine("travel: 16-1/2 in"),
    machine("backlash: 0 mm"),
    machine("backlash: 0.12 mm on the cross slide"),
    machine("dial reads: Diameter"),
    machine("dial division: 1/64 in"),
    machine("spindle taper: Morse 4, ground in 2019"),
    machine("leadscrew: 8 tpi"),
    machine("leadscrew: 1/8 in"),
    machine("change wheels: 20"),
    machine("change wheels: [20, 25, '30, 40']"),
    machine("table lock: both slides"),
    "chucks:\n  three-jaw: 3 jaws, marked speed 2500 rpm\n",
    "chucks: [{name: a, jaws: '3', grips: 3 to 80 mm, taper: B16}]\n",
    "collets: {er: {sizes: '3 mm, 1/4 in'}}\n",
    "centres: {live: {point angle: 60 deg}}\n",
    "cutters: {mill: 'end mill, HSS, diameter 10 mm, 4 teeth'}\n",
    "cutters: {mill: {diameter: 1/4 in, teeth: 4, corner radius: 0.2 mm}}\n",
    "drills: metric, Number\n",
    "drills: [metric, letter]\n",
    "taps: M3, M4 to M8\n",
    "taps: [M3, 1/4-20 UNC]\n",
    "taps: {coarse: M3 to M12, fine: {threads: M8x1, kind: hand}}\n",
    "taps: {threads: M3, kind: hand}\n",
    "reamers: [10 mm H7, 1/4 in, 8 mm +0.01/0]\n",
    "reamers: 10 mm H7, 12 mm\n",
    "reamers: {long: 10 mm H7, pin: {taper: 1:50}}\n",
    "gauge blocks: metric 47\n",
    "gauge blocks: 1.005 mm, 1.01 mm\n",
    "gauge blocks: {blocks: inch 81, grade: 1}\n",
    "gauge blocks: [{name: own, blocks: [1 mm, 2 mm]}]\n",
    instrument("range: 0 mm to 25 mm"),
    instrument("error: ±3 um"),
    instrument("error: 20 arcsec"),
    instrument("division: 0.0001 in"),
    "dividing head: 40\n",
    "dividing head: {ratio: 40:1, plates: {a: [15, 16], b: '17, 18'}}\n",
    "rotary table: {ratio: 72.5, plates: [[15, 16], 17]}\n",
    "materials: brass, cast iron\n",
    "materials: [{material: brass, size: 50 x 6 mm, count: 2}]\n",
    "materials: [{name: offcut, length: 3 in}]\n",
    "change wheels: 20, 25\n",
]
BAD = [
    "nmae: shed\n",
    "name: [a]\n",
    "name:\n",
    "- lathe\n",
    "machines:\n",
    "machines: [{kind: lathe}]\n",
    "machines: {name: lathe, knid: lathe}\n",
    "machines: {lathe: {sped: 3 rpm}}\n",
    machine("speeds: 120, 200 rpm"),
    machine("speeds: 120 mm"),
    machine("speeds: 0 rpm"),
    machine("speeds: {from: 100 rpm}"),
    machine("speeds: {from: 100 rpm, too: 200 rpm}"),
    machine("speeds: {belt 1: {open: 400}}"),
    machine("speeds: 60 rpm * 2"),
    machine("feeds: 0.1 mm"),
    machine("power feed: longg"),
    machine("power: 750"),
    machine("power: 3 volts"),
    machine("power:"),
    machine("power: [1 kW]"),
    machine("travel: 400"),
    machine("travel: 400 mm sidways"),
    machine("travel: {sidways: 400 mm}"),
    machine("travel: 0 mm"),
    machine("dial reads: both"),
    machine("leadscrew: 8"),
    machine("leadscrew: 8 kg"),
    machine("change wheels: 20.5"),
    machine("change wheels: 20, x"),
    machine("change wheels: 0"),
    machine("change wheels: 1001"),
    machine("spindle taper: [Morse 2]"),
    "chucks: [{name: a, jaws: four}]\n",
    "chucks: [{name: a, grips: 20 mm}]\n",
    "chucks: [{name: a, marked speed: 2500}]\n",
    "chucks: [[a]]\n",
    "collets: {er: {sizes: '3 mm, 4'}}\n",
    "centres: {live: {point angle: 60}}\n",
    "cutters: {mill: {diameter: 10}}\n",
    "cutters: {mill: {flutes: 4}}\n",
    "drills: metrc\n",
    "drills: {metric: yes}\n",
    "taps: {coarse: {thread: M3}}\n",
    "reamers: [10]\n",
    "reamers: [10 kg]\n",
    "gauge blocks: {grade: 3}\n",
    "gauge blocks: 1.005, 1.01 mm\n",
    instrument("range: 0-25 mm"),
    instrument("error: 3"),
    instrument("resolution: 0.01 mm"),
    "dividing head: {ratio: 0.5}\n",
    "dividing head: {plates: {a: [x]}}\n",
    "materials: [{material: brass, size: 25 by 6 mm}]\n",
    "materials: [{material: brass, lenght: 3 m}]\n",
    "change wheels: {a: 20}\n",
]


@pytest.mark.parametrize("text", GOOD)
def test_what_is_right_is_right_to_the_reader_and_to_the_schema(text: str) -> None:
    assert problems(text) == []
    assert faults(text) == []


@pytest.mark.parametrize("text", BAD)
def test_what_is_wrong_is_wrong_to_the_reader_and_to_the_schema(text: str) -> None:
    assert problems(text) != []
    assert faults(text) != []


# What the tables alone know, or what stands in one line, is left to the reader.
READER_ALONE = [
    machine("spindle taper: Morse 12"),
    machine("speeds: 900 rpm to 100 rpm"),
    machine("backlash: 6 thou long, 4 thou long"),
    "chucks: [a, a]\n",
    "cutters: {mill: 'end mill, HSS, diameter 10'}\n",
    "taps: M6x9\n",
    "reamers: [10 mm Q7]\n",
    "dividing head: forty\n",
]


@pytest.mark.parametrize("text", READER_ALONE)
def test_what_only_the_reader_can_know_is_no_fault_to_the_schema(text: str) -> None:
    assert problems(text) != []
    assert faults(text) == []


@pytest.mark.parametrize(
    ("text", "where"),
    [
        ("machines: {lathe: {power: 750}}\n", ["machines", "lathe", "power"]),
        ("machines: [{name: a, knid: lathe}]\n", ["machines", 0]),
        ("drills: metrc\n", ["drills"]),
    ],
)
def test_the_schema_points_at_what_is_wrong(text: str, where: list[str | int]) -> None:
    found = best_match(VALID.iter_errors(yaml.load(text, Loader=_Core)))
    assert found is not None
    assert list(found.absolute_path) == where


def test_the_schema_is_one_by_its_own_standard() -> None:
    assert shop_schema()["$schema"] == Draft202012Validator.META_SCHEMA["$id"]
    Draft202012Validator.check_schema(shop_schema())


def test_every_profile_of_the_guide_is_right_to_both() -> None:
    shown = listings("the-shop-profile.md")
    good = [text for text in shown if "sped:" not in text]
    assert len(good) >= 6
    assert [problems(text) for text in good] == [[]] * len(good)
    assert [faults(text) for text in good] == [[]] * len(good)
    (wrong,) = [text for text in shown if "sped:" in text]
    assert len(problems(wrong)) == 4
    assert faults(wrong) != []


def test_the_demos_profile_is_right_to_both() -> None:
    text = (ROOT / "shop.yml").read_text("utf-8")
    assert problems(text) == []
    assert faults(text) == []
    assert faults(text, yaml.BaseLoader) == []


def test_a_new_log_has_the_schema_that_its_profile_names(tmp_path: Path) -> None:
    start_log(tmp_path, readable="")
    text = (tmp_path / "shop.yml").read_text("utf-8")
    named = re.match(r"# yaml-language-server: \$schema=(\S+)\n", text)
    assert named is not None
    assert named[1] == SCHEMA_FILE
    assert json.loads((tmp_path / named[1]).read_text("utf-8")) == shop_schema()
    assert faults(text) == []
    assert problems(text) == []


EXAMPLES = [
    (listed, key, example)
    for listed, thing in THINGS.items()
    for key in thing.keys
    for example in key.examples
]


@pytest.mark.parametrize(
    ("listed", "key", "example"), EXAMPLES, ids=[f"{a}-{b.name}-{c}" for a, b, c in EXAMPLES]
)
def test_every_example_of_a_key_is_right_to_both(listed: str, key: Any, example: str) -> None:
    lone = THINGS[listed].alone
    value = json.dumps(example, ensure_ascii=False)
    lines = f"{{name: a thing, {key.name}: {value}}}"
    text = f"{listed}: {lines if lone else f'[{lines}]'}\n"
    assert read_shop(text)[1] == ()
    assert faults(text) == []


def test_every_key_at_the_margin_is_in_the_schema_with_what_it_is_for() -> None:
    found = shop_schema()["properties"]
    assert {name: one["description"] for name, one in found.items()} == {
        key.name: key.doc for key in SHOP.keys
    }


def test_the_schema_lets_no_unknown_key_pass_anywhere() -> None:
    things = [one for one in shop_schema()["$defs"].values() if one.get("title")]
    assert len(things) == len({id(thing) for thing in THINGS.values()})
    assert all(one["additionalProperties"] is False for one in things)


def test_the_patterns_escape_nothing_that_an_engine_of_ecma_refuses() -> None:
    text = json.dumps(shop_schema())
    patterns = [json.loads(one) for one in re.findall(r'"pattern": ("(?:[^"\\]|\\.)*")', text)]
    assert len(patterns) > 20
    escapes = {one for pattern in patterns for one in re.findall(r"\\(.)", pattern)}
    assert escapes <= set(r"^$\.*+?()[]{}|/sSu")
    assert not any("(?<" in pattern or "(?P" in pattern for pattern in patterns)


def test_a_value_that_is_only_a_text_may_look_like_a_number_or_a_truth() -> None:
    text = "machines:\n  - {name: 1, kind: true, remarks: 1.5}\n"
    assert problems(text) == []
    assert faults(text) == []
    assert read_shop(text)[0].machines[0].kind == "true"


def test_every_kind_of_value_has_a_schema_and_a_reader() -> None:
    used = {key.reads for thing in (SHOP, *THINGS.values()) for key in thing.keys}
    assert used == set(Reads)
