"""What can be seen of a component: what is printed on it, how it sits, what its contact does."""

from __future__ import annotations

from coldwright.appliance.parts import Parts
from coldwright.appliance.state import UnitState
from coldwright.appliance.unit import BenchUnit
from coldwright.electrical.start_relays import CurrentRelay, PotentialRelay


def label(unit: BenchUnit, parts: Parts, state: UnitState, component: str, turns: bool | None = None) -> str:
    """What a look at a component tells.

    Parameters
    ----------
    unit : BenchUnit
        The unit [-]
    parts : Parts
        Its parts as they are [-]
    state : UnitState
        Its state [-]
    component : str
        Name of the component [-]
    turns : bool, optional
        Whether a fan turns [-]
    """
    if turns is not None:
        return "the blades turn" if turns else "the blades stand still"
    if component in ("start capacitor", "run capacitor"):
        farad, volts = parts.marked[component.replace(" ", "_")]
        bleed = ", bleed resistor across it" if _has_bleed(parts, component) else ""
        return f"marked {farad * 1e6:.0f} µF {volts:.0f} V a.c.{bleed}"
    device = parts.start_device
    if component == "relay" and isinstance(device, CurrentRelay):
        way = "upside down" if device.upside_down else "upright"
        return f"marked pick-up {device.pick_up_a:.1f} A, drop-out {device.drop_out_a:.1f} A; sits {way}"
    if component == "relay" and isinstance(device, PotentialRelay):
        return (
            f"marked pick-up {device.pick_up_v:.0f} V, drop-out {device.drop_out_v:.0f} V, {device.continuous_v:.0f} V"
        )
    if component == "overload" and parts.overload is not None:
        return f"marked for locked rotor {_rated(unit, parts):.0f} A"
    if component == "defrost timer":
        return f"its mark stands at {'defrost' if state.timer_defrost else 'cooling'}"
    if component == "lamp":
        return "the filament is whole" if parts.lamp_ohm < 1e9 else "the filament is broken"
    return "nothing to be seen"


def _rated(unit: BenchUnit, parts: Parts) -> float:
    healthy, overload = unit.healthy.overload, parts.overload
    assert healthy is not None
    assert overload is not None
    return float(unit.plate.locked_a * (healthy.heater_ohm / overload.heater_ohm) ** 0.5)


def _has_bleed(parts: Parts, component: str) -> bool:
    capacitor = parts.start_capacitor if component == "start capacitor" else parts.run_capacitor
    return capacitor is not None and capacitor.bleed_ohm is not None
