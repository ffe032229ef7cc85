"""Units drawn from a seed for the labs on whole coolers: a model, its tolerances, and one fault or none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coldwright.appliance.cooler import Cooler, cooler
from coldwright.appliance.operation import Operation
from coldwright.appliance.parts import Parts
from coldwright.appliance.state import UnitState
from coldwright.appliance.unit import BenchUnit, arrival_state
from coldwright.appliance.unit_faults import FaultName, UnitFault, can_have
from coldwright.bench.draw import Draw
from coldwright.electrical.capacitor import Capacitor, Purpose
from coldwright.quantities.constants import ICE_POINT_K

TOLERANCE = 0.03  # of a healthy part around its plate, so that a healthy one is never taken for a faulty one
START_CAPACITOR_ABOVE = 0.15  # start capacitors are marked -0/+20 %
LOOSE_AT = ("thermostat 2", "overload 1", "cord N")


def drawn_parts(draw: Draw, plate: Cooler) -> Parts:
    """Healthy parts within their tolerance of what the plate says.

    Parameters
    ----------
    draw : Draw
        Where the numbers come from [-]
    plate : Cooler
        The model [-]
    """
    parts = plate.parts

    def near(name: str, share: float = TOLERANCE) -> float:
        return draw.between(f"near {name}", 1 - share, 1 + share)

    changed = replace(
        parts,
        supply=replace(parts.supply, volts=plate.volts * draw.between("supply", 0.97, 1.03)),
        lamp_ohm=parts.lamp_ohm * near("lamp"),
        fans={name: replace(fan, winding_ohm=fan.winding_ohm * near(name)) for name, fan in parts.fans.items()},
        windings=replace(parts.windings, insulation_ohm=draw.between("insulation", 150e6, 900e6)),
        inverter_pair_ohm=parts.inverter_pair_ohm * near("pair"),
        start_capacitor=_drawn_capacitor(draw, parts.start_capacitor),
        run_capacitor=_drawn_capacitor(draw, parts.run_capacitor),
    )
    if parts.motor is not None:
        motor = replace(
            parts.motor,
            run_ohm=parts.motor.run_ohm * near("run winding"),
            start_ohm=parts.motor.start_ohm * near("start winding"),
        )
        changed = replace(changed, motor=motor)
    if parts.defrost is not None:
        changed = replace(changed, defrost=replace(parts.defrost, heater_ohm=parts.defrost.heater_ohm * near("heater")))
    return changed


def _drawn_capacitor(draw: Draw, capacitor: Capacitor | None) -> Capacitor | None:
    if capacitor is None:
        return None
    start = capacitor.purpose is Purpose.START
    factor = (
        draw.between("start capacitor", 1.02, 1 + START_CAPACITOR_ABOVE)
        if start
        else (draw.between("run capacitor", 0.97, 1.03))
    )
    return replace(capacitor, farad=capacitor.farad * factor)


def drawn_unit(
    seed: bytes,
    models: Sequence[str],
    faults: Sequence[FaultName],
    complaint: str = "",
    plugged: bool = False,
    cabinet_c: tuple[float, float] | None = None,
) -> BenchUnit:
    """The unit that a seed draws.

    Parameters
    ----------
    seed : bytes
        The ticket's seed [-]
    models : sequence of str
        Models to draw from [-]
    faults : sequence of FaultName
        Faults to draw from; those that the model cannot have are left out [-]
    complaint : str
        What the owner says of it [-]
    plugged : bool
        Whether it stands plugged in, for an hour already [-]
    cabinet_c : tuple of float, optional
        Ends of the span of the temperature in the cabinet; that of the room if left out [°C]
    """
    draw = Draw(seed)
    plate = cooler(draw.one_of("model", models))
    room_k = ICE_POINT_K + draw.between("room", 18.0, 30.0)
    healthy = drawn_parts(draw, plate)
    fault = drawn_fault(draw, plate, faults)
    cabinet_k = None if cabinet_c is None else ICE_POINT_K + draw.between("cabinet", *cabinet_c)
    unit = BenchUnit(
        cooler=plate,
        healthy=healthy,
        fault=fault,
        room_k=room_k,
        arrival=arrival_state(room_k, cabinet_k),
        phase=draw.between("phase", 0.75, 1.0),
        complaint=complaint,
    )
    return arrived_running(unit, 3600.0) if plugged else unit


def drawn_fault(draw: Draw, plate: Cooler, faults: Sequence[FaultName]) -> UnitFault:
    """A fault that the model can have.

    Parameters
    ----------
    draw : Draw
        Where the numbers come from [-]
    plate : Cooler
        The model [-]
    faults : sequence of FaultName
        Faults to draw from [-]
    """
    possible = [name for name in faults if can_have(plate.parts, name)]
    name = draw.one_of("fault", possible)
    joints = [terminal for terminal in LOOSE_AT if terminal in plate.wiring.terminals]
    return UnitFault(name, draw.fraction("size"), draw.one_of("loose", joints))


def arrived_running(unit: BenchUnit, seconds: float) -> BenchUnit:
    """The unit after it has stood plugged in for some time.

    Parameters
    ----------
    unit : BenchUnit
        The unit, unplugged [-]
    seconds : float
        For how long [s]
    """
    run = Operation(unit.wiring, unit.parts, unit.room_k, unit.phase)
    state: UnitState = run.advance(replace(unit.arrival, plugged=True), seconds).state
    return replace(unit, arrival=replace(state, at_s=0.0, energy_j=0.0))


def drawn_lead(seed: bytes) -> float:
    """Resistance of the meter's leads, as old leads have [Ω].

    Parameters
    ----------
    seed : bytes
        The ticket's seed [-]
    """
    return Draw(seed).between("lead", 0.2, 0.6)
