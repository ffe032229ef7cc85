"""The figure of the relay's thresholds, and the verdict on a real relay."""

from __future__ import annotations

import re

import numpy as np
import pytest

from coldwright.electrical.start_relays import Fit
from coldwright.errors import AnswerError, InputError
from coldwright.panels import practice_desk
from coldwright.panels.figures_start_circuits import relay_curves, relay_figure
from coldwright.panels.real_start_circuit import real_relay, study_real_relay

TYPED = {"locked": "11.42 A", "running": "1.31 A", "pick_up": "8.6 A", "drop_out": "7.3 A", "clamp": "2 % + 5 digits"}


def test_the_run_amps_fall_with_speed():
    """Up to speed the run winding takes less than a fifth of its locked-rotor amps (defining property)."""
    found = relay_curves("Tarn 11")
    amps = np.abs(found.without_start.run_current)
    assert np.all(np.diff(amps) < 1e-9)
    assert found.idle_a < found.locked_a / 5


@pytest.mark.parametrize("model", ["Tarn 11", "Tarn 21", "Tarn 14", "Tarn 24"])
def test_the_makers_own_relay_pulls_in_and_lets_go_below_full_speed(model):
    """Each model's relay closes at standstill and opens between 60 and 95 % of the field's speed.

    Most makers aim at 70 to 85 % (common practice, no source).
    """
    found = relay_curves(model)
    assert found.locked_a > found.relay.pick_up_a
    assert found.lets_go_at is not None
    assert 0.6 < found.lets_go_at < 0.95
    assert "This relay suits the motor." in found.text


def test_amps_go_with_volts():
    """Half the volts, half the amps at every speed: the circuit is linear."""
    whole, half = relay_curves("Tarn 11"), relay_curves("Tarn 11", volts="60 V")
    assert half.with_start.run_current == pytest.approx(0.5 * whole.with_start.run_current)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"pick_up": "18 A", "drop_out": "15 A"}, "the contact never closes, and the motor hums"),
        ({"volts": "80 V"}, "the contact never closes, and the motor hums"),
        ({"pick_up": "2 A", "drop_out": "0.5 A"}, "the start winding stays in and gets hot"),
    ],
)
def test_the_words_say_what_a_wrong_relay_or_low_volts_do(change, words):
    """A pick-up above the locked-rotor amps never closes; a drop-out below the running amps never opens."""
    shown = relay_figure("Tarn 11", **change)
    assert words in shown.text
    assert "<img" in shown._repr_html_()


@pytest.mark.parametrize(
    ("change", "error", "words"),
    [
        ({"model": "Tarn 12"}, InputError, "Tarn 12 has no current relay"),
        ({"volts": "0 V"}, InputError, "volts is 0 V; it must be above zero"),
        ({"pick_up": "18"}, AnswerError, "pick_up: "),
    ],
)
def test_bad_input_of_the_figure_gets_its_sentence(change, error, words):
    """The message names the entry and the rule."""
    with pytest.raises(error, match=words):
        relay_figure(**{"model": "Tarn 11", **change})


@pytest.mark.parametrize(
    ("change", "fit"),
    [
        ({}, Fit.SUITS),
        ({"locked": "7.50 A"}, Fit.NEVER_STARTS),
        ({"running": "7.80 A", "locked": "12.00 A"}, Fit.NEVER_RELEASES),
        ({"locked": "8.70 A"}, Fit.CANNOT_TELL),
        ({"running": "7.40 A"}, Fit.CANNOT_TELL),
    ],
)
def test_verdicts_on_a_real_relay(change, fit):
    """By hand: 2 % of 8.70 A and 5 digits are 0.22 A, so 8.6 A lies within; 7.50 A ± 0.20 A lies below it."""
    found = study_real_relay(**{**TYPED, **change})
    assert found.verdict is fit
    assert any(fit.value in line for line in found.lines)
    assert found.lines[0].startswith("⚠ These are live readings")


def test_the_limit_is_the_clamps():
    """2 % of 11.42 A and 5 of the last digit typed are 0.2784 A (by hand)."""
    assert study_real_relay(**TYPED).locked.limit == pytest.approx(0.2284 + 0.05)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"locked": ""}, 'locked is not filled in; type amps, such as "11.4 A"'),
        ({"locked": "0 A"}, "Was the clamp round the whole cord?"),
        ({"running": "3 V"}, "running: "),
        ({"locked": "1.3 A", "running": "11 A"}, "Were they swapped?"),
        ({"pick_up": "7.3 A", "drop_out": "8.6 A"}, "the drop-out must be below the pick-up"),
        ({"clamp": ""}, "the meter's accuracy cannot be read"),
        ({"volts": "120 V"}, "there is no entry 'volts'"),
    ],
)
def test_bad_input_of_the_real_relay_is_one_line(change, words, capsys):
    """Printed as one message with a sign, never raised."""
    real_relay(**{**TYPED, **change})
    said = " ".join(capsys.readouterr().out.split())
    assert said.startswith("⚠")
    assert words in said


def test_what_no_clamp_shows_is_shown_as_nought(capsys):
    """Unit 18 runs with its start winding off: the solution gives what a clamp shows there, 0.000 A, and no dust."""
    practice_desk(18, "start_circuits").solution()
    said = capsys.readouterr().out
    assert "running_start: 0.000 A. The start device has let go: 0.000 A." in " ".join(said.split())
    assert not re.search(r"e-[0-9]|[pnµ]A", said)
