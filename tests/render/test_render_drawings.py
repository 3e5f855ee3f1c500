"""What every picture keeps to: a name and a description, ids of its own, nothing from elsewhere."""

import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from picture_reader import Drawn

from shoplog.render.pictures.canvas import Canvas
from shoplog.render.pictures.declare import PICTURES, Picture
from shoplog.render.pictures.drawing import drawing
from shoplog.render.pictures.key import key
from shoplog.render.pictures.labels import spread, text_box
from shoplog.render.pictures.sizes import plain
from shoplog.render.pictures.strokes import OUTLINE, RISING, Tells
from shoplog.trade.limits_and_fits.fits import fit, limits_of

FIT = fit(limits_of(16, "H7"), limits_of(16, "f7"))


def test_a_picture_has_a_name_and_a_description_with_ids_of_its_own():
    svg = Drawn(FIT, anchor="drawing-2").svg
    assert svg.get("role") == "img"
    assert svg.get("aria-labelledby") == "drawing-2-title drawing-2-text"
    named = {part.get("id"): part.text for part in svg.iter() if part.get("id")}
    assert named["drawing-2-title"] == "Tolerance zones of 16 mm H7/f7"
    assert named["drawing-2-text"].startswith("hole H7 16.000 to 16.018 mm; shaft f7")


def test_words_are_escaped_and_control_characters_are_put_out():
    canvas = Canvas("drawing")
    canvas.write("<b>&\x02", 10, 20)
    html = canvas.html("<i>", "a & b")
    assert "&lt;b&gt;&amp;\ufffd" in html
    assert '<title id="drawing-title">&lt;i&gt;</title>' in html


def test_what_has_no_picture_says_what_can_be_drawn():
    html = str(drawing("words", "name", "drawing"))
    assert "<svg" not in html
    assert "name (words) has no picture; what can be drawn: " in html
    assert "a fit" in html


def test_numbers_that_no_drawing_holds_leave_a_note_and_the_page(monkeypatch):
    def fails(value, anchor):
        raise OverflowError("too large")

    monkeypatch.setitem(PICTURES, type(FIT), Picture(fails, "a fit", "nothing"))
    html = str(drawing(FIT, "running", "drawing"))
    assert "cannot be drawn: too large" in html
    assert "<svg" not in html


def test_a_kind_of_line_is_told_by_its_width_and_its_dashes():
    canvas = Canvas("drawing")
    canvas.line(OUTLINE, (1, 2), (3, 4), tells=Tells("length", 2.5, "mm"))
    html = canvas.html("A line", "One line.")
    assert '<g class="shoplog-outline" stroke-width="1.4">' in html
    assert 'd="M1,2L3,4" data-shows="length" data-value="2.5" data-unit="mm"' in html


def test_one_pattern_serves_every_area_that_is_hatched_alike():
    canvas = Canvas("drawing")
    for front in (False, True, False):
        canvas.area(RISING, (0, 0), (10, 0), (10, 10), front=front)
    assert canvas.html("Areas", "Three.").count("<pattern") == 1


def test_a_place_that_is_no_number_is_refused():
    canvas = Canvas("drawing")
    with pytest.raises(ValueError, match="nan is no place in a picture"):
        canvas.line(OUTLINE, (float("nan"), 0), (1, 1))


def test_words_that_would_leave_a_side_are_moved_into_the_picture():
    canvas = Canvas("drawing")
    box = canvas.write("a long word", 315, 20)
    assert box.right <= canvas.width


@given(st.lists(st.floats(0, 300), max_size=12))
def test_labels_are_spread_in_their_order_and_far_enough_apart(wanted):
    placed = spread(wanted, 13)
    order = sorted(range(len(wanted)), key=lambda index: wanted[index])
    gaps = [placed[after] - placed[before] for before, after in pairwise(order)]
    assert all(gap >= 13 - 1e-6 for gap in gaps)
    assert all(place >= 0 for place in placed)
    if all(b - a >= 13 for a, b in pairwise(sorted(wanted))):
        assert placed == pytest.approx(wanted)


def test_labels_that_want_the_same_place_share_the_room_about_it():
    assert spread([50, 50], 12) == [44, 56]
    assert spread([2, 2], 12) == [0, 12]
    assert spread([99, 99], 12, high=100) == [88, 100]


def test_turned_words_take_their_room_upwards():
    level, turned = text_box("16", 10, 50), text_box("16", 10, 50, turned=True)
    assert level.right - level.left == pytest.approx(turned.bottom - turned.top)
    assert turned.bottom == 50


@pytest.mark.parametrize(
    ("number", "text"),
    [(16.0, "16"), (14.701, "14.701"), (0.0005, "0.0005"), (-0.5, "−0.5"), (2e12, "2e+12")],
)
def test_a_dimension_is_written_without_needless_zeros(number, text):
    assert plain(number) == text


@pytest.mark.parametrize(
    ("row", "marks"),
    [
        (("bore", "16.000 mm", "0.6299 in"), ["mm", "inch"]),
        (("bore", "0.6299 in", "16.000 mm"), ["inch", "mm"]),
        (("play", "16 µm", "0.6 thou"), ["mm", "inch"]),
        (("pressure", "98.1 MPa", "14231 psi"), ["mm", "inch"]),
        (("it holds", "17.92 N*m", "13.22 ft*lbf"), ["mm", "inch"]),
        (("pitch", "20 threads per inch", "1.270 mm"), ["inch", "mm"]),
        (("angle", "1.43°", "1°25'48\""), []),
        (("taper", "1:20", "0.6000 in/ft"), ["inch"]),
        (("feed", "at most 0.5 mm a turn", "at most 0.0197 in/rev"), ["mm", "inch"]),
        (("torque", "at most 2.94 N·m", "at most 2.17 ft*lbf"), ["mm", "inch"]),
        (("sides", "6"), []),
    ],
)
def test_a_size_of_the_key_is_marked_for_the_switch_of_the_page(row, marks):
    assert re.findall(r'class="shoplog-(mm|inch)"', key([row])) == marks


def test_a_picture_needs_nothing_from_elsewhere():
    assert re.findall(r"\w+://[^\"' ]*", Drawn(FIT).html) == ["http://www.w3.org/2000/svg"]
