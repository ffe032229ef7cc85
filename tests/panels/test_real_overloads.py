"""A real overload: what a technician types, and the verdict beside the maker's curve."""

import math

import pytest

from coldwright.errors import AnswerError, InputError
from coldwright.panels.real_overloads import real_overload, study_real_overload

# Two points of a curve made up by hand: τ = 60 s, lowest amps 6 A at 25 °C, t = τ ln[I² / (I² - 36)]
CURVE = {
    "slow_amps": "10 A",
    "slow_seconds": f"{60 * math.log(100 / 64):.4f} s",
    "fast_amps": "20 A",
    "fast_seconds": f"{60 * math.log(400 / 364):.4f} s",
    "curve_at": "25 °C",
    "curve_tolerance": "10 %",
}
UNIT = {"amps": "15.0 A", "clamp": "0 % + 0 digits", "room": "25 °C", "opens_at": "115 °C", "watch": "0.1 s", **CURVE}
AT_15 = 60 * math.log(225 / (225 - 36))


@pytest.mark.parametrize(
    ("seconds", "verdict"),
    [
        (AT_15, "FITS"),
        (AT_15 * 0.8, "TOO SOON"),
        (AT_15 * 1.3, "TOO SLOW"),
        (AT_15 * 1.16, "CANNOT TELL"),
    ],
)
def test_the_verdict_is_that_of_the_curve(seconds: float, verdict: str) -> None:
    """The curve's own time fits; 20 % sooner or 30 % later does not; near the edge of ±10 % it cannot be told."""
    limits = {"watch": "0.5 s"} if verdict == "CANNOT TELL" else {}
    found = study_real_overload(**{**UNIT, **limits, "seconds": f"{seconds:.3f} s"})
    assert found.verdict.startswith(verdict)


def test_the_span_holds_the_curves_time_and_its_lowest_amps() -> None:
    """By hand: 10.46 s at 15 A, less and plus 10 %, and a kelvin of the room; never below 6 A."""
    found = study_real_overload(**UNIT, seconds="10 s")
    assert found.shortest == pytest.approx(AT_15 * 0.9 * (89 / 90), rel=3e-3)
    assert found.longest == pytest.approx(AT_15 * 1.1 * (91 / 90), rel=3e-3)
    assert found.curve.ultimate_trip_current(found.curve_k, found.curve_k) == pytest.approx(6.0, abs=0.01)


def test_a_clamp_that_is_less_sure_leaves_more_open() -> None:
    """±5 % of the amps moves the time by about ±10 %."""
    sure, unsure = (
        study_real_overload(**{**UNIT, "clamp": clamp}, seconds="10 s")
        for clamp in ("0 % + 0 digits", "5 % + 0 digits")
    )
    assert unsure.longest / sure.longest == pytest.approx(1.12, abs=0.02)
    assert unsure.shortest < sure.shortest


def test_a_current_that_may_never_trip_has_no_longest_time() -> None:
    """6.1 ± 0.2 A: perhaps never."""
    found = study_real_overload(**{**UNIT, "amps": "6.1 A", "clamp": "0 % + 2 digits"}, seconds="300 s")
    assert math.isinf(found.longest)
    assert any("to for ever" in line for line in found.lines)
    assert not found.verdict.startswith("TOO SLOW")


def test_the_caution_comes_first_and_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    """Live test, never bridge, one trip, local codes: before the verdict."""
    real_overload(**UNIT, seconds="10.5 s")
    text = " ".join(capsys.readouterr().out.split())
    assert text.index("Never bridge an overload") < text.index("Verdict: FITS")
    assert "Local codes and the maker's instructions come first." in text


@pytest.mark.parametrize(
    ("typed", "message"),
    [
        ({"seconds": ""}, "seconds is not filled in; a time is wanted here"),
        ({"seconds": "10"}, "seconds: "),
        ({"seconds": "-3 s"}, "seconds is -3 s; it must be above zero"),
        ({"amps": ""}, "amps is not filled in"),
        ({"amps": "0 A"}, "amps is 0 A; it must be above zero. Was the clamp round the whole cord?"),
        ({"amps": "15 V"}, "amps: "),
        ({"clamp": "good"}, "clamp: the meter's accuracy cannot be read"),
        ({"room": "120 °C"}, "opens_at is 115 °C, which is not above room 120 °C"),
        ({"curve_tolerance": "lots"}, "curve_tolerance is written as a percentage"),
        ({"curve_tolerance": "100 %"}, "curve_tolerance is 100 %; it must be from 0 % to below 100 %"),
        ({"slow_amps": "25 A"}, "more current must trip sooner"),
    ],
)
def test_what_is_missing_or_cannot_be_is_said(typed: dict[str, str], message: str) -> None:
    """The message names the entry and the rule."""
    with pytest.raises((AnswerError, InputError), match=message.replace("?", r"\?")):
        study_real_overload(**{**UNIT, "seconds": "10 s", **typed})


def test_an_unknown_entry_is_one_line(capsys: pytest.CaptureFixture[str]) -> None:
    """A misspelt name is told with the names there are."""
    real_overload(second="10 s")
    assert capsys.readouterr().out.startswith("⚠ there is no entry 'second'; there are seconds, watch")
