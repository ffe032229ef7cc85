"""A real reading beside a plate value: agrees, differs, cannot tell; and whether a real meter suits a place."""

from __future__ import annotations

import re
from dataclasses import dataclass

from coldwright.answers.forms import is_blank
from coldwright.electrical.measured import Measured
from coldwright.errors import AnswerError, ColdwrightError
from coldwright.instruments.misuse import Place, category_fault
from coldwright.labs.safe_isolation.compare import Against, against_plate
from coldwright.panels.typed import read_accuracy, read_percent, read_positive
from coldwright.panels.typed_checks import check_sense, takes_text
from coldwright.panels.words import say
from coldwright.quantities import Kind, read, show
from coldwright.quantities.reader import Reading

FIRST = (
    "Ohms and capacitance: power off and locked off, proved dead, discharged? Volts: a meter that stands this place?"
)
LAST = "Local codes, the maker's instructions and licensed practice come first."
KINDS = (Kind.VOLTAGE, Kind.RESISTANCE, Kind.CURRENT, Kind.CAPACITANCE, Kind.POWER, Kind.FREQUENCY)
PLACES = {
    "source": Place.SOURCE,
    "board": Place.DISTRIBUTION_BOARD,
    "outlet": Place.WALL_OUTLET,
    "fixed motor": Place.FIXED_MOTOR,
    "appliance": Place.APPLIANCE,
}
VERDICTS = {
    Against.WITHIN: ("AGREES", "All of it lies inside the band.", ""),
    Against.LOW: (
        "DIFFERS",
        "All of it lies below the band.",
        "read it once more with another meter, then look for why",
    ),
    Against.HIGH: (
        "DIFFERS",
        "All of it lies above the band.",
        "read it once more with another meter, then look for why",
    ),
    Against.CANNOT_TELL: (
        "CANNOT TELL",
        "An edge of the band lies inside the ± of the reading.",
        "use a lower range or a better meter, and zero the leads before ohms",
    ),
}


@dataclass(frozen=True)
class RealReading:
    """One reading, its plate value and the plate's tolerance, in SI."""

    reading: Measured
    plate: float
    tolerance: float
    kind: Kind

    def __post_init__(self) -> None:
        against_plate(self.reading, self.plate, self.tolerance)  # says what is wrong with a plate or a tolerance

    @property
    def verdict(self) -> Against:
        """Where the reading lies against the plate's band, its own ± allowed for."""
        return against_plate(self.reading, self.plate, self.tolerance)

    @property
    def lines(self) -> list[str]:
        """All of it in words."""
        value, limit = self.reading.value, self.reading.limit
        word, why, after = VERDICTS[self.verdict]
        low, high = self.plate * (1 - self.tolerance), self.plate * (1 + self.tolerance)
        off = show(limit, self.kind, digits=2)
        found = [
            FIRST,
            f"The reading, {self._shown(value)} ± {off}, means {self._shown(value - limit)} to "
            f"{self._shown(value + limit)}.",
            f"The plate, {self._shown(self.plate)} ± {self.tolerance * 100:g} %, allows {self._shown(low)} to "
            f"{self._shown(high)}.",
            f"Verdict: {word}. {why}",
        ]
        return [*found, *([f"Next: {after}."] if after else []), LAST]

    def _shown(self, value: float) -> str:
        return show(value, self.kind, digits=4)


def real_reading(reading: str = "", meter: str = "", plate: str = "", tolerance: str = "") -> None:
    """Print whether a real reading agrees with its plate value, or in one line what is still missing.

    Parameters
    ----------
    reading, meter, plate, tolerance : str
        What `study_reading` takes [-]
    """
    try:
        say(*study_reading(reading, meter, plate, tolerance).lines)
    except ColdwrightError as error:
        say(f"⚠ {error}")


@takes_text
def study_reading(reading: str, meter: str, plate: str, tolerance: str) -> RealReading:
    """What a real reading says of a plate value.

    Parameters
    ----------
    reading : str
        What the meter showed, all digits, with its unit, such as "118.4 V" [-]
    meter : str
        Its accuracy from its manual, such as "1 % + 3 digits" [-]
    plate : str
        Value on the plate or in the maker's data, such as "120 V" [-]
    tolerance : str
        What the maker or the local code allows, such as "10 %" [-]

    Raises
    ------
    AnswerError, InputError
        If something cannot be read or cannot be.
    """
    for name, text, example in (
        ("reading", reading, "118.4 V"),
        ("plate", plate, "120 V"),
        ("tolerance", tolerance, "10 %"),
    ):
        if is_blank(text):
            raise AnswerError(f'{name} is not filled in; type it with its unit, such as "{example}"')
    if reading.strip().casefold() in ("ol", "0l", "o.l", "0.l", "over range", "open"):
        raise AnswerError("OL is no number: the path is open or the range too low, so there is nothing to compare")
    kind, shown = _any_kind("reading", reading)
    value = read_positive("plate", plate, kind)
    if shown.value < 0:
        raise AnswerError(f"reading is {shown.number} {shown.unit}; give its size, without the minus")
    check_sense("reading", reading, shown.value, kind)
    measured = read_accuracy(meter).measured(shown.value, shown.step)
    return RealReading(measured, value, read_percent(tolerance, "tolerance"), kind)


def real_meter(place: str = "", mains: str = "", printed: str = "") -> None:
    """Print whether a real meter may be used at a place, with the reason.

    Parameters
    ----------
    place : str
        One of "source", "board", "outlet", "fixed motor", "appliance" [-]
    mains : str
        Volts of the mains to earth there, such as "230 V" [-]
    printed : str
        What is printed beside the meter's inputs, such as "CAT III 600 V" [-]
    """
    try:
        verdict = study_meter(place, mains, printed)
    except ColdwrightError as error:
        say(f"⚠ {error}")
        return
    say(verdict, "Look at the meter, its leads and its fuses before each job: the leads need a rating as well.", LAST)


@takes_text
def study_meter(place: str, mains: str, printed: str) -> str:
    """Whether a real meter may be used at a place, in a sentence.

    Parameters
    ----------
    place, mains, printed : str
        What `real_meter` takes [-]

    Raises
    ------
    AnswerError, InputError
        If something cannot be read or cannot be.
    """
    found = PLACES.get(re.sub(r"\s+", " ", place.strip().casefold()))
    if found is None:
        raise AnswerError(f"the place is {place[:20]!r}; choose one of {', '.join(PLACES)}")
    fault = category_fault(found, read_positive("mains", mains, Kind.VOLTAGE), printed.strip())
    return f"Do NOT use it: {fault}." if fault else f"Its rating is enough: {printed.strip()}, {found.value}."


def _any_kind(name: str, text: str) -> tuple[Kind, Reading]:
    """The kind that a typed value is of, by its unit, and the value."""
    for kind in KINDS:
        try:
            return kind, read(text, kind)
        except AnswerError:
            continue
    raise AnswerError(f'{name} {text.strip()[:20]!r} cannot be read; type a number with its unit, such as "118.4 V"')
