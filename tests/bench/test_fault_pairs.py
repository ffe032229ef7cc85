"""Every two faults that a unit can have differ in a reading by more than the instruments leave open."""

from __future__ import annotations

from itertools import combinations

from coldwright.appliance.cooler import cooler, coolers
from coldwright.appliance.unit_faults import FaultName, UnitFault, can_have
from tests.bench.survey import survey, told_apart

FIRST = ("Tarn 28", "Tarn 22", "Tarn 14")
MODELS = (*FIRST, *(cooler.model for cooler in coolers() if cooler.model not in FIRST))


def test_every_pair_of_faults_can_be_told_apart(sample, figure):
    """On each model, every two of its faults, and each fault and a healthy unit, differ in an allowed reading."""
    alike, pairs = [], 0
    for model in MODELS[: sample(small=len(FIRST), full=len(MODELS))]:
        parts = cooler(model)
        names = [name for name in FaultName if can_have(parts.parts, name)]
        surveys = {name: survey(parts, UnitFault(name, 0.5, "thermostat 2")) for name in names}
        for one, other in combinations(names, 2):
            pairs += 1
            if not told_apart(surveys[one], surveys[other]):
                alike.append(f"{model}: {one.value} / {other.value}")
    assert alike == []
    figure("pairs of faults told apart by a reading", pairs)
