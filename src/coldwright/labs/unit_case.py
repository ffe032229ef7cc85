"""A learner's cooler and what the replayed job sheet shows of it: what keys, slips and points of those labs look at."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from coldwright.appliance.parts import Parts
from coldwright.appliance.unit import BenchUnit
from coldwright.appliance.unit_circuit import OUTLET
from coldwright.bench.hazards import Hazard
from coldwright.bench.replay import Replay
from coldwright.bench.sheet import SheetLine
from coldwright.bench.unit_acts import INSULATED_ABOVE_OHM, METAL, UnitTaken
from coldwright.bench.unit_bench import UnitBench

OHMS_LIKE = ("ohms", "continuity", "capacitance", "insulation")
HANDS_ON = ("take off", "put back", "fit", "discharge")
VOLTS_AC = ("volts ac", "volts ac low impedance")
LIVE_TO_NEUTRAL = frozenset("LN")
ALL_PAIRS = frozenset({LIVE_TO_NEUTRAL, frozenset("LE"), frozenset("NE")})
DEAD_BELOW_V = 1.0
LIVE_ABOVE = 0.8  # of the volts that the outlet has here, be they low: a live source
EARTHED_BELOW_OHM = 0.5  # common practice, no source: earth continuity of a corded appliance with its leads


@dataclass(frozen=True)
class UnitCase:
    """One unit with the readings of the replayed job sheet; `taken` is empty without one."""

    unit: BenchUnit
    lead_ohm: float
    taken: tuple[UnitTaken, ...] = ()
    lines: tuple[SheetLine, ...] = ()
    hazards: tuple[Hazard, ...] = ()
    fitted: tuple[tuple[str, str], ...] = ()
    final: Parts | None = None

    def readings(self, act: str, *on: str, when: Callable[[UnitTaken], bool] = lambda _t: True) -> list[UnitTaken]:
        """Sound readings of one act on these terminals, in either order, that fit a condition.

        Parameters
        ----------
        act : str
            Name of the act [-]
        *on : str
            Terminals, conductor or place; any if left out [-]
        when : callable
            Condition on a reading [-]
        """
        wanted = sorted(on)
        return [t for t in self.taken if t.act == act and t.sound and (not on or sorted(t.on) == wanted) and when(t)]

    def has(self, act: str, *on: str, when: Callable[[UnitTaken], bool] = lambda _t: True) -> bool:
        """Whether such a reading stands on the sheet.

        Parameters
        ----------
        act : str
            Name of the act [-]
        *on : str
            Terminals, conductor or place; any if left out [-]
        when : callable
            Condition on a reading [-]
        """
        return bool(self.readings(act, *on, when=when))

    def across(self, act: str, component: str, when: Callable[[UnitTaken], bool] = lambda _t: True) -> bool:
        """Whether a reading was taken across the two ends of a component.

        Parameters
        ----------
        act : str
            Name of the act [-]
        component : str
            Name of a component with two terminals [-]
        when : callable
            Condition on a reading [-]
        """
        return self.has(act, *self.unit.wiring.component(component).terminals, when=when)

    def did(self, act: str, *on: str) -> bool:
        """Whether an act was done, without a hazard.

        Parameters
        ----------
        act : str
            Name of the act [-]
        *on : str
            What on; any if left out [-]
        """
        return any(line.act == act and not line.hazards and (not on or line.on[: len(on)] == on) for line in self.lines)

    def first(self, acts: Iterable[str]) -> int | None:
        """Number of the first line with one of these acts.

        Parameters
        ----------
        acts : iterable of str
            Names of acts [-]
        """
        wanted = set(acts)
        return next((line.n for line in self.lines if line.act in wanted), None)

    def last(self, acts: Iterable[str]) -> int | None:
        """Number of the last line with one of these acts.

        Parameters
        ----------
        acts : iterable of str
            Names of acts [-]
        """
        wanted = set(acts)
        return next((line.n for line in reversed(self.lines) if line.act in wanted), None)


def unit_case(unit: BenchUnit, lead_ohm: float, replay: Replay | None) -> UnitCase:
    """The case of a unit and its replayed job sheet.

    Parameters
    ----------
    unit : BenchUnit
        The unit as it came in [-]
    lead_ohm : float
        Resistance of the meter's leads [Ω]
    replay : Replay, optional
        The sheet, replayed on that unit [-]
    """
    if replay is None:
        return UnitCase(unit, lead_ohm)
    bench = replay.bench
    assert isinstance(bench, UnitBench)
    return UnitCase(
        unit,
        lead_ohm,
        taken=tuple(bench.taken),
        lines=tuple(bench.lines),
        hazards=tuple(hazard for _, hazard in bench.hazards),
        fitted=tuple(bench.fitted.items()),
        final=bench.parts,
    )


# ------------------------------------------------------------ points for the way of working


def proved_dead(case: UnitCase, fully: bool = False) -> bool:
    """Whether the unit was proved dead before the first ohms and before hands went in.

    With the plug pulled the meter read the plug or the wires behind it dead, live to neutral. Fully: the meter was
    tried on a live source before and after as well, and all three pairs were read.

    Parameters
    ----------
    case : UnitCase
        The unit and its job sheet [-]
    fully : bool
        Whether the whole procedure is asked for [-]
    """
    tried, pairs = dead_readings(case)
    return (tried and pairs >= ALL_PAIRS) if fully else LIVE_TO_NEUTRAL in pairs


def dead_readings(case: UnitCase, acts: Sequence[str] = VOLTS_AC) -> tuple[bool, frozenset[frozenset[str]]]:
    """What was done to prove the unit dead before the first ohms and before hands went in.

    Parameters
    ----------
    case : UnitCase
        The unit and its job sheet [-]
    acts : sequence of str
        Readings that count [-]

    Returns
    -------
    tuple
        Whether the meter was tried on a live source before and after, and which pairs of L, N, E read dead.
    """
    first = case.first((*OHMS_LIKE, *HANDS_ON)) or len(case.lines) + 1
    volts = [t for t in case.taken if t.act in acts and t.sound and t.line.n < first]
    dead = [t for t in volts if not t.plugged and not set(t.on) & set(OUTLET) and t.display.value < DEAD_BELOW_V]
    numbers = [t.line.n for t in dead]
    live = [t.line.n for t in volts if t.display.value > LIVE_ABOVE * case.unit.parts.supply.volts]
    tried = bool(dead) and any(n < min(numbers) for n in live) and any(n > max(numbers) for n in live)
    return tried, frozenset(frozenset(terminal.rpartition(" ")[2] for terminal in t.on) for t in dead)


def zeroed(case: UnitCase) -> bool:
    """Whether the leads were zeroed before the first ohms reading.

    Parameters
    ----------
    case : UnitCase
        The unit and its job sheet [-]
    """
    ohms = [t for t in case.taken if t.act == "ohms"]
    return bool(ohms) and all(t.zeroed for t in ohms)


def discharged_first(case: UnitCase, capacitor: str) -> bool:
    """Whether a capacitor was discharged before it, or what hangs on it, was touched.

    Parameters
    ----------
    case : UnitCase
        The unit and its job sheet [-]
    capacitor : str
        Name of the capacitor [-]
    """
    done = next((line.n for line in case.lines if line.act == "discharge" and line.on == (capacitor,)), None)
    touched = case.first(("take off", "capacitance"))
    return (
        done is not None and not case_has(case.hazards, Hazard.TOUCHED_CHARGED) and (touched is None or done < touched)
    )


def case_has(hazards: Sequence[Hazard], *wanted: Hazard) -> bool:
    """Whether one of these hazards is among those met.

    Parameters
    ----------
    hazards : sequence of Hazard
        Hazards met [-]
    *wanted : Hazard
        Hazards looked for [-]
    """
    return bool(set(hazards) & set(wanted))


def proof_after_repair(case: UnitCase) -> dict[str, bool]:
    """Which electrical proofs stand on the sheet after the last part was fitted or put back, plug pulled.

    Ohms from the plug's earth pin to the metal, insulation from live and neutral to the metal, and polarity:
    the plug's live pin leads to the thermostat. A reading proves only what it shows: at most 0.5 Ω of earth, at least
    2 MΩ of insulation, a path to the thermostat. The leads of a meter that was not zeroed count as what they are.

    Parameters
    ----------
    case : UnitCase
        The unit and its job sheet [-]
    """
    after = case.last(("fit", "put back")) or 0

    def counts(taken: UnitTaken) -> bool:
        return taken.line.n > after and not taken.plugged and _is_good(case, taken)

    def proof(act: str, a: str, b: Sequence[str]) -> bool:
        return any(case.has(act, a, other, when=counts) for other in b)

    return {
        "earth": proof("ohms", "plug E", METAL),  # a beep tells nothing of its ohms
        "insulation": proof("insulation", "plug L", METAL) and proof("insulation", "plug N", METAL),
        "polarity": proof("ohms", "plug L", ("thermostat 1",)) or proof("continuity", "plug L", ("thermostat 1",)),
    }


def _is_good(case: UnitCase, taken: UnitTaken) -> bool:
    """Whether a reading of the proof shows what it must."""
    value = taken.display.value
    if taken.act == "insulation":
        return value >= INSULATED_ABOVE_OHM
    if taken.act == "ohms" and "plug E" in taken.on:
        return value - (0.0 if taken.zeroed else case.lead_ohm) <= EARTHED_BELOW_OHM
    return not math.isinf(value)
