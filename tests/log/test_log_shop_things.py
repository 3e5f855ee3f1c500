"""The things of a shop profile: what each says, what it tells, and what is wrong in it."""

from __future__ import annotations

from typing import Any

import pytest

from shoplog.calc.show import show
from shoplog.log.profile.keys import THINGS
from shoplog.log.profile.shop import ShopProfile, read_shop
from shoplog.log.profile.things import Machine
from shoplog.problems import Grade
from shoplog.values import Value


def profile(text: str) -> ShopProfile:
    shop, problems = read_shop(text)
    assert [found.line for found in problems] == []
    return shop


def told(text: str) -> list[str]:
    return [found.line for found in read_shop(text)[1]]


def plain(value: Any) -> Any:
    """A fact's value as it is shown in its own units."""
    if isinstance(value, tuple):
        return [plain(one) for one in value]
    return show(value).own if isinstance(value, Value) else value


def facts(thing: Any) -> dict[str, Any]:
    listed = thing.facts()
    made = {label: plain(value) for label, value in listed}
    assert len(made) == len(listed)
    return made


# ---- machines --------------------------------------------------------------------------------

LATHE = """\
machines:
  - name: lathe
    remarks: [old, quiet]
    kind: Lathe
    speeds:
      belt 1: {open: 400 rpm, back gear: 60 rpm}
      belt 2: 700 rpm
      fast belts: 900 rpm, 1200 rpm
    greatest speed: 1000 rpm
    feeds: 0.05 mm/rev to 0.4 mm/rev
    power feed: Long, cross
    power: 3/4 hp, at the motor
    torque: 40 N*m
    feed force: 2 kN
    travel: {long: 500 mm, cross slide: 150 mm}
    backlash: 0.12 mm on the cross slide, 0.1 mm top slide
    table lock: none
    dial reads: diameter
    dial division: 0.02 mm
    spindle taper: MT 4
    spindle bore: 26 mm
    tailstock taper: Morse 2, worn
    swing: 250 mm
    swing over slide: 150 mm
    centre height: 125 mm
    between centres: 500 mm
    leadscrew: 8 tpi
    change wheels: 20, 40, 40
"""


def test_a_machine_tells_all_that_it_says_in_the_order_of_the_reference() -> None:
    (lathe,) = profile(LATHE).machines
    assert facts(lathe) == {
        "kind": "lathe",
        "speeds": [
            "400 rpm (belt 1, open)",
            "60 rpm (belt 1, back gear)",
            "700 rpm (belt 2)",
            "900 rpm (fast belts, step 1)",
            "1200 rpm (fast belts, step 2)",
        ],
        "greatest speed": "1000 rpm",
        "feeds from": "0.050 mm/rev",
        "feeds to": "0.400 mm/rev",
        "power feed": ["long", "cross"],
        "power": "0.75 hp",
        "torque": "40.00 N*m",
        "feed force": "2.00 kN",
        "travel, long": "500.000 mm",
        "travel, cross": "150.000 mm",
        "backlash, cross": "0.120 mm",
        "backlash, top slide": "0.100 mm",
        "table lock": "none",
        "dial reads": "diameter",
        "dial division": "0.020 mm",
        "spindle taper": "Morse 4",
        "spindle bore": "26.000 mm",
        "tailstock taper": "Morse 2",
        "swing": "250.000 mm",
        "swing over slide": "150.000 mm",
        "centre height": "125.000 mm",
        "between centres": "500.000 mm",
        "leadscrew": "8 tpi",
        "change wheels": ["20", "40", "40"],
        "remarks": "old; quiet; power: at the motor; tailstock taper: worn",
    }


def test_a_machine_gives_its_figures() -> None:
    (lathe,) = profile(LATHE).machines
    assert [one.nominal for one in lathe.steps] == [400, 60, 700, 900, 1200]
    assert lathe.speeds is lathe.steps
    assert lathe.limit is lathe.greatest_speed is lathe.rated_speed
    assert lathe.leadscrew is not None
    assert (lathe.leadscrew.nominal, lathe.leadscrew.unit.text) == (0.125, "in")
    assert lathe.backlash is not None
    assert lathe.backlash.largest is lathe.backlash.cross
    assert lathe.drive.name_of(lathe.steps[1]) == "belt 1, back gear"
    assert lathe.drive.describe() == "5 steps"
    assert lathe.feed_drive.describe() == "0.050 mm/rev to 0.400 mm/rev"
    assert lathe.describe() == "lathe, 5 speeds"


def test_a_machine_that_says_nothing_tells_nothing() -> None:
    lathe = Machine("lathe")
    assert lathe.facts() == []
    assert (lathe.limit, lathe.steps, lathe.slowest, lathe.what_it_is()) == (
        *(None, (), None),
        "machine",
    )


def test_two_steps_of_one_speed_are_both_named() -> None:
    text = "machines: [{name: a, speeds: {slow: {open: 100 rpm}, fast: {back gear: 100 rpm}}}]\n"
    (machine,) = profile(text).machines
    assert machine.drive.name_of(machine.steps[0]) == "slow, open or fast, back gear"


@pytest.mark.parametrize(
    ("line", "found"),
    [
        (
            "speeds: {from: 100 rpm}",
            "13: a range goes from a lower value to a higher one"
            " (write 100 rpm to 2500 rpm, or a line from: and a line to:)",
        ),
        (
            "speeds: {from: 100 rpm, too: 200 rpm}",
            "29: `too` is not a key of `speeds` (did you mean to?)",
        ),
        (
            "speeds: {belt 1: {open: 400}}",
            "29: `speeds` is a spindle speed, and this is a plain number (write its unit, such as"
            " rpm)",
        ),
        (
            "speeds: {belt 1: {open: [400 rpm]}}",
            "29: `speeds` is steps, a table of steps, or a range, and this is a list",
        ),
        (
            "feeds: 0.1 mm/rev, 3 mm",
            "24: `feeds` is a feed per rev or per minute, and this is a length",
        ),
        (
            "feeds: 0.1 mm/rev to 3 mm/min",
            "12: a range goes from a lower value to a higher one"
            " (write 20 mm/min to 300 mm/min, or a line from: and a line to:)",
        ),
        (
            "power feed: longg",
            "17: `power feed` is some of yes, no, x, y, z, long, cross, vertical, top slide,"
            " quill, tailstock, and this is `longg` (did you mean long?)",
        ),
        ("power: [1 kW]", "12: `power` is a power, and this is a list"),
        ("power: ", "11: `power` has no value (leave the line out until there is one)"),
        (
            "travel: 400 mm sidways",
            "20: `sidways` is no slide or axis that is known"
            " (there are x, y, z, long, cross, vertical, top slide, quill, tailstock)",
        ),
        (
            "travel: 400 mm crss",
            "20: `crss` is no slide or axis that is known (did you mean cross?)",
        ),
        (
            "backlash: 6 thou long, 4 thou on the carriage",
            "35: `backlash` gives long twice (keep one of them)",
        ),
        (
            "table lock: some",
            "17: `table lock` is one of both slides, one slide, compensated screws,"
            " not compensated, none, yes, no, and this is `some`",
        ),
        (
            "spindle taper: Morse 12",
            "20: there is no taper Morse 12 (there are Morse 0, Morse 1, Morse 2, Morse 3,"
            " Morse 4, Morse 5, Morse 6, Morse 7)",
        ),
        (
            "leadscrew: 8 kg",
            "16: `leadscrew` is a length or a count per length, and this is a mass",
        ),
        (
            "change wheels: 20, x",
            "24: `change wheels` is a whole number, and this is `x`",
        ),
        (
            "change wheels: 20, 2000",
            "24: `change wheels` is a whole number from 1 to 1000, and this is 2000",
        ),
    ],
)
def test_what_is_wrong_in_a_machine_is_said_at_its_place(line: str, found: str) -> None:
    assert told(f"machines:\n  - name: mill\n    {line}\n")[0] == f"shop.yml:3:{found}"


def test_a_profile_has_bounded_lists() -> None:
    many = ", ".join(["20"] * 300)
    assert told(f"change wheels: {many}\n") == [
        "shop.yml:1:816: `change wheels` has 200 values at most, and this has 300"
    ]
    rows = ", ".join(f"r{n}: 3 rpm" for n in range(300))
    assert told(f"machines: [{{name: a, speeds: {{{rows}}}}}]\n") == [
        "shop.yml:1:30: a machine has 200 steps at most, and this one has 300"
    ]


# ---- holders ---------------------------------------------------------------------------------

HOLDERS = """\
chucks:
  three-jaw: self-centring, 3 jaws, diameter 125 mm, grips 3 to 80 mm, marked speed 2500 rpm
faceplates: [faceplate]
collets:
  - {name: lathe collets, sizes: [3 mm, 1/4 in], taper: Morse 3, runout: 0.02 mm}
vises:
  - mill vise, ground jaws, 100 mm wide, opening 80 mm
centres: live centre, dead centre
steadies:
  fixed steady: {kind: three fingers, grips: 6 mm to 60 mm, marked speed: 600 rpm}
"""


def test_each_kind_of_holder_tells_what_it_says() -> None:
    found = [(one.what_it_is(), one.name, facts(one)) for one in profile(HOLDERS).holders]
    assert found == [
        (
            "chuck",
            "three-jaw",
            {
                "kind": "self-centring",
                "diameter": "125.000 mm",
                "jaws": "3",
                "grips from": "3.000 mm",
                "grips to": "80.000 mm",
                "marked speed": "2500 rpm",
            },
        ),
        ("faceplate", "faceplate", {}),
        (
            "set of collets",
            "lathe collets",
            {"sizes": ["3.000 mm", "0.2500 in"], "taper": "Morse 3", "runout": "0.020 mm"},
        ),
        (
            "vise",
            "mill vise",
            {"kind": "ground jaws", "jaw width": "100.000 mm", "opening": "80.000 mm"},
        ),
        ("centre", "live centre", {}),
        ("centre", "dead centre", {}),
        (
            "steady",
            "fixed steady",
            {
                "kind": "three fingers",
                "grips from": "6.000 mm",
                "grips to": "60.000 mm",
                "marked speed": "600 rpm",
            },
        ),
    ]


def test_no_two_holders_go_by_one_name() -> None:
    assert told("chucks: [plate]\nfaceplates: [Plate]\n") == [
        "shop.yml:2:14: faceplate `Plate` is given at line 1 already"
        " (a page finds it by its name; give this one another) [see shop.yml:1:10]"
    ]


def test_two_things_that_pages_would_read_by_one_name_get_a_caution() -> None:
    (found,) = read_shop("machines: [bench lathe]\nchucks: [bench-lathe]\n")[1]
    assert found.grade is Grade.CAUTION
    assert found.line == (
        "shop.yml:2:10: caution: pages read `shop.bench_lathe` as what line 1 gives, and not as"
        " this (give one of them another name) [see shop.yml:1:12]"
    )
    (found,) = read_shop("drills: metric\nchucks: [drills]\n")[1]
    assert found.line.startswith("shop.yml:2:10: caution: pages read `shop.drills` as what line 1")


# ---- cutters and lines -----------------------------------------------------------------------


def test_a_cutter_in_one_line_says_what_it_says_in_lines() -> None:
    line = profile(
        "cutters:\n  saw: slitting saw, HSS, diameter 63 mm, 48 teeth, 1.6 mm wide,"
        " marked speed 400 rpm, new\n"
    )
    lines = profile(
        "cutters:\n  - {name: saw, kind: slitting saw, material: HSS, diameter: 63 mm, teeth: 48,"
        " width: 1.6 mm, marked speed: 400 rpm, remarks: new}\n"
    )
    assert line.cutters == lines.cutters
    assert facts(line.cutters[0]) == {
        "kind": "slitting saw",
        "material": "HSS",
        "diameter": "63.000 mm",
        "teeth": "48",
        "width": "1.600 mm",
        "marked speed": "400 rpm",
        "remarks": ["new"],
    }


@pytest.mark.parametrize("text", ["1 tooth", "1 teeth", "1 flute", "1 flutes", "teeth 1"])
def test_a_count_in_a_line_is_written_as_people_write_it(text: str) -> None:
    (cutter,) = profile(f"cutters:\n  one: end mill, HSS, {text}\n").cutters
    assert cutter.teeth is not None
    assert cutter.teeth.nominal == 1


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("end mill, HSS, diametr 6 mm", "24: `diametr` is not a key of a cutter (did you mean"),
        ("end mill, HSS, edges 4, flutes 4", "33: `flutes` is not a key of a cutter (did you mean"),
        ("end mill, HSS, 4 teeth, teeth 3", "33: `teeth` is given twice in this line (keep one"),
        ("end mill, HSS, diameter 6", "33: `diameter` is a length, and this is a plain number"),
        (
            "end mill, HSS, teeth 2.5",
            "30: `teeth` is a whole number from 1 to 1000, and this is 2.5",
        ),
    ],
)
def test_what_is_wrong_in_a_line_is_said_at_its_place(line: str, found: str) -> None:
    assert told(f"cutters:\n  mill: {line}\n")[0].startswith(f"shop.yml:2:{found}")


def test_what_no_key_takes_is_kept_as_a_remark() -> None:
    (cutter,) = profile("cutters:\n  a: tool, HSS, ground to 60 degrees, 3 of them\n").cutters
    assert cutter.other == ("ground to 60 degrees", "3 of them")
    text = "cutters:\n  a: tool, HSS, diametr 6 mm\n"
    assert read_shop(text)[0].cutters[0].other == ("diametr 6 mm",)


# ---- taps, reamers, blocks -------------------------------------------------------------------


def names(text: str) -> list[str]:
    (one,) = profile(text).tap_sets
    return [thread.designation for thread in one.threads]


@pytest.mark.parametrize(
    ("text", "threads"),
    [
        ("taps: M3, M5x0.5, 1/4-20 UNC", ["M3", "M5x0.5", "1/4-20 UNC"]),
        ("taps: [M3, '4 BA, G1/4']", ["M3", "4 BA", "G1/4"]),
        ("taps: M3 to M6", ["M3", "M4", "M5", "M6"]),
        ("taps: M3.5 to M6", ["M3.5", "M4", "M5", "M6"]),
        ("taps: M6..M3", ["M3", "M4", "M5", "M6"]),
        ("dies: 0 BA to 3 BA", ["0 BA", "1 BA", "2 BA", "3 BA"]),
        ("taps: '#4-40 UNC to #8-32 UNC'", ["#4-40 UNC", "#5-40 UNC", "#6-32 UNC", "#8-32 UNC"]),
        ("taps: 1/8 BSW to 1/4 BSW", ["1/8-40 BSW", "5/32-32 BSW", "3/16-24 BSW", "7/32-24 BSW"]),
        ("taps: {hand taps: {threads: M3, kind: hand}}", ["M3"]),
    ],
)
def test_taps_are_threads_of_their_standards(text: str, threads: list[str]) -> None:
    found = names(f"{text}\n")
    assert found[: len(threads)] == threads


def test_sets_of_taps_and_dies_have_names() -> None:
    shop = profile("taps: {coarse: M3 to M5, fine: M8x1}\ndies: M3\n")
    found = [(one.what_it_is(), one.name, facts(one)) for one in shop.tap_sets]
    assert found == [
        ("set of taps", "coarse", {"threads": ["M3", "M4", "M5"]}),
        ("set of taps", "fine", {"threads": ["M8x1"]}),
        ("set of dies", "dies", {"threads": ["M3"]}),
    ]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (
            "taps: M3, M6x9",
            '11: M6x9 is not in ISO 261; M6 has pitches 1 and 0.75 mm (did you mean "M6x1")',
        ),
        (
            "taps: M3 to 4 BA",
            "7: a range of threads stays in one series, and this goes from ISO metric coarse to BA"
            " (write the designations out, with commas between)",
        ),
        (
            "taps: M8x1 to M10x1",
            "7: the sizes of ISO metric fine are not listed for a range"
            " (write the designations out, with commas between)",
        ),
        (
            "reamers: [10 mm Q7]",
            "11: Q7 is not a tolerance class: ISO 286-1 has no letter Q"
            " (a letter and a grade, such as H7 or js6)",
        ),
        (
            "reamers: 10",
            "10: `size` is a length, and this is a plain number (write its unit, such as mm)",
        ),
        (
            "gauge blocks: metric 46",
            "15: 'metric 46' is not a set of gauge blocks that is known (there are metric 45,"
            " metric 47, metric 78, metric 88, metric 112, inch 81; or give the sizes as a list)",
        ),
        (
            "gauge blocks: 1.005, 1.01 mm",
            "15: `blocks` is a length, and this is a plain number (write its unit, such as mm)",
        ),
        (
            "gauge blocks: {blocks: metric 47, grade: 00}",
            "42: `grade` is one of 0, 1, 2, and this is `00`",
        ),
    ],
)
def test_what_no_table_knows_is_said_at_its_place(text: str, found: str) -> None:
    assert told(f"{text}\n") == [f"shop.yml:1:{found}"]


def test_a_reamer_has_the_limits_of_its_class() -> None:
    shop = profile("reamers: [10 mm H7, 1/4 in, {taper: 1:50, name: pins}, 8 mm +0.02/+0.01]\n")
    sizes = [one.size for one in shop.reamers if one.size]
    assert [(one.nominal, round(one.min, 6), round(one.max, 6)) for one in sizes] == [
        (10, 10, 10.015),
        (0.25, 0.25, 0.25),
        (8, 8.01, 8.02),
    ]
    assert [one.name for one in shop.reamers] == ["10 mm H7", "1/4 in", "pins", "8 mm +0.02/+0.01"]
    assert facts(shop.reamers[2]) == {"taper": "1:50"}


def test_gauge_blocks_are_a_known_set_or_their_lengths() -> None:
    (known,) = profile("gauge blocks: {blocks: inch 81, grade: 1, name: own set}\n").block_sets
    assert (known.name, len(known.sizes), known.sizes[0].unit.text) == ("own set", 81, "in")
    assert facts(known) == {"blocks": "inch 81: 81 blocks", "grade": "1"}
    (few,) = profile("gauge blocks: [1.005 mm, 10 mm]\n").block_sets
    assert facts(few) == {"blocks": ["1.005 mm", "10.000 mm"]}
    assert few.name == "gauge blocks"


# ---- instruments, dividing, stock ------------------------------------------------------------


def test_an_instrument_tells_its_range_and_its_error() -> None:
    text = "instruments:\n  mic: micrometer, range 0 to 25 mm, error ±3 um, set with blocks, old\n"
    shop = profile(text)
    (found,) = shop.instruments
    assert facts(found) == {
        "kind": "micrometer",
        "range from": "0.000 mm",
        "range to": "25.000 mm",
        "error": "3 µm",
        "set with": "blocks",
        "remarks": "old",
    }
    assert shop.instrument("MIC") is found
    assert shop.instrument("other") is None


@pytest.mark.parametrize(
    ("line", "found"),
    [
        (
            "range: 0-25 mm",
            "12: a range goes from a lower value to a higher one"
            " (write 0 mm to 25 mm, or a line from: and a line to:)",
        ),
        (
            "error: 3",
            "12: `error` is a length, an angle, a torque or energy, a spindle speed or a mass, and"
            " this is a plain number (write its unit, such as mm)",
        ),
        (
            "accuracy: 3 um",
            "5: `accuracy` is not a key of a measuring instrument (did you mean error?)",
        ),
    ],
)
def test_what_is_wrong_in_an_instrument_is_said(line: str, found: str) -> None:
    assert told(f"instruments:\n  - name: a\n    {line}\n") == [f"shop.yml:3:{found}"]


def test_a_dividing_head_has_plates_with_circles() -> None:
    text = (
        "dividing head:\n  ratio: 40:1\n  plates:\n    A: 15, 16\n    B: [21, 16]\n"
        "rotary table: 72, centre height 80 mm\n"
    )
    head, table = profile(text).dividing_heads
    assert (head.name, table.name) == ("dividing head", "rotary table")
    assert [one.nominal for one in head.circles] == [15, 16, 21]
    assert head.plates[1].describe() == "B: 21, 16"
    assert head.facts()[1:] == [
        ("plates: A", head.plates[0].circles),
        ("plates: B", head.plates[1].circles),
    ]
    assert facts(table) == {"ratio": "72", "centre height": "80.000 mm"}
    assert (head.what_it_is(), table.what_it_is()) == ("dividing head", "rotary table")


@pytest.mark.parametrize("ratio", ["forty", "0.5", "2000", "40:2", "1:40", "-40"])
def test_a_ratio_is_turns_for_one_turn(ratio: str) -> None:
    assert told(f"dividing head: {{ratio: '{ratio}'}}\n") == [
        f"shop.yml:1:25: `ratio` is a ratio from 1:1 to 1000:1, and this is `{ratio}`"
    ]


def test_stock_is_read_with_its_size_and_may_come_twice() -> None:
    text = (
        "materials:\n"
        "  - bright mild steel, round bar 25 mm, 600 mm long\n"
        "  - bright mild steel, flat 50 mm x 6 mm\n"
        "  - {material: brass, form: tube, size: 1 in, count: 2, remarks: hard}\n"
        "  - cast iron\n"
    )
    assert [(one.name, facts(one)) for one in profile(text).stock] == [
        (
            "bright mild steel",
            {
                "material": "bright mild steel",
                "form": "round bar",
                "size": "25.000 mm",
                "length": "600.000 mm",
            },
        ),
        (
            "bright mild steel",
            {"material": "bright mild steel", "form": "flat", "size": ["50.000 mm", "6.000 mm"]},
        ),
        (
            "brass",
            {
                "material": "brass",
                "form": "tube",
                "size": "1.0000 in",
                "count": "2",
                "remarks": "hard",
            },
        ),
        ("cast iron", {"material": "cast iron"}),
    ]
    assert profile(text).stock[1].describe() == "bright mild steel, flat, 50.000 mm x 6.000 mm"


def test_a_material_that_no_table_knows_is_a_caution_with_what_is_near() -> None:
    found = read_shop("materials: brass, low-carbn steel, unobtainium\n")[1]
    assert [one.line for one in found] == [
        "shop.yml:1:19: caution: no row of the materials knows `low-carbn steel`"
        " (did you mean low-carbon steel?)",
        "shop.yml:1:36: caution: no row of the materials knows `unobtainium`"
        " (such as low-carbon steel, 1.0503, brass, ISO M)",
    ]


# ---- all of them -----------------------------------------------------------------------------


def test_every_key_has_an_attribute_that_holds_it() -> None:
    shop = profile(
        f"{LATHE}{HOLDERS}cutters: [a]\ntaps: M3\nreamers: [1 mm]\ngauge blocks: 1 mm\n"
        "instruments: [b]\ndividing head: 40\nmaterials: [brass]\n"
    )
    assert len(shop.things) == 15
    for thing in shop.things:
        for key in thing._thing.keys:
            assert hasattr(thing, key.held), (thing, key.name)


def test_every_list_of_things_is_read_into_records_of_its_kind() -> None:
    for key, thing in THINGS.items():
        text = {"reamers": "10 mm", "taps": "M3", "dies": "M3", "gauge blocks": "1 mm"}.get(key, "")
        shop = read_shop(f"{key}:\n  one: {text or ''}\n")[0]
        (made,) = shop.things
        assert made.name == "one", key
        assert made._thing is thing, key


def test_a_thing_in_lines_may_stand_alone_with_its_name() -> None:
    (lathe,) = profile("machines: {name: lathe, kind: lathe}\n").machines
    assert (lathe.name, lathe.kind) == ("lathe", "lathe")
    assert told("machines: {name: lathe, knid: lathe}\n") == [
        "shop.yml:1:25: `knid` is not a key of a machine (did you mean kind?)"
    ]
