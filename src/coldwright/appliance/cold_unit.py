"""A unit whose cold side is worked out too: the same bench unit, with a charge, a fault of its own and a place."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from coldwright.appliance.cold_faults import ColdFault, charge_share, with_cold_fault
from coldwright.appliance.cold_parts import ColdSide, cold_side_of, motor_line
from coldwright.appliance.cold_side import cold_arrival
from coldwright.appliance.cooler import Cooler
from coldwright.appliance.drive import SHAFT_TO_GAS, drive_of
from coldwright.appliance.parts import Parts
from coldwright.appliance.unit import BenchUnit, arrival_state
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.electrical.motor import synchronous_speed
from coldwright.errors import InputError
from coldwright.quantities.constants import SEA_LEVEL_PA

SOUND = ColdFault()
SLIPS, RATED_SPEED = (0.02, 0.04, 0.07), 0.96
WARM_K, HOT_PTC_K = 325.0, 430.0


@dataclass(frozen=True)
class ColdUnit(BenchUnit):
    """A bench unit with its cold side; `atmosphere_pa` is the pressure of the air where it stands."""

    cold_fault: ColdFault = SOUND
    atmosphere_pa: float = SEA_LEVEL_PA

    @property
    def parts(self) -> Parts:
        """Its true parts, with both faults."""
        parts = super().parts
        assert parts.cold is not None
        return replace(parts, cold=with_cold_fault(parts.cold, self.cold_fault))


def with_cold_side(
    unit: BenchUnit, fault: ColdFault = SOUND, atmosphere_pa: float = SEA_LEVEL_PA, charge_kg: float | None = None
) -> ColdUnit:
    """A unit with the cold side that belongs to its plate.

    Parameters
    ----------
    unit : BenchUnit
        The unit, long at rest [-]
    fault : ColdFault
        What is wrong with its cold side [-]
    atmosphere_pa : float
        Pressure of the air where it stands [Pa]
    charge_kg : float | None
        Refrigerant in it; by plate and fault if None [kg]

    Returns
    -------
    ColdUnit
        Pressures equal [-]

    Raises
    ------
    InputError
        If the unit's compressor is driven by an inverter: its speed is not worked out.
    """
    cold = cold_side_of_cooler(unit.cooler)
    charge = cold.plate_charge_kg * charge_share(fault) if charge_kg is None else charge_kg
    arrival = unit.arrival
    faulty = with_cold_fault(cold, fault)
    at_rest = cold_arrival(faulty, unit.room_k, arrival.cabinet_k, charge)
    return ColdUnit(
        cooler=unit.cooler,
        healthy=replace(unit.healthy, cold=cold),
        fault=unit.fault,
        room_k=unit.room_k,
        arrival=replace(arrival, cold=at_rest, shell_k=at_rest.sealed.shell_k),
        phase=unit.phase,
        complaint=unit.complaint,
        spares=unit.spares,
        cold_fault=fault,
        atmosphere_pa=atmosphere_pa,
    )


def cold_side_of_cooler(cooler: Cooler) -> ColdSide:
    """The healthy cold side of a model.

    Parameters
    ----------
    cooler : Cooler
        The model [-]

    Raises
    ------
    InputError
        If its compressor is driven by an inverter.
    """
    motor = cooler.parts.motor
    if motor is None:
        raise InputError(f"{cooler.model} has an inverter compressor; its cold side is not worked out")
    sync = synchronous_speed(motor)
    shafts, watts = zip(*(_running(cooler, slip) for slip in SLIPS), strict=True)
    line = motor_line(shafts, watts, [(1.0 - slip) * sync / (2.0 * math.pi) for slip in SLIPS])
    return cold_side_of(cooler.refrigerant, cooler.hertz, line, cooler.parts.load.working_nm * RATED_SPEED * sync)


def _running(cooler: Cooler, slip: float) -> tuple[float, float]:
    """Power at the shaft and taken by the motor as it is wired, warm and its start device at rest [W]."""
    parts, motor = cooler.parts, cooler.parts.motor
    assert motor is not None
    speed = (1.0 - slip) * synchronous_speed(motor)
    state = replace(
        arrival_state(WARM_K, WARM_K), plugged=True, speed=speed, contact_closed=False, ptc_k=HOT_PTC_K, powered_s=60.0
    )
    drive = drive_of(UnitCircuit(cooler.wiring, parts, state))
    shaft = drive.torque * speed - motor.friction_w * speed / synchronous_speed(motor)
    return shaft, drive.copper_w + drive.other_w + SHAFT_TO_GAS * drive.torque * speed + motor.core_loss_w
