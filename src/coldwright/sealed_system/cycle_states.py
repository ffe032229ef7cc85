"""What a cycle is made of: its settings, its states, and the heats and the work of each kilogram that goes round."""

from __future__ import annotations

import math
from dataclasses import dataclass

from coldwright.errors import InputError
from coldwright.refrigerants.saturation import bubble_temperature, dew_temperature
from coldwright.refrigerants.states import State

MOST_DIFFERENCE_K = 100.0  # beyond it a superheat or subcooling is a temperature that was typed in its place


def _check_difference(name: str, kelvin: float) -> None:
    if kelvin < 0:
        raise InputError(
            f"{name} is {kelvin:g} K; it is a difference of zero or more. Below zero, liquid and vapour are mixed there"
        )
    if not kelvin <= MOST_DIFFERENCE_K:
        raise InputError(
            f"{name} is {kelvin:g} K; it must be from 0 K to {MOST_DIFFERENCE_K:g} K. Was a temperature typed in place "
            "of a difference?"
        )


def check_share(name: str, value: float, zero_too: bool = False) -> None:
    """Refuses what is no share of a whole.

    Parameters
    ----------
    name : str
        What it is, for the message [-]
    value : float
        The share [-]
    zero_too : bool
        Whether zero is allowed [-]

    Raises
    ------
    InputError
        If it is outside 0 to 1.
    """
    if 0 < value <= 1 or (zero_too and value == 0):
        return
    slip = f". Was {value:g} % meant? Then it is {value / 100:g}" if 1 < value <= 100 else ""
    raise InputError(
        f"{name} is {value:g}; it must be {'from' if zero_too else 'above'} 0 {'' if zero_too else 'and up '}to 1{slip}"
    )


def carnot_cop(cold_k: float, warm_k: float) -> float:
    """COP of a Carnot refrigerator: the most that any machine can reach between two temperatures.

    Parameters
    ----------
    cold_k, warm_k : float
        Temperatures that heat is taken from and given to [K]

    Returns
    -------
    float
        Cold over work [-]

    Raises
    ------
    InputError
        If the warm side is not above the cold one, or the cold one is not above absolute zero.

    Examples
    --------
    >>> round(carnot_cop(273.0, 299.0), 1)
    10.5
    """
    if not 0 < cold_k < math.inf:
        raise InputError(f"the cold temperature is {cold_k:g} K; it must be above 0 K and finite. Was it in °C?")
    if not cold_k < warm_k < math.inf:
        raise InputError(
            f"the warm temperature is {warm_k:g} K; it must be above the cold one, {cold_k:g} K. Were they swapped?"
        )
    return cold_k / (warm_k - cold_k)


@dataclass(frozen=True)
class Settings:
    """How a cycle departs from the plain one: differences [K], drops of pressure [Pa], heat for each kilogram [J/kg].

    `isentropic_efficiency` or the measured `discharge_k`, not both; without them the compressor is perfect.
    `suction_gain_k` is how much the vapour warms between evaporator and compressor without cooling anything.
    `exchanger` is the effectiveness of a suction-line exchanger on the vapour side.
    `shell_loss` is heat that the compressor's shell gives to the room.
    """

    superheat_k: float = 0.0
    subcooling_k: float = 0.0
    isentropic_efficiency: float | None = None
    discharge_k: float | None = None
    suction_gain_k: float = 0.0
    exchanger: float = 0.0
    shell_loss: float = 0.0
    evaporator_drop_pa: float = 0.0
    suction_drop_pa: float = 0.0
    condenser_drop_pa: float = 0.0

    def __post_init__(self) -> None:
        for name in ("superheat_k", "subcooling_k", "suction_gain_k"):
            _check_difference(name.removesuffix("_k").replace("_", " "), getattr(self, name))
        for name in ("evaporator_drop_pa", "suction_drop_pa", "condenser_drop_pa", "shell_loss"):
            value = getattr(self, name)
            if not 0 <= value < math.inf:
                words = name.removesuffix("_pa").replace("_", " ")
                unit = "Pa" if name.endswith("_pa") else "J/kg"
                raise InputError(f"{words} is {value:g} {unit}; it must be zero or more and finite")
        check_share("exchanger effectiveness", self.exchanger, zero_too=True)
        if self.isentropic_efficiency is not None:
            check_share("isentropic efficiency", self.isentropic_efficiency)
            if self.discharge_k is not None:
                raise InputError(
                    "an isentropic efficiency and a discharge temperature are both given; each follows from the other. "
                    "Leave one out"
                )


@dataclass(frozen=True)
class Cycle:
    """A closed cycle: its states and, for each kilogram that goes round, its heats and its work."""

    refrigerant: str
    evaporator_outlet: State
    suction: State
    ideal_discharge: State
    discharge: State
    condenser_outlet: State
    liquid: State
    evaporator_inlet: State
    shell_loss: float

    @property
    def refrigerating_effect(self) -> float:
        """Heat that each kilogram takes up in the evaporator [J/kg]."""
        return self.evaporator_outlet.enthalpy_j_per_kg - self.evaporator_inlet.enthalpy_j_per_kg

    @property
    def work(self) -> float:
        """Work that each kilogram takes in the compressor, the heat its shell loses included [J/kg]."""
        return self.discharge.enthalpy_j_per_kg - self.suction.enthalpy_j_per_kg + self.shell_loss

    @property
    def condenser_heat(self) -> float:
        """Heat that each kilogram gives off between compressor and condenser outlet [J/kg]."""
        return self.discharge.enthalpy_j_per_kg - self.condenser_outlet.enthalpy_j_per_kg

    @property
    def exchanged(self) -> float:
        """Heat that the suction-line exchanger takes from each kilogram of liquid [J/kg]."""
        return self.condenser_outlet.enthalpy_j_per_kg - self.liquid.enthalpy_j_per_kg

    @property
    def useless_gain(self) -> float:
        """Heat that the suction line takes from the room, for each kilogram [J/kg]."""
        return self.suction.enthalpy_j_per_kg - self.evaporator_outlet.enthalpy_j_per_kg - self.exchanged

    @property
    def cop(self) -> float:
        """Cold over work [-]."""
        return self.refrigerating_effect / self.work

    @property
    def carnot_cop(self) -> float:
        """COP of a Carnot cycle between evaporating and condensing temperature [-]."""
        return carnot_cop(self.evaporating_k, self.condensing_k)

    @property
    def evaporating_k(self) -> float:
        """Dew temperature at the evaporator's outlet pressure [K]."""
        return dew_temperature(self.refrigerant, self.evaporator_outlet.pressure_pa)

    @property
    def condensing_k(self) -> float:
        """Dew temperature at the discharge pressure [K]."""
        return dew_temperature(self.refrigerant, self.discharge.pressure_pa)

    @property
    def pressure_ratio(self) -> float:
        """Discharge over suction pressure, both absolute [-]."""
        return self.discharge.pressure_pa / self.suction.pressure_pa

    @property
    def isentropic_efficiency(self) -> float:
        """Work of a perfect compressor over the work it takes [-]."""
        return (self.ideal_discharge.enthalpy_j_per_kg - self.suction.enthalpy_j_per_kg) / self.work

    @property
    def superheat(self) -> float:
        """Superheat at the evaporator's outlet [K]."""
        return self.evaporator_outlet.temperature_k - self.evaporating_k

    @property
    def suction_superheat(self) -> float:
        """Superheat at the compressor [K]."""
        return self.suction.temperature_k - dew_temperature(self.refrigerant, self.suction.pressure_pa)

    @property
    def subcooling(self) -> float:
        """Subcooling at the condenser's outlet [K]."""
        bubble_k = bubble_temperature(self.refrigerant, self.condenser_outlet.pressure_pa)
        return bubble_k - self.condenser_outlet.temperature_k

    @property
    def states(self) -> tuple[tuple[str, State], ...]:
        """The states by name, in the order of the flow; those that fall on their neighbour are left out."""
        named = [("suction", self.suction), ("discharge", self.discharge), ("condenser outlet", self.condenser_outlet)]
        if self.liquid != self.condenser_outlet:
            named.append(("liquid after the exchanger", self.liquid))
        named.append(("evaporator inlet", self.evaporator_inlet))
        if self.evaporator_outlet != self.suction:
            named.append(("evaporator outlet", self.evaporator_outlet))
        return tuple(named)
