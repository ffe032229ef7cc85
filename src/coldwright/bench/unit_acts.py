"""Acts on the bench of a whole unit: how long each takes, how long one can wait, and a reading with its state."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.appliance.state import UnitState
from coldwright.bench.sheet import SheetLine
from coldwright.instruments.display import Display
from coldwright.instruments.multimeter import DASHES

HOLD_S = 5  # an instrument on hold watches the first seconds after plugging in
LISTEN_S = 120
START_TEST_S = 3

SECONDS = {
    "isolate": 30,
    "plug in": 30,
    "discharge": 30,
    "take off": 60,
    "put back": 60,
    "fit": 120,
    "wait": 0,
    "open door": 5,
    "shut door": 5,
    "thermostat off": 5,
    "thermostat on": 5,
    "advance timer": 20,
    "new meter": 60,
    "new fuse": 60,
    "zero leads": 10,
    "ohms": 15,
    "continuity": 10,
    "volts ac": 15,
    "volts ac low impedance": 15,
    "volts dc": 15,
    "capacitance": 15,
    "amps ac": 15,
    "clamp": 15,
    "inrush": 15,
    "lowest volts": 15,
    "watts": 15,
    "power factor": 15,
    "kilowatt-hours": 15,
    "insulation": 60,
    "temperature": 30,
    "inspect": 30,
    "listen": LISTEN_S,
    "start test": 60,
}

NEXT_TRY = "next try"
WAITS = {"10 s": 10, "1 min": 60, "5 min": 300, "1 h": 3600, "12 h": 12 * 3600, NEXT_TRY: 600}
METAL = ("cabinet metal", "shell")
INSULATED_ABOVE_OHM = 2e6  # basic insulation, older editions of IEC 60335-1 (from memory)
PLACES = ("room", "shell", "cabinet", "evaporator", "overload")


@dataclass(frozen=True)
class UnitTaken:
    """A reading with the state it was taken in: what marking looks at."""

    line: SheetLine
    display: Display
    state: UnitState
    zeroed: bool

    @property
    def plugged(self) -> bool:
        """Whether the unit was plugged in."""
        return self.state.plugged

    @property
    def act(self) -> str:
        """Name of the act."""
        return self.line.act

    @property
    def on(self) -> tuple[str, ...]:
        """What it was taken on."""
        return self.line.on

    @property
    def sound(self) -> bool:
        """Whether no hazard spoiled it and the instrument showed more than dashes."""
        return not self.line.hazards and self.display.text != DASHES

    @property
    def shows_grounded(self) -> bool:
        """Whether it shows less from a pin of the compressor to bare metal than insulation must have."""
        pins = [terminal for terminal in self.on if terminal.startswith("pin ")]
        to_metal = self.act in ("insulation", "ohms") and len(pins) == 1 and bool(set(self.on) & set(METAL))
        return to_metal and self.sound and self.display.value < INSULATED_ABOVE_OHM
