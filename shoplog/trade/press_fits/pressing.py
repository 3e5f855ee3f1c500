"""Press fits to DIN 7190-1: what a hole and a shaft with interference hold, and what they bear.

The figures come from the limits of the two sizes: what is held is counted at the least
interference, what the parts must bear at the greatest.
"""

from __future__ import annotations

from shoplog.trade.declare import Micrometre, Millimetre, Number, Size, TradeError, offered
from shoplog.trade.limits_and_fits.fits import fit
from shoplog.trade.machining.cutting import require_positive
from shoplog.trade.press_fits.cylinders import DIN_7190, require_hub, require_shaft
from shoplog.trade.press_fits.elastic import ElasticMaterial, material_or_steel
from shoplog.trade.press_fits.joint_capacity import smoothing_loss
from shoplog.trade.press_fits.press_record import JointFriction, PressFit, unknown_friction

__all__ = ["joint_friction", "press_fit", "refuse_yield", "require_interference"]

USUAL_ROUGHNESS = 6.3  # µm Rz: fine turned or reamed, common practice, no source


@offered(source="common practice, no source")
def joint_friction(least: Number, greatest: Number) -> JointFriction:
    """Friction of a joint as a range of one's own, where none of the table's states fits.

    Parameters
    ----------
    least : float [-]
        0 to 1; what the joint is counted on for.
    greatest : float [-]
        From the least to 1; what a press must overcome.

    Returns
    -------
    JointFriction [-]
        To give as `friction` of a press fit.

    Notes
    -----
    `friction="pressed dry"` and the like take the standard's figures.

    Examples
    --------
    >>> joint_friction(0.1, 0.16).describe()
    'Friction 0.1 to 0.16 (as given).'

    References
    ----------
    None; DIN 7190-1 has figures for common pairs.
    """
    if not 0 <= least <= greatest <= 1:
        raise TradeError(
            f"a friction from {least:g} to {greatest:g} is none: they must be 0 to 1,"
            " the least first",
            argument="least",
        )
    return JointFriction("as given", least, greatest)


@offered(source=f"{DIN_7190}; Lamé's thick cylinder, Shigley, 8th ed. 2006, section 3-16")
def press_fit(
    hole: Size,
    shaft: Size,
    length: Millimetre,
    hub_diameter: Millimetre,
    hub: ElasticMaterial | None = None,
    shaft_material: ElasticMaterial | None = None,
    shaft_bore: Millimetre = 0,
    friction: JointFriction | None = None,
    hub_roughness: Micrometre = USUAL_ROUGHNESS,
    shaft_roughness: Micrometre = USUAL_ROUGHNESS,
) -> PressFit:
    """What a hole and a shaft with interference hold, and what they must bear.

    From the limits come the least and the greatest interference, less G = 0.8 (RzA + RzI) for
    smoothing; from those the pressure (Lamé), the stresses, what the joint holds and the press
    force.

    Parameters
    ----------
    hole : Size [mm]
        The bore of the outer part, with a class or limits.
    shaft : Size [mm]
        The inner part, with a class or limits and the same nominal size.
    length : float [mm]
        Over 0; of the joint, without chamfers.
    hub_diameter : float [mm]
        Outside of the outer part, over the joint's diameter.
    hub : ElasticMaterial [-]
        Such as `"cast iron"`; plain steel where nothing is said.
    shaft_material : ElasticMaterial [-]
        Such as `"bronze"`; plain steel where nothing is said.
    shaft_bore : float [mm]
        0 for a solid inner part, below the joint's diameter.
    friction : JointFriction [-]
        `"pressed dry"`, `"pressed oiled"`, `"shrunk"`, …; the whole band where nothing is said.
    hub_roughness : float [um]
        0 to 1000; Rz of the bore.
    shaft_roughness : float [um]
        0 to 1000; Rz of the inner part.

    Returns
    -------
    PressFit [-]
        Pressures, stresses and safeties, torque and force held, press force, closing of the bore.

    Raises
    ------
    TradeError
        There is no interference, a wall is not over 0, or a part would yield.

    Notes
    -----
    Elastic, at rest and at 20 degC; both parts as long as the joint. A load that comes and goes
    holds less, for the joint frets at its ends.

    Examples
    --------
    >>> hole, shaft = Size(30, 0, 0.021, "H7"), Size(30, 0.035, 0.048, "s6")
    >>> joint = press_fit(hole, shaft, 25, 60, hub=ElasticMaterial.from_text("C45"))
    >>> round(joint.pressure_min, 1), round(joint.pressure_max, 1), joint.gives_way_first
    (10.1, 98.1, 'hub')

    References
    ----------
    DIN 7190-1:2017; Shigley, 8th ed. 2006, sections 3-16 and 7-8.
    """
    pair = fit(hole, shaft)
    require_positive("length", length, "mm")
    require_hub(hole.max, hub_diameter)
    require_shaft(shaft.min, shaft_bore)
    joint = PressFit(
        hole.nominal,
        length,
        hub_diameter,
        shaft_bore,
        material_or_steel(hub),
        material_or_steel(shaft_material),
        friction or unknown_friction(),
        pair.interference_min,
        pair.interference_max,
        smoothing_loss(hub_roughness, shaft_roughness),
    )
    require_interference(joint, "shaft")
    for part in ("hub", "shaft"):
        refuse_yield(joint, part)
    return joint


def require_interference(joint: PressFit, argument: str) -> None:
    """Refuse two sizes of which not even the tightest pair has interference left."""
    if joint.interference_max > joint.smoothing:
        return
    if joint.interference_max <= 0:
        what = f"a clearance of {0 - joint.interference_max:.3g} µm or more"
    else:
        what = (
            f"{joint.interference_max:.3g} µm of interference at the most, and smoothing takes"
            f" {joint.smoothing:.3g} µm"
        )
    raise TradeError(
        f"these two sizes do not press: they have {what}",
        hint="a class s6 or u6 in a hole H7, say, or smoother faces",
        argument=argument,
    )


def refuse_yield(joint: PressFit, part: str, named: str = "") -> None:
    """Refuse a joint of which a part yields in the tightest pair; `named` as the page does."""
    wall, pressure = joint.wall(), joint.pressure_max
    safety = wall.safety(part, pressure)
    if safety is None or safety >= 1:
        return
    material = joint.hub if part == "hub" else joint.shaft
    limit = f"{material.name} yields at {material.yield_strength:g} MPa"
    if material.brittle:
        limit = f"half the tensile strength of {material.name} is {material.yield_strength:g} MPa"
    most = wall.interference(pressure * safety) + joint.smoothing
    raise TradeError(
        f"the {named or part} gives way: at the greatest interference of"
        f" {joint.interference_max:.0f} µm its equivalent stress is"
        f" {wall.equivalent(part, pressure):.0f} MPa, and {limit}",
        hint=f"it bears {most:.0f} µm at the most: a looser class, a thicker wall or a stronger"
        " material",
        argument="hole" if part == "hub" else "shaft",
    )
