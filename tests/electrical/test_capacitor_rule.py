"""Classes and replacement: cases by hand, properties, each reason and each refusal by its words.

The rule itself is common practice, no source; the classes' sources stand beside them in the module.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.electrical.capacitor import Purpose
from coldwright.electrical.capacitor_rule import (
    Marking,
    ToleranceClass,
    Within,
    judge_replacement,
    within,
    within_range,
)
from coldwright.electrical.measured import Measured
from coldwright.errors import InputError

START = Marking(88e-6, 108e-6, 250.0, Purpose.START, bleed_ohm=15e3)
RUN = Marking.of(35e-6, ToleranceClass.RUN_6, 370.0, Purpose.RUN)
UF = st.floats(1.0, 500.0)


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [("START_20", 100, 120), ("START_25", 100, 125), ("RUN_5", 95, 105), ("RUN_10", 90, 110), ("RUN_15", 85, 115)],
)
def test_bands_of_100_microfarad_by_hand(name, low, high):
    """Percent of 100 µF are microfarads; a start capacitor is never below its print. RUN_6 is held against print."""
    assert [farad * 1e6 for farad in ToleranceClass[name].band(100e-6)] == pytest.approx([low, high], rel=1e-12)
    assert ToleranceClass[name].source


@pytest.mark.parametrize(
    ("reading", "limit", "answer"),
    [
        (35.0, 1.0, Within.YES),
        (38.5, 0.0, Within.YES),  # on the edge
        (31.5, 0.0, Within.YES),
        (31.4, 0.0, Within.NO),
        (38.6, 0.0, Within.NO),
        (32.0, 1.0, Within.CANNOT_TELL),  # 31 to 33: the edge 31.5 lies inside
        (30.0, 1.0, Within.NO),  # 29 to 31
        (38.0, 1.0, Within.CANNOT_TELL),
        (40.0, 1.0, Within.NO),
        (35.0, 9.0, Within.CANNOT_TELL),  # wider than the class on both sides
        (math.inf, 0.0, Within.NO),  # over range
        (0.0, 0.1, Within.NO),
    ],
)
def test_35_microfarad_within_10_percent_by_hand(reading, limit, answer):
    """31.5 µF to 38.5 µF are allowed; the meter's limit makes the doubt."""
    assert within(Measured(reading * 1e-6, limit * 1e-6), 35e-6, ToleranceClass.RUN_10) is answer


def test_a_reader_of_a_forum_reads_a_tired_one():
    """7.02 µF of 7.5 µF ±6 % is outside: 7.05 is the least (House Repair Talk, thread 12102, read on a stored page)."""
    assert within(Measured(7.02e-6), 7.5e-6, ToleranceClass.RUN_6) is Within.NO
    assert within(Measured(7.06e-6), 7.5e-6, ToleranceClass.RUN_6) is Within.YES


@given(UF, UF, st.floats(0.0, 5.0), st.sampled_from(ToleranceClass))
def test_a_finer_meter_never_takes_a_verdict_back(reading, printed, limit, tolerance):
    """Where a coarse meter says yes or no, the same reading of a finer one says the same."""
    coarse = within(Measured(reading * 1e-6, limit * 1e-6), printed * 1e-6, tolerance)
    if coarse is not Within.CANNOT_TELL:
        assert within(Measured(reading * 1e-6, limit * 0.3e-6), printed * 1e-6, tolerance) is coarse


def test_the_same_part_fits():
    """A part of the same marking fits, and so does one of a closer class and a higher voltage."""
    assert judge_replacement(START, START) == []
    assert judge_replacement(RUN, RUN) == []
    closer = Marking.of(35e-6, ToleranceClass.RUN_5, 440.0, Purpose.RUN, bleed_ohm=500e3)
    assert judge_replacement(RUN, closer) == []


@pytest.mark.parametrize(
    ("old", "offered", "reason"),
    [
        (RUN, replace(RUN, volts=250.0), "it is for 250 V; 370 V or more is wanted"),
        (
            RUN,
            replace(RUN, purpose=Purpose.START),
            "it is a start capacitor, made for seconds; in the place of a run capacitor it overheats and bursts",
        ),
        (START, replace(START, purpose=Purpose.RUN), "it is a run capacitor; a start capacitor is wanted"),
        (
            START,
            replace(START, lowest=64e-6, highest=77e-6),
            "it may have 64 µF to 77 µF; 88 µF to 108 µF is wanted: too small",
        ),
        (
            START,
            replace(START, lowest=130e-6, highest=156e-6),
            "it may have 130 µF to 156 µF; 88 µF to 108 µF is wanted: too large",
        ),
        (
            RUN,
            Marking.of(35e-6, ToleranceClass.RUN_10, 370.0, Purpose.RUN),
            "it may have 31.5 µF to 38.5 µF; 32.9 µF to 37.1 µF is wanted: its range reaches outside",
        ),
        (RUN, replace(RUN, frequencies_hz=(60.0,)), "it is not marked for 50 Hz"),
        (
            START,
            replace(START, bleed_ohm=None),
            "it has no bleed resistor; the old one has 15000 Ω across its terminals",
        ),
    ],
)
def test_each_reason_alone(old, offered, reason):
    """One thing wrong gives one reason, with the numbers."""
    assert judge_replacement(old, offered) == [reason]


def test_a_weak_bleed_resistor_by_hand():
    """1 MΩ on 108 µF makes 108 s: of 250·√2 = 353.6 V there are 353.6·exp(-60/108) = 203 V after 60 s."""
    assert judge_replacement(START, replace(START, bleed_ohm=1e6)) == [
        "its bleed resistor of 1e+06 Ω is too weak: 203 V may be left after 60 s, 50 V is the most"
    ]


def test_the_supply_decides_where_it_is_known():
    """A 60 Hz part fits where the supply is 60 Hz, and not where it is 50 Hz."""
    only_60 = replace(RUN, frequencies_hz=(60.0,))
    assert judge_replacement(RUN, only_60, supply_hz=60.0) == []
    assert judge_replacement(RUN, only_60, supply_hz=50.0) == ["it is not marked for 50 Hz"]


def test_all_that_is_wrong_is_told():
    """A part that is wrong in all five ways gets five reasons."""
    worst = Marking(20e-6, 22e-6, 125.0, Purpose.RUN, (400.0,))
    reasons = judge_replacement(START, worst)
    assert len(reasons) == 5
    assert reasons[3] == "it is not marked for 50 Hz and 60 Hz"


def test_refused():
    """A print that cannot be is refused with the name, the value and the rule."""
    with pytest.raises(InputError, match=r"^the printed capacitance is 0 µF; it must be above 0 µF and finite$"):
        within(Measured(1e-6), 0.0, ToleranceClass.RUN_5)
    with pytest.raises(InputError, match=r"^the lowest capacitance printed is -1 µF"):
        within_range(Measured(1e-6), -1e-6, 1e-6)
    with pytest.raises(InputError, match=r"^the highest capacitance printed is nan µF"):
        Marking(1e-6, math.nan, 250.0, Purpose.START)
    with pytest.raises(InputError, match=r"^the printed range is 108 µF to 88 µF; the lowest must come first$"):
        Marking(108e-6, 88e-6, 250.0, Purpose.START)
    with pytest.raises(InputError, match=r"^the printed voltage is 0 V; it must be above 0 V"):
        replace(RUN, volts=0.0)
    with pytest.raises(InputError, match=r"^no frequency is printed; a capacitor is for 50 Hz, 60 Hz or both$"):
        replace(RUN, frequencies_hz=())
    with pytest.raises(InputError, match=r"^a printed frequency is 0 Hz; it must be above 0 Hz"):
        replace(RUN, frequencies_hz=(0.0,))
    with pytest.raises(InputError, match=r"^the bleed resistor is -1 Ω; it must be above 0 Ω and finite\. None stands"):
        replace(RUN, bleed_ohm=-1.0)
    with pytest.raises(InputError, match=r"^the frequency of the supply is 0 Hz"):
        judge_replacement(RUN, RUN, supply_hz=0.0)
