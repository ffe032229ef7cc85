"""The state of one unit at one moment: all that an act or the passing of time can change."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.sealed_system.plant import State


@dataclass(frozen=True)
class ColdState:
    """One moment of the cold side; the step that it may take next, and the time it still lags behind."""

    sealed: State
    charge_kg: float
    product_k: float
    length_s: float = 0.5
    behind_s: float = 0.0
    ran: float = 0.0


@dataclass(frozen=True)
class UnitState:
    """One moment of one unit, SI units; a capacitor's volts are those that stay on it (direct voltage)."""

    at_s: float
    winding_k: float
    shell_k: float
    overload_k: float
    ptc_k: float
    cabinet_k: float
    evaporator_k: float
    plugged: bool = False
    knob_on: bool = True
    door_open: bool = False
    thermostat_closed: bool = True
    overload_open: bool = False
    terminator_closed: bool = True
    contact_closed: bool = False
    powered_s: float = 0.0  # how long the start device has had power
    rested_s: float = 1e9  # how long it had been without before
    speed: float = 0.0  # of the rotor [rad/s]
    pressure: float = 0.0  # 0 equalised, 1 at working pressures
    timer_s: float = 0.0  # what the defrost timer's motor has run in its present position
    timer_defrost: bool = False
    start_capacitor_v: float = 0.0
    run_capacitor_v: float = 0.0
    bus_v: float = 0.0
    energy_j: float = 0.0  # taken from the outlet since the unit came in
    removed: frozenset[str] = frozenset()
    cold: ColdState | None = None  # of a unit whose sealed system is worked out
