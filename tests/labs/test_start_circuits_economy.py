"""The best next test of lab 04: gain by hand, an exhaustive search beside it, and what readings leave open."""

from __future__ import annotations

import math
from functools import cache

import pytest

from coldwright.appliance.unit_faults import FaultName
from coldwright.labs.start_circuits.economy import (
    best_next,
    best_sequence,
    free_start,
    gain,
    groups,
    left_open,
)
from coldwright.labs.start_circuits.readings import Shows, looks, sound
from coldwright.labs.start_circuits.table import table
from coldwright.labs.start_circuits.unit import MODELS

FEW = ("Tarn 11", "Tarn 14", "Tarn 25")
REST = tuple(model for model in MODELS if model not in FEW)
NONE, SEIZED, OPEN = FaultName.NONE, FaultName.SEIZED, FaultName.OVERLOAD_OPEN


def faults_of_table(model: str) -> frozenset[FaultName]:
    return frozenset(next(iter(table(model).values())))


@pytest.mark.parametrize(
    ("sizes", "bits"), [((4,), 0.0), ((1, 1), 1.0), ((1, 1, 1, 1), 2.0), ((1, 3), 2 - 0.75 * math.log2(3))]
)
def test_gain_of_information_by_hand(sizes, bits):
    """Even halves take away one bit, four singles two, one of four 0.81 (Shannon's entropy, worked by hand)."""
    names = list(FaultName)
    parts = [frozenset(names[10 * i : 10 * i + size]) for i, size in enumerate(sizes)]
    assert gain(parts) == pytest.approx(bits, abs=1e-12)


def test_spans_that_touch_stay_in_one_group_and_a_bridge_joins_two():
    """1–2 Ω and 3–4 Ω are apart; a fault that can show 2–3 Ω joins them; OL stands alone."""
    row = {NONE: (Shows(1, 2),), SEIZED: (Shows(3, 4),), OPEN: (Shows(word="OL"),)}
    assert sorted(map(len, groups(row, frozenset(row)))) == [1, 1, 1]
    row[FaultName.LOW_SUPPLY] = (Shows(2, 3),)
    assert sorted(map(len, groups(row, frozenset(row)))) == [1, 3]


def test_every_two_faults_of_a_model_are_told_apart(sample):
    """Any two faults of a model, and each and a sound unit, differ for certain in some reading of the lab."""
    for model in (*FEW, *REST)[: sample(small=len(FEW), full=len(MODELS))]:
        rows = table(model)
        names = sorted(faults_of_table(model), key=lambda fault: fault.name)
        for one in names:
            for other in names[names.index(one) + 1 :]:
                apart = any(len(groups(row, frozenset((one, other)))) == 2 for row in rows.values())
                assert apart, (model, one, other)


def test_the_best_sequence_singles_out_each_fault(sample, figure):
    """After it, one fault is left; no reading is taken twice; five readings are enough on these models."""
    most = 0
    for model in (*FEW, *REST)[: sample(small=len(FEW), full=len(MODELS))]:
        rows = table(model)
        for fault in faults_of_table(model):
            sequence = best_sequence(model, fault)
            shown = [(t, show) for t in (*free_start(model), *sequence) for show in rows[t][fault][:1]]
            left = left_open(model, shown)
            assert fault in left
            assert len(set(sequence)) == len(sequence)
            assert all(test.paid for test in sequence)
            most = max(most, len(sequence))
    assert most <= 5
    figure("start circuits: most paid readings in a best sequence", most)


def _fewest(model: str) -> float:
    """Least sum of paid readings over all faults, by trying every order of readings: no use is made of gain."""
    rows = {test: row for test, row in table(model).items() if test.paid}

    @cache
    def cost(left: frozenset[FaultName]) -> float:
        splits = [parts for row in rows.values() if len(parts := groups(row, left)) > 1]
        if len(left) == 1 or not splits:
            return 0.0
        return len(left) + min(sum(cost(part) for part in parts) for parts in splits)

    starts = [faults_of_table(model)]
    for test in free_start(model):
        starts = [part for start in starts for part in groups(table(model)[test], start)]
    return sum(cost(start) for start in starts)


@pytest.mark.parametrize("model", FEW)
def test_greedy_is_as_short_as_an_exhaustive_search(model, figure):
    """Summed over all faults, the best next test by gain needs at most one reading more than the shortest tree."""
    greedy = sum(len(best_sequence(model, fault)) for fault in faults_of_table(model))
    least = _fewest(model)
    figure(
        f"start circuits, {model}: paid readings over all faults, by gain / by exhaustive search", f"{greedy}/{least:g}"
    )
    assert least <= greedy <= least + 1


def test_best_next_says_none_where_nothing_is_left_to_tell():
    """One fault left: no reading takes away any doubt."""
    assert best_next("Tarn 11", frozenset({SEIZED})) is None


def test_a_silent_relay_unit_asks_for_coil_overload_or_winding():
    """Silent with fans' amps only: the next test lies in the one series path of overload, winding and relay coil."""
    silent = frozenset({FaultName.RELAY_COIL_OPEN, FaultName.RUN_WINDING_OPEN, FaultName.OVERLOAD_OPEN})
    test = best_next("Tarn 11", silent)
    assert test is not None
    assert test.act == "ohms"
    assert set(test.on) in ({"relay 1", "relay 2"}, {"overload 1", "overload 2"}, {"pin C", "pin R"})


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ({"silence"}, "silence"),
        ({"hums", "silence", "click from the compressor"}, "hums, clicks"),
        ({"runs", "hums", "click from the compressor"}, "runs, clicks"),
        ({"hums", "tick from the relay"}, "hums, ticks"),
    ],
)
def test_what_was_heard_in_short(words, said):
    """Runs counts before hums; clicks and ticks are told apart."""
    assert sound(words) == said


def test_what_stands_on_a_relay_is_held_against_the_plate():
    """Tarn 11 has 16 A with the rotor locked: pick-up 8.6 A suits, 18 A never pulls in, upside down is seen first."""
    assert looks("Tarn 11", "marked pick-up 8.6 A, drop-out 7.3 A; sits upright") == "as it should"
    assert looks("Tarn 11", "marked pick-up 18.0 A, drop-out 15.3 A; sits upright") == "too large"
    assert looks("Tarn 11", "marked pick-up 8.6 A, drop-out 7.3 A; sits upside down") == "upside down"
    assert looks("Tarn 25", "marked pick-up 560 V, drop-out 208 V, 672 V") == "too large"
