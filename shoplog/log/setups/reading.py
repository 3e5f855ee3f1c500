"""A setup block, read: the value of each key, what is wrong with it, and the figures of its runs.

Every text is read by its key alone, so `1:50`, `no`, `#30` and a colon in a remark stay what they
are. `outcome`, `fault` and `remarks` at the margin are those of the setup as a whole; where it ran
more than once, each `ran:` may carry its own.

A caution of a formula is in the `cautions` of its run; one about a line is among the problems, at
its place. A plan that cannot be run is a problem, and the same in a run is a caution: what was done
is a fact worth keeping.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import date

from shoplog.calc.results import PageValue
from shoplog.calc.scope import Waits
from shoplog.log.blocks import Block
from shoplog.log.profile.shop import Holder, Machine, ShopProfile
from shoplog.log.report import Run, SetupField, SetupReport
from shoplog.log.setups.cutters import Cutter, read_cutter
from shoplog.log.setups.figures import BY_HAND, work_out
from shoplog.log.setups.judging import findings_of, hardness_mistake, judge_run, material_known_by
from shoplog.log.setups.keys import SETUP_KEYS, Reads, SetupKey
from shoplog.log.setups.lines import Entry, Section, SetupLines, clipped, nearest, place, read_lines
from shoplog.log.setups.operations import Cut, operation_of
from shoplog.log.setups.quantities import NOT_KIND, Evaluate, quantity, shifted, whole
from shoplog.problems import Grade, Mistake, Problem, Span, message, near, regrade
from shoplog.trade.declare import TradeError
from shoplog.values import Value, plain

__all__ = ["SETUP_KEYS", "SetupKey", "read_setup"]

NOT_DATE = message(
    "setup-date",
    "`{text}` is not a date",
    hint="write year, month and day: 2026-03-14",
    example="```setup\ndate: 14.3.2026\n```\n",
)
NO_DAY = message(
    "setup-no-day",
    "{text} is on no calendar",
    example="```setup\ndate: 2026-02-30\n```\n",
)
CHOICE = message(
    "setup-choice",
    "`{key}` is {wanted}, and this is `{text}`",
    example="```setup\noutcome: god\n```\n",
)
OFF_DIAMETER = message(
    "setup-off-diameter",
    "`off diameter` belongs to turning, and this is {family}",
    hint="a depth of cut is along the cutter's axis here",
    example="```setup\noperation: milling\nplanned:\n  depth of cut: 1 mm off diameter\n```\n",
)
NO_MACHINE = message(
    "setup-machine",
    "the shop profile has no machine `{name}`",
    grade=Grade.CAUTION,
    example="",
)

UNKNOWN_MATERIAL = message(
    "setup-material",
    "no row of the materials knows `{name}`",
    hint="{near}",
    example="```setup\nmaterial: unobtainium\nplanned:\n  speed: 500 rpm\n```\n",
)

_DATE = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)
MOST_WORDS = 50
MOST_NAME = 200


def read_setup(
    block: Block, path: str, evaluate: Evaluate, shop: ShopProfile | None = None
) -> tuple[SetupReport | None, tuple[Problem, ...]]:
    """Read a setup block.

    Parameters
    ----------
    block : Block [-]
        Its lines; those of a block that holds nothing give no report, and no problem here.
    path : str [-]
        The page's path, as problems name it.
    evaluate : function [-]
        Gives the value of an expression's text; raises `Mistake` or `Waits`.
    shop : ShopProfile [-]
        The shop profile, where there is one.

    Returns
    -------
    tuple [-]
        The setup, or None; and the problems of all grades, in the order of the lines.
    """
    lines = read_lines(block.lines, path)
    if not (lines.top.entries or lines.planned or lines.ran or lines.problems):
        return None, ()
    reader = _Setup(path, evaluate, shop)
    reader.problems += lines.problems
    fields = reader.fields(lines.top)
    reader.resolve(fields, lines.top)
    reader.known_material(lines)
    planned = reader.run(lines.planned, fields) if lines.planned else None
    ran = tuple(reader.run(section, fields) for section in lines.ran)
    for section in lines.spare:
        reader.run(section, fields)
    problems = sorted(reader.problems, key=lambda found: (found.place.line, found.place.column))
    return SetupReport(fields, planned, ran, tuple(reader.notes)), tuple(problems)


@dataclass(slots=True)
class _Setup:
    path: str
    evaluate: Evaluate
    shop: ShopProfile | None
    problems: list[Problem] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    told: list[str] = field(default_factory=list)
    """Notes of the place that is being read."""
    machine: Machine | None = None
    holder: Holder | None = None
    cutter: Cutter | None = None
    family: str = ""

    def problem(self, mistake: Mistake, entry: Entry, grade: Grade | None = None) -> None:
        span = shifted(mistake, entry.offset, len(entry.text))
        found = mistake.at(place(self.path, entry.line, span.start, span.end))
        self.problems.append(regrade(found, grade) if grade else found)

    def known_material(self, lines: SetupLines) -> None:
        """A plan for a material that no row knows is a problem; what was cut is history."""
        entry = lines.top.entries.get("material")
        if entry is None or not entry.text:
            return
        grade = None if lines.planned else Grade.CAUTION
        try:
            material_known_by(entry.text)
            found = hardness_mistake(entry.text)
        except TradeError as error:
            name = clipped(entry.text)
            found = Mistake(UNKNOWN_MATERIAL, name=name, near=error.hint)
        if found:
            self.problem(found, entry, grade)

    def fields(self, section: Section) -> dict[str, SetupField]:
        """Every line of a place, with its value where it has one."""
        self.told = self.notes if section.kind == "setup" else []
        return {key: self.read(entry) for key, entry in section.entries.items()}

    def read(self, entry: Entry) -> SetupField:
        """A line: its text as written, and its value; a mistake in it is a problem."""
        made = SetupField(entry.key, entry.text, entry.line.number)
        if not entry.good:
            return made
        try:
            return replace(made, value=self.value(SETUP_KEYS[entry.key], entry))
        except Mistake as mistake:
            self.problem(mistake, entry)
        except Waits as waits:
            self.told.append(f"{entry.key} waits for `{waits.name}`, which could not be worked out")
            return replace(made, waits=waits.name)
        return made

    def value(self, key: SetupKey, entry: Entry) -> PageValue | None:
        """What the text of a key is read as; nothing for what stays a text."""
        match key.reads:
            case Reads.DATE:
                return _date(entry.text)
            case Reads.WHOLE:
                return whole(key.name, entry.text, self.evaluate, key.least)
            case Reads.ONE_OF:
                return _choice(key, entry.text)
            case Reads.WORDS:
                return self.words(key, entry.text)
            case Reads.CUTTER:
                return self.read_cutter(entry)
            case Reads.QUANTITY:
                return self.quantity(key, entry.text)
        return None

    def words(self, key: SetupKey, text: str) -> tuple[str, ...]:
        """Texts between commas; one that is near to a word with a meaning gets a note."""
        made = []
        for word in (part.strip() for part in text.split(",", MOST_WORDS)):
            known = word.casefold() in key.choices
            close = near(word, key.choices) if not known and len(word) < 20 else ""
            if close:
                self.told.append(f"{key.name} `{clipped(word)}` is kept; did you mean {close}?")
            made += [word.casefold() if known else word] if word else []
        return tuple(made)

    def read_cutter(self, entry: Entry) -> Cutter:
        """A cutter of the shop profile by its name, or one that the line describes."""
        found = self.shop.cutter(entry.text) if self.shop and len(entry.text) < MOST_NAME else None
        if found:
            self.cutter = found
            return found
        made = read_cutter(entry.text, self.evaluate)
        for mistake, span in made.mistakes:
            self.problem(_spanned(mistake, span), entry)
        for text in made.unread:
            self.told.append(f"`{clipped(text)}` of the cutter is kept as text")
        self.cutter = made.cutter()
        return self.cutter

    def quantity(self, key: SetupKey, text: str) -> PageValue:
        """A quantity of the kinds that a key takes; `by hand` for a feed."""
        if text.casefold() == BY_HAND:
            if key.name == "feed":
                return BY_HAND
            hint = f"leave the line `{key.name}` out, and say it in `remarks`"
            data = {"key": key.name, "wanted": key.wanted, "found": "no number"}
            raise Mistake(NOT_KIND, Span(0, len(text)), hint=hint, **data)
        off = _off_diameter(text) if key.name == "depth of cut" else None
        found = quantity(
            key.name,
            off or text,
            self.evaluate,
            key.wanted,
            key.units,
            zero=key.least == 0,
        )
        return self.radial(found, text) if off else found

    def radial(self, found: Value, text: str) -> Value:
        """The depth of cut in turning that a dial reading off the diameter stands for."""
        if self.family not in ("", "turning"):
            start = text.casefold().rindex("off")
            raise Mistake(OFF_DIAMETER, Span(start, len(text)), family=self.family)
        self.told.append("depth of cut was read off the diameter: half of it is radial")
        return found / plain(2)

    def resolve(self, fields: dict[str, SetupField], top: Section) -> None:
        """Find the machine and what holds the work in the shop profile, and the operation."""
        if self.shop is None:
            return self._operation(fields)
        machine, holding = fields.get("machine"), fields.get("holding")
        if machine and machine.text:
            self.machine = self.shop.machine(machine.text[:MOST_NAME])
            if self.machine:
                fields["machine"] = replace(machine, value=self.machine.name)
            elif self.shop.machines:
                hint = nearest(machine.text, [one.name for one in self.shop.machines])
                mistake = Mistake(NO_MACHINE, hint=hint, name=clipped(machine.text))
                self.problem(mistake, top.entries["machine"])
        if holding:
            self.holder = self.shop.holder(holding.text[:MOST_NAME].split(",")[0])
        return self._operation(fields)

    def _operation(self, fields: dict[str, SetupField]) -> None:
        found = self.cut(fields).operation
        self.family = found.family if found else ""

    def cut(self, fields: dict[str, SetupField]) -> Cut:
        """What the figures need of the lines above the runs."""
        text = fields["operation"].text if "operation" in fields else ""
        operation = operation_of(text, self.machine.kind if self.machine else "")
        own = self.cutter.diameter if self.cutter else None
        cutter_diameter = _value(fields, "cutter diameter") or own
        diameter, diameter_is = _value(fields, "diameter"), "diameter"
        turns = operation is not None and operation.family == "turning"
        if cutter_diameter and not turns and (operation or diameter is None):
            diameter, diameter_is = cutter_diameter, "cutter diameter"
        teeth = _value(fields, "teeth") or (self.cutter.teeth if self.cutter else None)
        return Cut(
            operation,
            text,
            diameter,
            diameter_is,
            cutter_diameter,
            teeth,
            self.machine,
            self.holder,
        )

    def run(self, section: Section, above: dict[str, SetupField]) -> Run:
        """A plan or a run: its lines and its figures."""
        fields = self.fields(section)
        told = self.told
        figures = work_out(section.kind, fields, self.cut(above))
        grade = Grade.CAUTION if section.kind == "ran" else None
        for key, mistake in figures.findings:
            self.problem(mistake, section.entries[key], grade)
        derived = tuple(figures.derived)
        judged, why_not = judge_run(fields, above, self.cut(above), self.cutter, derived)
        if judged is not None and section.head is not None:
            where = place(self.path, section.head)
            found = [mistake.at(where) for mistake in findings_of(judged)]
            self.problems += [regrade(one, grade) if grade else one for one in found]
        notes = (*told, *self._dial(fields), *figures.notes, *([why_not] if why_not else []))
        return Run(
            section.kind,
            section.line,
            fields,
            derived,
            tuple(dict.fromkeys((*figures.cautions, *(judged.cautions if judged else ())))),
            tuple(dict.fromkeys(notes)),
            judged,
        )

    def _dial(self, fields: dict[str, SetupField]) -> Iterable[str]:
        """Say how a depth is meant where the machine's dial reads the diameter."""
        depth = fields.get("depth of cut")
        reads = self.machine.dial_reads if self.machine else ""
        if self.family != "turning" or reads != "diameter" or not depth or depth.value is None:
            return
        if self.machine and not _off_diameter(depth.text):
            name = clipped(self.machine.name)
            yield f"depth of cut is radial; the dial of {name} reads diameter, and shows twice that"


def _value(fields: dict[str, SetupField], key: str) -> Value | None:
    found = fields[key].value if key in fields else None
    return found if isinstance(found, Value) else None


def _date(text: str) -> str:
    """A day as ISO 8601 writes it."""
    if not _DATE.fullmatch(text):
        raise Mistake(NOT_DATE, text=clipped(text))
    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        raise Mistake(NO_DAY, text=text) from None


def _choice(key: SetupKey, text: str) -> str:
    word = text.casefold()
    if word in key.choices:
        return word
    hint = nearest(text, key.choices)
    if not hint and word.split()[0].rstrip(",;:.") in key.choices:
        hint = "what else is to say goes under `remarks`"
    raise Mistake(CHOICE, hint=hint, key=key.name, wanted=key.wanted, text=clipped(text))


def _off_diameter(text: str) -> str:
    """The text before `off diameter`, or nothing where that is not said."""
    words = text.split()
    if [word.casefold() for word in words[-2:]] != ["off", "diameter"]:
        return ""
    return text[: text.casefold().rindex("off")].rstrip()


def _spanned(mistake: Mistake, span: Span) -> Mistake:
    return Mistake(mistake.message, span, hint=mistake.hint, **mistake.data)
