"""What a cooler's cold side is made of: the sealed system behind its plate, calibrated, and its cabinet."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from coldwright.cabinet.air import CabinetNumbers
from coldwright.errors import InputError
from coldwright.refrigerants.catalogue import refrigerant_named
from coldwright.sealed_system.balance import first_guess
from coldwright.sealed_system.design import MotorLine, SystemPlate, design_around, plant_of
from coldwright.sealed_system.engine import engine_of
from coldwright.sealed_system.plant import Moment, Plant

SHAFT_PER_DISPLACEMENT = 0.43  # W per cm³ and Hz, to begin the search with; illustrative
SHAFT_AGREES = 0.002
MOST_TURNS = 8
ROUND_THE_CLOCK = 0.4  # share of the time that a cooler runs in a room of 25 °C; illustrative
_CHARGE = re.compile(r"^\s*(?P<name>.+?)\s*,\s*(?P<number>\d+(?:\.\d+)?)\s*g\s*$")


@dataclass(frozen=True)
class ColdSide:
    """The sealed system and the cabinet of a unit, faults included.

    Parameters
    ----------
    refrigerant : str
        What is in it [-]
    plant : Plant
        The sealed system [-]
    plate_charge_kg : float
        Charge on the nameplate [kg]
    cabinet : CabinetNumbers
        The cabinet with its door shut, no fan and no lamp [-]
    design_drop_pa : float
        Discharge less suction pressure at the design point [Pa]
    still_condenser, still_evaporator : float
        Share of the heat that passes while that fan stands still [-]
    open_door_w_per_k : float
        Heat that comes in at an open door [W/K]
    """

    refrigerant: str
    plant: Plant
    plate_charge_kg: float
    cabinet: CabinetNumbers
    design_drop_pa: float
    still_condenser: float = 0.3
    still_evaporator: float = 0.3
    open_door_w_per_k: float = 12.0


def plate_charge(text: str) -> tuple[str, float]:
    """Refrigerant and charge of a plate's line such as "R-134a, 85 g".

    Parameters
    ----------
    text : str
        The line [-]

    Returns
    -------
    tuple of str and float
        Name, and charge in kg [-]

    Raises
    ------
    InputError
        If it is not of that form, or the refrigerant is unknown.
    """
    found = _CHARGE.match(text)
    if found is None:
        raise InputError(f'the refrigerant is "{text}"; write name and grams such as "R-134a, 85 g"')
    return refrigerant_named(found["name"]).name, float(found["number"]) * 1e-3


@lru_cache(maxsize=64)
def cold_side_of(refrigerant_line: str, hertz: float, motor: MotorLine, shaft_w: float) -> ColdSide:
    """The cold side of a cooler whose compressor asks for a torque at its design point.

    Parameters
    ----------
    refrigerant_line : str
        Refrigerant and charge as on the plate [-]
    hertz : float
        Frequency of the supply [Hz]
    motor : MotorLine
        The compressor's motor [-]
    shaft_w : float
        Power at its shaft at the design point [W]

    Returns
    -------
    ColdSide
        Calibrated, without fault [-]
    """
    refrigerant, charge = plate_charge(refrigerant_line)
    displacement = shaft_w / (SHAFT_PER_DISPLACEMENT * hertz) * 1e-6
    for _ in range(MOST_TURNS):
        plant = plant_of(SystemPlate(refrigerant, charge, displacement, hertz), motor)
        now = _at_design(refrigerant, plant, charge)
        if abs(now.shaft_w / shaft_w - 1.0) < SHAFT_AGREES:
            break
        displacement *= shaft_w / now.shaft_w
    return ColdSide(refrigerant, plant, charge, _cabinet(now), now.discharge_pa - now.suction_pa)


def _at_design(refrigerant: str, plant: Plant, charge: float) -> Moment:
    """What the system shows at its design point."""
    engine = engine_of(refrigerant)
    around = design_around(charge)
    found = engine.steady(engine.tables, plant, around, first_guess(engine.tables, around))
    return engine.at_once(engine.tables, plant, around, found.state)


def motor_line(shafts: Sequence[float], watts: Sequence[float], turns: Sequence[float]) -> MotorLine:
    """A motor's line through three points.

    Parameters
    ----------
    shafts, watts : sequence of float
        Power at the shaft and taken from the supply, rising [W]
    turns : sequence of float
        Speed [rev/s]
    """
    (a, b, c), (p, q, r) = shafts, watts
    bend = ((r - p) / (c - a) - (q - p) / (b - a)) / (c - b)
    slope = (q - p) / (b - a) - bend * (a + b)
    fall = (turns[0] - turns[2]) / (c - a)
    return MotorLine(turns[0] + fall * a, fall, p - slope * a - bend * a * a, slope, bend)


def _cabinet(now: Moment) -> CabinetNumbers:
    """A cabinet that such a system keeps cold by running part of the time; illustrative."""
    load = ROUND_THE_CLOCK * now.evaporator_w
    walls = 0.75 * load / 21.0
    return CabinetNumbers(
        walls_w_per_k=walls,
        door_w_per_k=0.1 * load / 21.0,
        inside_w=0.0,
        latent_w=0.05 * load,
        air_j_per_k=250.0 * load,
        coupling_w_per_k=0.07 * load,
        product_above_j_per_k=700.0 * load,
        product_below_j_per_k=350.0 * load,
        freezes_k=271.15,
        freezing_j=5e4 * load,
        freezing_span_k=2.0,
        respiration_w=0.0,
        respiration_q10=2.0,
    )
