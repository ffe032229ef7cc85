"""A real reading beside its plate, and a real meter beside its place: what is typed, and what is said."""

import pytest

from coldwright.errors import AnswerError, InputError
from coldwright.labs.safe_isolation.compare import Against
from coldwright.panels.real_safe_isolation import real_meter, real_reading, study_reading


@pytest.mark.parametrize(
    ("shown", "found"),
    [
        ("109.4 V", Against.WITHIN),
        ("108.9 V", Against.CANNOT_TELL),
        ("106.5 V", Against.LOW),
        ("140.0 V", Against.HIGH),
    ],
)
def test_the_verdict_by_hand(shown, found):
    """108 V to 132 V on the plate; 109.4 ± 1.394 clears it, 108.9 ± 1.389 does not, 106.5 + 1.365 stays below."""
    assert study_reading(shown, "1 % + 3 digits", "120 V", "10 %").verdict is found


def test_the_limit_is_the_makers_own_example():
    """120.0 V with ±(1 % + 3 counts) is ±1.5 V (support article KA-03135 of a multimeter maker, published)."""
    assert study_reading("120.0 V", "1 % + 3 digits", "120 V", "10 %").reading.limit == pytest.approx(1.5)


@pytest.mark.parametrize("shown", ["4.20 ohm", "1.30 A", "95.0 W", "59.9 Hz", "14.8 uF"])
def test_other_kinds_are_read_by_their_unit(shown):
    """A reading that equals its plate agrees in any unit, as ±(0.5 % + 2 digits) is far inside ±10 %."""
    assert study_reading(shown, "0.5 % + 2 digits", shown, "10 %").verdict is Against.WITHIN


def test_all_is_said_with_cautions(capsys):
    """Caution first, both bands, the verdict with its reason and the next step, and who comes first."""
    real_reading("108.9 V", "1 % + 3 digits", "120 V", "10 %")
    said = " ".join(capsys.readouterr().out.split())

    assert said.startswith("Ohms and capacitance: power off and locked off, proved dead, discharged?")
    assert "108.9 V ± 1.4 V, means 107.5 V to 110.3 V." in said
    assert "allows 108.0 V to 132.0 V." in said
    assert "Verdict: CANNOT TELL. An edge of the band lies inside the ± of the reading. Next: use a lower range" in said
    assert said.endswith("Local codes, the maker's instructions and licensed practice come first.")


@pytest.mark.parametrize(
    ("typed", "message"),
    [
        (("", "1 % + 3", "120 V", "10 %"), "reading is not filled in"),
        (("118 V", "1 % + 3", "", "10 %"), "plate is not filled in"),
        (("118 V", "1 % + 3", "120 V", ""), "tolerance is not filled in"),
        (("118 V", "good", "120 V", "10 %"), "the meter's accuracy cannot be read"),
        (("OL", "1 % + 3", "120 V", "10 %"), "OL is no number"),
        (("-118 V", "1 % + 3", "120 V", "10 %"), "without the minus"),
        (("118 apples", "1 % + 3", "120 V", "10 %"), "cannot be read; type a number with its unit"),
        (("118 V", "1 % + 3", "120 ohm", "10 %"), "^plate: .* is a resistance; a voltage is wanted"),
        (("118 V", "1 % + 3", "120 V", "10"), "written as a percentage"),
    ],
)
def test_bad_input_is_named(typed, message, capsys):
    """Each message names what was typed and what is wanted; the notebook shows it in one line."""
    with pytest.raises(AnswerError, match=message):
        study_reading(*typed)
    real_reading(*typed)
    assert capsys.readouterr().out.startswith("⚠ ")


def test_a_plate_of_zero_is_refused():
    """By its name and as it was typed."""
    with pytest.raises(InputError, match="plate is 0 V; it must be above zero"):
        study_reading("118 V", "1 % + 3", "0 V", "10 %")


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (("outlet", "230 V", "CAT II 1000 V"), "Do NOT use it: wall outlet and fixed wiring: CAT III"),
        (("outlet", "230 V", "CAT IV 150 V"), "Do NOT use it: 230 V is more than the 150 V"),
        (("appliance", "230 V", "CAT II 300 V"), "Its rating is enough: CAT II 300 V"),
        (("fixed  Motor", "120 V", "CAT III 300 V"), "Its rating is enough"),
        (("cellar", "230 V", "CAT III 600 V"), "⚠ the place is 'cellar'; choose one of source, board"),
        (("outlet", "230", "CAT III 600 V"), "⚠ mains: "),
        (("outlet", "230 V", "600 V"), "⚠ the rating '600 V' cannot be read"),
    ],
)
def test_a_meter_for_a_place(typed, said, capsys):
    """Places and categories are those of IEC/EN 61010-1, 6.7.4, quoted in an instrument manual (published)."""
    real_meter(*typed)
    assert said in " ".join(capsys.readouterr().out.split())
