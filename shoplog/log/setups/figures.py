"""The figures of a run, worked out by the formulas of `shoplog.trade.machining.cutting` alone.

A figure that cannot be had is a note that says what is missing. A caution of a formula goes with
the figures; a number that the machine or another line contradicts is a finding at its key.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from shoplog.log.profile.shop import Machine
from shoplog.log.profile.things import rpm_of
from shoplog.log.report import Derived, SetupField
from shoplog.log.setups.lines import clipped
from shoplog.log.setups.operations import Cut
from shoplog.log.setups.quantities import matching_unit
from shoplog.problems import Grade, Mistake, message
from shoplog.trade.declare import OFFERS, In, TradeError
from shoplog.trade.machining import cutting
from shoplog.units import unit, write_quantity
from shoplog.values import Value

__all__ = ["BY_HAND", "Figures", "work_out"]

BY_HAND = "by hand"
AGREE = 0.02
"""Part by which a speed and a cutting speed may differ: rounding accounts for that much."""

SPEEDS_DIFFER = message(
    "setup-speeds-differ",
    "speed and cutting speed do not agree: {cutting} at {diameter} is {found}, not {speed}",
    hint="leave one of them out, or is the diameter another?",
    example="```setup\ndiameter: 10 mm\noperation: turning\nplanned:\n  speed: 500 rpm\n"
    "  cutting speed: 30 m/min\n```\n",
)
BEYOND = message(
    "setup-beyond",
    "{speed} is beyond {what} of {name}, {limit}",
    hint="its marking, the machine's manual and local rules decide",
    example="",
)
BELOW_RANGE = message(
    "setup-below-range",
    "{speed} is below the slowest speed of {name}, {limit}",
    grade=Grade.CAUTION,
    example="",
)
WIDE = message(
    "setup-wide",
    "a width of cut of {width} is more than the cutter, {cutter}",
    example="```setup\noperation: milling\ncutter diameter: 6 mm\nplanned:\n"
    "  width of cut: 8 mm\n```\n",
)


@dataclass(slots=True)
class Figures:
    """What is worked out of a run; a finding is a mistake at the value of a key."""

    derived: list[Derived] = field(default_factory=list)
    cautions: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    findings: list[tuple[str, Mistake]] = field(default_factory=list)

    def note(self, text: str) -> None:
        """Keep a note once."""
        if text not in self.notes:
            self.notes.append(text)

    def caution(self, *texts: str) -> None:
        """Keep cautions, each once."""
        self.cautions += [text for text in texts if text not in self.cautions]


def work_out(kind: str, fields: dict[str, SetupField], cut: Cut) -> Figures:
    """The figures of a run, `planned` or `ran`, from its lines and from what stands above them."""
    run = _Run(kind, fields, cut)
    if {"speed", "cutting speed", "feed", "depth of cut", "width of cut"} & fields.keys():
        run.speeds()
        run.limits()
        run.feeds()
        run.removal()
        run.widths()
    return run.made


class _Run:
    def __init__(self, kind: str, fields: dict[str, SetupField], cut: Cut) -> None:
        self.kind, self.fields, self.cut = kind, fields, cut
        self.made = Figures()
        self.speed = self._given("speed")
        self.cutting_speed = self._given("cutting speed")
        self.per_rev: Value | None = None
        self.per_minute: Value | None = None
        self.family = cut.operation.family if cut.operation else ""

    def _given(self, key: str) -> Value | None:
        found = self.fields[key].value if key in self.fields else None
        return self._nominal(key, found) if isinstance(found, Value) else None

    def _nominal(self, key: str, value: Value) -> Value:
        if not value.has_limits:
            return value
        self.made.note(f"{key} has limits: the figures are at its nominal size")
        return value.only(value.nominal)

    def _formula(self, name: str, **given: Value) -> Value | None:
        """What a formula gives for values in any of its units; a note where it refuses them."""
        offer = OFFERS[name]
        numbers = {
            parameter.name: given[parameter.name]
            .to(unit(parameter.kinds[0].unit), loose=True)
            .nominal
            for parameter in offer.parameters
            if parameter.name in given
        }
        try:
            number = offer.function(**numbers)
        except TradeError as error:
            self.made.note(f"no {name.replace('_', ' ')}: {error.message}")
            return None
        self.made.caution(*offer.cautions)
        returns: In = offer.returns[0]
        return Value(number, unit(returns.unit))

    def _derive(self, label: str, name: str, note: str = "", /, **given: Value) -> Value | None:
        found = self._formula(name, **given)
        if found is not None:
            self.made.derived.append(Derived(label, found, note, OFFERS[name].source))
        return found

    def _at(self, diameter: Value) -> str:
        return f"at the {self.cut.diameter_is}, {_shown(diameter)}"

    def speeds(self) -> None:
        """The speed of the spindle from the cutting speed, or the other way about."""
        speed, wanted = self.speed, self.cutting_speed
        diameter = self.cut.diameter
        if diameter is not None:
            diameter = self._nominal(self.cut.diameter_is, diameter)
        if speed is None and wanted is None:
            if not {"speed", "cutting speed"} & self.fields.keys():
                self.made.note("no speed: no cutting speed")
        elif diameter is None:
            if not (speed and wanted):
                self.made.note(f"no diameter: no {'cutting' if speed else 'spindle'} speed")
        elif speed and wanted:
            self._compare(speed, wanted, diameter)
        elif speed:
            self.cutting_speed = self._derive(
                "cutting speed",
                "cutting_speed",
                self._at(diameter),
                spindle_speed=speed,
                diameter=diameter,
            )
        elif wanted:
            self.speed = self._derive(
                "spindle speed",
                "spindle_speed",
                self._at(diameter),
                cutting_speed=wanted,
                diameter=diameter,
            )
            self._step(diameter)

    def _compare(self, speed: Value, wanted: Value, diameter: Value) -> None:
        found = self._formula("spindle_speed", cutting_speed=wanted, diameter=diameter)
        if found is None or abs(rpm_of(found) - rpm_of(speed)) <= AGREE * rpm_of(speed):
            return
        mistake = Mistake(
            SPEEDS_DIFFER,
            cutting=_shown(wanted),
            diameter=_shown(diameter),
            found=_shown(found),
            speed=_shown(speed),
        )
        self.made.findings.append(("cutting speed", mistake))

    def _step(self, diameter: Value) -> None:
        """The step to take for the speed that was planned, where the machine has steps."""
        machine = self.cut.machine
        if self.kind != "planned" or machine is None or self.speed is None:
            return
        if not machine.steps:
            return
        found = self._spindle_step(machine, self.speed, diameter)
        if found is None:
            return
        offer = OFFERS["spindle_step"]
        self.speed = Value(found.speed, unit("rpm"))
        named = machine.drive.name_of(self.speed)
        told = f"{named}: {found.describe()}" if named else found.describe()
        self.made.derived.append(Derived("step", self.speed, told, offer.source))
        self.cutting_speed = self._derive(
            "cutting speed at the step",
            "cutting_speed",
            self._at(diameter),
            spindle_speed=self.speed,
            diameter=diameter,
        )
        self.made.caution(*found.cautions, *offer.cautions)

    def _spindle_step(
        self, machine: Machine, speed: Value, diameter: Value | None
    ) -> cutting.SpindleStep | None:
        size = diameter.to(unit("mm")).nominal if diameter else None
        try:
            return cutting.spindle_step(rpm_of(speed), [rpm_of(s) for s in machine.steps], size)
        except TradeError as error:
            self.made.note(f"no step: {error.message}")
            return None

    def limits(self) -> None:
        """Hold the speed to what the machine is rated for and what the chuck is marked with."""
        if self.speed is None:
            return
        machine, holder = self.cut.machine, self.cut.holder
        if machine:
            self._beyond("the greatest speed", machine.name, machine.limit)
            self._slowest(machine)
            self._no_step(machine)
        if holder:
            self._beyond("the marked speed", holder.name, holder.marked_speed)

    @property
    def _speed_key(self) -> str:
        return "speed" if "speed" in self.fields else "cutting speed"

    def _beyond(self, what: str, name: str, limit: Value | None) -> None:
        speed = self.speed
        if limit and speed and rpm_of(speed) > rpm_of(limit) * (1 + 1e-9):
            data = {"speed": _shown(speed), "what": what, "name": clipped(name)}
            mistake = Mistake(BEYOND, None, hint=None, limit=_shown(limit), **data)
            self.made.findings.append((self._speed_key, mistake))

    def _slowest(self, machine: Machine) -> None:
        slowest, speed = machine.slowest, self.speed
        if slowest and speed and rpm_of(speed) < rpm_of(slowest) * (1 - 1e-9):
            name, limit = clipped(machine.name), _shown(slowest)
            mistake = Mistake(BELOW_RANGE, speed=_shown(speed), name=name, limit=limit)
            self.made.findings.append((self._speed_key, mistake))

    def _no_step(self, machine: Machine) -> None:
        """Say so where a speed was planned that is no step of the machine."""
        if self.kind != "planned" or "speed" not in self.fields or not self.speed:
            return
        found = self._spindle_step(machine, self.speed, None) if machine.steps else None
        if found is None or abs(found.speed - rpm_of(self.speed)) <= 0.5:
            return
        name, asked = clipped(machine.name), _shown(self.speed)
        where = "the slowest is" if found.below_slowest else "the next below is"
        self.made.note(f"{name} has no step of {asked}: {where} {found.speed:g} rpm")

    def feeds(self) -> None:
        """The feed a revolution, a tooth and a minute from the one that is given."""
        found = self.fields["feed"].value if "feed" in self.fields else None
        if found == BY_HAND:
            self.made.note("fed by hand: no figures of the feed, and no removal rate")
        feed = self._given("feed")
        kind = matching_unit(feed, ("mm/rev", "mm/min", "mm/tooth")) if feed else None
        if feed is None or kind is None:
            return
        if kind is unit("mm/tooth"):
            self._from_tooth(feed)
        elif kind is unit("mm/rev"):
            self.per_rev = feed
            self._from_rev(feed)
        else:
            self.per_minute = feed
            self._from_minute(feed)

    @property
    def _minute_label(self) -> str:
        return "table feed" if self.family == "milling" else "feed a minute"

    def _from_tooth(self, feed: Value) -> None:
        if self.cut.teeth is None:
            self.made.note(f"no teeth: no {self._minute_label}")
        elif self.speed is None:
            self.made.note(f"no speed: no {self._minute_label}")
        else:
            self.per_minute = self._derive(
                self._minute_label,
                "table_feed",
                feed_per_tooth=feed,
                teeth=self.cut.teeth,
                spindle_speed=self.speed,
            )
            if self.per_minute:
                self._per_rev(self.per_minute)

    def _from_rev(self, feed: Value) -> None:
        if self.speed is None:
            self.made.note(f"no speed: no {self._minute_label}")
            return
        self.per_minute = self._derive(
            self._minute_label, "feed_rate", feed_per_rev=feed, spindle_speed=self.speed
        )
        if self.per_minute:
            self._per_tooth(self.per_minute)

    def _from_minute(self, feed: Value) -> None:
        if self.speed is None:
            self.made.note("no speed: no feed per rev")
            return
        self._per_tooth(feed)
        self._per_rev(feed)

    def _per_rev(self, minute: Value) -> None:
        if self.speed and self.family != "milling":
            self.per_rev = self._derive(
                "feed per rev", "feed_per_rev", feed_rate=minute, spindle_speed=self.speed
            )

    def _per_tooth(self, minute: Value) -> None:
        """For a cutter of several teeth; a turning tool and a drill are told of by the rev."""
        if self.family not in ("milling", ""):
            return
        if self.cut.teeth and self.speed:
            self._derive(
                "feed per tooth",
                "feed_per_tooth",
                table_feed=minute,
                teeth=self.cut.teeth,
                spindle_speed=self.speed,
            )
        elif self.family == "milling":
            self.made.note("no teeth: no feed per tooth")

    def removal(self) -> None:
        """The removal rate, by the family of the operation."""
        operation = self.cut.operation
        if operation is None:
            text = clipped(self.cut.operation_text)
            why = f"no removal rate is known for `{text}`" if text else ""
            self.made.note(why or "no operation: no removal rate")
        elif not operation.removes:
            self.made.note(f"no removal rate is known for {operation.word}")
        elif not ("feed" in self.fields and self.fields["feed"].value == BY_HAND):
            self._removal(operation.family)

    def _removal(self, family: str) -> None:
        depth, width = self._given("depth of cut"), self._given("width of cut")
        if depth and depth.nominal == 0:
            self.made.note("a depth of cut of 0: no removal rate")
            return
        needed = {
            "turning": {
                "cutting speed": ("cutting_speed", self.cutting_speed),
                "feed": ("feed_per_rev", self.per_rev),
                "depth of cut": ("depth_of_cut", depth),
            },
            "milling": {
                "feed": ("table_feed", self.per_minute),
                "depth of cut": ("depth_of_cut", depth),
                "width of cut": ("width_of_cut", width),
            },
            "drilling": {
                "diameter": ("diameter", self.cut.diameter),
                "feed": ("feed_per_rev", self.per_rev),
                "speed": ("spindle_speed", self.speed),
            },
        }[family]
        missing = [words for words, (_, value) in needed.items() if value is None]
        # Of a feed that is there and could not be turned into the one needed, a note tells already.
        told = [words for words in missing if not (words == "feed" and "feed" in self.fields)]
        if told:
            self.made.note(f"no {' and no '.join(told)}: no removal rate")
        if missing:
            return
        given = {name: value for name, value in needed.values() if value is not None}
        self._derive("removal rate", f"removal_rate_{family}", **given)

    def widths(self) -> None:
        """Hold the width of cut to the cutter in milling."""
        width, cutter = self._given("width of cut"), self.cut.cutter_diameter
        if not (width and cutter) or self.family != "milling":
            return
        if width.to(unit("mm")).nominal > cutter.to(unit("mm")).nominal * (1 + 1e-9):
            mistake = Mistake(WIDE, width=_shown(width), cutter=_shown(cutter))
            self.made.findings.append(("width of cut", mistake))


def _shown(value: Value) -> str:
    return write_quantity(value.nominal, value.unit)
