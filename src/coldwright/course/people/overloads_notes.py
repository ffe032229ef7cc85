"""What a person writes down in the lab on overloads, and how one reading is taken."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from coldwright.appliance.wiring import ComponentKind
from coldwright.bench.unit_bench import UnitBench
from coldwright.instruments.display import Display

GROUNDED_BELOW_OHM = 2e6
NOT_DONE = "not done: grounded"


@dataclass
class Notes:
    """What a person wrote down. Times in seconds, temperatures in kelvin; None where nothing was read."""

    runs: bool = False
    silent: bool = False
    clicks: bool = False
    on_s: float = math.nan
    off_s: float = math.nan
    watts_on: float = math.nan
    watts_off: float = math.nan
    outlet_v: float = math.nan
    running_a: float | None = None
    start_a: float = math.nan
    shell_k: float = math.nan
    room_k: float = math.nan
    fan: str = ""
    label_a: float = math.nan
    start_test: str = ""
    device_ohm: float = math.nan
    pin_to_shell_ohm: float = math.inf
    ohms: dict[str, Display] = field(default_factory=dict)

    @property
    def grounded(self) -> bool:
        """Whether a pin shows too little to the shell."""
        return self.pin_to_shell_ohm < GROUNDED_BELOW_OHM

    @property
    def hot(self) -> Display:
        """Run winding, hot."""
        return self.ohms["hot"]

    @property
    def cold(self) -> Display:
        """Run winding, cold."""
        return self.ohms["cold"]

    @property
    def overload(self) -> Display:
        """Overload, off the unit and cold."""
        return self.ohms["overload"]

    @property
    def overload_in_place(self) -> Display:
        """Overload in its place, before anything was taken off."""
        return self.ohms["overload in place"]


def read(bench: UnitBench, act: str, *on: str) -> Display:
    """What an instrument showed.

    Parameters
    ----------
    bench : UnitBench
        The bench [-]
    act : str
        Name of the act [-]
    *on : str
        What it was put on [-]
    """
    shown = bench.perform(act, on).display
    assert shown is not None
    return shown


def device_of(bench: UnitBench) -> str:
    """Name of the start device.

    Parameters
    ----------
    bench : UnitBench
        The bench [-]
    """
    return bench.unit.wiring.of_kind(ComponentKind.CURRENT_RELAY, ComponentKind.PTC)[0].name
