"""Faults of a compressor's windings. A fault changes parameters and nothing else."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from coldwright.errors import InputError
from coldwright.quantities.checks import check_number, check_ohms


class FaultKind(Enum):
    """What is wrong with the windings, in the trade's words."""

    NONE = "none"
    OPEN_RUN = "open run winding"
    OPEN_START = "open start winding"
    OPEN_PROTECTOR = "open internal protector"
    SHORTED_RUN = "shorted turns, run winding"
    SHORTED_START = "shorted turns, start winding"
    GROUNDED = "grounded winding"


@dataclass(frozen=True)
class WindingFault:
    """One fault and its size.

    `remaining` is the fraction of a winding's resistance that shorted turns leave; `ground_ohm` the resistance from
    the windings to the shell where they are grounded.
    """

    kind: FaultKind = FaultKind.NONE
    remaining: float = 1.0
    ground_ohm: float = float("inf")

    def __post_init__(self) -> None:
        check_number("what shorted turns leave", self.remaining)
        if not 0 < self.remaining <= 1:
            raise InputError(f"shorted turns leave {self.remaining:g} of the resistance; it must be above 0, at most 1")
        check_ohms("the resistance to ground", self.ground_ohm)

    def winding_factor(self, winding: str) -> float | None:
        """Factor on a winding's resistance; None where it is open.

        Parameters
        ----------
        winding : str
            "run" or "start" [-]
        """
        opened = {"run": FaultKind.OPEN_RUN, "start": FaultKind.OPEN_START}[winding]
        shorted = {"run": FaultKind.SHORTED_RUN, "start": FaultKind.SHORTED_START}[winding]
        if self.kind is opened:
            return None
        return self.remaining if self.kind is shorted else 1.0
