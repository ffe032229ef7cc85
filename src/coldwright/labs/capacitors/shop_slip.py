"""What the shop wrote down before the cooler came to the bench, each number through a power meter.

With the rotor held still, volts, amps and watts of each winding alone; and for a start capacitor its amps across the
supply for one second, since no meter can follow it in the instant of a start.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from coldwright.appliance.parts import Parts
from coldwright.bench.draw import Draw
from coldwright.electrical.capacitor import Capacitor, Condition
from coldwright.electrical.capacitor_sizing import impedance_from_readings
from coldwright.electrical.measured import Measured
from coldwright.electrical.motor import winding_impedance
from coldwright.electrical.motor_types import capacitor_impedance
from coldwright.instruments.display import Display, Error, Range, decimals, show_size
from coldwright.instruments.power_meter import RANGES, UNITS, Quantity

HELD_AT = 0.5  # of the rated volts: the rotor is held at half the supply, so that nothing overheats
STANDS_WITHIN = 0.7  # of its accuracy: where an instrument of the course stands at most


@dataclass(frozen=True)
class Held:
    """Volts, amps and watts of one winding with the rotor held still."""

    volts: Display
    amps: Display
    watts: Display

    @property
    def readings(self) -> tuple[Measured, Measured, Measured]:
        """The three readings, each with the meter's limit and one digit."""
        return with_digit(self.volts), with_digit(self.amps), with_digit(self.watts)

    @property
    def impedance(self) -> complex:
        """Impedance that the readings give [Ω]."""
        return impedance_from_readings(self.volts.value, self.amps.value, self.watts.value)

    @property
    def text(self) -> str:
        """The readings as the slip shows them."""
        return f"{self.volts.text}, {self.amps.text}, {self.watts.text}"


@dataclass(frozen=True)
class ShopSlip:
    """The slip. `load` are volts and amps of a start capacitor on the supply; None for a run one or a blown fuse."""

    run: Held
    start: Held
    load: tuple[Display, Display] | None
    fuse_blew: bool = False


def with_digit(display: Display) -> Measured:
    """A reading with the instrument's limit and one digit more.

    Parameters
    ----------
    display : Display
        What showed [-]
    """
    return Measured(display.value, display.limit + display.resolution)


def drawn_slip(draw: Draw, parts: Parts, capacitor: Capacitor | None) -> ShopSlip:
    """The slip of a unit; where the shop's meter stands within its accuracy is drawn.

    Parameters
    ----------
    draw : Draw
        Where the numbers come from [-]
    parts : Parts
        The unit's parts as they came [-]
    capacitor : Capacitor, optional
        The start capacitor that was put across the supply; None where the job is a run capacitor [-]
    """

    def shown(quantity: Quantity, value: float) -> Display:
        name = f"shop meter {quantity.value}"
        error = Error(*(draw.between(f"{what} {name}", -STANDS_WITHIN, STANDS_WITHIN) for what in ("gain", "offset")))
        return show_size(value, (RANGES[quantity],), lambda _range: error, _writer(quantity))

    motor, supply = parts.motor, parts.supply
    assert motor is not None
    (run, _), (_, start) = winding_impedance(motor, 1.0)
    held = {name: _held(shown, HELD_AT * supply.volts, z) for name, z in (("run", run), ("start", start))}
    if capacitor is None:
        return ShopSlip(held["run"], held["start"], load=None)
    if capacitor.condition is Condition.SHORTED:
        return ShopSlip(held["run"], held["start"], load=None, fuse_blew=True)
    amps = supply.volts * abs(admittance(capacitor, supply.hertz))
    return ShopSlip(held["run"], held["start"], load=(shown(Quantity.VOLTS, supply.volts), shown(Quantity.AMPS, amps)))


def admittance(capacitor: Capacitor, hertz: float) -> complex:
    """Admittance of a capacitor with its loss, its leak and its bleed resistor; not of a shorted one [S].

    Parameters
    ----------
    capacitor : Capacitor
        The capacitor [-]
    hertz : float
        Frequency of the supply [Hz]
    """
    drain = 1 / capacitor.drain_ohm
    if capacitor.condition is Condition.OPEN:
        return complex(drain)
    return drain + 1 / capacitor_impedance(capacitor.farad, hertz, capacitor.loss_tangent)


def _held(shown: Callable[[Quantity, float], Display], volts: float, z: complex) -> Held:
    amps = volts / abs(z)
    values = {Quantity.VOLTS: volts, Quantity.AMPS: amps, Quantity.WATTS: amps**2 * z.real}
    return Held(*(shown(quantity, value) for quantity, value in values.items()))


def _writer(quantity: Quantity) -> Callable[[float, Range], str]:
    return lambda value, chosen: f"{value:.{decimals(chosen.resolution)}f} {UNITS[quantity]}"
