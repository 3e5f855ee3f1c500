"""Ranges of cutting speed and feed, from handbooks, by operation, material, cutter and rigidity.

They are bands: sources disagree by a third and more. An operation or a cutter without figures of
its own takes a share of another's, and a note says so.
"""

from __future__ import annotations

from dataclasses import replace

from shoplog.trade.declare import (
    MetrePerMinute,
    Millimetre,
    MillimetrePerRev,
    MillimetrePerTooth,
    TradeError,
    offered,
)
from shoplog.trade.machining.cutting import require_positive, require_within
from shoplog.trade.machining.cutting_adjusting import (
    for_coolant,
    for_depth,
    for_feed,
    for_stick_out,
    for_width,
    scaled,
)
from shoplog.trade.machining.cutting_bands import depth_of, family_of, feed_band, speed_band
from shoplog.trade.machining.cutting_naming import (
    Row,
    WorkGroup,
    named_cutter,
    named_operation,
    named_rigidity,
    work_group,
)
from shoplog.trade.machining.cutting_record import CutRating, CuttingRange
from shoplog.trade.machining.cutting_remarks import cautions_of, disagreements, operation_notes

__all__ = ["CutRating", "CuttingRange", "corrected_range", "cut_rating", "cutting_range"]

BANDS = (
    "handbooks, training manuals and makers' tables, each named in the range's `source` and in the"
    " head of the table cutting_speeds"
)
CORRECTIONS = "makers' and handbooks' corrections, each named in the table cutting_corrections"
LEAST_DIAMETER, GREATEST_DIAMETER = 0.1, 2000.0
POINT_SPREAD = 0.1
"""A single printed figure is rated as a band of a tenth either way."""


@offered(source=BANDS)
def cutting_range(
    operation: str,
    material: str,
    cutter: str = "HSS",
    diameter: Millimetre | None = None,
    rigidity: str = "ordinary",
) -> CuttingRange:
    """Range of cutting speed and feed of an operation in a material.

    Parameters
    ----------
    operation : str [-]
        `turning`, `facing`, `drilling`, `slot milling`, `machine tapping` and so on; `rough` or
        `finish` may stand beside it (`turning, finish`).
    material : str [-]
        Any name of a material (`EN8`, `1.0503`, `brass`), or of a group (`ISO M`).
    cutter : str [-]
        `HSS`, `cobalt HSS`, `carbon steel`, `brazed carbide`, `indexable carbide` or
        `ceramic insert`.
    diameter : float [mm]
        0.1 to 2000; of the cutter, in turning of the work. Feeds of drills, reamers and end mills
        are not known without it.
    rigidity : str [-]
        `rigid`, `ordinary` or `light`: of machine, holding and work together.

    Returns
    -------
    CuttingRange [-]
        The bands, their source, what was assumed and the cautions.

    Raises
    ------
    TradeError
        A word that no row knows, or a cutter that does not cut that material so.

    Notes
    -----
    Starting points for a sharp edge, cutting fluid where it is usual, and ordinary depths. What
    the machine itself has done well comes before them.

    Examples
    --------
    >>> cut = cutting_range("slot milling", "low-carbon steel", diameter=3.97)
    >>> cut.describe()
    'slot milling of low-carbon steel with HSS: 21.3 to 36.6 m/min, 0.0079 to 0.027 mm a tooth...'
    >>> cutting_range("turning, finish", "brass").feed_per_rev_max
    0.254

    References
    ----------
    The head of the table cutting_speeds names every source, that of cutting_feeds those of feeds.
    """
    if diameter is not None:
        require_within("diameter", diameter, "mm", LEAST_DIAMETER, GREATEST_DIAMETER)
    row, stage = named_operation(operation)
    edge, edge_notes = named_cutter(cutter)
    firmness = named_rigidity(rigidity)
    work = work_group(material)
    made = _range(row, stage, work, edge, diameter)
    notes = (*work.notes, *edge_notes, *made.notes)
    made = replace(made, material=material, notes=notes, rigidity=firmness["word"])
    return made if made.family == "grinding" else scaled(made, firmness)


@offered(source=CORRECTIONS)
def corrected_range(
    cut: CuttingRange,
    depth: Millimetre | None = None,
    width: Millimetre | None = None,
    stick_out: Millimetre | None = None,
    bar_diameter: Millimetre | None = None,
    coolant: str = "flood",
    feed_by: str = "power",
) -> CuttingRange:
    """Range of a cut after what its depth, width, stick-out, coolant and feed ask.

    Parameters
    ----------
    cut : CuttingRange [-]
        As `cutting_range` gives it; with its diameter, where a depth or a width is given.
    depth : float [mm]
        Over 0; of the hole in drilling, axial in milling, radial in turning.
    width : float [mm]
        Over 0, at most the cutter's diameter; radial, in milling.
    stick_out : float [mm]
        Over 0; of the milling cutter from its holder, or of the boring bar from its clamp.
    bar_diameter : float [mm]
        Over 0; of the boring bar.
    coolant : str [-]
        `flood`, `brushed` or `dry`.
    feed_by : str [-]
        `power` or `hand`.

    Returns
    -------
    CuttingRange [-]
        The bands corrected, each correction in the notes.

    Raises
    ------
    TradeError
        A correction that the operation does not know, or one whose diameter is not given.

    Notes
    -----
    The factors multiply. They hold one at a time in their sources; together they err to the slow
    side.

    Examples
    --------
    >>> hole = cutting_range("drilling", "low-carbon steel", diameter=5)
    >>> round(hole.speed_max, 1), round(corrected_range(hole, depth=26).speed_max, 1)
    (33.5, 23.5)

    References
    ----------
    The head of the table cutting_corrections names every source.
    """
    if stick_out is not None:
        require_within("stick_out", stick_out, "mm", LEAST_DIAMETER, GREATEST_DIAMETER)
    factors = [
        *for_depth(cut, depth),
        *for_width(cut, width),
        *for_stick_out(cut, stick_out, bar_diameter),
        *for_coolant(cut, coolant),
        *for_feed(feed_by),
    ]
    for factor in factors:
        cut = scaled(cut, factor)
    if depth is not None and cut.depth_max is not None and depth > cut.depth_max:
        deep = f"{depth:.3g} mm is deeper than the {cut.depth_max:.2g} mm that is usual"
        cut = replace(cut, cautions=(*cut.cautions, deep))
    return cut


@offered(source="common practice, no source: a band in thirds")
def cut_rating(
    cut: CuttingRange,
    cutting_speed: MetrePerMinute | None = None,
    feed_per_rev: MillimetrePerRev | None = None,
    feed_per_tooth: MillimetrePerTooth | None = None,
    depth: Millimetre | None = None,
) -> CutRating:
    """How a cut lies in its range: gentle, ordinary or brisk, under or over the band.

    Share = (value - least) / (greatest - least); gentle is the first third, brisk the last.

    Parameters
    ----------
    cut : CuttingRange [-]
        As `cutting_range` or `corrected_range` gives it.
    cutting_speed : float [m/min]
        Over 0.
    feed_per_rev : float [mm/rev]
        Over 0; for what is fed a turn.
    feed_per_tooth : float [mm/tooth]
        Over 0; for what is fed a tooth.
    depth : float [mm]
        Over 0.

    Returns
    -------
    CutRating [-]
        A word and a share for each that was given and that the range knows.

    Raises
    ------
    TradeError
        Nothing to rate, or a feed of the other kind.

    Notes
    -----
    A depth is rated against the greatest that is usual, from 0; a band of one figure as one of a
    tenth either way.

    Examples
    --------
    >>> cut = cutting_range("slot milling", "low-carbon steel", diameter=3.97)
    >>> cut_rating(cut, 27, feed_per_tooth=0.023, depth=0.25).describe()
    'An ordinary speed, a brisk feed and a gentle depth.'

    References
    ----------
    Common practice, no source.
    """
    for name, value, unit in (
        ("cutting_speed", cutting_speed, "m/min"),
        ("feed_per_rev", feed_per_rev, "mm/rev"),
        ("feed_per_tooth", feed_per_tooth, "mm/tooth"),
        ("depth", depth, "mm"),
    ):
        if value is not None:
            require_positive(name, value, unit)
    feed = _feed_to_rate(cut, feed_per_rev, feed_per_tooth)
    speeds = (cut.speed_min, cut.speed_max)
    feeds = (cut.feed_band() or (None, None, ""))[:2]
    depths = (0.0, cut.depth_max)
    asked = ((cutting_speed, speeds, "speed"), (feed, feeds, "feed"), (depth, depths, "depth"))
    shares = [_share(value, band) for value, band, _ in asked]
    missing = [
        f"the range has no {what} to rate by"
        for (value, _, what), share in zip(asked, shares, strict=True)
        if value is not None and share is None
    ]
    if not any(share is not None for share in shares):
        raise TradeError(
            missing[0] if missing else "there is nothing to rate",
            hint="give cutting_speed, a feed or depth",
        )
    return CutRating.of(shares[0], shares[1], shares[2], missing)


def _feed_to_rate(
    cut: CuttingRange, per_rev: float | None, per_tooth: float | None
) -> float | None:
    band = cut.feed_band()
    if band is None:
        return per_rev if per_rev is not None else per_tooth
    wrong = per_rev if band[2] == "mm/tooth" else per_tooth
    if wrong is not None:
        right, name = (
            ("feed_per_tooth", "a tooth") if band[2] == "mm/tooth" else ("feed_per_rev", "a turn")
        )
        other = "feed_per_rev" if right == "feed_per_tooth" else "feed_per_tooth"
        raise TradeError(f"{cut.operation} is rated by its feed {name}", hint=right, argument=other)
    return per_tooth if band[2] == "mm/tooth" else per_rev


def _share(value: float | None, band: tuple[float | None, float | None]) -> float | None:
    least, most = band
    if value is None or least is None or most is None:
        return None
    if most - least <= POINT_SPREAD * most:
        least, most = (1 - POINT_SPREAD) * least, (1 + POINT_SPREAD) * most
    return (value - least) / (most - least)


def _range(
    row: Row, stage: str, work: WorkGroup, edge: Row, diameter: float | None
) -> CuttingRange:
    family = family_of(row)
    by_hand = row["source"] == "by hand"
    speeds, sources, notes = (None, (), ()) if by_hand else speed_band(row, stage, work, edge)
    feeds, feed_sources, feed_notes = feed_band(row, stage, work, edge, diameter, family)
    kinds = {"rev": "per_rev", "tooth": "per_tooth", "stroke": "per_stroke"}
    bands: dict[str, float | None] = {
        f"feed_{kind}_{end}": feeds[index] if feeds and row["feed"] == name else None
        for name, kind in kinds.items()
        for index, end in enumerate(("min", "max"))
    }
    said = (*notes, *feed_notes, *operation_notes(row, work, by_hand, family))
    return CuttingRange(
        operation=row["operation"],
        stage=stage or None,
        material=work.name,
        group=work.name,
        iso_group=work.row["iso513"],
        cutter="wheel" if family == "grinding" else edge["cutter"],
        rigidity="ordinary",
        diameter=diameter,
        speed_min=speeds[0] if speeds else None,
        speed_max=speeds[1] if speeds else None,
        depth_max=depth_of(row, work, edge, diameter, family),
        family=family,
        source="; ".join(dict.fromkeys((*sources, *feed_sources))) or "common practice, no source",
        notes=(*said, *disagreements(row, work)),
        cautions=cautions_of(row, work),
        **bands,
    )
