"""A vacuum gauge with a heated sensor: microns of mercury, absolute, for a system without pressure.

It sees how well gas carries heat. It is made for air; its accuracy is a share of what it shows. Pressure ruins it, and
oil on its sensor makes it read too high.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from coldwright.errors import InputError
from coldwright.instruments.display import Display, Error, Range, no_reading, pick_range, show
from coldwright.instruments.service_events import ServiceEvent
from coldwright.quantities import Kind, in_unit, to_si

RANGES = (Range(1000.0, 1.0, 10.0, 2), Range(10_000.0, 10.0, 10.0, 2), Range(25_000.0, 100.0, 10.0, 2))
"""In microns: ±(10 % + 2 digits), steps of 1, 10 and 100 (common practice, no source)."""
RUINED_ABOVE_PA = 300_000.0  # absolute; illustrative
OILED_SHARE, OILED_MICRONS = 0.3, 150.0  # how much an oiled sensor reads too high; illustrative
DASHES = "----"


def _micron(pascal: float) -> float:
    return in_unit(pascal, Kind.PRESSURE_ABSOLUTE, "micron")


def _pascal(microns: float) -> float:
    return to_si(microns, Kind.PRESSURE_ABSOLUTE, "micron")


def _write(microns: float, _range: Range) -> str:
    return f"{microns:.0f} microns ({_pascal(microns):.3g} Pa)"


@dataclass
class VacuumGauge:
    """One vacuum gauge. `error` says where it stands within its accuracy."""

    error: Error = field(default_factory=Error)
    oiled: bool = False
    ruined: bool = False

    def read(self, absolute_pa: float, oil_splashes: bool = False) -> tuple[Display, tuple[ServiceEvent, ...]]:
        """What it shows for a true pressure, and what that did; value and limit in Pa absolute.

        Parameters
        ----------
        absolute_pa : float
            True absolute pressure at its sensor, zero or more [Pa]
        oil_splashes : bool
            Whether oil gets to it: lying low, or opened to a shell whose oil boils up [-]

        Raises
        ------
        InputError
            If the pressure is below zero.
        """
        if not 0 <= absolute_pa < math.inf:
            raise InputError(
                f"the absolute pressure is {absolute_pa:g} Pa; it must be zero or more. Was it a gauge pressure?"
            )
        events: list[ServiceEvent] = []
        if oil_splashes and not self.oiled:
            self.oiled = True
            events.append(ServiceEvent.VACUUM_SENSOR_OILED)
        if absolute_pa > RUINED_ABOVE_PA and not self.ruined:
            self.ruined = True
            events.append(ServiceEvent.VACUUM_SENSOR_RUINED)
        return (no_reading(DASHES) if self.ruined else self._shown(absolute_pa)), tuple(events)

    def clean(self) -> None:
        """Cleans the sensor as its maker says; a ruined one stays ruined."""
        self.oiled = False

    def _shown(self, absolute_pa: float) -> Display:
        microns = _micron(absolute_pa)
        if self.oiled:
            microns = microns * (1 + OILED_SHARE) + OILED_MICRONS
        chosen = pick_range(RANGES, microns)
        if chosen is None:
            return Display("above range", math.inf, 0.0, _pascal(RANGES[-1].resolution))
        shown = show(microns, chosen, self.error, _write)
        limit = limit_of_vacuum_gauge(_pascal(shown.value))[0]
        return Display(shown.text, _pascal(shown.value), limit, _pascal(shown.resolution))


def limit_of_vacuum_gauge(shown_pa: float) -> tuple[float, float]:
    """Accuracy limit and resolution of this gauge for what it shows; both inf above its range.

    Parameters
    ----------
    shown_pa : float
        Absolute pressure shown [Pa]

    Returns
    -------
    tuple of float
        Limit and resolution [Pa]
    """
    microns = _micron(shown_pa)
    chosen = pick_range(RANGES, microns)
    if chosen is None:
        return math.inf, math.inf
    return _pascal(chosen.limit(microns)), _pascal(chosen.resolution)
