"""The true unit and what a job sheet shows of it: all that keys, slips and points look at."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import combinations

from coldwright.appliance.compressor import PINS, BenchCompressor
from coldwright.bench.acts import Taken
from coldwright.bench.hazards import Hazard
from coldwright.bench.replay import Replay
from coldwright.labs.question import Answer
from coldwright.labs.ticket import Ticket
from coldwright.labs.winding_checks.unit import draw_lead, draw_unit

PAIRS = tuple(combinations(PINS, 2))
PAIR_NAMES = {f"resistance_{a}{b}": (a, b) for a, b in PAIRS}
COLD_WITHIN_K = 0.05
HOT_ABOVE_K = 15.0
OHMS_OR_INSULATION = ("ohms", "insulation")
_SPOILED = frozenset({Hazard.OHMS_ON_LIVE.name, Hazard.OHMS_ON_CHARGED.name, Hazard.METER_RUINED.name})


@dataclass(frozen=True)
class Case:
    """One learner's unit with the readings of the replayed job sheet; `taken` is empty without one."""

    unit: BenchCompressor
    lead_ohm: float
    taken: tuple[Taken, ...] = ()
    acts: tuple[str, ...] = ()
    hazards: tuple[Hazard, ...] = ()

    @property
    def cold(self) -> Mapping[tuple[str, str], float]:
        """True resistance of each pair with the winding at room temperature [Ω]."""
        return self.unit.pair_resistances(self.unit.room_k)

    @property
    def lowest_pair(self) -> tuple[str, str]:
        """The pair that reads lowest, cold."""
        return min(self.cold, key=lambda pair: self.cold[pair])

    def _pair_readings(self) -> list[tuple[tuple[str, str], Taken]]:
        """Ohms between two bare pins, no hazard in the reading."""
        found = []
        for reading in self.taken:
            on = tuple(sorted(reading.line.on))
            sound = not reading.plugged and not reading.connected and not _SPOILED & set(reading.line.hazards)
            if reading.line.act == "ohms" and on in self.cold and sound:
                found.append(((on[0], on[1]), reading))
        return found

    def cold_readings(self, pair: tuple[str, str]) -> list[Taken]:
        """Readings of a pair with the winding at room temperature.

        Parameters
        ----------
        pair : tuple of str
            Two pins, sorted [-]
        """
        room = self.unit.room_k
        return [t for p, t in self._pair_readings() if p == pair and abs(t.winding_k - room) <= COLD_WITHIN_K]

    def hot_readings(self) -> list[tuple[tuple[str, str], Taken]]:
        """Readings of any pair that shows a resistance with the winding well above the room."""
        limit = self.unit.room_k + HOT_ABOVE_K
        return [
            (pair, t) for pair, t in self._pair_readings() if t.winding_k > limit and not t.display.measured.is_open
        ]

    def rise_readings(self) -> list[tuple[tuple[str, str], Taken]]:
        """Hot readings of pairs that were read cold as well."""
        return [(pair, t) for pair, t in self.hot_readings() if self.cold_readings(pair)]

    @property
    def room_read(self) -> bool:
        """Whether the temperature of the room, or of the cold shell, was read."""
        room = self.unit.room_k
        return any(
            t.line.act == "temperature" and (t.line.on == ("room",) or abs(t.winding_k - room) <= COLD_WITHIN_K)
            for t in self.taken
        )

    @property
    def insulation_read(self) -> bool:
        """Whether each pin was tested to the shell, and showed a resistance."""
        tested = {t.line.on[0] for t in self.taken if t.line.act == "insulation" and t.display.value == t.display.value}
        return tested == set(PINS)


def missing(case: Case) -> tuple[str, ...]:
    """Readings that the lab needs and the job sheet lacks, in words.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    found = [f"ohms of pins {a} and {b}, cold" for a, b in PAIRS if not case.cold_readings((a, b))]
    if not case.rise_readings():
        found.append("ohms of one pair both hot and cold")
    if not case.room_read:
        found.append("the temperature of the room")
    if not case.insulation_read:
        found.append("insulation from each pin to the shell")
    return tuple(found)


def make_case(ticket: Ticket, replay: Replay | None) -> Case:
    """The case of a ticket and its replayed job sheet.

    Parameters
    ----------
    ticket : Ticket
        Whose unit [-]
    replay : Replay, optional
        The sheet, replayed on that unit [-]
    """
    seed = ticket.seed_bytes
    unit, lead = draw_unit(seed), draw_lead(seed)
    if replay is None:
        return Case(unit, lead)
    bench = replay.bench
    return Case(
        unit,
        lead,
        taken=tuple(bench.taken),
        acts=tuple(line.act for line in bench.lines),
        hazards=tuple(hazard for _, hazard in bench.hazards),
    )


def backed(case: Case, answer: Answer) -> bool:
    """Whether the reading that an answer needs stands on the job sheet.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    answer : Answer
        An answer of the lab [-]
    """
    if answer.needs is None:
        return True
    if answer.needs == "pair":
        return bool(case.cold_readings(PAIR_NAMES[answer.name]))
    if answer.needs == "lowest pair":
        return bool(case.cold_readings(case.lowest_pair)) and case.room_read
    if answer.needs == "hot and cold":
        return bool(case.rise_readings()) and case.room_read
    return case.insulation_read


def worked(case: Case) -> dict[str, bool]:
    """Which points for the way of working were earned; none unless every needed reading was taken.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    if missing(case):
        return dict.fromkeys(("proved_dead", "discharged", "zeroed", "no_hazard"), False)
    first = next(t for t in case.taken if t.line.act in OHMS_OR_INSULATION)
    proof = [t for t in case.taken if t.line.act == "volts ac" and not t.plugged and set(t.line.on) == {"L", "N"}]
    acts = case.acts
    return {
        "proved_dead": any(t.line.n < first.line.n for t in proof),
        "discharged": "discharge" in acts and acts.index("discharge") < acts.index("disconnect"),
        "zeroed": all(t.zeroed for _, t in case._pair_readings()),
        "no_hazard": not case.hazards,
    }
