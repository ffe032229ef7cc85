"""The practice desk of the winding checks: what was predicted beside what the pins read, and what they add up to."""

from __future__ import annotations

from coldwright.answers.forms import is_blank
from coldwright.electrical.pins import PinReadings, sum_rule
from coldwright.errors import AnswerError
from coldwright.instruments.display import Display
from coldwright.labs.winding_checks.case import PAIRS
from coldwright.panels.compressor_desk import CompressorDesk
from coldwright.panels.marked_desk import PracticeDesk
from coldwright.panels.words import say
from coldwright.quantities import Kind, read, show

Readings = dict[tuple[str, str], Display]


class WindingPracticeDesk(PracticeDesk, CompressorDesk):
    """A practice compressor on the bench."""

    def compare(self, predicted: str) -> None:
        """Print what was predicted for the highest pair beside what the meter showed.

        Parameters
        ----------
        predicted : str
            Such as "16 ohm"; blank for no prediction yet [-]
        """
        if is_blank(predicted):
            say("No prediction yet. Write one between the quote marks, run that cell again, then this one.")
        elif readings := self._cold_readings():
            say(compared(predicted, readings))

    def explain(self) -> None:
        """Print what the readings of the three pairs add up to."""
        if readings := self._cold_readings():
            say(*explained(readings))

    def _cold_readings(self) -> Readings:
        """Last cold reading of each pair; empty while one is missing, which is said."""
        case = self.practice.case
        taken = {pair: case.cold_readings(pair) for pair in PAIRS}
        missing = [f"{a} and {b}" for (a, b), found in taken.items() if not found]
        if missing:
            say(f"Still to be read cold, with the connector off: pins {'; pins '.join(missing)}.")
            return {}
        return {pair: found[-1].display for pair, found in taken.items()}


def compared(predicted: str, readings: Readings) -> str:
    """A prediction for the highest pair beside what the meter showed.

    Parameters
    ----------
    predicted : str
        Such as "16 ohm" [-]
    readings : dict of tuple to Display
        What the meter showed on each pair of pins [-]
    """
    try:
        guess = read(predicted, Kind.RESISTANCE)
    except AnswerError as error:
        return f"Your prediction cannot be read: {error}"
    closed = [pair for pair in readings if not readings[pair].measured.is_open]
    if not closed:
        return "Every pair shows OL, so there is nothing to compare."
    pair = max(closed, key=lambda each: readings[each].value)
    shown = readings[pair]
    off, limit = (show(value, Kind.RESISTANCE, "Ω", 2) for value in (abs(guess.value - shown.value), shown.limit))
    return (
        f"You predicted {guess.number} {guess.unit}. The highest pair, {' and '.join(pair)}, shows {shown.text}, "
        f"and may be off by ±{limit}. The two are {off} apart."
    )


def explained(readings: Readings) -> list[str]:
    """The sum rule on three cold readings, in lines.

    Parameters
    ----------
    readings : dict of tuple to Display
        What the meter showed on each pair of pins [-]
    """
    lines = [f"Pins {a} and {b}: {_with_limit(display)}" for (a, b), display in readings.items()]
    pins = PinReadings({frozenset(pair): display.measured for pair, display in readings.items()})
    rule = sum_rule(pins)
    if rule.holds is None:
        return [*lines, f"The sum rule: {rule.reason}."]
    low, middle, high = (show(r.value, Kind.RESISTANCE, "Ω", 4) for _, r in pins.closed)
    off, allowed = f"{abs(rule.difference):.3f} Ω", f"{rule.allowance:.3f} Ω"
    words = "The sum rule holds." if rule.holds else "The sum rule does not hold. Were the leads zeroed?"
    between = " and ".join(sorted(pins.closed[-1][0]))
    return [
        *lines,
        f"{low} + {middle}, against {high} for the highest pair: {off} apart. The meter allows {allowed} in all.",
        words,
        f"The highest pair is {between}. Which pin does it leave out?",
    ]


def _with_limit(display: Display) -> str:
    return display.text if display.measured.is_open else f"{display.text} ± {display.limit:.3f} Ω"
