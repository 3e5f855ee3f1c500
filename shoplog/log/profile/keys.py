"""The keys of the shop profile, each declared once.

Reading, near hints, what a thing tells of itself, the reference's page and the JSON Schema that
editors check by come from this one table.
"""

from __future__ import annotations

from shoplog.log.profile.declare import Reads, ShopKey, ShopThing
from shoplog.tables import table
from shoplog.trade.hole_work.drills import SETS

__all__ = ["AXES", "SHOP", "THINGS", "Reads", "ShopKey", "ShopThing"]

_K, _R = ShopKey, Reads
_LENGTH, _SPEED, _ANGLE = ("mm",), ("rpm", "1/min"), ("deg",)
_FEED = ("mm/rev", "mm/min")
_GAUGED = ("mm", "deg", "N*m", "rpm", "g")
AXES = ("x", "y", "z", "long", "cross", "vertical", "top slide", "quill", "tailstock")
"""What a slide or a screw is called; a profile uses the words of its machines."""

_NAME = _K("name", _R.TEXT, "What a page calls it.")
_REMARKS = _K("remarks", _R.REMARKS, "What else is worth keeping.")
_MARKED = _K(
    "marked speed",
    _R.QUANTITY,
    "The greatest speed that is marked on it. A setup is held to it.",
    _SPEED,
    examples=("2500 rpm",),
)
_TAPER = _K("taper", _R.TAPER, "What it sits in or carries.", examples=("Morse 2", "B16"))
_RUNOUT = _K("runout", _R.QUANTITY, "How far out it runs.", _LENGTH, examples=("0.03 mm",))


def _length(name: str, doc: str, *examples: str, behind: str = "") -> ShopKey:
    return _K(name, _R.QUANTITY, doc, _LENGTH, examples=examples, behind=behind)


_MACHINE = ShopThing(
    "A machine",
    "a machine",
    (
        _NAME,
        _K(
            "kind",
            _R.TEXT,
            "lathe, mill, drill press, grinder, or another.",
            examples=("lathe", "mill", "drill press", "grinder"),
            likely=True,
        ),
        _K(
            "speeds",
            _R.STEPS,
            "Of its spindle: the steps with commas between, a table of its belts and gears, or"
            " `100 rpm to 2500 rpm`.",
            _SPEED,
            examples=("120 rpm, 200 rpm, 350 rpm", "100 rpm to 2500 rpm"),
            attribute="drive",
        ),
        _K(
            "greatest speed",
            _R.QUANTITY,
            "What it is rated for. Without it the fastest step or end of the range counts.",
            _SPEED,
            examples=("2000 rpm",),
            attribute="rated_speed",
        ),
        _K(
            "feeds",
            _R.STEPS,
            "Of its power feed: steps or a range, by the rev or by the minute.",
            _FEED,
            examples=("0.05 mm/rev, 0.1 mm/rev", "20 mm/min to 300 mm/min"),
            attribute="feed_drive",
        ),
        _K(
            "power feed",
            _R.CHOICES,
            "`yes`, `no`, or the slides that have it.",
            choices=("yes", "no", *AXES),
            examples=("yes", "long, cross"),
        ),
        _K("power", _R.QUANTITY, "Of its motor.", ("kW",), examples=("0.55 kW", "3/4 hp")),
        _K(
            "torque",
            _R.QUANTITY,
            "The most that its spindle gives.",
            ("N*m",),
            examples=("40 N*m",),
        ),
        _K(
            "feed force",
            _R.QUANTITY,
            "The most that the drive of table or carriage gives.",
            ("N",),
            examples=("2 kN",),
        ),
        _K(
            "travel",
            _R.AXES,
            "How far each slide goes.",
            _LENGTH,
            examples=("400 mm long, 150 mm cross", "500 mm"),
        ),
        _K(
            "backlash",
            _R.AXES,
            "Of the screws. The largest counts where a cut climbs.",
            _LENGTH,
            examples=("6 thou long", "0.12 mm on the cross slide"),
            zero=True,
        ),
        _K(
            "table lock",
            _R.CHOICE,
            "What bears a climbing cut.",
            choices=(
                *("both slides", "one slide", "compensated screws"),
                *("not compensated", "none", "yes", "no"),
            ),
            examples=("both slides",),
        ),
        _K(
            "dial reads",
            _R.CHOICE,
            "What the dial of the cross slide shows.",
            choices=("radius", "diameter"),
            examples=("diameter",),
        ),
        _K(
            "dial division",
            _R.AXES,
            "What a dial steps by.",
            _LENGTH,
            examples=("0.02 mm", "0.001 in", "0.02 mm cross, 0.1 mm long"),
        ),
        _K(
            "spindle taper",
            _R.TAPER,
            "The taper in its spindle.",
            examples=("Morse 3", "7:24 ISO 30"),
        ),
        _length("spindle bore", "What goes through the spindle.", "26 mm"),
        _K("tailstock taper", _R.TAPER, "The taper in its tailstock.", examples=("Morse 2",)),
        _length("swing", "The greatest diameter over the bed.", "250 mm"),
        _length("swing over slide", "The greatest diameter over the cross slide.", "150 mm"),
        _length("centre height", "From the bed to the centres.", "125 mm"),
        _length("between centres", "The greatest length between centres.", "500 mm"),
        _K(
            "leadscrew",
            _R.LEADSCREW,
            "Its lead, or its threads per inch.",
            ("mm", "tpi"),
            examples=("3 mm", "8 tpi"),
        ),
        _K(
            "change wheels",
            _R.COUNTS,
            "The teeth of the wheels that belong to it.",
            examples=("20, 25, 30, 40, 40, 127",),
        ),
        _REMARKS,
    ),
    in_line=("kind",),
)


def _holder(title: str, what: str, *keys: ShopKey, commas: bool = True) -> ShopThing:
    form = _K("kind", _R.TEXT, "Which kind, in your words.", attribute="form")
    return ShopThing(title, what, (_NAME, form, *keys, _REMARKS), ("kind",), commas=commas)


_GRIPS = _K("grips", _R.RANGE, "What it holds.", _LENGTH, examples=("3 mm to 80 mm",), zero=True)
_JAWS = _K("jaws", _R.COUNT, "How many.", examples=("3",))
_DIAMETER = _length("diameter", "Its outside diameter.", "125 mm")
_CHUCK = _holder(
    "A chuck",
    "a chuck",
    _DIAMETER,
    _JAWS,
    _GRIPS,
    _length("bore", "What goes through it.", "25 mm"),
    _TAPER,
    _RUNOUT,
    _MARKED,
)
_FACEPLATE = _holder("A faceplate", "a faceplate", _DIAMETER, _MARKED)
_COLLETS = _holder(
    "Collets",
    "a set of collets",
    _GRIPS,
    _K(
        "sizes",
        _R.LENGTHS,
        "Of its collets.",
        _LENGTH,
        examples=("3 mm, 4 mm, 6 mm, 1/4 in",),
    ),
    _TAPER,
    _RUNOUT,
    _MARKED,
    commas=False,
)
_VISE = _holder(
    "A vise",
    "a vise",
    _length("jaw width", "Along its jaws.", "100 mm", behind="wide"),
    _length("opening", "How far it opens.", "80 mm"),
    _length("jaw height", "From its bed to the top of the jaws.", "32 mm"),
    _MARKED,
)
_CENTRE = _holder(
    "A centre",
    "a centre",
    _TAPER,
    _K("point angle", _R.QUANTITY, "Of its point.", _ANGLE, examples=("60 deg",)),
    _RUNOUT,
    _MARKED,
)
_STEADY = _holder("A steady", "a steady", _GRIPS, _MARKED)

_CUTTER = ShopThing(
    "A cutter",
    "a cutter",
    (
        _NAME,
        _K(
            "kind",
            _R.TEXT,
            "turning tool, end mill, drill, or another.",
            examples=("turning tool", "end mill", "boring bar", "slot drill", "parting blade"),
        ),
        _K("material", _R.TEXT, "HSS, carbide, or another.", examples=("HSS", "carbide")),
        _length("diameter", "Of a cutter that turns, or of a boring bar.", "10 mm"),
        _K("teeth", _R.COUNT, "How many.", examples=("4",), also=("flutes",), one=("tooth",)),
        _length("nose radius", "Of a turning tool.", "0.4 mm"),
        _length("corner radius", "Of a milling cutter.", "0.5 mm"),
        _length(
            "width", "Of a saw, a slotting cutter or a parting blade.", "2.5 mm", behind="wide"
        ),
        _length("cutting length", "Of its edges, along the axis.", "22 mm"),
        _length("shank", "The diameter that is held.", "10 mm"),
        _K(
            "point angle",
            _R.QUANTITY,
            "Of a drill or a countersink.",
            _ANGLE,
            examples=("118 deg",),
        ),
        _MARKED,
        _K("remarks", _R.REMARKS, _REMARKS.doc, attribute="other"),
    ),
    in_line=("kind", "material"),
)
_INSTRUMENT = ShopThing(
    "A measuring instrument",
    "a measuring instrument",
    (
        _NAME,
        _K(
            "kind",
            _R.TEXT,
            "micrometer, caliper, bore gauge, dial indicator, or another.",
            examples=("micrometer", "caliper", "bore gauge", "dial indicator"),
        ),
        _K(
            "range",
            _R.RANGE,
            "What it measures.",
            _GAUGED,
            examples=("0 mm to 25 mm", "0 in to 1 in"),
            zero=True,
        ),
        _K(
            "division",
            _R.QUANTITY,
            "What its scale or display steps by.",
            _GAUGED,
            examples=("0.01 mm", "0.0001 in"),
            also=("resolution", "graduation"),
        ),
        _K(
            "error",
            _R.QUANTITY,
            "How far it may be off, either way (k = 2).",
            _GAUGED,
            examples=("3 um", "±0.0001 in"),
            also=("uncertainty", "accuracy"),
        ),
        _K("set with", _R.TEXT, "What it is set or checked with.", examples=("gauge blocks",)),
        _REMARKS,
    ),
    in_line=("kind",),
)
_REAMER = ShopThing(
    "A reamer",
    "a reamer",
    (
        _NAME,
        _K(
            "size",
            _R.SIZE,
            "What it reams, with the class.",
            _LENGTH,
            examples=("10 mm H7", "1/4 in"),
        ),
        _K("taper", _R.TAPER, "Of a taper reamer.", examples=("1:50", "Morse 2")),
        _K("kind", _R.TEXT, "hand, machine, adjustable.", examples=("hand", "machine")),
        _K("material", _R.TEXT, "HSS, carbide, or another.", examples=("HSS",)),
        _REMARKS,
    ),
    whole="size",
    known_as="size",
    repeats=True,
)
_TAPS = ShopThing(
    "A set of taps or dies",
    "a set of taps or dies",
    (
        _NAME,
        _K(
            "threads",
            _R.THREADS,
            "Designations with commas between; `M3 to M12` is every size of first choice between.",
            examples=("M3, M4, M5x0.5", "M3 to M12", "1/4-20 UNC"),
        ),
        _K("kind", _R.TEXT, "hand, machine, spiral point.", examples=("hand", "machine")),
        _K("material", _R.TEXT, "HSS, carbon steel.", examples=("HSS", "carbon steel")),
        _REMARKS,
    ),
    whole="threads",
)
_BLOCKS = ShopThing(
    "A set of gauge blocks",
    "a set of gauge blocks",
    (
        _NAME,
        _K(
            "blocks",
            _R.BLOCKS,
            "A set that is known, or the length of each block.",
            _LENGTH,
            choices=tuple(dict.fromkeys(row["set"] for row in table("gauge_blocks_sets").rows)),
            examples=("metric 47", "1.005 mm, 1.01 mm, 10 mm"),
            attribute="content",
        ),
        _K("grade", _R.CHOICE, "By ISO 3650.", choices=("0", "1", "2"), examples=("1",)),
        _REMARKS,
    ),
    whole="blocks",
)
_DIVIDING = ShopThing(
    "A dividing head or a rotary table",
    "a dividing head",
    (
        _NAME,
        _K("ratio", _R.RATIO, "Turns of its handle for one of the work.", examples=("40", "40:1")),
        _K(
            "plates",
            _R.PLATES,
            "The holes of each circle, plate by plate.",
            examples=("15, 16, 17, 18, 19, 20",),
        ),
        _length("centre height", "From the table to its axis.", "100 mm"),
        _K("spindle taper", _R.TAPER, "The taper in its spindle.", examples=("Morse 2",)),
        _MARKED,
        _REMARKS,
    ),
    in_line=("ratio",),
    alone=True,
)
_STOCK = ShopThing(
    "A material on the rack",
    "a material on the rack",
    (
        _NAME,
        _K(
            "material",
            _R.MATERIAL,
            "By any of its names; one that no table knows gets a caution.",
            examples=("bright mild steel", "cast iron", "1.0503"),
        ),
        _K(
            "form",
            _R.TEXT,
            "round bar, flat, hexagon, tube, plate.",
            examples=("round bar", "flat"),
        ),
        _K(
            "size",
            _R.BAR,
            "Across it: a diameter, or width and thickness.",
            _LENGTH,
            examples=("25 mm", "50 mm x 6 mm"),
        ),
        _length("length", "How long the piece is.", "600 mm", behind="long"),
        _K("count", _R.COUNT, "How many pieces.", examples=("2",)),
        _REMARKS,
    ),
    in_line=("material", "form"),
    known_as="material",
    repeats=True,
)

THINGS: dict[str, ShopThing] = {
    "machines": _MACHINE,
    "chucks": _CHUCK,
    "faceplates": _FACEPLATE,
    "collets": _COLLETS,
    "vises": _VISE,
    "centres": _CENTRE,
    "steadies": _STEADY,
    "cutters": _CUTTER,
    "taps": _TAPS,
    "dies": _TAPS,
    "reamers": _REAMER,
    "gauge blocks": _BLOCKS,
    "instruments": _INSTRUMENT,
    "dividing head": _DIVIDING,
    "rotary table": _DIVIDING,
    "materials": _STOCK,
}
"""What a key of the workshop holds, where that has keys of its own."""

SHOP = ShopThing(
    "The workshop",
    "the shop profile",
    (
        _K("name", _R.TEXT, "What the workshop is called."),
        _K("machines", _R.THINGS, "Its machines."),
        _K("chucks", _R.THINGS, "Each with its marked speed."),
        _K("faceplates", _R.THINGS, "Each with its marked speed."),
        _K("collets", _R.THINGS, "Sets of collets."),
        _K("vises", _R.THINGS, "What holds work on a table."),
        _K("centres", _R.THINGS, "Live and dead ones.", also=("centers",)),
        _K("steadies", _R.THINGS, "What bears long work."),
        _K("cutters", _R.THINGS, "Each cutter's name, and behind it `kind, material, key value…`."),
        _K(
            "drills",
            _R.CHOICES,
            f"The sets at hand, some of {', '.join(SETS)}.",
            choices=SETS,
            examples=("metric, number",),
            attribute="drill_sets",
        ),
        _K("taps", _R.THINGS, "Designations of threads, or sets of them by name."),
        _K("dies", _R.THINGS, "As taps."),
        _K("reamers", _R.THINGS, "The size and class of each."),
        _K("gauge blocks", _R.THINGS, "A set that is known, or the length of each block."),
        _K("instruments", _R.THINGS, "What measures, with its error."),
        _K("dividing head", _R.THING, "Its ratio and its plates."),
        _K("rotary table", _R.THING, "As the dividing head."),
        _K("materials", _R.THINGS, "What is on the rack."),
        _K(
            "change wheels",
            _R.COUNTS,
            "The teeth of the wheels at hand.",
            examples=("20, 25, 30, 40, 40, 127",),
        ),
        _REMARKS,
    ),
)
"""The keys at the margin of `shop.yml`."""
