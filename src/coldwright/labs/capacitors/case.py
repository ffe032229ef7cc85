"""The true unit of the lab on capacitors and what a job sheet shows of it: all that keys, slips and points look at."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property

from coldwright.appliance.operation import Operation
from coldwright.appliance.parts import Parts
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.bench.replay import Replay
from coldwright.bench.unit_acts import UnitTaken
from coldwright.instruments.meter_ranges import INPUT_OHM
from coldwright.labs.capacitors.unit import START, Job, draw_job
from coldwright.labs.question import Answer
from coldwright.labs.ticket import Ticket
from coldwright.labs.unit_case import UnitCase, discharged_first, proof_after_repair, proved_dead, unit_case

RUNNING_FOR_S = 90.0  # where nobody read the volts in service: as long as it takes to plug in and wait
SHOWS_AMPS = 0.05
WORK_POINTS = ("no_hazard", "proved_dead", "discharged", "repaired")


@dataclass(frozen=True)
class Case:
    """One learner's job and what the replayed job sheet shows of it."""

    job: Job
    sheet: UnitCase

    def apart(self, act: str) -> list[UnitTaken]:
        """Sound readings across the capacitor that came with the unit, off and with the plug pulled.

        Parameters
        ----------
        act : str
            Name of the act [-]
        """
        until = self._first_fit
        return self.sheet.readings(
            act,
            *self.job.ends,
            when=lambda t: (
                not (t.plugged or math.isnan(t.display.value))
                and self.job.component in t.state.removed
                and t.line.n < until
            ),
        )

    @cached_property
    def service_volts(self) -> list[UnitTaken]:
        """Readings of the volts across the capacitor while the compressor runs."""
        return self.sheet.readings("volts ac", *self.job.ends, when=self._runs)

    @cached_property
    def service_amps(self) -> list[UnitTaken]:
        """Readings of the clamp round either wire of the capacitor while the compressor runs."""
        return [t for end in self.job.ends for t in self.sheet.readings("clamp", end, when=self._runs)]

    @cached_property
    def start_amps(self) -> list[UnitTaken]:
        """Amps kept on hold round either wire of the capacitor during a start."""

        def flowed(taken: UnitTaken) -> bool:
            return taken.display.value > SHOWS_AMPS and self.job.component not in taken.state.removed

        return [t for end in self.job.ends for t in self.sheet.readings("inrush", end, when=flowed)]

    @property
    def inspected(self) -> bool:
        """Whether what is printed on the capacitor that came with the unit was read."""
        return self.sheet.has("inspect", self.job.component, when=lambda t: t.line.n < self._first_fit)

    @property
    def right_parts(self) -> Parts:
        """The unit's parts with the right capacitor in."""
        unit, job = self.job.unit, self.job
        return unit.spares[job.component][job.fitting](unit.parts) if job.ending else unit.parts

    @cached_property
    def at_work(self) -> tuple[float, float]:
        """Volts and amps of the right run capacitor in service [V, A]."""
        unit, parts = self.job.unit, self.right_parts
        run = Operation(unit.wiring, parts, unit.room_k, unit.phase)
        state = run.advance(replace(unit.arrival, plugged=True), RUNNING_FOR_S).state
        circuit = UnitCircuit(unit.wiring, parts, state)
        return circuit.ac_voltage(*self.job.ends, INPUT_OHM), circuit.ac_current(self.job.ends[0])

    @property
    def has_right_part(self) -> bool:
        """Whether the right capacitor is in its place at the end; a good one must have stayed."""
        name, job = self.job.component, self.job
        hands = [line for line in self.sheet.lines if line.on[:1] == (name,) and not line.hazards]
        last = next((line.act for line in reversed(hands) if line.act in ("take off", "put back", "fit")), "")
        fitted = dict(self.sheet.fitted).get(name)
        return last != "take off" and fitted == (job.fitting if job.ending else None)

    @property
    def _first_fit(self) -> float:
        fits = (
            li.n for li in self.sheet.lines if li.act == "fit" and li.on[0] == self.job.component and not li.hazards
        )
        return next(fits, float("inf"))

    def _runs(self, taken: UnitTaken) -> bool:
        """Whether a reading was taken while the compressor runs on it, and shows more than the meter may be off."""
        display, state = taken.display, taken.state
        shows = 2 * (display.limit + display.resolution) < display.value < math.inf
        return shows and taken.plugged and state.speed > 0 and self.job.component not in state.removed


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
    return Case(job, unit_case(job.unit, job.lead_ohm, replay))


def _at_work(case: Case) -> bool:
    if case.job.component == START:
        return bool(case.start_amps)
    return bool(case.service_volts and case.service_amps)


NEEDS: dict[str, Callable[[Case], bool]] = {
    "farads": lambda case: bool(case.apart("capacitance")),
    "ohms": lambda case: bool(case.apart("ohms")),
    "label": lambda case: case.inspected,
    "at work": _at_work,
    "tests": lambda case: bool(case.apart("capacitance") and case.apart("ohms")) and case.inspected,
    "load": lambda case: bool(case.apart("capacitance")) and (case.job.component == START or _at_work(case)),
}


def missing(case: Case) -> tuple[str, ...]:
    """Readings that the lab needs and the job sheet lacks, in words.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    name = case.job.component
    at_work = (
        f"the highest amps of a start, kept by the clamp round a wire of the {name}"
        if name == START
        else f"volts across the {name} and amps in its wire while the compressor runs"
    )
    words = {
        "farads": f"the capacitance of the {name} that came with the unit, taken off",
        "ohms": f"ohms across the {name} that came with the unit, taken off",
        "label": f"a look at what is printed on the {name}",
        "at work": at_work,
    }
    return tuple(text for need, text in words.items() if not NEEDS[need](case))


def backed(case: Case, answer: Answer) -> bool:
    """Whether the reading that an answer needs stands on the job sheet.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    answer : Answer
        An answer of the lab [-]
    """
    return answer.needs is None or NEEDS[answer.needs](case)


def worked(case: Case) -> dict[str, bool]:
    """Which points for the way of working were earned; none unless every needed reading was taken.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    if missing(case):
        return dict.fromkeys(WORK_POINTS, False)
    return {
        "no_hazard": not case.sheet.hazards,
        "proved_dead": proved_dead(case.sheet, fully=True),
        "discharged": discharged_first(case.sheet, case.job.component),
        "repaired": case.has_right_part and all(proof_after_repair(case.sheet).values()),
    }
