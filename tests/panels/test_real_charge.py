"""A real charged capacitor: what a technician types, and what it holds, when it is safe and what its resistor takes."""

import math

import pytest

from coldwright.errors import AnswerError, InputError
from coldwright.panels.real_charge import real_charge, study_real_charge

TYPED = {
    "volts": "300.0 V",
    "kind": "dc",
    "volts_meter": "0.5 % + 5 digits",
    "capacitance": "100 uF",
    "capacitance_tolerance": "5 %",
    "resistor": "100 kohm",
    "resistor_tolerance": "2 %",
}


def lines(**changed: str) -> str:
    """All that is said, as one text."""
    return "\n".join(study_real_charge(**{**TYPED, **changed}).lines)


def test_caution_comes_first():
    """Before any number: isolate, prove dead, read, discharge through a resistor, read again."""
    first = study_real_charge(**TYPED).lines[0]

    assert first.startswith("⚠")
    assert all(word in first for word in ("Isolate", "prove dead", "through a resistor", "read again", "Local codes"))


def test_energy_and_time_by_hand():
    """100 µF at 300 V hold 30 mC and 4.5 J; 10 s · ln 6 = 17.92 s to 50 V; 300 · e⁻¹ = 110 V after 10 s."""
    found = study_real_charge(**TYPED)

    assert "30.0 mC and 4.5 ±" in "\n".join(found.lines)
    assert found.safe_s.value == pytest.approx(10 * math.log(6))
    assert "  after 10 s: 110 V, at most" in "\n".join(found.lines)


def test_the_limits_of_the_time_by_hand():
    """At worst C and R count in full, 7 % of 17.92 s, and 2 V of 300 V count 10 s · 2/300."""
    found = study_real_charge(**TYPED)

    assert found.peak.limit == pytest.approx(2.0)
    assert found.safe_s.worst == pytest.approx(0.07 * 10 * math.log(6) + 10 * 2 / 300, rel=0.01)


def test_the_most_that_can_be_left_bounds_every_true_circuit():
    """Any true volts, farads and ohms inside their limits leave no more than the most that is said."""
    found = study_real_charge(**TYPED)
    said = float(next(line for line in found.lines if "after 10 s" in line).split("at most ")[1].split()[0])
    worst = 302 * math.exp(-10 / (105e-6 * 102e3))

    assert said == pytest.approx(worst, rel=0.005)


@pytest.mark.parametrize(
    ("resistor", "word"),
    [
        ("100 kohm", "IN TIME"),
        ("335 kohm", "CANNOT TELL"),
        ("500 kohm", "TOO SLOW"),
        ("OL", "IT STAYS CHARGED"),
    ],
)
def test_the_verdict_allows_for_the_readings(resistor, word):
    """60 s / (100 µF · ln 6) is 334.9 kΩ: near it the readings cannot tell; with OL it never falls."""
    assert f"Verdict: {word}" in lines(resistor=resistor)


def test_below_the_safe_line_from_the_start():
    """A capacitor at 30 V is told to be below 50 V, and to be measured all the same."""
    assert "Verdict: BELOW 50 V from the start. Measure all the same." in lines(volts="30.0 V")


def test_alternating_volts_give_their_peak_and_heat_by_rms():
    """230 V a.c. have a peak of 325.3 V; 100 kΩ takes 230² / 100 kΩ = 0.529 W at work, 1.058 W at first."""
    said = lines(volts="230.0 V", kind="a.c.")

    assert "Peak volts on it: 325.3 ±" in said
    assert "takes 0.529 W all the time" in said
    assert "1.06 W at the first moment" in said


def test_the_bleed_resistor_for_one_minute():
    """200 V a.c., at worst 201.5 V · √2 = 284.96 V and 105 µF: 60 s / (105 µF · ln(284.96/50)) = 328.3 kΩ."""
    ohm = 60 / (105e-6 * math.log(201.5 * math.sqrt(2) / 50))

    assert f"it must be {ohm / 1e3:.0f} kΩ or less" in lines(volts="200.0 V", kind="ac", resistor="OL")


def test_volts_that_are_left_size_no_resistor():
    """What is left is chance: it is named as such, and the entry for sizing is named in place of ohms and watts."""
    said = lines()

    assert "Volts on it now: 300.0 ± 2.0 V." in said
    assert "or less" not in said
    assert "all the time" not in said
    assert 'To size a resistor, give the a.c. volts across it at work or those printed on it, with kind="ac"' in said


def test_the_bus_of_a_board_heats_by_its_whole_volts():
    """230 V a.c. of the supply are 325.3 V d.c. on the bus; 100 kΩ takes 325.3² / 100 kΩ = 1.058 W all the time."""
    said = lines(volts="230.0 V", kind="bus")

    assert "Peak volts on it: 325.3 ±" in said
    assert "takes 1.06 W all the time" in said


def test_tips_the_other_way_round_change_nothing():
    """-300.0 V d.c. is the same charge as 300.0 V with the tips swapped."""
    assert lines(volts="-300.0 V") == lines()


@pytest.mark.parametrize("volts", ["0.0 V", "-0.4 V"])
def test_nothing_left_says_nothing_of_next_time(volts):
    """Nought, or less than the meter may be off (5 digits of 0.1 V), is empty now and no more."""
    said = lines(volts=volts)

    assert "Verdict: EMPTY NOW. That says nothing of next time." in said
    assert "after 1 s" not in said


@pytest.mark.parametrize(
    ("changed", "error", "words"),
    [
        ({"volts": ""}, AnswerError, "volts is not filled in"),
        ({"volts": "-3 V", "kind": "ac"}, InputError, "volts is -3 V; it must be above zero"),
        ({"volts": "0 V", "kind": "bus"}, InputError, "volts is 0 V; it must be above zero"),
        ({"volts": "300"}, AnswerError, 'volts: "300" has no unit'),
        ({"volts_meter": "good"}, AnswerError, "volts_meter: the meter's accuracy cannot be read"),
        ({"kind": "peak"}, AnswerError, "kind is 'peak'; write dc"),
        ({"capacitance": "100"}, AnswerError, 'capacitance: "100" has no unit'),
        ({"capacitance": "100 F"}, InputError, "it can be at most 0.1 F. Is there a typing error, or another unit?"),
        ({"capacitance_tolerance": "5"}, AnswerError, "capacitance_tolerance is written as a percentage"),
        ({"capacitance_tolerance": "60 %"}, InputError, "from 0 % to below 50 %"),
        ({"resistor": "0 ohm"}, InputError, "resistor is 0 Ω; it must be above zero"),
        ({"resistor_tolerance": ""}, AnswerError, "resistor_tolerance is not filled in"),
    ],
)
def test_what_cannot_be_is_said(changed, error, words):
    """Name, value and rule stand in the message."""
    with pytest.raises(error) as caught:
        study_real_charge(**{**TYPED, **changed})
    assert words in str(caught.value)


def test_a_missing_or_unknown_entry_is_one_line(capsys):
    """No traceback for a technician: a line that begins with a sign."""
    real_charge(**{**TYPED, "volts": ""})
    real_charge(colour="red")

    said = capsys.readouterr().out.splitlines()
    assert said[0].startswith("⚠ volts is not filled in")
    assert "there is no entry 'colour'" in said[1]
