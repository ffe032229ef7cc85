"""A plug-in power meter between outlet and cord: volts, amps, watts, power factor, volt-amps and energy.

Made up for the course. The power factor is worked out from watts and volt-amps; with next to no current it shows none.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from enum import Enum

from coldwright.errors import InputError
from coldwright.instruments.display import (
    Display,
    Error,
    LiveCircuit,
    Range,
    decimals,
    limit_and_resolution,
    no_reading,
    show_size,
)
from coldwright.quantities.checks import check_number

KWH = 3.6e6  # joules in a kilowatt-hour
NO_POWER_FACTOR_BELOW_VA = 1.0
SHUNT_OHM = 0.005  # in the path of the current; too small to count
INPUT_OHM = 1e6  # across the outlet; too large to count
CATEGORY = "CAT II 300 V"


class Quantity(Enum):
    """What the power meter can show."""

    VOLTS = "volts"
    AMPS = "amps"
    WATTS = "watts"
    VOLT_AMPS = "volt-amps"
    POWER_FACTOR = "power factor"
    ENERGY = "energy"


RANGES = {
    Quantity.VOLTS: Range(300.0, 0.1, 1.0, 2),
    Quantity.AMPS: Range(16.0, 0.001, 1.0, 5),
    Quantity.WATTS: Range(4000.0, 0.1, 1.0, 5),
    Quantity.VOLT_AMPS: Range(4800.0, 0.1, 1.0, 5),
    Quantity.POWER_FACTOR: Range(1.005, 0.01, 1.0, 2),
    Quantity.ENERGY: Range(10000 * KWH, 0.001 * KWH, 1.0, 1),
}
UNITS = {
    Quantity.VOLTS: "V",
    Quantity.AMPS: "A",
    Quantity.WATTS: "W",
    Quantity.VOLT_AMPS: "VA",
    Quantity.POWER_FACTOR: "",
    Quantity.ENERGY: "kWh",
}


def energy_of(spans: Sequence[tuple[float, float]]) -> float:
    """Energy taken over spans of constant power [J].

    Parameters
    ----------
    spans : sequence of tuple of float
        Watts and how long, both zero or more [W and s]

    Raises
    ------
    InputError
        If a power or a time is below zero or no number.
    """
    for watts, seconds in spans:
        check_number("the power of a span", watts)
        check_number("the time of a span", seconds)
        if not (watts >= 0 and seconds >= 0):
            raise InputError(f"a span has {watts:g} W for {seconds:g} s; both must be zero or more")
    return math.fsum(watts * seconds for watts, seconds in spans)


def power_factor(watts: float, volts: float, amps: float) -> float:
    """Share of the volt-amps that is real power [-].

    Parameters
    ----------
    watts : float
        Real power, zero or more [W]
    volts, amps : float
        RMS voltage and current, both above zero [V, A]

    Raises
    ------
    InputError
        If a value is outside these bounds or the watts are more than the volt-amps.
    """
    for name, value, unit in (("volts", volts, "V"), ("amps", amps, "A")):
        check_number(f"the reading of {name}", value)
        if not value > 0:
            raise InputError(f"the {name} are {value:g} {unit}; a power factor needs more than zero")
    check_number("the power", watts)
    if not 0 <= watts <= volts * amps * (1 + 1e-9):
        raise InputError(
            f"the power is {watts:g} W of {volts * amps:g} VA; it must lie between zero and the volt-amps."
            " Were the readings taken at the same time?"
        )
    return watts / (volts * amps)


@dataclass
class PowerMeter:
    """One power meter. `draw_error` says where it stands within its accuracy on a quantity, by its name."""

    draw_error: Callable[[str], Error] = field(default=lambda _quantity: Error())
    category: str = CATEGORY

    def volts(self, circuit: LiveCircuit) -> Display:
        """RMS voltage at the plug.

        Parameters
        ----------
        circuit : LiveCircuit
            The circuit at this moment [-]
        """
        return self._show(Quantity.VOLTS, circuit.power()[1])

    def amps(self, circuit: LiveCircuit) -> Display:
        """RMS current in the cord.

        Parameters
        ----------
        circuit : LiveCircuit
            The circuit at this moment [-]
        """
        return self._show(Quantity.AMPS, circuit.power()[2])

    def watts(self, circuit: LiveCircuit) -> Display:
        """Real power that the unit takes.

        Parameters
        ----------
        circuit : LiveCircuit
            The circuit at this moment [-]
        """
        return self._show(Quantity.WATTS, max(0.0, circuit.power()[0]))

    def volt_amps(self, circuit: LiveCircuit) -> Display:
        """Volts times amps.

        Parameters
        ----------
        circuit : LiveCircuit
            The circuit at this moment [-]
        """
        _, volts, amps = circuit.power()
        return self._show(Quantity.VOLT_AMPS, volts * amps)

    def power_factor(self, circuit: LiveCircuit) -> Display:
        """Watts as a share of the volt-amps; no reading below 1 VA.

        Parameters
        ----------
        circuit : LiveCircuit
            The circuit at this moment [-]
        """
        watts, volts, amps = circuit.power()
        if volts * amps < NO_POWER_FACTOR_BELOW_VA:
            return no_reading("-.--")
        shown = self._show(Quantity.POWER_FACTOR, power_factor(max(0.0, watts), volts, amps))
        return shown if shown.value <= 1 else Display("1.00", 1.0, shown.limit, shown.resolution)

    def energy(self, joules: float) -> Display:
        """Energy counted since the meter was set to zero; text in kWh.

        Parameters
        ----------
        joules : float
            True energy, zero or more [J]

        Returns
        -------
        Display
            Value, limit and resolution in J.
        """
        return self._show(Quantity.ENERGY, joules)

    def _show(self, quantity: Quantity, value: float) -> Display:
        return show_size(value, (RANGES[quantity],), lambda _number: self.draw_error(quantity.value), _writer(quantity))


def _writer(quantity: Quantity) -> Callable[[float, Range], str]:
    factor = KWH if quantity is Quantity.ENERGY else 1.0

    def write(value: float, chosen: Range) -> str:
        return f"{value / factor:.{decimals(chosen.resolution / factor)}f} {UNITS[quantity]}".rstrip()

    return write


def limit_of_power_meter(quantity: Quantity, value: float) -> tuple[float, float]:
    """Accuracy limit and resolution of this power meter for what it shows.

    Parameters
    ----------
    quantity : Quantity
        What it shows [-]
    value : float
        Value shown, in SI; energy in joules [unit of the quantity]

    Returns
    -------
    tuple of float
        Limit and resolution; both inf over range [unit of the quantity]
    """
    return limit_and_resolution((RANGES[quantity],), value)
