"""A gauge set: a compound gauge for the low side, a pressure gauge for the high side, with needles or with digits.

A gauge shows pressure above that of the room: 0 is the air where you stand. Its accuracy is a share of the whole span,
not of the reading: a low pressure on a wide gauge is a poor reading.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import Enum

from coldwright.errors import BenchError, InputError
from coldwright.instruments.display import Display, Error, Range, show
from coldwright.instruments.service_events import Ports, ServiceEvent
from coldwright.quantities import Kind, in_unit, to_si
from coldwright.quantities.constants import SEA_LEVEL_PA

ZERO_AGREES_PA = 2_000.0  # a pressure this near that of the room counts as open to the air
_STRAIN_SHIFT = 0.02  # part of the span by which a strained gauge reads high; illustrative


class GaugeKind(Enum):
    """How a gauge shows: a needle between marks, or digits from a sensor that must be zeroed at the place."""

    NEEDLE = "needle"
    DIGITS = "digits"


@dataclass(frozen=True)
class GaugeScale:
    """A gauge's scale in Pa above the room: ends, class as percent of span, smallest step, pressure that strains it."""

    name: str
    kind: GaugeKind
    low_pa: float
    high_pa: float
    class_percent: float
    resolution_pa: float
    strained_pa: float

    @property
    def limit_pa(self) -> float:
        """Most that a reading can be off: the class of the span, and half a step [Pa]."""
        return (self.high_pa - self.low_pa) * self.class_percent / 100 + 0.5 * self.resolution_pa


def _bar(value: float) -> float:
    return to_si(value, Kind.PRESSURE_GAUGE, "barg")


LOW_NEEDLE = GaugeScale("low side", GaugeKind.NEEDLE, _bar(-1), _bar(10), 1.6, _bar(0.1), _bar(20))
HIGH_NEEDLE = GaugeScale("high side", GaugeKind.NEEDLE, 0.0, _bar(35), 1.6, _bar(0.5), _bar(50))
LOW_DIGITS = GaugeScale("low side", GaugeKind.DIGITS, _bar(-1), _bar(40), 0.5, _bar(0.01), _bar(60))
HIGH_DIGITS = GaugeScale("high side", GaugeKind.DIGITS, _bar(-1), _bar(60), 0.5, _bar(0.01), _bar(80))
"""Spans, classes and steps of the usual size (common practice, no source)."""


@dataclass
class Gauge:
    """One gauge of a set; `error` says where it stands within its accuracy, `zeroed_at_pa` what its sensor calls zero.

    A needle is a free tube in the air of the room and needs no zeroing for weather or height.
    """

    scale: GaugeScale
    error: Error = field(default_factory=Error)
    zeroed_at_pa: float = SEA_LEVEL_PA
    strained: bool = False

    def zero(self, absolute_pa: float, atmosphere_pa: float) -> tuple[ServiceEvent, ...]:
        """Takes what is on the hose for zero; tells if that was not the air of the room.

        Parameters
        ----------
        absolute_pa : float
            Absolute pressure on the hose [Pa]
        atmosphere_pa : float
            Pressure of the room [Pa]

        Raises
        ------
        BenchError
            If the gauge has a needle: its zero is set with a screw, hoses open, and stays.
        """
        _check("the pressure on the hose", absolute_pa)
        if self.scale.kind is GaugeKind.NEEDLE:
            raise BenchError("this gauge has a needle; open to the air it must stand at 0, there is no zero button")
        self.zeroed_at_pa = absolute_pa
        away = abs(absolute_pa - atmosphere_pa) > ZERO_AGREES_PA
        return (ServiceEvent.ZEROED_UNDER_PRESSURE,) if away else ()

    def read(self, side: Ports, port: str, atmosphere_pa: float) -> tuple[Display, tuple[ServiceEvent, ...]]:
        """What the gauge shows on a port, and what that did.

        Parameters
        ----------
        side : Ports
            The refrigerant side [-]
        port : str
            Where its hose is [-]
        atmosphere_pa : float
            Pressure of the room [Pa]

        Raises
        ------
        BenchError
            If there is no such port.
        """
        if port not in side.ports():
            raise BenchError(f"there is no port {port!r} here; a hose fits {', '.join(side.ports()) or 'nowhere'}")
        return self.show(side.pressure_pa(port), atmosphere_pa)

    def show(self, absolute_pa: float, atmosphere_pa: float) -> tuple[Display, tuple[ServiceEvent, ...]]:
        """What the gauge shows for a true pressure, and what that did; value and limit are above the room, in Pa.

        Parameters
        ----------
        absolute_pa : float
            True absolute pressure, zero or more [Pa]
        atmosphere_pa : float
            Pressure of the room, above zero [Pa]

        Raises
        ------
        InputError
            If a pressure is below these bounds.
        """
        _check("the absolute pressure", absolute_pa)
        _check("the pressure of the room", atmosphere_pa)
        scale = self.scale
        over = absolute_pa - atmosphere_pa
        bent_now = over > scale.strained_pa and not self.strained
        self.strained = self.strained or bent_now
        events = (ServiceEvent.GAUGE_BENT,) if bent_now else ()
        seen = absolute_pa - (self.zeroed_at_pa if scale.kind is GaugeKind.DIGITS else atmosphere_pa)
        span = scale.high_pa - scale.low_pa
        seen += span * (self.error.offset * scale.class_percent / 100 + (_STRAIN_SHIFT if self.strained else 0.0))
        if seen > scale.high_pa:
            return self._beyond(), (*events, ServiceEvent.GAUGE_OVER_RANGE)
        shown = show(max(seen, scale.low_pa), Range(span, scale.resolution_pa, 0.0, 0), Error(), _write)
        return Display(shown.text, shown.value, scale.limit_pa, scale.resolution_pa), events

    def _beyond(self) -> Display:
        text = "needle at its stop" if self.scale.kind is GaugeKind.NEEDLE else "OL"
        return Display(text, math.inf, 0.0, self.scale.resolution_pa)


@dataclass
class GaugeSet:
    """The two gauges of a set and the ports their hoses are on; None for a hose that hangs free."""

    low: Gauge = field(default_factory=lambda: Gauge(LOW_NEEDLE))
    high: Gauge = field(default_factory=lambda: Gauge(HIGH_NEEDLE))
    low_port: str | None = None
    high_port: str | None = None

    def read_low(self, side: Ports, atmosphere_pa: float) -> tuple[Display, tuple[ServiceEvent, ...]]:
        """What the low gauge shows, and what that did.

        Parameters
        ----------
        side : Ports
            The refrigerant side [-]
        atmosphere_pa : float
            Pressure of the room [Pa]
        """
        return _read(self.low, self.low_port, side, atmosphere_pa)

    def read_high(self, side: Ports, atmosphere_pa: float) -> tuple[Display, tuple[ServiceEvent, ...]]:
        """What the high gauge shows, and what that did.

        Parameters
        ----------
        side : Ports
            The refrigerant side [-]
        atmosphere_pa : float
            Pressure of the room [Pa]
        """
        return _read(self.high, self.high_port, side, atmosphere_pa)


def absolute_limits(shown: Display, atmosphere_pa: float, atmosphere_limit_pa: float) -> tuple[float, float]:
    """Absolute pressure with its ± from a reading and the pressure of the room; nan for no number.

    Parameters
    ----------
    shown : Display
        What the gauge showed [-]
    atmosphere_pa, atmosphere_limit_pa : float
        Pressure of the room with its ± [Pa]

    Returns
    -------
    tuple of float
        Absolute pressure and its limit [Pa]
    """
    if not math.isfinite(shown.value):
        return math.nan, math.nan
    return shown.value + atmosphere_pa, shown.limit + atmosphere_limit_pa


def _read(
    gauge: Gauge, port: str | None, side: Ports, atmosphere_pa: float
) -> tuple[Display, tuple[ServiceEvent, ...]]:
    if port is None:
        return gauge.show(atmosphere_pa, atmosphere_pa)
    return gauge.read(side, port, atmosphere_pa)


def _write(pascal: float, _range: Range) -> str:
    bar = in_unit(pascal, Kind.PRESSURE_GAUGE, "barg")
    psi = in_unit(pascal, Kind.PRESSURE_GAUGE, "psig")
    other = f"{psi:.0f} psig" if psi >= 0 else f"{in_unit(pascal, Kind.PRESSURE_GAUGE, 'inHg vac'):.1f} inHg vacuum"
    return f"{bar + 0.0:.2f} bar gauge ({other})"


def _check(name: str, pascal: float) -> None:
    if not 0 <= pascal < math.inf:
        raise InputError(f"{name} is {pascal:g} Pa; it must be zero or more and finite. Was it a gauge pressure?")
