"""The true unit and what a job sheet shows of it: all that solutions, slips and points look at."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from coldwright.appliance.unit import BenchUnit
from coldwright.appliance.unit_circuit import OUTLET, UnitCircuit
from coldwright.bench.replay import Replay
from coldwright.bench.unit_acts import UnitTaken
from coldwright.instruments.meter_ranges import INPUT_OHM, LOW_INPUT_OHM, Function, limit_of
from coldwright.labs.question import Answer
from coldwright.labs.safe_isolation.unit import FAN, Job, draw_job
from coldwright.labs.ticket import Ticket
from coldwright.labs.unit_case import ALL_PAIRS, UnitCase, dead_readings, unit_case, zeroed
from coldwright.labs.unit_draw import drawn_lead

SUPPLY_PAIRS = (("outlet L", "outlet N"), ("plug L", "plug N"), ("cord L", "cord N"))
LAMP_WIRE = "door switch 2"
NEUTRAL_SIDE = ("cord N", "plug N", "outlet N", "outlet E")
METAL = ("cabinet metal", "shell")
FAN_ENDS = (f"{FAN} 1", f"{FAN} 2")
NEEDED = {
    "supply": "volts a.c. from live to neutral of the supply",
    "wire": "volts a.c. from the wire of the lamp to neutral, door open, lamp out",
    "wire both": "the same on the low-impedance input",
    "earth": "ohms from the earth pin of the plug to the metal",
    "fan": f"ohms of the {FAN}, taken off",
}
WORK = ("no_hazard", "tried", "pairs", "zeroed")


@dataclass(frozen=True)
class Case:
    """One learner's job with the readings of the replayed job sheet; `base.taken` is empty without one."""

    base: UnitCase
    job: Job

    @property
    def unit(self) -> BenchUnit:
        """The unit as it came in."""
        return self.base.unit

    @property
    def rated_volts(self) -> float:
        """Volts on the plate [V]."""
        return self.unit.cooler.volts

    # -------------------------------------------------------------- readings

    @cached_property
    def _first_fit(self) -> int:
        return self.base.first(("fit",)) or len(self.base.lines) + 1

    def _readings(
        self, acts: tuple[str, ...], on: tuple[str, str], when: Callable[[UnitTaken], bool]
    ) -> list[UnitTaken]:
        """Sound readings with a number or over-range, taken before a spare was fitted."""
        fits = [t for act in acts for t in self.base.readings(act, *on, when=when) if t.line.n < self._first_fit]
        return [t for t in fits if t.display.value == t.display.value]

    @cached_property
    def supply_readings(self) -> list[UnitTaken]:
        """Volts a.c. of the supply: at the outlet, or behind the plug while it is in."""
        found = [self._readings(("volts ac",), pair, lambda t: t.plugged or t.on[0] in OUTLET) for pair in SUPPLY_PAIRS]
        return [t for readings in found for t in readings]

    def wire_readings(self, act: str) -> list[UnitTaken]:
        """Volts from the wire of the lamp to neutral, plugged in, door open, lamp out.

        Parameters
        ----------
        act : str
            "volts ac" or "volts ac low impedance" [-]
        """
        found = [self._readings((act,), (LAMP_WIRE, end), _shows_wire) for end in NEUTRAL_SIDE]
        return [t for readings in found for t in readings]

    @cached_property
    def earth_readings(self) -> list[UnitTaken]:
        """Ohms from the earth pin of the plug to the metal."""
        found = [self._readings(("ohms",), ("plug E", end), lambda t: not t.plugged) for end in METAL]
        return [t for readings in found for t in readings]

    @cached_property
    def fan_readings(self) -> list[UnitTaken]:
        """Ohms of the condenser fan, taken off."""
        return self._readings(("ohms",), FAN_ENDS, lambda t: FAN in t.state.removed)

    # ------------------------------------------------------------------ truth

    @cached_property
    def _came_in(self) -> UnitCircuit:
        return UnitCircuit(self.unit.wiring, self.unit.parts, self.unit.arrival)

    def true_volts(self, taken: UnitTaken) -> float:
        """True voltage at the tips of a reading of volts a.c., with the meter on [V].

        Parameters
        ----------
        taken : UnitTaken
            The reading [-]
        """
        circuit = UnitCircuit(self.unit.wiring, self.unit.parts, taken.state)
        return circuit.ac_voltage(taken.on[0], taken.on[1], INPUT_OHM)

    @cached_property
    def supply_volts(self) -> tuple[float, ...]:
        """True volts of the supply at each reading; as it came in without one [V]."""
        return tuple(map(self.true_volts, self.supply_readings)) or (self._came_in.ac_voltage(*OUTLET[:2], INPUT_OHM),)

    @cached_property
    def supply_shown(self) -> tuple[tuple[float, float, float], ...]:
        """What the meter showed of the supply each time: reading, limit, digit; of the true volts without one [V]."""
        shown = [(t.display.value, t.display.limit, t.display.resolution) for t in self.supply_readings]
        volts = self.supply_volts[0]
        return tuple(shown) or ((volts, *limit_of(Function.VOLTS_AC, volts)),)

    @cached_property
    def wire_volts(self) -> tuple[float, ...]:
        """True volts on the lamp's wire at each reading on the high input; as it came in without one [V]."""
        return tuple(map(self.true_volts, self.wire_readings("volts ac"))) or (self._wire(INPUT_OHM),)

    @cached_property
    def wire_low_volts(self) -> float:
        """True volts on the lamp's wire with the low input on it [V]."""
        return self._wire(LOW_INPUT_OHM)

    def _wire(self, load_ohm: float) -> float:
        return self._came_in.at(door_open=True).ac_voltage(LAMP_WIRE, NEUTRAL_SIDE[0], load_ohm)

    @property
    def wire_is_live(self) -> bool:
        """Whether the door switch joins the lamp's wire to live."""
        return self._came_in.at(door_open=True, plugged=False).resistance(LAMP_WIRE, "cord L") < 1.0

    @cached_property
    def earth_ohm(self) -> float:
        """True resistance from the earth pin of the plug to the metal [Ω]; inf for none."""
        return self._came_in.at(plugged=False).resistance("plug E", METAL[0])

    @property
    def fan_ohm(self) -> float:
        """True resistance of the condenser fan [Ω]."""
        return self.unit.parts.fans[FAN].winding_ohm

    @cached_property
    def fan_in_place_ohm(self) -> float:
        """What stands across the fan while it is in the circuit [Ω]."""
        return self._came_in.at(plugged=False).resistance(*FAN_ENDS)


def _shows_wire(taken: UnitTaken) -> bool:
    return taken.plugged and taken.state.door_open and "lamp" in taken.state.removed


def make_case(ticket: Ticket, replay: Replay | None) -> Case:
    """The case of a ticket and its replayed job sheet.

    Parameters
    ----------
    ticket : Ticket
        Whose unit [-]
    replay : Replay, optional
        The sheet, replayed on that unit [-]
    """
    job = draw_job(ticket.seed_bytes)
    return Case(unit_case(job.unit, drawn_lead(ticket.seed_bytes), replay), job)


def _stands(case: Case, need: str) -> bool:
    return {
        "supply": lambda: bool(case.supply_readings),
        "wire": lambda: bool(case.wire_readings("volts ac")),
        "wire both": lambda: bool(case.wire_readings("volts ac") and case.wire_readings("volts ac low impedance")),
        "earth": lambda: bool(case.earth_readings),
        "fan": lambda: bool(case.fan_readings),
    }[need]()


def backed(case: Case, answer: Answer) -> bool:
    """Whether the reading that an answer needs stands on the job sheet.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    answer : Answer
        An answer of the lab [-]
    """
    return answer.needs is None or _stands(case, answer.needs)


def missing(case: Case) -> tuple[str, ...]:
    """Readings that the lab needs and the job sheet lacks, in words.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    return tuple(words for need, words in NEEDED.items() if not _stands(case, need))


def worked(case: Case) -> dict[str, bool]:
    """Which points for the way of working were earned; none unless every needed reading was taken.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    if missing(case):
        return dict.fromkeys(WORK, False)
    tried, pairs = dead_readings(case.base, ("volts ac",))  # the usual input, which this lab is about
    return {
        "no_hazard": not case.base.hazards,
        "tried": tried,
        "pairs": pairs >= ALL_PAIRS,
        "zeroed": zeroed(case.base),
    }
