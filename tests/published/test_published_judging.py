"""What a workshop knows of whole cuts, held against `judged_cut`: common practice, no source."""

from __future__ import annotations

from typing import Any

import pytest

from shoplog.trade.judging.judging import judged_cut
from shoplog.trade.judging.judging_record import JudgedCut, Limit


def limit(cut: JudgedCut, what: str) -> Limit:
    found = cut.named(what)
    assert found is not None, [each.what for each in cut.limits]
    return found


class TestSmallSlotDrill:
    """A two-tooth HSS slot drill of 5/32 in at 2200 rpm and 100 mm/min, 0.25 mm deep."""

    CUT = judged_cut(
        "slot milling",
        "low-carbon steel",
        spindle_speed=2200,
        feed_rate=100,
        depth_of_cut=0.25,
        cutter_diameter=25.4 * 5 / 32,
        teeth=2,
    )

    def test_speed_is_ordinary_feed_brisk_and_depth_gentle(self) -> None:
        assert self.CUT.rating is not None
        assert self.CUT.rating.describe() == ("An ordinary speed, a brisk feed and a gentle depth.")

    def test_figures_are_those_of_the_shop(self) -> None:
        # 2200 rpm on 3.97 mm is 27 m/min; 100 mm/min over 2200 rpm and two teeth 0.023 mm.
        assert limit(self.CUT, "cutting speed").figure.nominal == pytest.approx(27.43, abs=0.01)
        assert limit(self.CUT, "feed").figure.nominal == pytest.approx(0.0227, abs=0.0001)

    def test_nothing_gives_way(self) -> None:
        assert self.CUT.holds
        assert self.CUT.beyond == ()
        assert self.CUT.first == (
            "Nothing judged gives way; nearest is feed, 0.0227 mm a tooth, at most 0.027 mm a"
            " tooth: 84 %."
        )


def wall(direction: str, **given: Any) -> JudgedCut:
    return judged_cut(
        "profile milling",
        "low-carbon steel",
        spindle_speed=700,
        feed_rate=100,
        depth_of_cut=4,
        width_of_cut=1,
        cutter_diameter=10,
        teeth=4,
        drive_force=500,
        direction=direction,
        **given,
    )


class TestClimbAndConventional:
    """Climb asks less of the drive, pulls the table, and unlocked is for light passes only."""

    def test_climb_asks_less_of_the_drive(self) -> None:
        climb, against = (wall(way) for way in ("climb", "conventional"))
        assert limit(climb, "feed force").share < limit(against, "feed force").share

    def test_climb_pulls_the_table_and_this_is_said(self) -> None:
        pulled = "the cutter pulls the table along with up to "
        assert any(caution.startswith(pulled) for caution in wall("climb").cautions)
        assert not any(caution.startswith(pulled) for caution in wall("conventional").cautions)

    @pytest.mark.parametrize(("table", "borne"), [("free", False), ("locked", True)])
    def test_only_a_lock_bears_a_roughing_cut(self, table: str, borne: bool) -> None:
        passed = wall("climb", backlash=0.2, table=table).beyond
        assert ("bite if the table jumps" not in passed) is borne


class TestFineFinishing:
    """A fine finish in steel with HSS wants a large nose radius; slender work then chatters."""

    @staticmethod
    def finished(nose_radius: float, length: float = 40) -> JudgedCut:
        return judged_cut(
            "turning, finish",
            "low-carbon steel",
            spindle_speed=740,
            feed_per_rev=0.1,
            depth_of_cut=0.2,
            diameter=16,
            length=length,
            holding="chuck and centre",
            nose_radius=nose_radius,
            wanted_ra=0.8,
        )

    def test_small_nose_misses_the_finish_that_a_large_one_gives(self) -> None:
        assert limit(self.finished(0.2), "finish").verdict == "beyond"
        assert limit(self.finished(1.5), "finish").verdict == "within"

    def test_slender_work_is_cautioned_under_a_large_nose(self) -> None:
        said = "slender work chatters under a large nose radius"
        slender = [self.finished(nose, 150).cautions for nose in (0.2, 1.5)]
        assert [any(c.startswith(said) for c in cautions) for cautions in slender] == [False, True]
        assert not any(c.startswith(said) for c in self.finished(1.5, 40).cautions)
