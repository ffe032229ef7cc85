"""The smallest circuit that an instrument can be put on."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class Between:
    """Two terminals with a resistance, an alternating and a direct voltage between them, whatever meter is put on."""

    ohm: float = math.inf
    alternating_v: float = 0.0
    direct_v: float = 0.0

    def terminals(self) -> tuple[str, ...]:
        """The two terminals."""
        return ("a", "b")

    def resistance(self, _a: str, _b: str) -> float:
        """The resistance."""
        return self.ohm

    def ac_voltage(self, _a: str, _b: str, _load_ohm: float) -> float:
        """The alternating voltage."""
        return self.alternating_v

    def dc_voltage(self, a: str, _b: str, _load_ohm: float) -> float:
        """The direct voltage, with its sign by the red tip."""
        return self.direct_v if a == "a" else -self.direct_v


@dataclass(frozen=True)
class Live(Between):
    """The same with a source resistance that a meter's own pulls on, a capacitance, currents and the power at the plug.

    `alternating_v` and `direct_v` are the voltages with no meter on; `clamped` the current in each conductor.
    """

    source_ohm: float = 0.0
    farad: float = 0.0
    loop_ohm: float = math.inf
    clamped: tuple[tuple[str, complex], ...] = ()
    plug: tuple[float, float, float] = (0.0, 0.0, 0.0)
    frequency_hz: float = 50.0

    def ac_voltage(self, _a: str, _b: str, load_ohm: float) -> float:
        """The alternating voltage that is left on the meter."""
        return self.alternating_v * load_ohm / (load_ohm + self.source_ohm)

    def capacitance(self, _a: str, _b: str) -> float:
        """The capacitance."""
        return self.farad

    def ac_current(self, conductor: str) -> float:
        """Size of the sum over every conductor named, with a + between two."""
        return abs(sum(dict(self.clamped)[name] for name in conductor.split("+")))

    def series_current(self, _a: str, _b: str, shunt_ohm: float) -> float:
        """Open voltage over the whole loop, meter included."""
        return self.alternating_v / (self.loop_ohm + shunt_ohm)

    def power(self) -> tuple[float, float, float]:
        """Watts, volts and amps at the plug."""
        return self.plug
