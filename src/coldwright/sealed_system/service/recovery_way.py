"""Ways to draw refrigerant out: what each one takes from a system through its hose."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.quantities.constants import GAS_CONSTANT, SEA_LEVEL_PA
from coldwright.sealed_system.service.gas_flow import Hose, hose_flow
from coldwright.sealed_system.service.inputs import check_positive, check_pressure, check_temperature
from coldwright.sealed_system.service.recovery_columns import Saturation

VISCOSITY = 1.15e-5  # of refrigerant vapour near 20 °C, 0.7e-5 to 1.3e-5 by kind [Pa s] (from memory)
HEAD_ABOVE_ROOM_K = 10.0  # condensing above the room while the unit's own compressor pumps out; illustrative


@dataclass(frozen=True)
class Inside:
    """Vapour in the system at this moment."""

    pressure_pa: float
    temperature_k: float
    room_k: float


@dataclass(frozen=True)
class RecoveryMachine:
    """A machine with a pump of its own (active): volume it takes in a second, and the lowest pressure it reaches."""

    displacement_m3_per_s: float
    ultimate_pa: float

    def __post_init__(self) -> None:
        check_positive("the displacement of the machine", self.displacement_m3_per_s, "m³/s")
        check_pressure("the lowest pressure of the machine", self.ultimate_pa)

    def taken(self, inlet_pa: float, molar_mass: float, temperature_k: float) -> float:
        """Mass flow that the pump takes at its inlet.

        Parameters
        ----------
        inlet_pa : float
            Absolute pressure at the pump [Pa]
        molar_mass : float
            Of the vapour [kg/mol]
        temperature_k : float
            Of the vapour [K]

        Returns
        -------
        float
            Mass flow, zero at and below the lowest pressure [kg/s]
        """
        above = max(0.0, inlet_pa - self.ultimate_pa)
        return self.displacement_m3_per_s * above * molar_mass / (GAS_CONSTANT * temperature_k)


@dataclass(frozen=True)
class Bag:
    """A recovery bag (passive), which stays at the pressure of the air around it until it is full."""

    air_pa: float = SEA_LEVEL_PA

    def __post_init__(self) -> None:
        check_pressure("the air pressure", self.air_pa, 1.2e5)


@dataclass(frozen=True)
class ColdCylinder:
    """An evacuated cylinder kept cold, as in ice (passive): its volume and its temperature."""

    volume_m3: float
    temperature_k: float

    def __post_init__(self) -> None:
        check_positive("the volume of the cylinder", self.volume_m3, "m³")
        check_temperature("the temperature of the cylinder", self.temperature_k)


Way = RecoveryMachine | Bag | ColdCylinder


def back_pressure(way: Bag | ColdCylinder, recovered_kg: float, saturation: Saturation) -> float:
    """Pressure that a passive way holds against the hose.

    Parameters
    ----------
    way : Bag | ColdCylinder
        Where the refrigerant goes [-]
    recovered_kg : float
        What is in it already [kg]
    saturation : Saturation
        Columns of the refrigerant [-]

    Returns
    -------
    float
        Absolute pressure; of a cold cylinder at most the vapour pressure at its temperature [Pa]
    """
    if isinstance(way, Bag):
        return way.air_pa
    return saturation.vapour_pressure_of(recovered_kg / way.volume_m3, way.temperature_k)


def floor_pressure(way: Way, own: RecoveryMachine | None, recovered_kg: float, saturation: Saturation) -> float:
    """Lowest pressure to which a way can draw the system at this moment.

    Parameters
    ----------
    way : Way
        Machine, bag or cold cylinder [-]
    own : RecoveryMachine | None
        The unit's own compressor where it runs [-]
    recovered_kg : float
        What came out already [kg]
    saturation : Saturation
        Columns of the refrigerant [-]

    Returns
    -------
    float
        Absolute pressure [Pa]
    """
    if isinstance(way, RecoveryMachine):
        return way.ultimate_pa
    return own.ultimate_pa if own else back_pressure(way, recovered_kg, saturation)


def _through_machine(machine: RecoveryMachine, hose: Hose, inside: Inside, molar_mass: float) -> float:
    """Flow at which hose and pump agree on the pressure between them."""
    temperature = inside.temperature_k
    low, high = min(machine.ultimate_pa, inside.pressure_pa), inside.pressure_pa
    if machine.taken(high, molar_mass, temperature) == 0.0:
        return 0.0
    for _ in range(24):
        middle = (low + high) / 2.0
        through = hose_flow(hose, inside.pressure_pa, middle, molar_mass, temperature, VISCOSITY)
        if through > machine.taken(middle, molar_mass, temperature):
            low = middle
        else:
            high = middle
    return machine.taken((low + high) / 2.0, molar_mass, temperature)


def outflow(
    way: Way, hose: Hose, own: RecoveryMachine | None, inside: Inside, recovered_kg: float, saturation: Saturation
) -> float:
    """Mass of vapour that leaves the system in a second.

    Parameters
    ----------
    way : Way
        Machine, bag or cold cylinder [-]
    hose : Hose
        Hose to it [-]
    own : RecoveryMachine | None
        The unit's own compressor where it runs, as a pump; it pushes only on passive ways [-]
    inside : Inside
        Vapour in the system, and the room [-]
    recovered_kg : float
        What came out already [kg]
    saturation : Saturation
        Columns of the refrigerant [-]

    Returns
    -------
    float
        Mass flow [kg/s]
    """
    molar_mass = saturation.molar_mass
    if isinstance(way, RecoveryMachine):
        return _through_machine(way, hose, inside, molar_mass)
    back = back_pressure(way, recovered_kg, saturation)
    if own is None:
        return hose_flow(hose, inside.pressure_pa, back, molar_mass, inside.temperature_k, VISCOSITY)
    head = saturation.pressure(inside.room_k + HEAD_ABOVE_ROOM_K)
    hose_lets = hose_flow(hose, head, back, molar_mass, inside.room_k, VISCOSITY)
    return min(hose_lets, own.taken(inside.pressure_pa, molar_mass, inside.temperature_k))
