"""What each diagnostic reading shows for each fault that a model can have: as ranges, with all that can vary inside.

A range holds the spread of healthy parts, the sizes that a fault can have, the room and the instrument's limits, so
that two ranges that do not meet are told apart for certain.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

from coldwright.appliance.cooler import Cooler, cooler
from coldwright.appliance.operation import Operation, Passed
from coldwright.appliance.parts import Parts
from coldwright.appliance.start_test import start_test
from coldwright.appliance.state import UnitState
from coldwright.appliance.unit import BenchUnit, arrival_state
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.appliance.unit_faults import FaultName, UnitFault
from coldwright.bench.unit_acts import HOLD_S, LISTEN_S, START_TEST_S
from coldwright.bench.unit_labels import label
from coldwright.electrical.ptc import Ptc
from coldwright.electrical.start_relays import CurrentRelay, PotentialRelay
from coldwright.instruments.clamp import limit_of_clamp
from coldwright.instruments.hold import largest_rms
from coldwright.instruments.multimeter import Function, limit_of, limit_of_ohms
from coldwright.labs.start_circuits.readings import (
    AFTER_RUN,
    LATER,
    TICK,
    Diagnostic,
    Shows,
    diagnostics,
    looks,
    sound,
)
from coldwright.labs.start_circuits.unit import faults_of
from coldwright.labs.unit_draw import START_CAPACITOR_ABOVE, TOLERANCE
from coldwright.quantities.constants import ICE_POINT_K

ROOM_K = ICE_POINT_K + 24.0
WARM = 0.03  # of a copper winding's ohms over 6 K to either side of that room, the span of the drawn rooms
LEADS_OHM = 0.6  # the most that leads have here, where they are not zeroed
START_SPREAD = 0.10  # of the amps at a start: supply ±3 %, windings ±3 %, room; carried through the circuit
HOT_SPREAD = 2.0  # factor on a hot PTC: its ohms follow its temperature steeply
RUN_FROM_S = 120.0  # how long it has power before a PTC that cannot cool is as hot as it is told by
COLD_FROM_S, COLD_TO_S = 240.0, 600.0  # without power: a healthy PTC is cold by then, one that cannot cool is not yet
COLD_AGAIN_S = 7200.0  # by then that one is cold as well
TO_LISTEN_S = 10.0  # what is left of an act of 15 s on hold
LEAST_A = 0.05  # what the bench takes for a current at a start test
SIZES = {
    FaultName.RELAY_WRONG: (0.0, 1.0),
    FaultName.PTC_NOT_COOLED: (0.0, 1.0),
    FaultName.START_CAPACITOR_LOW: (0.0, 1.0),
    FaultName.LOW_SUPPLY: (0.0, 0.5, 1.0),
}
MOTOR_FAULTS = (
    FaultName.NONE,
    FaultName.START_WINDING_OPEN,
    FaultName.RUN_WINDING_OPEN,
    FaultName.SEIZED,
    FaultName.LOW_SUPPLY,
)


@lru_cache(maxsize=32)
def table(model: str) -> dict[Diagnostic, dict[FaultName, tuple[Shows, ...]]]:
    """What each diagnostic reading can show on a model, by fault.

    Parameters
    ----------
    model : str
        Such as "Tarn 11" [-]
    """
    plate = cooler(model)
    tests = diagnostics(plate.wiring)
    shown: dict[Diagnostic, dict[FaultName, tuple[Shows, ...]]] = {test: {} for test in tests}
    for name in faults_of(plate):
        trials = [_trial(plate, UnitFault(name, size)) for size in SIZES.get(name, (0.5,))]
        for test in tests:
            shown[test][name] = (
                shown[test][FaultName.NONE]
                if _as_healthy(test, name)
                else _joined(show for trial in trials for show in _shows(trial, test))
            )
    return shown


def _joined(shows: Iterable[Shows]) -> tuple[Shows, ...]:
    """Words, each once, and all spans of numbers as one: a fault can have any size between those that were tried."""
    found = tuple(dict.fromkeys(shows))
    words, spans = [s for s in found if s.word], [s for s in found if not s.word]
    if not spans:
        return tuple(words)
    return (*words, Shows(min(s.low for s in spans), max(s.high for s in spans)))


def _as_healthy(test: Diagnostic, fault: FaultName) -> bool:
    """Whether a fault cannot be seen by a reading because it lies in another part."""
    return test.act == "start test" and fault not in MOTOR_FAULTS


@dataclass(frozen=True)
class _Trial:
    """One unit exactly as its plate says but for a fault, and what it does when it is tried."""

    unit: BenchUnit

    @cached_property
    def parts(self) -> Parts:
        return self.unit.parts

    @property
    def _run(self) -> Operation:
        return Operation(self.unit.wiring, self.parts, ROOM_K)

    @cached_property
    def began(self) -> Passed:
        """The first seconds of a start from cold, with the current in one wire of the cord."""
        return self._run.advance(replace(self.unit.arrival, plugged=True), HOLD_S, "cord L")

    @cached_property
    def heard(self) -> Passed:
        """What follows, as long as one listens."""
        return self._run.advance(self._run.advance(self.began.state, TO_LISTEN_S).state, LISTEN_S)

    def rested(self, seconds: float) -> UnitState:
        """Some time after a run of which all was heard."""
        return self._unplugged(self.heard, seconds)

    def rested_early(self, seconds: float) -> UnitState:
        """Some time after the shortest run that counts as one."""
        return self._unplugged(self._run.advance(replace(self.unit.arrival, plugged=True), RUN_FROM_S), seconds)

    def _unplugged(self, passed: Passed, seconds: float) -> UnitState:
        return self._run.advance(replace(passed.state, plugged=False), seconds).state

    @cached_property
    def again(self) -> tuple[tuple[Passed, Passed], ...]:
        """First seconds and what is heard of a second start, as soon as a PTC should be cold and some time later."""
        found = []
        for wait in (COLD_FROM_S, 2 * COLD_FROM_S):
            began = self._run.advance(replace(self.rested(wait), plugged=True), HOLD_S, "cord L")
            found.append((began, self._run.advance(self._run.advance(began.state, TO_LISTEN_S).state, LISTEN_S)))
        return tuple(found)

    def starts(self, when: str) -> tuple[tuple[Passed, Passed], ...]:
        """Every kind of start that a learner can meet: from cold, and later again where that is another matter."""
        cold = (self.began, self.heard)
        return (cold, *self.again) if when == LATER and self.cannot_cool else (cold,)

    @property
    def cannot_cool(self) -> bool:
        return self.unit.fault.name is FaultName.PTC_NOT_COOLED


def _trial(plate: Cooler, fault: UnitFault) -> _Trial:
    return _Trial(BenchUnit(plate, plate.parts, fault, ROOM_K, arrival_state(ROOM_K)))


def _shows(trial: _Trial, test: Diagnostic) -> Iterable[Shows]:
    unit, parts, state = trial.unit, trial.parts, trial.unit.arrival
    if test.act == "listen":
        return _heard(trial, test.when)
    if test.act == "inrush":
        samples = [[(at, amps) for at, amps, _ in began.samples] for began, _ in trial.starts(test.when)]
        most = [largest_rms(each) for each in samples]
        return [spread(amps, START_SPREAD, START_SPREAD, limit_of_clamp(amps)) for amps in most]
    if test.act == "volts ac":
        volts = parts.supply.volts
        return (spread(volts, TOLERANCE, TOLERANCE, limit_of(Function.VOLTS_AC, volts)),)
    if test.act == "inspect":
        return (Shows(word=looks(unit.cooler.model, label(unit, parts, state, test.on[0]))),)
    bare = replace(state, removed=frozenset(test.off))
    if test.act == "start test":
        tested = start_test(unit, parts, bare, START_TEST_S)
        word = "starts" if tested.runs else "does not start" if tested.most_amps > LEAST_A else "nothing"
        return (Shows(word=word),)
    if test.act == "capacitance":
        return (_farads(UnitCircuit(unit.wiring, parts, bare).capacitance(*test.on), test.on[0]),)
    settled = Operation(unit.wiring, parts, ROOM_K).advance(bare, 1.0).state
    ohm = UnitCircuit(unit.wiring, parts, settled).resistance(*test.on)
    cold = _ohms(ohm, 1 - TOLERANCE - WARM, 1 + TOLERANCE + WARM)
    if not trial.cannot_cool or test.when not in (AFTER_RUN, LATER):
        return (cold,)
    hot = _hot_ohms(trial)
    return hot if test.when == AFTER_RUN else (cold, *hot)  # later it can be anywhere on its way from hot to cold


def _heard(trial: _Trial, when: str) -> list[Shows]:
    """What a start sounds like, from cold or later."""
    words = [{event.words for event in heard.events} for _, heard in trial.starts(when)]
    device, burnt = trial.parts.start_device, trial.unit.fault.name is FaultName.RELAY_STUCK_OPEN
    if isinstance(device, PotentialRelay) or (isinstance(device, CurrentRelay) and burnt):
        # it hangs on a few volts whether a potential relay ticks; and a burnt contact ticks but passes no current
        words += [heard ^ {TICK} for heard in words]
    if any({"runs", "hums"} <= heard for heard in words):  # it only just starts against pressure: it may fail to
        words += [heard - {"runs"} for heard in words]
    return [Shows(word=sound(heard)) for heard in words]


def _hot_ohms(trial: _Trial) -> tuple[Shows, ...]:
    """What a PTC that cannot cool shows at the times after a run at which a healthy one is cold."""
    device = trial.parts.start_device
    assert isinstance(device, Ptc)
    states = [rested(wait) for rested in (trial.rested, trial.rested_early) for wait in (COLD_FROM_S, COLD_TO_S)]
    return tuple(_ohms(device.resistance(state.ptc_k), 1 / HOT_SPREAD, HOT_SPREAD) for state in states)


def spread(value: float, below: float, above: float, instrument: tuple[float, float]) -> Shows:
    """A span round a value: what parts vary by, and what the instrument leaves open.

    Parameters
    ----------
    value : float
        What a unit as its plate says would show [SI]
    below, above : float
        Shares by which it can be lower or higher [-]
    instrument : tuple of float
        The instrument's limit and resolution there [SI]
    """
    leaves = sum(instrument)
    return Shows(value * (1 - below) - leaves, value * (1 + above) + leaves)


def _ohms(ohm: float, low: float, high: float) -> Shows:
    limit, digit = limit_of_ohms(ohm) if math.isfinite(ohm) else (math.inf, math.inf)
    if math.isinf(limit):
        return Shows(word="OL")
    return Shows(ohm * low - limit - digit, ohm * high + limit + digit + LEADS_OHM)


def _farads(farad: float, terminal: str) -> Shows:
    limit, digit = limit_of(Function.CAPACITANCE, farad) if math.isfinite(farad) else (math.inf, math.inf)
    if math.isinf(limit):
        return Shows(word="OL")
    above = START_CAPACITOR_ABOVE if terminal.startswith("start") else TOLERANCE
    return spread(farad, 0.0 if terminal.startswith("start") else TOLERANCE, above, (limit, digit))
