"""From gauge and thermometer readings on a real unit to its cycle, with how far each result can be off."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from coldwright.errors import InputError
from coldwright.quantities.constants import ICE_POINT_K, SEA_LEVEL_PA
from coldwright.refrigerants.atmosphere import absolute_of
from coldwright.refrigerants.saturation import bubble_temperature, dew_temperature
from coldwright.refrigerants.states import state_ph
from coldwright.sealed_system.cycle import closed, liquid_at, vapour_at
from coldwright.sealed_system.cycle_states import Cycle, Settings

HOT_DISCHARGE_K = 120.0 + ICE_POINT_K  # above it oil breaks down (common practice, no source)


@dataclass(frozen=True)
class CycleReadings:
    """What was read on a running unit: gauge pressures [Pa], temperatures of the pipes [K].

    `evaporator_outlet_k` is left out where it was not read: the suction line is then taken as the evaporator's outlet.
    `has_exchanger`: capillary and suction line are soldered together, so the suction gas is warmed by the liquid.
    """

    suction_gauge_pa: float
    discharge_gauge_pa: float
    suction_k: float
    discharge_k: float
    liquid_k: float
    evaporator_outlet_k: float | None = None
    has_exchanger: bool = False
    atmosphere_pa: float = SEA_LEVEL_PA


@dataclass(frozen=True)
class ReadingLimits:
    """Most that the instruments can be off: pressures [Pa], temperatures [K]."""

    suction_pa: float = 0.0
    discharge_pa: float = 0.0
    temperature_k: float = 0.0

    def __post_init__(self) -> None:
        for name in ("suction_pa", "discharge_pa", "temperature_k"):
            value = getattr(self, name)
            if not 0 <= value < math.inf:
                raise InputError(f"the limit {name} is {value:g}; it must be zero or more and finite")


@dataclass(frozen=True)
class ReadCycle:
    """A cycle through readings, the ± of its results by name, and what stands out."""

    cycle: Cycle
    limits: dict[str, float]
    remarks: tuple[str, ...]


RESULTS = ("refrigerating_effect", "work", "cop", "pressure_ratio", "isentropic_efficiency")
"""Attributes of a cycle that are given with their ±, beside those of superheat and subcooling."""


def cycle_from_readings(refrigerant: str, readings: CycleReadings, limits: ReadingLimits | None = None) -> ReadCycle:
    """The cycle through what was read, with the ± of its results.

    Parameters
    ----------
    refrigerant : str
        Name as on the nameplate [-]
    readings : CycleReadings
        Gauge pressures and pipe temperatures of a unit that runs steadily [-]
    limits : ReadingLimits, optional
        Of the instruments; none are taken as exact [-]

    Raises
    ------
    InputError
        If the readings fit no cycle: vapour below its dew point, liquid above its bubble point, swapped pressures.

    Notes
    -----
    Pressure drops are left out: the low gauge stands for the evaporator, the high one for the condenser. The heat that
    the shell gives to the room does not show in the readings: work is the rise of the gas alone, too small by it.
    Each reading is moved by its limit in turn and the changes are added as squares.
    """
    allowed = limits or ReadingLimits()
    found = _placed(refrigerant, readings, allowed)
    spreads = dict.fromkeys(RESULTS, 0.0)
    for moved in _moved(readings, allowed):
        other = _placed(refrigerant, moved, None)
        for name in RESULTS:
            spreads[name] += (getattr(other, name) - getattr(found, name)) ** 2
    spread = {name: math.sqrt(total) for name, total in spreads.items()}
    return ReadCycle(found, spread | _of_differences(refrigerant, found, allowed), _remarks(found))


def _of_differences(refrigerant: str, found: Cycle, limits: ReadingLimits) -> dict[str, float]:
    """± of superheat and subcooling, which would look exact where they were taken as zero."""
    low_pa, high_pa = found.suction.pressure_pa, found.discharge.pressure_pa
    dew = _warmer(dew_temperature, refrigerant, low_pa, limits.suction_pa)
    bubble = _warmer(bubble_temperature, refrigerant, high_pa, limits.discharge_pa)
    superheat = math.hypot(limits.temperature_k, dew)
    return {
        "superheat": superheat,
        "suction_superheat": superheat,
        "subcooling": math.hypot(limits.temperature_k, bubble),
    }


def _moved(readings: CycleReadings, limits: ReadingLimits) -> list[CycleReadings]:
    """The readings with one of them moved up by its limit; each that was read and has a limit."""
    steps = {"suction_gauge_pa": limits.suction_pa, "discharge_gauge_pa": limits.discharge_pa}
    names = ("suction_k", "discharge_k", "liquid_k", "evaporator_outlet_k")
    steps.update(dict.fromkeys(names, limits.temperature_k))
    found = []
    for name, step in steps.items():
        value = getattr(readings, name)
        if value is not None and step > 0:
            found.append(replace(readings, **{name: value + step}))
    return found


def _placed(refrigerant: str, readings: CycleReadings, limits: ReadingLimits | None) -> Cycle:
    """The cycle; without limits, what lies on the wrong side of saturation is taken as saturated."""
    low_pa = absolute_of(readings.suction_gauge_pa, readings.atmosphere_pa)
    high_pa = absolute_of(readings.discharge_gauge_pa, readings.atmosphere_pa)
    if not low_pa < high_pa:
        raise InputError(
            f"the discharge gauge shows {readings.discharge_gauge_pa / 1e3:.1f} kPa, not above the suction gauge with "
            f"{readings.suction_gauge_pa / 1e3:.1f} kPa. Were the hoses swapped, or does the compressor stand still?"
        )
    dew_k, bubble_k = dew_temperature(refrigerant, low_pa), bubble_temperature(refrigerant, high_pa)
    slack_low, slack_high = math.inf, math.inf
    if limits is not None:
        slack_low = limits.temperature_k + _warmer(dew_temperature, refrigerant, low_pa, limits.suction_pa)
        slack_high = limits.temperature_k + _warmer(bubble_temperature, refrigerant, high_pa, limits.discharge_pa)
    outlet_k = readings.suction_k if readings.evaporator_outlet_k is None else readings.evaporator_outlet_k
    at_outlet = "suction line" if readings.evaporator_outlet_k is None else "evaporator outlet"
    outlet = vapour_at(refrigerant, low_pa, _superheat(at_outlet, outlet_k - dew_k, slack_low))
    suction = outlet
    if readings.evaporator_outlet_k is not None:
        suction = vapour_at(refrigerant, low_pa, _superheat("suction line", readings.suction_k - dew_k, slack_low))
    condenser_outlet = liquid_at(refrigerant, high_pa, _subcooling(bubble_k - readings.liquid_k, slack_high))
    liquid = condenser_outlet
    exchanged = suction.enthalpy_j_per_kg - outlet.enthalpy_j_per_kg
    if readings.has_exchanger and exchanged > 0:
        liquid = state_ph(refrigerant, high_pa, condenser_outlet.enthalpy_j_per_kg - exchanged)
    settings = Settings(discharge_k=readings.discharge_k)
    return closed(refrigerant, outlet, suction, condenser_outlet, liquid, (high_pa, low_pa), settings)


def _warmer(saturation: Callable[[str, float], float], refrigerant: str, pressure_pa: float, limit_pa: float) -> float:
    """How far a saturation temperature moves when the gauge is off by its limit."""
    if limit_pa == 0:
        return 0.0
    return saturation(refrigerant, pressure_pa + limit_pa) - saturation(refrigerant, pressure_pa)


def _superheat(place: str, superheat_k: float, slack_k: float) -> float:
    if superheat_k < -slack_k:
        raise InputError(
            f"the {place} reads {-superheat_k:.1f} K below the dew temperature at the suction pressure, more than the "
            "instruments can be off: liquid comes back there, and the point has no place by temperature. If it does "
            "not, check the refrigerant, the altitude and the thermometer"
        )
    return max(0.0, superheat_k)


def _subcooling(subcooling_k: float, slack_k: float) -> float:
    if subcooling_k < -slack_k:
        raise InputError(
            f"the liquid line reads {-subcooling_k:.1f} K above the bubble temperature at the discharge pressure, more "
            "than the instruments can be off: it cannot be all liquid. Vapour goes along, or check the refrigerant, "
            "the altitude and the thermometer"
        )
    return max(0.0, subcooling_k)


def _remarks(found: Cycle) -> tuple[str, ...]:
    """What stands out in a cycle from readings."""
    said = []
    if found.superheat == 0:
        said.append("No superheat at the evaporator's outlet: liquid may go on towards the compressor.")
    if found.subcooling == 0:
        said.append("No subcooling: vapour may go along into the capillary.")
    if found.isentropic_efficiency > 1:
        said.append(
            "The discharge is colder than a perfect compressor would make it: the shell loses heat, the thermometer "
            "sits far from the compressor, or liquid comes back. Work and COP of this cycle cannot be relied on."
        )
    if found.discharge.temperature_k > HOT_DISCHARGE_K:
        said.append("The discharge is above 120 °C: oil breaks down.")
    return tuple(said)
