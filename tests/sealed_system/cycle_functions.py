"""What tests/published/cycles.toml asks of the cycle, by the names used there."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from coldwright.quantities.constants import ICE_POINT_K
from coldwright.refrigerants.saturation import bubble_temperature, dew_pressure, dew_temperature
from coldwright.refrigerants.states import state_ph
from coldwright.sealed_system.cycle import cycle, vapour_at
from coldwright.sealed_system.cycle_duty import Duty, duty_from_capacity, duty_from_flow
from coldwright.sealed_system.cycle_states import Cycle, Settings

TON_W = 211e3 / 60  # ton of refrigeration as the books round it
Inputs = dict[str, Any]


def _pascals(i: Inputs, name: str) -> float:
    if f"{name}_kpa" in i:
        return i[f"{name}_kpa"] * 1e3
    return dew_pressure(i["refrigerant"], i[f"{name}_c"] + ICE_POINT_K)


def _drop(i: Inputs, name: str) -> float:
    return i.get(f"{name}_drop_kpa", 0.0) * 1e3


def cycle_of(i: Inputs) -> Cycle:
    """The cycle that a book describes by pressures and temperatures of its points."""
    name = i["refrigerant"]
    low, high = _pascals(i, "evaporating"), _pascals(i, "condensing")
    superheat = subcooling = gain = 0.0
    if "outlet_c" in i:
        superheat = i["outlet_c"] + ICE_POINT_K - dew_temperature(name, low)
    if "liquid_c" in i:
        subcooling = bubble_temperature(name, high - _drop(i, "condenser")) - i["liquid_c"] - ICE_POINT_K
    if "compressor_c" in i:
        outlet = vapour_at(name, low, superheat)
        after_drop = state_ph(name, low - _drop(i, "suction"), outlet.enthalpy_j_per_kg)
        gain = i["compressor_c"] + ICE_POINT_K - after_drop.temperature_k
    settings = Settings(
        superheat_k=superheat,
        subcooling_k=subcooling,
        isentropic_efficiency=i.get("efficiency"),
        discharge_k=i["discharge_c"] + ICE_POINT_K if "discharge_c" in i else None,
        suction_gain_k=gain,
        shell_loss=i.get("shell_loss_kj_per_kg", 0.0) * 1e3,
        evaporator_drop_pa=_drop(i, "evaporator"),
        suction_drop_pa=_drop(i, "suction"),
        condenser_drop_pa=_drop(i, "condenser"),
    )
    return cycle(name, low, high, settings)


def _duty(i: Inputs) -> Duty:
    if "capacity_kw" in i:
        return duty_from_capacity(cycle_of(i), i["capacity_kw"] * 1e3)
    return duty_from_flow(cycle_of(i), i["flow"])


FUNCTIONS: dict[str, Callable[[Inputs], float]] = {
    "cycle_capacity_kw": lambda i: _duty(i).capacity_w / 1e3,
    "cycle_capacity_ton": lambda i: _duty(i).capacity_w / TON_W,
    "cycle_power_kw": lambda i: _duty(i).power_w / 1e3,
    "cycle_condenser_kw": lambda i: _duty(i).condenser_w / 1e3,
    "cycle_flow": lambda i: _duty(i).mass_flow_kg_per_s,
    "cycle_suction_m3_per_s": lambda i: _duty(i).suction_m3_per_s,
    "cycle_effect_kj": lambda i: cycle_of(i).refrigerating_effect / 1e3,
    "cycle_cop": lambda i: cycle_of(i).cop,
    "cycle_carnot_cop": lambda i: cycle_of(i).carnot_cop,
    "cycle_efficiency": lambda i: cycle_of(i).isentropic_efficiency,
    "cycle_condensing_kpa": lambda i: cycle_of(i).discharge.pressure_pa / 1e3,
    "cycle_discharge_c": lambda i: cycle_of(i).discharge.temperature_k - ICE_POINT_K,
}
