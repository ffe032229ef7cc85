"""The cycle on the pressure-enthalpy chart, between two pressures or two temperatures.

Four states close a plain cycle: suction, discharge, condenser outlet, evaporator inlet. Two more, evaporator outlet and
liquid before the capillary or valve, part from them where a suction-line exchanger or a warm suction line is between.
"""

from __future__ import annotations

from collections.abc import Callable

from coldwright.errors import InputError
from coldwright.quantities.constants import ICE_POINT_K
from coldwright.refrigerants.saturation import (
    bubble_temperature,
    dew_pressure,
    dew_temperature,
    saturated_liquid,
    saturated_vapour,
)
from coldwright.refrigerants.states import State, state_ph, state_ps, state_pt
from coldwright.sealed_system.cycle_states import Cycle, Settings

LEAST_PA = 1000.0  # below it no evaporator works, and the number was in another unit
_NIL_K = 1e-4  # closer to saturation than this is saturated


def cycle(refrigerant: str, evaporating_pa: float, condensing_pa: float, settings: Settings | None = None) -> Cycle:
    """The cycle between two pressures.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate, such as "R-134a" [-]
    evaporating_pa : float
        Pressure at the evaporator's outlet, absolute [Pa]
    condensing_pa : float
        Pressure at the compressor's discharge, absolute, below the critical one [Pa]
    settings : Settings, optional
        Departures from the plain cycle of saturated vapour, saturated liquid and a perfect compressor [-]

    Raises
    ------
    InputError
        If the pressures are swapped or beyond the critical point, or the settings fit no cycle.

    Notes
    -----
    Steady flow; heights and speeds left out. The throttle neither takes nor gives heat, so a capillary soldered to the
    suction line is drawn as an exchanger before a throttle.

    References
    ----------
    .. [1] W. F. Stoecker, J. W. Jones, *Refrigeration and Air Conditioning*, 2nd edition, chapter 10 (from memory).
    """
    chosen = settings or Settings()
    _check_pressures(refrigerant, evaporating_pa, condensing_pa)
    suction_pa, liquid_pa = evaporating_pa - chosen.suction_drop_pa, condensing_pa - chosen.condenser_drop_pa
    inlet_pa = evaporating_pa + chosen.evaporator_drop_pa
    if not suction_pa >= LEAST_PA:
        raise InputError(
            f"the suction line's drop of {chosen.suction_drop_pa:g} Pa leaves no pressure at the compressor"
        )
    if not liquid_pa > inlet_pa:
        raise InputError(
            f"after its drops the condenser's outlet stands at {liquid_pa / 1e3:.1f} kPa, not above the evaporator's "
            f"inlet at {inlet_pa / 1e3:.1f} kPa: nothing would flow. Was a drop in bar or kPa?"
        )
    outlet = vapour_at(refrigerant, evaporating_pa, chosen.superheat_k)
    condenser_outlet = liquid_at(refrigerant, liquid_pa, chosen.subcooling_k)
    suction, liquid = _suction_line(refrigerant, outlet, condenser_outlet, suction_pa, chosen)
    return closed(refrigerant, outlet, suction, condenser_outlet, liquid, (condensing_pa, inlet_pa), chosen)


def cycle_at(refrigerant: str, evaporating_k: float, condensing_k: float, settings: Settings | None = None) -> Cycle:
    """The cycle between two saturation temperatures, both dew temperatures where the refrigerant has a glide.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    evaporating_k, condensing_k : float
        Dew temperatures [K]
    settings : Settings, optional
        Departures from the plain cycle [-]

    Raises
    ------
    InputError
        If the temperatures are swapped or out of the refrigerant's range, or the settings fit no cycle.
    """
    if not evaporating_k < condensing_k:
        raise InputError(
            f"condensing at {_celsius(condensing_k)} is not above evaporating at {_celsius(evaporating_k)}. "
            "Were they swapped?"
        )
    low_pa = _named("evaporating temperature", dew_pressure, refrigerant, evaporating_k)
    high_pa = _named("condensing temperature", dew_pressure, refrigerant, condensing_k)
    return cycle(refrigerant, low_pa, high_pa, settings)


def closed(
    refrigerant: str,
    outlet: State,
    suction: State,
    condenser_outlet: State,
    liquid: State,
    pressures_pa: tuple[float, float],
    settings: Settings,
) -> Cycle:
    """The cycle through states that are known: adds compression and throttle.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    outlet, suction, condenser_outlet, liquid : State
        At the evaporator's outlet, the compressor, the condenser's outlet and before the throttle [-]
    pressures_pa : tuple of float
        At the discharge and at the evaporator's inlet, absolute [Pa]
    settings : Settings
        Efficiency or discharge temperature, and the shell's loss [-]

    Raises
    ------
    InputError
        If the discharge is no vapour, or compression would take no work.
    """
    discharge_pa, inlet_pa = pressures_pa
    ideal = state_ps(refrigerant, discharge_pa, suction.entropy_j_per_kg_k)
    discharge = _discharge(refrigerant, suction, ideal, settings)
    inlet = state_ph(refrigerant, inlet_pa, liquid.enthalpy_j_per_kg)
    found = Cycle(refrigerant, outlet, suction, ideal, discharge, condenser_outlet, liquid, inlet, settings.shell_loss)
    if not found.work > 0:
        raise InputError(
            f"the discharge at {_celsius(discharge.temperature_k)} holds no more heat than the suction gas at "
            f"{_celsius(suction.temperature_k)}: compression takes work. Was it measured too far from the compressor, "
            "or were the two swapped?"
        )
    if not found.refrigerating_effect > 0:
        raise InputError("the liquid holds as much heat as the vapour from the evaporator: there is no cold to be had")
    return found


def vapour_at(refrigerant: str, pressure_pa: float, superheat_k: float) -> State:
    """Vapour with a superheat over the dew point.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    pressure_pa : float
        Absolute pressure [Pa]
    superheat_k : float
        Above dew temperature, zero or more [K]
    """
    if superheat_k < _NIL_K:
        return saturated_vapour(refrigerant, pressure_pa)
    return state_pt(refrigerant, pressure_pa, dew_temperature(refrigerant, pressure_pa) + superheat_k)


def liquid_at(refrigerant: str, pressure_pa: float, subcooling_k: float) -> State:
    """Liquid with a subcooling under the bubble point.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    pressure_pa : float
        Absolute pressure [Pa]
    subcooling_k : float
        Below bubble temperature, zero or more [K]
    """
    if subcooling_k < _NIL_K:
        return saturated_liquid(refrigerant, pressure_pa)
    return state_pt(refrigerant, pressure_pa, bubble_temperature(refrigerant, pressure_pa) - subcooling_k)


def _suction_line(
    refrigerant: str, outlet: State, condenser_outlet: State, suction_pa: float, settings: Settings
) -> tuple[State, State]:
    """Vapour at the compressor and liquid before the throttle: heat from the liquid first, then from the room."""
    exchanged = 0.0
    if settings.exchanger > 0:
        if not condenser_outlet.temperature_k > outlet.temperature_k:
            raise InputError(
                f"the liquid at {_celsius(condenser_outlet.temperature_k)} is no warmer than the suction gas at "
                f"{_celsius(outlet.temperature_k)}: an exchanger has nothing to exchange"
            )
        warmest = state_pt(refrigerant, suction_pa, condenser_outlet.temperature_k)
        exchanged = settings.exchanger * (warmest.enthalpy_j_per_kg - outlet.enthalpy_j_per_kg)
    suction = outlet
    if exchanged or settings.suction_drop_pa > 0:
        suction = state_ph(refrigerant, suction_pa, outlet.enthalpy_j_per_kg + exchanged)
    if settings.suction_gain_k > _NIL_K:
        suction = state_pt(refrigerant, suction_pa, suction.temperature_k + settings.suction_gain_k)
    if not exchanged:
        return suction, condenser_outlet
    liquid_h = condenser_outlet.enthalpy_j_per_kg - exchanged
    return suction, state_ph(refrigerant, condenser_outlet.pressure_pa, liquid_h)


def _discharge(refrigerant: str, suction: State, ideal: State, settings: Settings) -> State:
    pressure_pa = ideal.pressure_pa
    if settings.discharge_k is not None:
        dew_k = dew_temperature(refrigerant, pressure_pa)
        if not settings.discharge_k > dew_k + _NIL_K:
            raise InputError(
                f"the discharge is at {_celsius(settings.discharge_k)}, not above the dew temperature at its pressure, "
                f"{_celsius(dew_k)}: that is no vapour. Was it measured past the condenser, or does liquid come back?"
            )
        return state_pt(refrigerant, pressure_pa, settings.discharge_k)
    efficiency = 1.0 if settings.isentropic_efficiency is None else settings.isentropic_efficiency
    if efficiency == 1.0 and settings.shell_loss == 0.0:
        return ideal
    work = (ideal.enthalpy_j_per_kg - suction.enthalpy_j_per_kg) / efficiency
    try:
        return state_ph(refrigerant, pressure_pa, suction.enthalpy_j_per_kg + work - settings.shell_loss)
    except InputError as error:
        raise InputError(f"discharge: {error}. Is an isentropic efficiency of {efficiency:g} right?") from None


def _check_pressures(refrigerant: str, evaporating_pa: float, condensing_pa: float) -> None:
    for name, pressure_pa in (("evaporating pressure", evaporating_pa), ("condensing pressure", condensing_pa)):
        if not pressure_pa >= LEAST_PA:
            raise InputError(
                f"{name} is {pressure_pa:g} Pa absolute; it must be at least {LEAST_PA:g} Pa. Was it a gauge pressure, "
                "or in bar or kPa?"
            )
        _named(name, dew_temperature, refrigerant, pressure_pa)
    if not evaporating_pa < condensing_pa:
        raise InputError(
            f"condensing pressure is {condensing_pa / 1e3:.1f} kPa, not above the evaporating pressure of "
            f"{evaporating_pa / 1e3:.1f} kPa. Were they swapped, or has the compressor not run?"
        )


def _named(name: str, function: Callable[[str, float], float], refrigerant: str, value: float) -> float:
    try:
        return function(refrigerant, value)
    except InputError as error:
        raise InputError(f"{name}: {error}") from None


def _celsius(kelvin: float) -> str:
    return f"{kelvin - ICE_POINT_K:.1f} °C"
