"""What a pressure and a temperature say together: vapour, liquid, both, or not to be told."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from coldwright.errors import InputError
from coldwright.refrigerants.catalogue import refrigerant_named
from coldwright.refrigerants.states import subcooling, superheat

LEAST_UNCERTAINTY_K = 0.05  # no thermometer on a pipe tells less


class Phase(Enum):
    """What is in the pipe; the value is how it is said."""

    VAPOUR = "vapour only"
    LIQUID = "liquid only"
    BOTH = "liquid and vapour together"
    DRY_OR_WET = "vapour, with or without liquid: cannot tell"
    LIQUID_OR_WET = "liquid, with or without vapour: cannot tell"
    UNKNOWN = "vapour, liquid or both: cannot tell"


@dataclass(frozen=True)
class Description:
    """What is in the pipe, and the sentence for it. Superheat and subcooling in K, negative on the wrong side."""

    phase: Phase
    superheat_k: float
    subcooling_k: float
    sentence: str


def _phase(superheat_k: float, subcooling_k: float, uncertainty_k: float) -> Phase:
    dry, maybe_dry = superheat_k > uncertainty_k, superheat_k >= -uncertainty_k
    full, maybe_full = subcooling_k > uncertainty_k, subcooling_k >= -uncertainty_k
    if dry:
        return Phase.VAPOUR
    if full:
        return Phase.LIQUID
    if maybe_dry and maybe_full:
        return Phase.UNKNOWN
    if maybe_dry:
        return Phase.DRY_OR_WET
    return Phase.LIQUID_OR_WET if maybe_full else Phase.BOTH


def describe(refrigerant: str, pressure_pa: float, temperature_k: float, uncertainty_k: float = 0.5) -> Description:
    """What a pressure and a temperature on a pipe say about what is in it.

    Superheat counts from dew, subcooling from bubble. Negative superheat is no small superheat: liquid is there.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    pressure_pa : float
        Absolute pressure [Pa]
    temperature_k : float
        Temperature [K]
    uncertainty_k : float
        How far the two readings together may be off, as a temperature [K]

    Returns
    -------
    Description
        The phase, superheat and subcooling, and a sentence [-]

    Raises
    ------
    InputError
        If the refrigerant does not boil at that pressure, or the uncertainty is negative.
    """
    if not 0 <= uncertainty_k < float("inf"):
        raise InputError(f"the uncertainty is {uncertainty_k:g} K; it must be 0 or more. Give it without its sign")
    name = refrigerant_named(refrigerant).name
    above = superheat(refrigerant, pressure_pa, temperature_k)
    below = subcooling(refrigerant, pressure_pa, temperature_k)
    phase = _phase(above, below, max(uncertainty_k, LEAST_UNCERTAINTY_K))
    return Description(phase, above, below, f"{name}: {phase.value}; {_detail(phase, above, below)}")


def _detail(phase: Phase, above: float, below: float) -> str:
    if phase is Phase.VAPOUR:
        return f"superheated by {above:.1f} K above its dew point"
    if phase is Phase.LIQUID:
        return (
            f"subcooled by {below:.1f} K below its bubble point. In a suction line this is no superheat: liquid comes "
            "back, or a reading is off"
        )
    if phase is Phase.BOTH:
        return (
            f"it lies between bubble and dew, {-above:.1f} K below dew and {-below:.1f} K above bubble. "
            "There is no superheat and no subcooling"
        )
    return "the readings are not sure enough, so measure again or better, or judge by another sign"
