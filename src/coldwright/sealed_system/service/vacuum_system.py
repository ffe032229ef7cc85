"""What is evacuated: two sides joined by a capillary, with water, oil and perhaps a leak; and the rig that does it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from coldwright.errors import InputError
from coldwright.quantities.checks import check_positive
from coldwright.quantities.constants import ICE_POINT_K, SEA_LEVEL_PA
from coldwright.sealed_system.service.vacuum_flow import (
    AIR,
    NITROGEN,
    R134A,
    STEAM,
    Gas,
    Pump,
    Tube,
)

GASES = ("air", "nitrogen", "water", "refrigerant")
CAPILLARY = Tube(0.7e-3, 3.0)
MANIFOLD_M3 = 20e-6  # block of the gauge set; illustrative


class Side(Enum):
    """Which side of the capillary: the one with the compressor and the process tube is near."""

    NEAR = "near side"
    FAR = "far side"


@dataclass(frozen=True)
class VacuumSystem:
    """A sealed system as a vacuum pump sees it; all defaults are illustrative, of a small cooler.

    Volumes in m³, free of oil; temperature of the walls in K; the leak as the effective area of its hole in m². Water
    lies as one wet patch: area that evaporates well in m², heat from the wall to it in W/K, metal cooled with it in
    J/K. Oil in kg; the pressure of pure refrigerant that Henry's law gives for oil, in Pa, for each kg of refrigerant
    in a kg of oil; the time the oil takes to let it go, in s.
    """

    near_m3: float = 2.0e-3
    far_m3: float = 0.5e-3
    capillary: Tube = CAPILLARY
    wall_k: float = 293.15
    atmosphere_pa: float = SEA_LEVEL_PA
    leak_m2: float = 0.0
    leak_side: Side = Side.NEAR
    water_side: Side = Side.NEAR
    wet_m2: float = 1e-5
    wet_w_per_k: float = 0.03
    wet_j_per_k: float = 20.0
    oil_kg: float = 0.2
    henry_pa: float = 1.0e6
    oil_s: float = 1200.0
    refrigerant: Gas = R134A

    def __post_init__(self) -> None:
        for name, volume in (("near", self.near_m3), ("far", self.far_m3)):
            check_positive(f"the volume of the {name} side", volume, "m³")
            if volume > 0.1:
                raise InputError(
                    f"the volume of the {name} side is {volume:g} m³; a small system has at most 0.1 m³. "
                    "Was it typed in litres?"
                )
        if not 173.15 <= self.wall_k <= 373.15:
            raise InputError(
                f"the temperature of the walls is {self.wall_k:g} K; it must be 173.15 K to 373.15 K "
                "(-100 °C to 100 °C). Was it typed in °C?"
            )
        if not 0 <= self.leak_m2 <= 1e-6:
            raise InputError(f"the leak is {self.leak_m2:g} m²; it must be 0 to 1e-6 m². Was it typed in mm²?")
        check_positive("the pressure of the atmosphere", self.atmosphere_pa, "Pa")

    @property
    def gases(self) -> tuple[Gas, ...]:
        """The gases, in the order of `GASES`."""
        return AIR, NITROGEN, STEAM, self.refrigerant


@dataclass(frozen=True)
class VacuumState:
    """What stands in the system: Pa of each gas (order of `GASES`) on both sides and in the manifold.

    Besides: water left in kg, its temperature in K, refrigerant dissolved in the oil in kg.
    """

    near: tuple[float, ...]
    far: tuple[float, ...]
    manifold: tuple[float, ...]
    water_kg: float = 0.0
    wet_k: float = 293.15
    dissolved_kg: float = 0.0

    @property
    def near_pa(self) -> float:
        """Absolute pressure on the near side [Pa]."""
        return sum(self.near)

    @property
    def far_pa(self) -> float:
        """Absolute pressure on the far side [Pa]."""
        return sum(self.far)

    @property
    def pump_pa(self) -> float:
        """Absolute pressure in the manifold, where a gauge at the pump sits [Pa]."""
        return sum(self.manifold)

    @property
    def is_ice(self) -> bool:
        """Whether there is water and it is frozen."""
        return self.water_kg > 0 and self.wet_k < ICE_POINT_K


@dataclass(frozen=True)
class Rig:
    """What hangs on the system: a pump, the hose to the near side, and one to the far side if there is a port."""

    pump: Pump
    near_line: tuple[Tube, ...]
    far_line: tuple[Tube, ...] = ()

    def __post_init__(self) -> None:
        if not self.near_line:
            raise InputError("the rig has no hose to the near side; give at least one tube")

    @property
    def volume_m3(self) -> float:
        """Volume of the manifold with its hoses [m³]."""
        return MANIFOLD_M3 + sum(tube.volume_m3 for tube in (*self.near_line, *self.far_line))


def opened(system: VacuumSystem, water_kg: float = 0.0, dissolved_kg: float = 0.0) -> VacuumState:
    """State after the system stood open: dry air at the pressure of the room in it, and what else was left.

    Parameters
    ----------
    system : VacuumSystem
        The system [-]
    water_kg : float
        Water in it, zero or more [kg]
    dissolved_kg : float
        Refrigerant in the oil, zero or more [kg]

    Raises
    ------
    InputError
        If an amount is below zero, or more than fits in.
    """
    for name, amount, most in (("water", water_kg, 0.1), ("dissolved refrigerant", dissolved_kg, system.oil_kg)):
        if not 0 <= amount <= most:
            slip = ". Was it typed in grams?" if amount > most else ""
            raise InputError(f"the {name} is {amount:g} kg; it must be 0 to {most:g} kg{slip}")
    air = (system.atmosphere_pa, 0.0, 0.0, 0.0)
    return VacuumState(air, air, air, water_kg, system.wall_k, dissolved_kg)


def filled_to(system: VacuumSystem, state: VacuumState, pressure_pa: float, both_sides: bool = False) -> VacuumState:
    """State after the vacuum is broken with dry nitrogen from a regulator, faster than it passes the capillary.

    Parameters
    ----------
    system : VacuumSystem
        The system [-]
    state : VacuumState
        State before [-]
    pressure_pa : float
        Absolute pressure to fill to [Pa]
    both_sides : bool
        Whether the far side has a port that is filled as well [-]

    Raises
    ------
    InputError
        If that is below the pressure inside or above 1.5 times that of the room: a break needs no more.
    """
    most = 1.5 * system.atmosphere_pa
    if not state.near_pa <= pressure_pa <= most:
        raise InputError(
            f"the vacuum is to be broken to {pressure_pa:g} Pa absolute; it must be {state.near_pa:.4g} Pa, what is "
            f"inside, to {most:.4g} Pa. Was it a gauge pressure? Pressure tests are another job"
        )

    def filled(gases: tuple[float, ...]) -> tuple[float, ...]:
        return (gases[0], gases[1] + max(0.0, pressure_pa - math.fsum(gases)), *gases[2:])

    far = filled(state.far) if both_sides else state.far
    return VacuumState(filled(state.near), far, filled(state.manifold), state.water_kg, state.wet_k, state.dissolved_kg)


def diluted_share(evacuated_pa: tuple[float, ...], broken_to_pa: float) -> float:
    r"""Share of the first gas that is left after evacuations with breaks of nitrogen between them.

    .. math:: \prod p_i / p_b

    Parameters
    ----------
    evacuated_pa : tuple of float
        Absolute pressures reached, one for each evacuation [Pa]
    broken_to_pa : float
        Absolute pressure before each evacuation: of the room at first, of the nitrogen then [Pa]

    Returns
    -------
    float
        Share [-]

    Raises
    ------
    InputError
        If a pressure is not above zero, or higher than what it is broken to.

    Notes
    -----
    Holds for gas that mixes well. Liquid water, ice and what is in oil are not diluted: they need heat and time. What
    sits behind the capillary mixes slowly.
    """
    for pressure in evacuated_pa:
        if not 0 < pressure <= broken_to_pa:
            raise InputError(
                f"an evacuation reached {pressure:g} Pa; it must be above 0 Pa and at most the {broken_to_pa:g} Pa of "
                "the break. Was it typed in microns?"
            )
    return math.prod(pressure / broken_to_pa for pressure in evacuated_pa)
