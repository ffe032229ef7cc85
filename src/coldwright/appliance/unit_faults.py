"""What can be wrong with a unit: each fault as a change of its parts, and a spare that undoes it.

Sizes are drawn between 0 and 1 by the caller, so that no two units need have the same one; a fault changes parameters
and nothing else.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from coldwright.appliance.capacitor_faults import Change, capacitor_faults
from coldwright.appliance.fault_names import FaultName, UnitFault
from coldwright.appliance.parts import Fan, FanCondition, Parts, Stuck
from coldwright.electrical.overload import Overload, OverloadCondition
from coldwright.electrical.ptc import Ptc, PtcCondition
from coldwright.electrical.start_relays import Contact, CurrentRelay, PotentialRelay, SolidStateSwitch
from coldwright.errors import InputError

if TYPE_CHECKING:
    from coldwright.appliance.unit import BenchUnit


def _fan(name: str, condition: FanCondition) -> Change:
    def change(parts: Parts, _fault: UnitFault) -> Parts:
        fan: Fan = parts.fans[name]
        return replace(parts, fans={**parts.fans, name: replace(fan, condition=condition)})

    return change


def _device(kind: type[Any], **changes: Any) -> Change:
    def change(parts: Parts, fault: UnitFault) -> Parts:
        if not isinstance(parts.start_device, kind):
            raise InputError(f"{fault.name.value}: this unit has no {kind.__name__}")
        return replace(parts, start_device=replace(parts.start_device, **changes))

    return change


def _relay(**changes: Any) -> Change:
    def change(parts: Parts, fault: UnitFault) -> Parts:
        if not isinstance(parts.start_device, (CurrentRelay, PotentialRelay)):
            raise InputError(f"{fault.name.value}: this unit has no relay")
        return replace(parts, start_device=replace(parts.start_device, **changes))

    return change


def _relay_wrong(parts: Parts, fault: UnitFault) -> Parts:
    relay = parts.start_device
    if isinstance(relay, CurrentRelay):  # a relay for a larger motor: it asks for more than the locked rotor takes
        factor = fault.between(1.9, 2.4)
        return replace(
            parts,
            start_device=replace(
                relay,
                pick_up_a=relay.pick_up_a * factor,
                drop_out_a=relay.drop_out_a * factor,
                coil_ohm=relay.coil_ohm / factor**2,
            ),
        )
    if isinstance(relay, PotentialRelay):  # for another motor: it asks for more than the start winding gives
        factor = fault.between(1.5, 1.8)
        return replace(
            parts,
            start_device=replace(
                relay,
                pick_up_v=relay.pick_up_v * factor,
                drop_out_v=relay.drop_out_v * factor,
                continuous_v=relay.continuous_v * factor,
                coil_ohm=relay.coil_ohm * factor**2,
            ),
        )
    raise InputError(f"{fault.name.value}: this unit has no relay")


def _ptc_not_cooled(parts: Parts, fault: UnitFault) -> Parts:
    ptc = parts.start_device
    if not isinstance(ptc, Ptc):
        raise InputError(f"{fault.name.value}: this unit has no PTC")
    factor = fault.between(0.12, 0.2)
    return replace(parts, start_device=replace(ptc, conductance_w_per_k=ptc.conductance_w_per_k * factor))


def _overload(new: Callable[[Overload, UnitFault], Overload]) -> Change:
    def change(parts: Parts, fault: UnitFault) -> Parts:
        if parts.overload is None:
            raise InputError(f"{fault.name.value}: this unit has no overload")
        return replace(parts, overload=new(parts.overload, fault))

    return change


def _tired(overload: Overload, fault: UnitFault) -> Overload:
    """A bimetal gone weak: it lets go at what is no more than warm."""
    trip_k = overload.reset_k - fault.between(20.0, 22.0)
    return replace(overload, trip_k=trip_k, reset_k=trip_k - 7.0)


def _windings(**changes: Any) -> Change:
    def change(parts: Parts, fault: UnitFault) -> Parts:
        if parts.motor is None:
            raise InputError(f"{fault.name.value}: this unit has no run and start winding")
        return replace(parts, windings=replace(parts.windings, **changes))

    return change


def _shorted_run(parts: Parts, fault: UnitFault) -> Parts:
    """Fewer turns in the run winding: resistance with the turns, reactances with their square."""
    motor = parts.motor
    assert motor is not None
    left = fault.between(0.6, 0.78)
    return replace(
        parts,
        motor=replace(
            motor,
            run_ohm=motor.run_ohm * left,
            run_leakage_ohm=motor.run_leakage_ohm * left**2,
            rotor_ohm=motor.rotor_ohm * left**2,
            rotor_leakage_ohm=motor.rotor_leakage_ohm * left**2,
            magnetising_ohm=motor.magnetising_ohm * left**2,
            turns_ratio=motor.turns_ratio / left,
        ),
    )


def _shorted_start(parts: Parts, fault: UnitFault) -> Parts:
    motor = parts.motor
    assert motor is not None
    left = fault.between(0.55, 0.75)
    return replace(
        parts,
        motor=replace(
            motor,
            start_ohm=motor.start_ohm * left,
            start_leakage_ohm=motor.start_leakage_ohm * left**2,
            turns_ratio=motor.turns_ratio * left,
        ),
    )


def _low_supply(parts: Parts, fault: UnitFault) -> Parts:
    supply = parts.supply
    return replace(parts, supply=replace(supply, volts=supply.volts * fault.between(0.6, 0.68)))


def _defrost(**changes: Any) -> Change:
    def change(parts: Parts, fault: UnitFault) -> Parts:
        if parts.defrost is None:
            raise InputError(f"{fault.name.value}: this unit has no defrost")
        return replace(parts, defrost=replace(parts.defrost, **changes))

    return change


def _thermostat(stuck: Stuck) -> Change:
    return lambda parts, _f: replace(parts, thermostat=replace(parts.thermostat, stuck=stuck))


def _drifted(parts: Parts, fault: UnitFault) -> Parts:
    up = fault.between(9.0, 13.0)
    old = parts.thermostat
    return replace(parts, thermostat=replace(old, close_k=old.close_k + up, open_k=old.open_k + up))


CHANGES: Mapping[FaultName, Change] = {
    FaultName.NONE: lambda parts, _fault: parts,
    FaultName.CORD_OPEN: lambda parts, _f: replace(parts, cord=replace(parts.cord, live_ohm=math.inf)),
    FaultName.EARTH_LOST: lambda parts, _f: replace(parts, cord=replace(parts.cord, earth_ohm=math.inf)),
    FaultName.THERMOSTAT_OPEN: _thermostat(Stuck.OPEN),
    FaultName.THERMOSTAT_CLOSED: _thermostat(Stuck.CLOSED),
    FaultName.THERMOSTAT_DRIFTED: _drifted,
    FaultName.DOOR_SWITCH_OPEN: lambda parts, _f: replace(parts, door_switch=Stuck.OPEN),
    FaultName.DOOR_SWITCH_CLOSED: lambda parts, _f: replace(parts, door_switch=Stuck.CLOSED),
    FaultName.CONDENSER_FAN_OPEN: _fan("condenser fan", FanCondition.OPEN),
    FaultName.CONDENSER_FAN_SEIZED: _fan("condenser fan", FanCondition.SEIZED),
    FaultName.EVAPORATOR_FAN_OPEN: _fan("evaporator fan", FanCondition.OPEN),
    FaultName.EVAPORATOR_FAN_SEIZED: _fan("evaporator fan", FanCondition.SEIZED),
    FaultName.RELAY_COIL_OPEN: _relay(coil_open=True),
    FaultName.RELAY_STUCK_OPEN: _relay(contact=Contact.STUCK_OPEN),
    FaultName.RELAY_WELDED: _relay(contact=Contact.WELDED),
    FaultName.RELAY_UPSIDE_DOWN: _device(CurrentRelay, upside_down=True),
    FaultName.RELAY_WRONG: _relay_wrong,
    FaultName.PTC_OPEN: _device(Ptc, condition=PtcCondition.OPEN),
    FaultName.PTC_CRACKED: _device(Ptc, condition=PtcCondition.CRACKED),
    FaultName.PTC_NOT_COOLED: _ptc_not_cooled,
    FaultName.START_SWITCH_OPEN: _device(SolidStateSwitch, contact=Contact.STUCK_OPEN),
    FaultName.START_SWITCH_SHORTED: _device(SolidStateSwitch, contact=Contact.WELDED),
    **capacitor_faults("start_capacitor", "START_CAPACITOR"),
    **capacitor_faults("run_capacitor", "RUN_CAPACITOR"),
    FaultName.OVERLOAD_OPEN: _overload(lambda o, _f: replace(o, condition=OverloadCondition.OPEN)),
    FaultName.OVERLOAD_WEAK: _overload(_tired),
    FaultName.OVERLOAD_WRONG: _overload(lambda o, f: replace(o, heater_ohm=o.heater_ohm * f.between(5.0, 6.5))),
    FaultName.RUN_WINDING_OPEN: _windings(run_left=None),
    FaultName.START_WINDING_OPEN: _windings(start_left=None),
    FaultName.RUN_WINDING_SHORTED: _shorted_run,
    FaultName.START_WINDING_SHORTED: _shorted_start,
    FaultName.GROUNDED: lambda parts, f: replace(
        parts, windings=replace(parts.windings, ground_ohm=10 ** f.between(4.0, 6.0))
    ),
    FaultName.SEIZED: _windings(seized=True),
    FaultName.LOW_SUPPLY: _low_supply,
    FaultName.LOOSE_CONNECTION: lambda parts, f: replace(
        parts, loose={f.terminal: f.between(3.0, 8.0) * parts.supply.volts / 120}
    ),
    FaultName.TIMER_STUCK_COOLING: _defrost(timer_stuck=Stuck.OPEN),
    FaultName.TIMER_STUCK_DEFROST: _defrost(timer_stuck=Stuck.CLOSED),
    FaultName.HEATER_OPEN: _defrost(heater_ohm=math.inf),
    FaultName.TERMINATOR_OPEN: _defrost(terminator=Stuck.OPEN),
    FaultName.TERMINATOR_CLOSED: _defrost(terminator=Stuck.CLOSED),
}


def with_fault(parts: Parts, fault: UnitFault) -> Parts:
    """The parts with a fault in them.

    Parameters
    ----------
    parts : Parts
        Healthy parts [-]
    fault : UnitFault
        What is wrong [-]

    Raises
    ------
    InputError
        If the unit has no such part.
    """
    return CHANGES[fault.name](parts, fault)


def can_have(parts: Parts, name: FaultName) -> bool:
    """Whether a unit with these parts can have a fault.

    Parameters
    ----------
    parts : Parts
        Healthy parts [-]
    name : FaultName
        The fault [-]
    """
    try:
        with_fault(parts, UnitFault(name, terminal="pin C"))
    except (InputError, KeyError, AssertionError):
        return False
    return True


__all__ = ["CHANGES", "FIELDS", "FaultName", "UnitFault", "can_have", "fitted", "with_fault"]

FIELDS = {
    "cord": "cord",
    "thermostat": "thermostat",
    "door switch": "door_switch",
    "overload": "overload",
    "relay": "start_device",
    "PTC": "start_device",
    "start switch": "start_device",
    "start capacitor": "start_capacitor",
    "run capacitor": "run_capacitor",
}


def fitted(parts: Parts, unit: BenchUnit, component: str, spare: str) -> Parts:
    """The parts with a spare fitted in place of a component.

    Parameters
    ----------
    parts : Parts
        The parts as they are [-]
    unit : BenchUnit
        The unit, for its healthy parts and its spares [-]
    component : str
        Name of the component [-]
    spare : str
        Name of the spare [-]
    """
    new = unit.spares_for(component)[spare]
    loose = {t: ohm for t, ohm in parts.loose.items() if unit.wiring.owner(t).name != component}
    return replace(new(parts), loose=loose)
