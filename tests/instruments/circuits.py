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
