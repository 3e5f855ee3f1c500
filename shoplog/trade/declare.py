"""How a formula is declared, once: units in its signature, source and cautions beside it.

From one declaration come the call in a page, the unit check, the steps shown, and the reference.
A formula takes and gives floats in the units that its annotations name; the caller converts.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable
from dataclasses import dataclass, field, is_dataclass
from functools import cache
from typing import Annotated, Any, TypeVar, get_args, get_origin, get_type_hints

__all__ = [
    "OFFERS",
    "Centimetre3PerMinute",
    "Degree",
    "In",
    "Inch",
    "MetrePerMinute",
    "Micrometre",
    "Millimetre",
    "MillimetrePerMinute",
    "MillimetrePerRev",
    "MillimetrePerTooth",
    "Minute",
    "Number",
    "Offer",
    "OutOfRange",
    "Parameter",
    "PerInch",
    "Percent",
    "RevPerMinute",
    "Size",
    "ToothPerRev",
    "TradeError",
    "offered",
    "readable_fields",
]


@dataclass(frozen=True, slots=True)
class In:
    """The unit that a number of a formula is in; `""` for a plain number."""

    unit: str


Number = Annotated[float, In("")]
Percent = Annotated[float, In("%")]
Millimetre = Annotated[float, In("mm")]
Micrometre = Annotated[float, In("um")]
Inch = Annotated[float, In("in")]
PerInch = Annotated[float, In("tpi")]
Degree = Annotated[float, In("deg")]
Minute = Annotated[float, In("min")]
RevPerMinute = Annotated[float, In("rpm")]
MetrePerMinute = Annotated[float, In("m/min")]
MillimetrePerMinute = Annotated[float, In("mm/min")]
MillimetrePerRev = Annotated[float, In("mm/rev")]
MillimetrePerTooth = Annotated[float, In("mm/tooth")]
ToothPerRev = Annotated[float, In("tooth/rev")]
Centimetre3PerMinute = Annotated[float, In("cm^3/min")]


class TradeError(ValueError):
    """What a formula refuses: what is wrong, a hint, and the parameter at fault where one is.

    The message is a clause without capital or full stop and carries the value and the limit.
    """

    def __init__(self, message: str, *, hint: str = "", argument: str = "") -> None:
        super().__init__(message, hint, argument)
        self.message, self.hint, self.argument = message, hint, argument

    def __str__(self) -> str:
        return self.message


class OutOfRange(TradeError):
    """A value outside the range that a formula or a table holds for."""

    def __init__(
        self,
        argument: str,
        value: float,
        unit: str,
        *,
        over: float | None = None,
        least: float | None = None,
        most: float | None = None,
        below: float | None = None,
        source: str = "",
        hint: str = "",
    ) -> None:
        self.value, self.unit = value, unit
        self.bounds = {"over": over, "at least": least, "at most": most, "below": below}
        unit_text = f" {unit}" if unit else ""
        bounds = " and ".join(
            f"{word} {bound:g}{unit_text}"
            for word, bound in self.bounds.items()
            if bound is not None
        )
        by = f" ({source})" if source else ""
        what = argument.replace("_", " ")
        super().__init__(
            f"{what} is {value:g}{unit_text}, it must be {bounds}{by}", hint=hint, argument=argument
        )


@dataclass(frozen=True, slots=True)
class Size:
    """A size with limits: a nominal size and two deviations, in mm; a class where it has one."""

    nominal: Millimetre
    lower: Millimetre
    """Lower deviation: the least size less the nominal one."""
    upper: Millimetre
    tolerance_class: str = ""
    """As the standard writes it, `H7`, or nothing."""

    @property
    def min(self) -> Millimetre:
        """Least size."""
        return self.nominal + self.lower

    @property
    def max(self) -> Millimetre:
        """Greatest size."""
        return self.nominal + self.upper


@dataclass(frozen=True, slots=True)
class Parameter:
    """A parameter of a formula. `kind` is an `In`, `str`, `bool`, `int`, a record class, or
    `list[...]` of `In`; `one_of` are the kinds of a union.
    """

    name: str
    kinds: tuple[Any, ...]
    default: Any = inspect.Parameter.empty

    @property
    def required(self) -> bool:
        """Whether a call must give it."""
        return self.default is inspect.Parameter.empty


@dataclass(frozen=True)
class Offer:
    """A formula as it is offered to pages."""

    name: str
    function: Callable[..., Any]
    source: str
    cautions: tuple[str, ...] = ()
    topic: str = ""
    _cache: dict[str, Any] = field(default_factory=dict, compare=False, repr=False)

    @property
    def parameters(self) -> tuple[Parameter, ...]:
        """Its parameters, in order."""
        if "parameters" not in self._cache:
            hints = get_type_hints(self.function, include_extras=True)
            self._cache["parameters"] = tuple(
                Parameter(name, kinds_of(hints[name]), parameter.default)
                for name, parameter in inspect.signature(self.function).parameters.items()
            )
        found: tuple[Parameter, ...] = self._cache["parameters"]
        return found

    @property
    def returns(self) -> tuple[Any, ...]:
        """The kinds of what it gives."""
        if "returns" not in self._cache:
            hints = get_type_hints(self.function, include_extras=True)
            self._cache["returns"] = kinds_of(hints["return"])
        found: tuple[Any, ...] = self._cache["returns"]
        return found

    @property
    def summary(self) -> str:
        """The first line of its docstring."""
        return (inspect.getdoc(self.function) or "").split("\n", 1)[0]


def kinds_of(hint: Any) -> tuple[Any, ...]:
    """The kinds that an annotation allows, `In` where it names a unit."""
    if get_origin(hint) is Annotated:
        return tuple(extra for extra in get_args(hint)[1:] if isinstance(extra, In))
    if get_origin(hint) in (list, tuple):
        return (list[kinds_of(get_args(hint)[0])[0]],)  # type: ignore[misc]
    parts = get_args(hint)
    if parts:  # a union
        return tuple(kind for part in parts if part is not type(None) for kind in kinds_of(part))
    return (hint,)


OFFERS: dict[str, Offer] = {}
F = TypeVar("F", bound=Callable[..., Any])


def offered(*, source: str, cautions: tuple[str, ...] = ()) -> Callable[[F], F]:
    """Offer a function to pages under its own name.

    Parameters
    ----------
    source : str [-]
        Document, edition, clause or table; or `common practice, no source`.
    cautions : tuple of str [-]
        What the result always carries. A record may carry more in its `cautions` field.
    """

    def declare(function: F) -> F:
        name = function.__name__
        if name in OFFERS:
            raise ValueError(f"{name} is offered twice")
        topic = function.__module__.rpartition(".")[2]
        OFFERS[name] = Offer(name, function, source, cautions, topic)
        return function

    return declare


@cache
def readable_fields(record: type) -> dict[str, tuple[Any, ...]]:
    """The fields of a record class that a page may read, with their kinds; its properties too.

    Names that begin with `_`, and `cautions`, are not for pages.
    """
    found: dict[str, tuple[Any, ...]] = {}
    if is_dataclass(record):
        for name, hint in get_type_hints(record, include_extras=True).items():
            found[name] = kinds_of(hint)
    for name, member in inspect.getmembers(record, lambda m: isinstance(m, property)):
        hints = get_type_hints(member.fget, include_extras=True)
        if "return" in hints:
            found[name] = kinds_of(hints["return"])
    return {n: k for n, k in found.items() if not n.startswith("_") and n != "cautions"}
