"""A bush pressed into a housing: how far its bore closes, and what to make or ream it to."""

from __future__ import annotations

from dataclasses import dataclass

from shoplog.trade.declare import Micrometre, Millimetre, Size, TradeError, offered
from shoplog.trade.limits_and_fits.fits import fit, same_nominal
from shoplog.trade.machining.cutting import require_positive
from shoplog.trade.press_fits.cylinders import DIN_7190, LEAST_WALL
from shoplog.trade.press_fits.elastic import ElasticMaterial, material_or_steel
from shoplog.trade.press_fits.joint_capacity import smoothing_loss
from shoplog.trade.press_fits.press_record import (
    JointFriction,
    PressFit,
    press_cautions,
    unknown_friction,
)
from shoplog.trade.press_fits.pressing import USUAL_ROUGHNESS, refuse_yield, require_interference

__all__ = ["PressedBush", "pressed_bush"]


@dataclass(frozen=True, slots=True)
class PressedBush:
    """A bush in its housing: the joint, and the bore before and after pressing."""

    joint: PressFit
    bore_before: Size
    bore_wanted: Size | None = None
    """After pressing, where it was said."""

    @property
    def closure_min(self) -> Micrometre:
        """How much the bore closes in the loosest pair."""
        return self.joint.bore_closure_min

    @property
    def closure_max(self) -> Micrometre:
        """How much the bore closes in the tightest pair."""
        return self.joint.bore_closure_max

    @property
    def bore_after(self) -> Size:
        """The bore in the housing, before any reaming."""
        made = self.bore_before
        lower = made.lower - self.closure_max / 1000
        return Size(made.nominal, lower, made.upper - self.closure_min / 1000)

    @property
    def bore_to_make(self) -> Size | None:
        """What to bore the bush to so that every pair ends as wanted, if that can be."""
        wanted = self.bore_wanted
        if wanted is None:
            return None
        lower = wanted.lower + self.closure_max / 1000
        upper = wanted.upper + self.closure_min / 1000
        return Size(wanted.nominal, lower, upper) if lower < upper else None

    @property
    def ream_after(self) -> bool:
        """Whether the bore must be reamed or bored after pressing, for what is wanted of it."""
        wanted, after = self.bore_wanted, self.bore_after
        if wanted is None:
            return self.bush_yields
        return self.bush_yields or not wanted.min <= after.min <= after.max <= wanted.max

    @property
    def bush_yields(self) -> bool:
        """Whether the tightest pair is beyond the elastic range of the bush."""
        safety = self.joint.shaft_safety
        return safety is not None and safety < 1

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of pressing."""
        return press_cautions("pressing")

    @property
    def notes(self) -> tuple[str, ...]:
        """The joint's, and whether to ream."""
        made = list(self.joint.notes)
        if self.bush_yields:
            made.append(
                f"the bush yields in the tightest pair ({self.joint.shaft_stress_max:.0f} MPa"
                f" against {self.joint.shaft.yield_strength:g} MPa), as thin bushes often do: its"
                " bore may close more than this, and it holds less; ream it after pressing"
            )
        return (*made, *self._reaming())

    def _reaming(self) -> tuple[str, ...]:
        wanted = self.bore_wanted
        if wanted is None or not self.ream_after:
            return ()
        after = self.bore_after
        said = (
            f"ream after pressing: the bore comes out at {after.min:.3f} to {after.max:.3f} mm,"
            f" and {wanted.min:.3f} to {wanted.max:.3f} mm is wanted"
        )
        if after.max > wanted.max:
            said = (
                f"the bore may come out too large, at {after.max:.3f} mm where"
                f" {wanted.max:.3f} mm is wanted at the most: leave it smaller before pressing"
            )
        return (said,)

    def describe(self) -> str:
        """The bush in one sentence."""
        after = self.bore_after
        return (
            f"the bore closes by {self.closure_min:.0f} to {self.closure_max:.0f} µm, from"
            f" {self.bore_before.min:.3f} to {self.bore_before.max:.3f} mm before pressing to"
            f" {after.min:.3f} to {after.max:.3f} mm after it."
        )


@offered(source=f"{DIN_7190}; Lamé's thick cylinder, Shigley, 8th ed. 2006, section 3-16")
def pressed_bush(
    hole: Size,
    bush: Size,
    bore: Size,
    length: Millimetre,
    housing_diameter: Millimetre,
    bush_material: ElasticMaterial,
    housing: ElasticMaterial | None = None,
    wanted: Size | None = None,
    friction: JointFriction | None = None,
    hub_roughness: Micrometre = USUAL_ROUGHNESS,
    bush_roughness: Micrometre = USUAL_ROUGHNESS,
) -> PressedBush:
    """How far a bush's bore closes when it is pressed in, and so whether to ream it afterwards.

    The joint's pressure closes the bore by 2 p D^2 d / (E (D^2 - d^2)), least in the loosest pair
    and most in the tightest.

    Parameters
    ----------
    hole : Size [mm]
        The housing's bore, with a class or limits.
    bush : Size [mm]
        The outside of the bush, with a class or limits and the same nominal size.
    bore : Size [mm]
        The bush's bore before pressing, with a class or limits.
    length : float [mm]
        Over 0; of the bush in the housing.
    housing_diameter : float [mm]
        Outside of the housing round the bush; the nearest edge counts double, as a circle.
    bush_material : ElasticMaterial [-]
        Such as `"bronze"`.
    housing : ElasticMaterial [-]
        Such as `"cast iron"`; plain steel where nothing is said.
    wanted : Size [mm]
        The bore that is wanted after pressing, with a class or limits.
    friction : JointFriction [-]
        `"pressed dry"`, `"pressed oiled"`, …; the whole band where nothing is said.
    hub_roughness : float [um]
        0 to 1000; Rz of the housing's bore.
    bush_roughness : float [um]
        0 to 1000; Rz of the bush's outside.

    Returns
    -------
    PressedBush [-]
        The bore after pressing, what to bore it to beforehand, and whether to ream.

    Raises
    ------
    TradeError
        There is no interference, a wall is not over 0, or the housing would yield.

    Notes
    -----
    For a solid bush. A wrapped bush, and one with a soft lining, closes as its maker says. A bush
    that yields is not refused, for thin ones do so in the usual fits: its notes say so.

    Examples
    --------
    >>> made = pressed_bush(
    ...     Size(20, 0, 0.021, "H7"), Size(20, 0.035, 0.048, "s6"), Size(16, 0, 0.018, "H7"),
    ...     20, 40, ElasticMaterial.from_text("bronze"))
    >>> round(made.closure_min), round(made.closure_max)
    (3, 33)

    References
    ----------
    DIN 7190-1:2017; Shigley, 8th ed. 2006, section 3-16.
    """
    if wanted is not None and not same_nominal(wanted.nominal, bore.nominal):
        raise TradeError(
            f"the bore is {bore.nominal:g} mm before pressing and {wanted.nominal:g} mm is wanted"
            " of it: they must be one nominal size",
            hint=f"give the bore before pressing by its limits from {wanted.nominal:g} mm, such as"
            f" {wanted.nominal:g} mm -0.1/-0.2",
            argument="wanted",
        )
    pair = fit(hole, bush)
    require_positive("length", length, "mm")
    _require_walls(hole, bush, bore, housing_diameter)
    joint = PressFit(
        hole.nominal,
        length,
        housing_diameter,
        bore.nominal,
        material_or_steel(housing),
        bush_material,
        friction or unknown_friction(),
        pair.interference_min,
        pair.interference_max,
        smoothing_loss(hub_roughness, bush_roughness),
    )
    require_interference(joint, "bush")
    refuse_yield(joint, "hub", "housing")
    return PressedBush(joint, bore, wanted)


def _require_walls(hole: Size, bush: Size, bore: Size, housing_diameter: float) -> None:
    require_positive("bore", bore.min, "mm")
    require_positive("housing_diameter", housing_diameter, "mm")
    walls = {
        "bore": ("bush", (bush.min - bore.max) / 2),
        "housing_diameter": ("housing", (housing_diameter - hole.max) / 2),
    }
    for argument, (part, wall) in walls.items():
        if not wall > LEAST_WALL * hole.max:
            raise TradeError(
                f"the wall of the {part} is {wall:g} mm thick, it must be over 0 mm",
                argument=argument,
            )
