"""A sealed system from what its nameplate says: sizes of the usual proportions, then calibrated on the plate's charge.

Proportions are illustrative. Calibration finds the capillary's length and the inside volume of both exchangers with
which the plate's charge gives the design's superheat and subcooling; absolute charges are then right for this plate.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

from coldwright.errors import InputError
from coldwright.refrigerants.catalogue import refrigerant_named
from coldwright.refrigerants.kernels import Tables, compressed_enthalpy, dew_pressure_at, saturation
from coldwright.refrigerants.table_cache import tables_of
from coldwright.sealed_system.calibration import (
    CONDENSING_K,
    EVAPORATING_K,
    NotFound,
    design_point,
    length_for,
)
from coldwright.sealed_system.plant import Around, Plant

DESIGN_ROOM_K, DESIGN_AIR_K = 298.15, 277.15
SUPERHEAT_K, SUBCOOLING_K = 10.0, 7.0
CHARGE_TO_DISPLACEMENT = (3.0, 80.0)  # liquid volume of the charge over displacement
DISPLACEMENT_M3 = (0.5e-6, 60e-6)
BORES_M = (0.4e-3, 0.5e-3, 0.6e-3, 0.7e-3, 0.8e-3, 0.9e-3, 1.0e-3, 1.2e-3, 1.5e-3)
TYPICAL_BORE_M, TYPICAL_AREA_M2 = 0.75e-3, 4e-8
LENGTHS_M = (1.4, 4.5)
VOLUME_FACTORS = (0.2, 5.0)
OIL_TAKES, TYPICAL_LIQUID_V = 0.12, 0.87e-3  # kg/kg at saturation for R-134a's liquid; lighter ones as much by volume
OUNCE_KG = 0.028349523


@dataclass(frozen=True)
class SystemPlate:
    """What a plate says of the sealed system.

    Parameters
    ----------
    refrigerant : str
        Name on the plate [-]
    charge_kg : float
        Charge on the plate [kg]
    displacement_m3 : float
        Swept volume per revolution of the compressor [m³]
    hertz : float
        Frequency of the supply [Hz]
    """

    refrigerant: str
    charge_kg: float
    displacement_m3: float
    hertz: float

    def __post_init__(self) -> None:
        refrigerant_named(self.refrigerant)
        low, high = DISPLACEMENT_M3
        if not low <= self.displacement_m3 <= high:
            raise InputError(
                f"the displacement is {self.displacement_m3 * 1e6:.4g} cm³; compressors of plug-in coolers have "
                f"{low * 1e6:g} to {high * 1e6:g} cm³. Were litres or cubic inches typed for cm³?"
            )
        if self.hertz not in (50.0, 60.0):
            raise InputError(f"the frequency is {self.hertz:g} Hz; a supply has 50 Hz or 60 Hz")
        check_charge(self)


class MotorLine(NamedTuple):
    """A motor's speed and electric watts against its shaft power, as `Plant` has them."""

    speed_free: float
    speed_fall: float
    motor_w: float
    motor_slope: float
    motor_bend: float


def check_charge(plate: SystemPlate) -> None:
    """Refuses a charge that no system of this compressor has, with the likely slip.

    Parameters
    ----------
    plate : SystemPlate
        What the plate says [-]

    Raises
    ------
    InputError
        If the charge is not above zero, or far from what such a system holds.
    """
    charge = plate.charge_kg
    if not (math.isfinite(charge) and charge > 0):
        raise InputError(f"the charge is {charge * 1e3:g} g; it must be above zero")
    tables = tables_of(plate.refrigerant)
    liquid = saturation(tables, dew_pressure_at(tables, DESIGN_ROOM_K)).liquid_v
    least, most = (each * plate.displacement_m3 / liquid for each in CHARGE_TO_DISPLACEMENT)
    if least <= charge <= most:
        return
    said = f"the charge is {charge * 1e3:.4g} g of {plate.refrigerant}"
    rule = (
        f"systems with a compressor of {plate.displacement_m3 * 1e6:.3g} cm³ hold some {least * 1e3:.0f} g to "
        f"{most * 1e3:.0f} g"
    )
    for slip, right in (
        ("Were ounces typed as grams?", charge * OUNCE_KG * 1e3),
        ("Were grams typed as ounces?", charge / OUNCE_KG * 1e-3),
        ("Were grams typed where kilograms are wanted?", charge * 1e-3),
        ("Were kilograms typed where grams are wanted?", charge * 1e3),
    ):
        if least <= right <= most:
            raise InputError(f"{said}; {rule}. {slip} Then it would be {right * 1e3:.3g} g")
    raise InputError(f"{said}; {rule}. Is there a typing error?")


def design_around(charge_kg: float) -> Around:
    """What the system stands in at its design point.

    Parameters
    ----------
    charge_kg : float
        Charge [kg]

    Returns
    -------
    Around
        Running, room 25 °C, air on the evaporator 4 °C [-]
    """
    return Around(DESIGN_ROOM_K, DESIGN_AIR_K, 1.0, 1.0, 1.0, 1.0, charge_kg)


def plant_of(plate: SystemPlate, driven_by: MotorLine | None = None) -> Plant:
    """The system behind a plate, calibrated.

    Parameters
    ----------
    plate : SystemPlate
        What the plate says [-]
    driven_by : MotorLine | None
        Speed and watts of the motor that drives it; one of the usual proportions if None [-]

    Returns
    -------
    Plant
        Its numbers [-]

    Raises
    ------
    InputError
        If no capillary gives the design's superheat and subcooling with this charge.
    """
    tables = tables_of(plate.refrigerant)
    sized = _sized(tables, plate)
    if driven_by is not None:
        sized = sized._replace(**driven_by._asdict())
    return _calibrated(tables, sized, plate)


def _sized(tables: Tables, plate: SystemPlate) -> Plant:
    """Usual proportions to the capacity that the compressor has between the design's temperatures."""
    low, high = dew_pressure_at(tables, EVAPORATING_K), dew_pressure_at(tables, CONDENSING_K)
    c, e = saturation(tables, high), saturation(tables, low)
    suction_h = e.vapour_h + 45.0 * e.vapour_cp
    speed = plate.hertz * 0.97
    filling = 1.045 - 0.045 * (high / low) ** (1 / 1.1)
    flow = filling * speed * plate.displacement_m3 / (e.vapour_v * (EVAPORATING_K + 45.0) / EVAPORATING_K)
    cold_w = flow * (e.vapour_h - c.liquid_h + 20.0 * c.liquid_cp)
    shaft_w = flow * (compressed_enthalpy(tables, low, suction_h, high) - suction_h) / 0.72
    warm_w = cold_w + shaft_w
    liquid_m3 = plate.charge_kg * c.liquid_v
    friction_w = 0.18 * shaft_w
    whole_w = shaft_w + friction_w
    return Plant(
        displacement_m3=plate.displacement_m3,
        clearance=0.045,
        expansion_exponent=1.1,
        leak_m2=0.0,
        indicated_efficiency=0.72,
        friction_w=friction_w,
        speed_free=plate.hertz,
        speed_fall=0.03 * plate.hertz / whole_w,
        motor_w=0.17 * whole_w,
        motor_slope=1.12,
        motor_bend=0.07 / whole_w,
        most_shaft_w=1.9 * whole_w,
        suction_heating=0.55,
        discharge_cooling=0.4,
        shell_w_per_k=0.9 + 0.011 * warm_w,
        shell_j_per_k=1500.0 + 20.0 * warm_w,
        bore_m=_bore(flow / math.sqrt(high / c.liquid_v)),
        capillary_m=2.5,
        roughness=5e-4,
        exchanger=0.6,
        suction_line=0.1,
        condenser_vapour_w_per_k=0.033 * warm_w,
        condenser_w_per_k=0.070 * warm_w,
        condenser_liquid_w_per_k=0.045 * warm_w,
        condenser_j_per_k=2.3 * warm_w,
        evaporator_w_per_k=0.073 * cold_w,
        evaporator_vapour_w_per_k=0.024 * cold_w,
        evaporator_j_per_k=2.3 * cold_w,
        discharge_m3=2e-6 * (1.0 + plate.displacement_m3 / 1e-6),
        condenser_m3=2.0 * liquid_m3,
        liquid_line_m3=0.17 * liquid_m3,
        evaporator_m3=2.7 * liquid_m3,
        suction_m3=0.8 * liquid_m3,
        shell_m3=0.6e-3 + 60.0 * plate.displacement_m3,
        oil_kg=0.12 + 16e3 * plate.displacement_m3,
        oil_solubility=OIL_TAKES * TYPICAL_LIQUID_V / c.liquid_v,
        air_mol=0.0,
        lag_s=20.0,
        oil_lag_s=900.0,
    )


def _bore(flow_area_m2: float) -> float:
    """The bore that a flow per root of pressure and density asks for, from those on sale [m]."""
    wanted = TYPICAL_BORE_M * (flow_area_m2 / TYPICAL_AREA_M2) ** 0.4
    return min(BORES_M, key=lambda each: abs(math.log(each / wanted)))


def _calibrated(tables: Tables, sized: Plant, plate: SystemPlate) -> Plant:
    """The same with capillary and inside volumes that give the design's superheat and subcooling."""
    bore = sized.bore_m
    for _ in range(4):
        plant = _of_bore(tables, sized._replace(bore_m=bore), plate)
        low, high = LENGTHS_M
        if low <= plant.capillary_m <= high:
            return plant
        # a longer tube of the next bore passes the same: length goes with the fifth power of the bore
        wanted = bore * (LENGTHS_M[0] * 1.6 / plant.capillary_m) ** 0.2
        nearest = min(BORES_M, key=lambda each: abs(math.log(each / wanted)))
        if nearest == bore:
            return plant
        bore = nearest
    return plant


def _of_bore(tables: Tables, plant: Plant, plate: SystemPlate) -> Plant:
    """The plant calibrated with the bore that it has."""
    around = design_around(plate.charge_kg)
    try:
        point = design_point(tables, plant, around, SUPERHEAT_K, SUBCOOLING_K)
        wider = design_point(tables, _wider(plant, 1.1), around, SUPERHEAT_K, SUBCOOLING_K)
    except NotFound:
        raise _no_capillary(plate) from None
    factor = 1.0 + 0.1 * (plate.charge_kg - point.charge_kg) / (wider.charge_kg - point.charge_kg)
    low, high = VOLUME_FACTORS
    if not low < factor < high:
        raise _no_capillary(plate)
    return _wider(plant, factor)._replace(capillary_m=length_for(tables, plant, point))


def _no_capillary(plate: SystemPlate) -> InputError:
    return InputError(
        f"no capillary gives {SUPERHEAT_K:g} K of superheat and {SUBCOOLING_K:g} K of subcooling with "
        f"{plate.charge_kg * 1e3:.4g} g of {plate.refrigerant} and {plate.displacement_m3 * 1e6:.3g} cm³; "
        "is the charge or the displacement mistyped?"
    )


def _wider(plant: Plant, factor: float) -> Plant:
    """A plant with the inside volumes of both exchangers times a factor."""
    return plant._replace(evaporator_m3=plant.evaporator_m3 * factor, condenser_m3=plant.condenser_m3 * factor)
