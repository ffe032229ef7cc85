"""The verdict on windings: each one from readings made up by hand, and what must stay undecided."""

from __future__ import annotations

import math

import pytest

from coldwright.electrical.measured import Measured
from coldwright.electrical.pins import Pattern, PinReadings
from coldwright.electrical.verdict import (
    DOUBTFUL_BELOW_OHM,
    GROUNDED_BELOW_OHM,
    Finding,
    Verdict,
    judge_windings,
)
from coldwright.electrical.winding_data import WindingData
from coldwright.electrical.windings import REFERENCE_K
from coldwright.errors import InputError

DATA = WindingData(run=4.0, start=12.0, tolerance=0.07)
INVERTER = WindingData(run=6.8, start=None, tolerance=0.07)
SOUND = Measured(300e6, 10e6)
OL = math.inf


def read(ab: float, bc: float, ac: float, limit: float = 0.03) -> PinReadings:
    """Readings of pins 1-2, 2-3 and 1-3; inf is OL."""
    return PinReadings.of(*(Measured(v, 0.0 if math.isinf(v) else limit) for v in (ab, bc, ac)))


def judged(
    ab: float,
    bc: float,
    ac: float,
    data: WindingData | None = DATA,
    insulation: Measured | None = SOUND,
    winding_k: float = REFERENCE_K,
) -> Finding:
    """Finding on three readings at 20 °C, unless told otherwise."""
    return judge_windings(read(ab, bc, ac), winding_k, data, insulation)


def test_a_sound_compressor_is_good():
    """Both windings in the maker's band, the sum rule holds, the insulation is sound: good, with a reason for each."""
    found = judged(4.0, 16.0, 12.0)
    assert found.verdict is Verdict.GOOD
    assert found.next_test is None
    assert (found.pins.common, found.pins.run, found.pins.start) == ("1", "2", "3")
    assert any("within" in reason for reason in found.reasons)
    assert any("run winding reads 4.00 ± 0.03 Ω" in reason and "3.72 Ω to 4.28 Ω" in reason for reason in found.reasons)
    assert found.reasons[-1] == "insulation to the shell: 300 MΩ"


def test_good_needs_the_insulation_test():
    """Without an insulation test nothing is called good; the next test is named with its caution."""
    found = judged(4.0, 16.0, 12.0, insulation=None)
    assert found.verdict is Verdict.UNDECIDED
    assert found.next_test == "test from each pin to the shell at 500 V d.c., never under vacuum"


def test_good_needs_the_makers_values():
    """Without data whole windings stay undecided: shorted turns cannot be told."""
    found = judged(4.0, 16.0, 12.0, data=None)
    assert found.verdict is Verdict.UNDECIDED
    assert any("shorted turns cannot be told" in reason for reason in found.reasons)
    assert found.next_test == "compare each winding with the maker's value at the same temperature"


@pytest.mark.parametrize(
    ("pairs", "name"), [((2.8, 14.8, 12.0), "the run winding"), ((4.0, 12.4, 8.4), "the start winding")]
)
def test_shorted_turns(pairs, name):
    """A winding at 70 % of the maker's value is shorted although the sum rule holds."""
    found = judged(*pairs)
    assert found.verdict is Verdict.SHORTED_TURNS
    assert any(reason.startswith(name) for reason in found.reasons)
    assert "turns are shorted" in found.reasons[-2]


def test_a_low_reading_within_the_meters_limit_is_not_condemned():
    """3.70 Ω ± 0.03 Ω can still be 3.72 Ω, the maker's lowest, and is no verdict; 3.68 Ω cannot."""
    assert judged(3.70, 15.70, 12.0).verdict is Verdict.UNDECIDED
    assert judged(3.73, 15.73, 12.0).verdict is Verdict.GOOD
    assert judged(3.68, 15.68, 12.0).verdict is Verdict.SHORTED_TURNS


def test_a_cold_winding_is_compared_at_its_own_temperature():
    """At -34.5 °C copper reads 200/254.5 of its 20 °C value: 3.14 Ω is good there, and would be shorted at 20 °C."""
    cold = 200 / 254.5
    pairs = (4.0 * cold, 16.0 * cold, 12.0 * cold)
    assert judged(*pairs, winding_k=238.65).verdict is Verdict.GOOD
    assert judged(*pairs).verdict is Verdict.SHORTED_TURNS


def test_too_high_is_not_called_a_fault():
    """A winding that reads too much is a contact, a temperature or another type: undecided, with what to check."""
    found = judged(5.0, 17.0, 12.0)
    assert found.verdict is Verdict.UNDECIDED
    assert found.next_test == "clean the pins, check temperature and type, then read again"


def test_a_high_reading_within_the_meters_limit_is_not_doubted():
    """4.30 Ω ± 0.03 Ω can still be 4.28 Ω, the maker's highest: a finer meter is asked for; 4.32 Ω is a contact."""
    doubted, high = judged(4.30, 16.30, 12.0), judged(4.32, 16.32, 12.0)
    assert (doubted.verdict, high.verdict) == (Verdict.UNDECIDED, Verdict.UNDECIDED)
    assert "finer ohms range" in str(doubted.next_test)
    assert str(high.next_test).startswith("clean the pins")


def test_a_coarse_meter_gives_no_verdict():
    """1 Ω, 9 Ω and 10 Ω, each ± 3 Ω: the rule holds, but such a meter cannot call the windings good."""
    coarse = PinReadings.of(Measured(1.0, 3.0), Measured(10.0, 3.0), Measured(9.0, 3.0))
    found = judge_windings(coarse, 293.15, WindingData(run=3.0, start=9.1, tolerance=0.07), Measured(300e6))
    assert found.verdict is Verdict.UNDECIDED


def test_a_broken_sum_rule_is_a_reading_to_repeat():
    """Leads left in break the rule: no verdict on the windings, but what to do."""
    found = judged(4.6, 16.6, 12.6)
    assert found.verdict is Verdict.UNDECIDED
    assert found.next_test is not None
    assert found.next_test.startswith("zero the leads")


@pytest.mark.parametrize(
    ("value", "verdict", "role"),
    [
        (12.0, Verdict.OPEN_WINDING, "run"),
        (4.0, Verdict.OPEN_WINDING, "start"),
        (16.0, Verdict.OPEN_PROTECTOR, "common"),
    ],
)
def test_one_pair_names_the_open_path(value, verdict, role):
    """The start winding alone: run is open. The run winding alone: start is. Both in series: the protector is."""
    found = judged(value, OL, OL)
    assert found.verdict is verdict
    assert getattr(found.pins, role) == "3"
    assert {found.pins.common, found.pins.run, found.pins.start} == {"3", None}


def test_one_pair_that_fits_nothing():
    """A single reading that is none of the maker's values is not guessed at."""
    found = judged(7.0, OL, OL)
    assert found.verdict is Verdict.UNDECIDED
    assert found.next_test == "check the type on the nameplate against the data sheet"


def test_one_pair_that_fits_two_things():
    """Where start and both in series lie within the maker's tolerance of each other, neither is claimed."""
    wide = WindingData(run=1.0, start=12.0, tolerance=0.07)
    assert judged(12.5, OL, OL, data=wide).verdict is Verdict.UNDECIDED


def test_one_pair_on_a_hot_compressor_must_wait():
    """Above 45 °C an internal protector may be open by right: undecided until it has cooled."""
    found = judged(19.0, OL, OL, winding_k=353.15)
    assert found.verdict is Verdict.UNDECIDED
    assert found.next_test is not None
    assert "room temperature" in found.next_test
    assert judged(16.0 * 279.5 / 254.5, OL, OL, winding_k=318.15).verdict is Verdict.OPEN_PROTECTOR


def test_one_pair_without_data():
    """Which path is broken needs the maker's values."""
    found = judged(16.0, OL, OL, data=None)
    assert found.verdict is Verdict.UNDECIDED
    assert "without the maker's values it cannot be told which path is broken" in found.reasons


def test_no_pair_reads():
    """Nothing reads: no verdict before the leads themselves are tried."""
    found = judged(OL, OL, OL)
    assert found.verdict is Verdict.UNDECIDED
    assert found.pins.pattern is Pattern.NO_PAIR
    assert found.next_test is not None
    assert found.next_test.startswith("touch the leads together: if the meter shows about 0 Ω")


def test_two_pairs_are_no_verdict():
    """Two readings and one OL is a slip in reading, not a fault in the compressor."""
    found = judged(4.0, 12.0, OL)
    assert found.verdict is Verdict.UNDECIDED
    assert found.reasons[0] == "two pairs read and the third does not, which no winding can do"


def test_an_inverter_compressor_is_not_condemned():
    """Three equal windings in the maker's band are good, though 6.8 + 6.8 is not 6.8."""
    found = judged(6.80, 6.82, 6.78, data=INVERTER)
    assert found.verdict is Verdict.GOOD
    assert found.pins.pattern is Pattern.THREE_EQUAL
    assert (found.pins.common, found.pins.run, found.pins.start) == (None, None, None)
    assert "the sum rule is not for it" in found.reasons[0]


def test_three_equal_readings_without_data():
    """Three equal readings are recognised as an inverter compressor, and the maker's value is asked for."""
    found = judged(6.80, 6.82, 6.78, data=None)
    assert found.verdict is Verdict.UNDECIDED
    assert "an inverter compressor with three equal windings" in found.reasons[0]
    assert "nothing speaks against it" in found.reasons[1]


def test_three_equal_readings_against_the_data():
    """Three equal readings on a type that has a run and a start winding: the wrong data sheet, or the wrong unit."""
    found = judged(6.80, 6.82, 6.78, data=DATA)
    assert found.verdict is Verdict.UNDECIDED
    assert found.next_test == "check the type on the nameplate against the data sheet"


def test_an_inverter_compressor_with_shorted_turns():
    """Two pairs at 70 % of the maker's value, as one shorted phase of a star gives, are shorted turns."""
    found = judged(4.76, 4.76, 6.8, data=INVERTER)
    assert found.verdict is Verdict.SHORTED_TURNS
    assert found.reasons[0] == "the three pairs of an inverter compressor must read the same, and they do not"


def test_an_inverter_compressor_with_a_poor_contact():
    """One pair too high, none too low: undecided, not condemned."""
    found = judged(6.8, 6.8, 8.2, data=INVERTER)
    assert found.verdict is Verdict.UNDECIDED
    assert found.next_test == "clean the pins, check temperature and type, then read again"


def test_an_inverter_compressor_that_is_a_little_uneven():
    """Pairs that differ by more than the meter allows but fit the maker's band: read again, no verdict."""
    found = judged(6.8, 6.8, 7.0, data=INVERTER)
    assert found.verdict is Verdict.UNDECIDED
    assert found.next_test == "clean the pins, press the leads on and read all three pairs again"


def test_an_inverter_compressor_with_an_open_winding():
    """One pair of a star reads: the third winding is open."""
    found = judged(6.8, OL, OL, data=INVERTER)
    assert found.verdict is Verdict.OPEN_WINDING
    assert found.pins.left_out == "3"


def test_the_edge_of_grounded():
    """At 2 MΩ it counts as grounded, just above it does not; below 20 MΩ it is to be tested again."""
    at = judged(4.0, 16.0, 12.0, insulation=Measured(GROUNDED_BELOW_OHM))
    above = judged(4.0, 16.0, 12.0, insulation=Measured(math.nextafter(GROUNDED_BELOW_OHM, math.inf)))
    doubtful = judged(4.0, 16.0, 12.0, insulation=Measured(math.nextafter(DOUBTFUL_BELOW_OHM, 0)))
    clear = judged(4.0, 16.0, 12.0, insulation=Measured(DOUBTFUL_BELOW_OHM))
    assert (GROUNDED_BELOW_OHM, DOUBTFUL_BELOW_OHM) == (2e6, 20e6)
    assert at.verdict is Verdict.GROUNDED
    assert above.verdict is doubtful.verdict is clear.verdict is Verdict.GOOD
    assert "test again warm and dry" in above.reasons[-1]
    assert "test again warm and dry" in doubtful.reasons[-1]
    assert "test again" not in clear.reasons[-1]


def test_leakage_at_the_edge_by_hand():
    """230 V over 2 MΩ is 0.115 mA, below the 0.75 mA IEC 60335-1 allows a portable class I appliance (from memory)."""
    leakage = 230.0 / GROUNDED_BELOW_OHM
    assert leakage == pytest.approx(0.115e-3)
    assert leakage < 0.75e-3


def test_grounded_comes_before_everything_else():
    """A grounded winding is grounded whatever its pairs read."""
    for pairs in ((4.0, 16.0, 12.0), (OL, OL, OL), (4.0, 12.0, OL), (2.0, 14.0, 12.0)):
        found = judged(*pairs, insulation=Measured(3e5, 1e4))
        assert found.verdict is Verdict.GROUNDED
        assert found.reasons[0].startswith("from a pin to the shell it reads 0.30 MΩ, not above the 2 MΩ")


def test_insulation_above_the_tester():
    """Over-range on the insulation tester is a sound winding, in words."""
    found = judged(4.0, 16.0, 12.0, insulation=Measured(math.inf))
    assert found.verdict is Verdict.GOOD
    assert found.reasons[-1] == "insulation to the shell: above what the tester shows"


def test_every_verdict_can_be_reached():
    """Each verdict is reached by some readings: none is there for show."""
    cases = [
        judged(4.0, 16.0, 12.0),
        judged(OL, 12.0, OL),
        judged(16.0, OL, OL),
        judged(2.0, 14.0, 12.0),
        judged(4.0, 16.0, 12.0, insulation=Measured(1e5)),
        judged(4.0, 12.0, OL),
    ]
    assert {found.verdict for found in cases} == set(Verdict)
    assert all(found.reasons for found in cases)
    assert all(found.next_test for found in cases if found.verdict is Verdict.UNDECIDED)


@pytest.mark.parametrize("bad", [20.0, 500.0, math.nan])
def test_degrees_celsius_for_kelvin(bad):
    """A temperature that no winding has is refused, with the likely slip."""
    with pytest.raises(InputError, match=rf"^the winding's temperature is {bad:g} K; expected 200 K to 500 K\. Was it"):
        judge_windings(read(4.0, 16.0, 12.0), bad)


@pytest.mark.parametrize(
    ("fields", "message"),
    [
        ({"run": 0.0}, r"^the maker's run winding is 0 Ω; it must be above 0 Ω and finite$"),
        ({"run": math.nan}, r"^the maker's run winding is nan Ω"),
        ({"start": math.inf}, r"^the maker's start winding is inf Ω"),
        (
            {"tolerance": 7.0},
            r"^the maker's tolerance is 7; give a fraction between 0 and 0\.5, such as 0\.07 for 7 %$",
        ),
        ({"tolerance": 0.0}, r"^the maker's tolerance is 0; "),
    ],
)
def test_makers_values_that_cannot_be(fields, message):
    """Values that no maker gives are refused by name; percent for a fraction is told."""
    with pytest.raises(InputError, match=message):
        WindingData(**{"run": 4.0, "start": 12.0, "tolerance": 0.07, **fields})
