"""The shop profile: what is read, what is wrong in it and where, and hostile input."""

import pytest

from shoplog.log.profile.keys import SHOP, THINGS
from shoplog.log.profile.shop import read_shop
from shoplog.problems import CATALOGUE

GOOD = """\
name: The lean-to
machines:
  - name: bench lathe
    kind: Lathe
    speeds: 120 rpm, 200 rpm, 350 rpm
    dial reads: diameter
    leadscrew: 3 mm
  - name: mill
    speeds:
      from: 100 rpm
      to: 2500 rpm
  - name: drill press
    speeds: [500 rpm, "1000 rpm"]
    greatest speed: 900 rpm
  - name: belt grinder
    speeds: from 600 rpm to 2800 rpm
cutters:
  finishing tool: turning tool, HSS, nose radius 0.4 mm, honed
  end mill 6:
    kind: end mill
    material: carbide
    diameter: 1/4 in
    teeth: 4
chucks:
  - name: small chuck
    marked speed: 1800 rpm
    jaws: 3
faceplates:
  - name: faceplate
drills: metric, number
vises: [{name: swivel vise, opening: 80 mm}]
"""


def profile(text):
    shop, problems = read_shop(text)
    assert [str(problem) for problem in problems] == []
    return shop


def lines(text):
    return [problem.line for problem in read_shop(text)[1]]


def rpm(values):
    return [(value.nominal, value.unit.text) for value in values]


def test_a_machine_has_its_steps_kind_and_dial():
    lathe = profile(GOOD).machine("bench lathe")
    assert (lathe.name, lathe.kind, lathe.dial_reads) == ("bench lathe", "lathe", "diameter")
    assert rpm(lathe.steps) == [(120, "rpm"), (200, "rpm"), (350, "rpm")]
    assert lathe.limit is lathe.steps[2]
    assert (lathe.leadscrew.nominal, lathe.leadscrew.unit.text) == (3, "mm")


def test_a_range_of_speeds_is_read_as_lines_and_as_text():
    shop = profile(GOOD)
    mill, grinder = shop.machine("mill"), shop.machine("belt grinder")
    assert rpm([mill.slowest, mill.fastest]) == [(100, "rpm"), (2500, "rpm")]
    assert rpm([grinder.slowest, grinder.fastest]) == [(600, "rpm"), (2800, "rpm")]
    assert mill.limit is mill.fastest
    assert mill.steps == ()


def test_a_rated_speed_counts_before_the_fastest_step():
    press = profile(GOOD).machine("drill press")
    assert rpm(press.steps) == [(500, "rpm"), (1000, "rpm")]
    assert rpm([press.limit]) == [(900, "rpm")]


def test_a_name_is_found_in_whichever_case_and_spacing():
    shop = profile(GOOD)
    assert shop.machine("Bench  LATHE") is shop.machines[0]
    assert shop.machine("other lathe") is None


def test_a_cutter_is_read_from_a_line_and_from_lines_below():
    one, other = profile(GOOD).cutters
    assert one.describe() == "finishing tool: turning tool, HSS, nose radius 0.400 mm, honed"
    assert (one.name, one.other) == ("finishing tool", ("honed",))
    assert other.describe() == "end mill 6: end mill, carbide, diameter 1/4 in, teeth 4"


def test_chucks_and_faceplates_have_their_marked_speed():
    shop = profile(GOOD)
    chuck, plate = shop.holder("small chuck"), shop.holder("Faceplate")
    assert (chuck.kind, chuck.marked_speed.nominal, chuck.jaws.nominal) == ("chuck", 1800, 3)
    assert (plate.kind, plate.marked_speed) == ("faceplate", None)


def test_drill_sets_and_the_name_of_the_workshop_are_read():
    shop = profile(GOOD)
    assert shop.holder("swivel vise").opening.nominal == 80
    assert shop.drill_sets == ("metric", "number")
    assert shop.name == "The lean-to"


def test_an_empty_profile_is_a_profile():
    for text in ("", "# nothing yet\n", "\ufeffname: shed\r\n"):
        assert profile(text).machines == ()
    assert profile("\ufeffname: shed\r\n").name == "shed"


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (
            "nmae: shed\n",
            "shop.yml:1:1: `nmae` is not a key of the shop profile (did you mean name?)",
        ),
        (
            "machines:\n  - name: lathe\n    sped: 3\n",
            "shop.yml:3:5: `sped` is not a key of a machine (did you mean speeds?)",
        ),
        (
            "machines:\n  - name: lathe\n    speeds: 120, 200 rpm\n",
            "shop.yml:3:13: `speeds` is a spindle speed, and this is a plain number"
            " (write its unit, such as rpm)",
        ),
        (
            "machines:\n  - name: lathe\n    speeds: '120 rpm, 20 mm'\n",
            "shop.yml:3:23: `speeds` is a spindle speed, and this is a length",
        ),
        (
            "machines:\n  - name: lathe\n    speeds: 120 rpm, 2oo rpm\n",
            "shop.yml:3:23: `oo` is not a unit of this log",
        ),
        (
            "machines:\n  - name: lathe\n    speeds: 60 rpm * 2\n",
            "shop.yml:3:13: a number with its unit stands here, such as 120 rpm",
        ),
        (
            "machines:\n  - name: lathe\n    speeds: 900 rpm to 100 rpm\n",
            "shop.yml:3:13: a range goes from a lower value to a higher one"
            " (write 100 rpm to 2500 rpm, or a line from: and a line to:)",
        ),
        (
            "machines:\n  - name: lathe\n    dial reads: both\n",
            "shop.yml:3:17: `dial reads` is one of radius, diameter, and this is `both`",
        ),
        (
            "machines:\n  - name: lathe\n  - name: Lathe\n",
            "shop.yml:3:11: machine `Lathe` is given at line 2 already"
            " (a page finds it by its name; give this one another) [see shop.yml:2:11]",
        ),
        (
            "machines:\n  - kind: lathe\n",
            "shop.yml:2:5: this machine has no name (give it a line `name: …`)",
        ),
        ("machines:\n", "shop.yml:1:10: `machines` is a list, and this is empty"),
        ("name: [a, b]\n", "shop.yml:1:7: `name` is text, and this is a list"),
        ("- lathe\n", "shop.yml:1:1: the shop profile is lines `key: value`, and this is a list"),
        (
            "name: a\nname: b\n",
            "shop.yml:2:1: `name` is given at line 1 already (keep one of them) [see shop.yml:1:1]",
        ),
        (
            "cutters:\n  slot drill:\n    diameter: 0 mm\n    teeth: 2.5\n",
            "shop.yml:3:15: diameter is 0 mm, it must be over 0 mm",
        ),
        (
            "cutters:\n  tool: turning tool, HSS, nose radius 0,4 mm\n",
            "shop.yml:2:40: a comma between digits (a decimal point is a point: 0.4;"
            " after a comma between arguments comes a space)",
        ),
        (
            "drills: metrc\n",
            "shop.yml:1:9: `drills` is some of metric, fractional, number, letter, and this is"
            " `metrc` (did you mean metric?)",
        ),
        (
            "name: [a\n",
            "shop.yml:1:7: the shop profile cannot be read: expected ',' or ']', but got"
            " '<stream end>'",
        ),
        (
            "name: &shed x\n",
            "shop.yml:1:7: `&shed` is a YAML reference, which is not read here"
            " (write the value out, or in quotes if it is a text)",
        ),
        (
            "machines:\n  - name: lathe\n    kind: lathee\n",
            "shop.yml:3:11: caution: `lathee` as `kind` says nothing to what is worked out"
            " (did you mean lathe?)",
        ),
        (
            "machines:\n  - name: lathe\n    speeds: {[a, b]: 60 rpm}\n",
            "shop.yml:3:14: a key of `speeds` is a text, and this is a list",
        ),
        (
            "machines:\n  - name: lathe\n    speeds: {{a: b}: 60 rpm, from: 3 rpm}\n",
            "shop.yml:3:14: a key of `speeds` is a text, and this is lines `key: value`",
        ),
        (
            "chucks: {[a]: b}\n",
            "shop.yml:1:10: a key of `chucks` is a text, and this is a list",
        ),
        (
            "name: a\x00b\n",
            "shop.yml:1:8: the shop profile cannot be read:"
            " the character U+0000 may not stand in it",
        ),
    ],
)
def test_what_is_wrong_is_said_at_its_place(text, found):
    assert lines(text)[0] == found


def test_one_mistake_leaves_the_rest_of_the_profile():
    shop, problems = read_shop("machines:\n  - name: lathe\n    speeds: 120, 200 rpm\nname: shed\n")
    assert len(problems) == 1
    assert rpm(shop.machine("lathe").steps) == [(200, "rpm")]
    assert shop.name == "shed"


def test_a_profile_cannot_run_anything():
    shop = profile("name: !!python/name:os.system shed\n")
    assert shop.name == "shed"


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (
            "a" * 70_000,
            "shop.yml:1:1: the shop profile has 70000 characters; it may have 65536,"
            " and none is read",
        ),
        (
            "[" * 60_000,
            "shop.yml:1:21: the shop profile nests lists and keys more than 20 deep",
        ),
        (
            "a: &a [x]\nb: &b [*a, *a]\n",
            "shop.yml:1:4: `&a` is a YAML reference, which is not read here"
            " (write the value out, or in quotes if it is a text)",
        ),
    ],
)
def test_a_profile_that_would_grow_is_refused(text, found):
    assert lines(text) == [found]


def test_ten_thousand_lines_and_long_lines_are_read_to_the_end():
    many = "remarks:\n" + "  - x\n" * 10_000
    assert profile(many).remarks.count("x") == 10_000
    long = f'machines:\n  - name: lathe\n    speeds: "120 rpm{" " * 60_000}, 200 rpm"\n'
    assert len(profile(long).machine("lathe").steps) == 2


def test_text_in_a_profile_stays_text():
    shop = profile("machines:\n  - name: <b>lathe</b>\n    kind: no\n")
    assert (shop.machines[0].name, shop.machines[0].kind) == ("<b>lathe</b>", "no")


def test_a_message_shows_no_sign_that_turns_the_line():
    assert lines("a\u200fb: 1\n")[0].startswith(
        "shop.yml:1:1: `a\\u200fb` is not a key of the shop profile"
    )


def test_every_key_says_what_it_is_for():
    for thing in (SHOP, *THINGS.values()):
        assert all(key.doc.endswith(".") for key in thing.keys)


SHOP_MESSAGES = [code for code in CATALOGUE if code.startswith("shop-")]


@pytest.mark.parametrize("code", [code for code in SHOP_MESSAGES if CATALOGUE[code].example])
def test_the_example_of_a_message_causes_it(code):
    assert code in [problem.code for problem in read_shop(CATALOGUE[code].example)[1]]


def test_a_machine_has_a_bounded_number_of_steps():
    steps = ", ".join(f"{number} rpm" for number in range(1, 302))
    text = f"machines:\n  - name: lathe\n    speeds: {steps}\n"
    assert lines(text) == ["shop.yml:3:13: a machine has 200 steps at most, and this one has 301"]
