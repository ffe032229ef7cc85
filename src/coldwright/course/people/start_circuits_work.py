"""How a scripted person works through lab 04: from the complaint to the proof, each next reading the best one.

They see what the instruments show and what stands on the plate, and know what each fault of that model would show.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from coldwright.appliance.unit import LIKE_THE_PLATE
from coldwright.appliance.unit_faults import FaultName
from coldwright.appliance.wiring import ComponentKind
from coldwright.bench.unit_bench import UnitBench
from coldwright.instruments.display import Display
from coldwright.labs.start_circuits.case import LINE, OUTLET, PINS
from coldwright.labs.start_circuits.economy import best_next, left_open
from coldwright.labs.start_circuits.evidence import shown_by
from coldwright.labs.start_circuits.readings import AFTER_RUN, Diagnostic, Shows, sound
from coldwright.labs.start_circuits.remedies import FOUND
from coldwright.labs.start_circuits.table import COLD_FROM_S, COLD_TO_S, table
from coldwright.labs.start_circuits.unit import SET_UPRIGHT

TAKES_OFF_S = 60  # how long it takes until a part is off
HOLDS_CHARGE = (ComponentKind.START_CAPACITOR, ComponentKind.RUN_CAPACITOR)


@dataclass
class Notes:
    """What a person wrote down."""

    found_amps: Display
    rest_volts: Display
    diagnosis: FaultName | None = None
    lowest_volts: Display | None = None
    start: dict[str, Display] = field(default_factory=dict)
    line_amps: Display | None = None
    running: dict[str, Display] = field(default_factory=dict)
    heard: str = ""


class Person:
    """A person at the bench who works by the book.

    Parameters
    ----------
    bench : UnitBench
        The learner's own unit [-]
    """

    def __init__(self, bench: UnitBench) -> None:
        self.bench = bench
        self.model = bench.unit.cooler.model  # it stands on the plate
        self.wiring = bench.unit.wiring
        self.seen: list[tuple[Diagnostic, Shows]] = []

    def read(self, act: str, *on: str) -> Display:
        """Take a reading and give what showed.

        Parameters
        ----------
        act : str
            Name of the act [-]
        *on : str
            What on [-]
        """
        shown = self.bench.perform(act, on).display
        assert shown is not None
        return shown

    def work(self) -> Notes:
        """The whole job; gives what was written down."""
        notes = self._first_look()
        while len(left := left_open(self.model, self.seen)) > 1 and (test := best_next(self.model, left)) is not None:
            self._take(test)
        notes.diagnosis = next(iter(left)) if len(left) == 1 else None
        self._mend(notes.diagnosis)
        self._prove()
        self._try_it(notes)
        return notes

    # ---------------------------------------------------------------- diagnosis

    def _first_look(self) -> Notes:
        rest = self._note("volts ac", *OUTLET)
        for test in table(self.model):
            if test.act == "inspect":
                self._note("inspect", *test.on)
        found = self._note("inrush", LINE)
        self._note("listen")
        self.make_safe()
        self.bench.perform("zero leads")
        return Notes(found, rest)

    def _note(self, act: str, *on: str) -> Display:
        """A reading that everyone takes, kept as evidence."""
        test = next(t for t in table(self.model) if t.act == act and t.on == on and not t.paid)
        return self._seen(test)

    def _seen(self, test: Diagnostic) -> Display:
        shown = self.read(test.act, *test.on)
        show = shown_by(self.bench.taken[-1], self.model)
        assert show is not None
        self.seen.append((test, show))
        return shown

    def make_safe(self) -> None:
        """Pull the plug, prove it dead, try the meter once more and empty the capacitors."""
        self.bench.perform("isolate")
        for pair in (("plug L", "plug N"), ("plug L", "plug E"), ("plug N", "plug E"), OUTLET):
            self.read("volts ac", *pair)
        self._empty()

    def _empty(self) -> None:
        for capacitor in self.wiring.of_kind(*HOLDS_CHARGE):
            self.bench.perform("discharge", (capacitor.name,))

    def _take(self, test: Diagnostic) -> None:
        """Bring the unit to where a test asks for it, and take it."""
        if test.when == AFTER_RUN:
            self._let_cool()
        for name in test.off:
            if name not in self.bench.state.removed:
                self.bench.perform("take off", (name,))
        self._seen(test)

    def _let_cool(self) -> None:
        """Wait until a good PTC is cold; if too much time has gone by since it ran, run it again first."""
        if self.bench.state.rested_s + TAKES_OFF_S > COLD_TO_S:
            self._put_all_back()
            self.bench.perform("wait", ("12 h",))
            self.bench.perform("plug in")
            self.read("listen")
            self.bench.perform("isolate")
            self._empty()
        if self.bench.state.rested_s + TAKES_OFF_S < COLD_FROM_S:
            self.bench.perform("wait", ("5 min",))

    def _put_all_back(self) -> None:
        for name in sorted(self.bench.state.removed):
            self.bench.perform("put back", (name,))

    # ------------------------------------------------------------ repair and proof

    def _mend(self, fault: FaultName | None) -> None:
        component = FOUND[fault][2] if fault is not None else ""
        if component:
            if component not in self.bench.state.removed:
                self.bench.perform("take off", (component,))
            spare = SET_UPRIGHT if fault is FaultName.RELAY_UPSIDE_DOWN else LIKE_THE_PLATE
            self.bench.perform("fit", (component, spare))
        self._put_all_back()

    def _prove(self) -> None:
        self.read("ohms", "plug E", "cabinet metal")
        self.read("insulation", "plug L", "cabinet metal")
        self.read("insulation", "plug N", "cabinet metal")
        self.read("ohms", "plug L", "thermostat 1")

    def _try_it(self, notes: Notes) -> None:
        self.bench.perform("wait", ("5 min",))
        notes.lowest_volts = self.read("lowest volts")
        for name, pin in PINS.items():
            self._rest()
            notes.start[name] = self.read("inrush", pin)
        self._rest()
        notes.line_amps = self.read("inrush", LINE)
        notes.heard = sound({part.rpartition(" at ")[0] for part in self.read("listen").text.split("; ")})
        if notes.heard == "runs":
            notes.running = {"running_line": self.read("clamp", LINE), "running_start": self.read("clamp", "pin S")}
        self.bench.perform("isolate")

    def _rest(self) -> None:
        self.bench.perform("isolate")
        self.bench.perform("wait", ("5 min",))
