"""A real capacitor under load: from volts, amps and hertz its capacitance, a verdict, and what a new one must be."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TypeVar

from coldwright.answers.forms import is_blank
from coldwright.electrical.capacitor import Purpose
from coldwright.electrical.capacitor_rule import Within, within_range
from coldwright.electrical.capacitor_sizing import SUPPLY_RISE
from coldwright.electrical.capacitor_tests import capacitance_under_load
from coldwright.electrical.measured import Measured
from coldwright.errors import AnswerError, InputError
from coldwright.panels.typed import read_accuracy, read_positive
from coldwright.panels.typed_checks import takes_text
from coldwright.panels.words import say_study
from coldwright.quantities import Kind, read, read_number

T = TypeVar("T")
CAUTION = (
    "⚠ This test is live: do it only if you are allowed to, with the clamp round one wire and your hands off. Before "
    "you touch the capacitor: isolate, lock off, prove dead, discharge. Local codes and the maker's instructions come "
    "first."
)
NOT_SEEN = "Under load you see no leak and no bleed resistor: read ohms across it, off the unit and discharged."
DEAD_SHARE = 0.05  # of the marked value: below it nothing is left of the capacitor
_BOTH = re.compile(r"\s*±?\s*(?P<percent>[0-9.,]+)\s*%\s*")
_TWO = re.compile(r"\s*[-−]\s*(?P<low>[0-9.,]+)\s*%?\s*[/ ]?\s*\+\s*(?P<high>[0-9.,]+)\s*%\s*")
NO_AMPS = ". Power on and the clamp shows nothing? Then it, or its wire, is open"


@dataclass(frozen=True)
class RealCapacitor:
    """A real capacitor: its capacitance under load, what its marking allows, and the volts across it."""

    farad: Measured
    volts: Measured
    marked: float
    lowest: float
    highest: float
    rated: float
    purpose: Purpose
    hertz: float
    bleed: bool

    @property
    def within(self) -> Within:
        """Whether it is inside what its marking allows."""
        return within_range(self.farad, self.lowest, self.highest)

    @property
    def lines(self) -> list[str]:
        """Reading, verdict with its reasons, and what a new one must be, in lines."""
        found = [CAUTION, ""]
        found.append(f"Capacitance under load: {_uf(self.farad.value)} ± {_uf(self.farad.limit, 2)}.")
        found.append(f"Allowed for {_uf(self.marked)}: {_uf(self.lowest)} to {_uf(self.highest)}.")
        found += ["", f"Verdict: {self._verdict}", self._rating, NOT_SEEN, "", "What a new one must be:"]
        return [*found, *(f"  - {line}" for line in self._replacement)]

    @property
    def _verdict(self) -> str:
        if self.farad.value < DEAD_SHARE * self.marked:
            return "OPEN OR NEARLY SO. Next to no current flows through it."
        if self.within is Within.YES:
            return "GOOD. It is inside, with all that the meters may be off."
        if self.within is Within.CANNOT_TELL:
            return (
                "CANNOT TELL. An edge of what is allowed lies within the ± of your meters. Next test: off the unit, "
                "discharged, with a capacitance meter."
            )
        side = "below the least" if self.farad.value < self.lowest else "above the most"
        return f"REPLACE IT. It is {side} that is allowed, by more than the meters may be off."

    @property
    def _rating(self) -> str:
        meets = (self.volts.value + self.volts.limit) * (1 + SUPPLY_RISE)
        words = f"Volts across it: {self.volts.value:.0f} ± {self.volts.limit:.1f} V, marked for {self.rated:.0f} V"
        if self.volts.value - self.volts.limit > self.rated:
            return f"{words}: too much for it. Look for a wrong capacitor or a wrong value."
        if meets > self.rated:
            return f"{words}: if the supply stands {SUPPLY_RISE:.0%} high, it may meet {meets:.0f} V. Ask the maker."
        return f"{words}: enough, even if the supply stands {SUPPLY_RISE:.0%} high."

    @property
    def _replacement(self) -> list[str]:
        kind = f"a {self.purpose.value} capacitor"
        other = "start" if self.purpose is Purpose.RUN else "run"
        return [
            f"{kind}, not a {other} capacitor",
            f"{_uf(self.marked)}, with its own tolerance inside {_uf(self.lowest)} to {_uf(self.highest)}",
            f"{self.rated:.0f} V a.c. or more, never less",
            f"marked for {self.hertz:.0f} Hz",
            f"with a bleed resistor {'across its terminals' if self.bleed else 'only if the maker says so'}",
            "the value, volts and type that the nameplate or the maker's list says, if they differ from what is there",
        ]


def real_capacitor(**typed: object) -> None:
    """Print the verdict on a real capacitor, or in one line what is still missing.

    Parameters
    ----------
    **typed : str
        What `study_real_capacitor` takes [-]
    """
    say_study(study_real_capacitor, typed)


@takes_text
def study_real_capacitor(
    volts: str = "",
    amps: str = "",
    frequency: str = "",
    volts_meter: str = "",
    amps_meter: str = "",
    marked: str = "",
    tolerance: str = "",
    marked_volts: str = "",
    kind: str = "run",
    bleed: str = "no",
) -> RealCapacitor:
    """What volts and amps of a real capacitor at work say.

    Parameters
    ----------
    volts, amps : str
        Across it and through it, all digits that the meters showed, such as "352.4 V" and "1.63 A" [-]
    frequency : str
        Of the supply, such as "60 Hz" [-]
    volts_meter, amps_meter : str
        Accuracy from each meter's manual, such as "1 % + 3 digits" [-]
    marked : str
        Value on the nameplate, such as "12 uF" [-]
    tolerance : str
        Such as "±5 %", "-0 +20 %" or a printed range "88-108 uF" [-]
    marked_volts : str
        Such as "450 V" [-]
    kind : str
        "run" or "start" [-]
    bleed : str
        "yes" if the maker's one has a bleed resistor, else "no" [-]

    Raises
    ------
    AnswerError, InputError
        If something cannot be read or cannot be.
    """
    v = _reading("volts", volts, Kind.VOLTAGE, volts_meter)
    a = _reading("amps", amps, Kind.CURRENT, amps_meter)
    hertz = read_positive("frequency", frequency, Kind.FREQUENCY)
    value = read_positive("marked", marked, Kind.CAPACITANCE)
    rated = read_positive("marked_volts", marked_volts, Kind.VOLTAGE)
    lowest, highest = read_allowed(tolerance, value)
    purpose = _one_of("kind", kind, {"run": Purpose.RUN, "start": Purpose.START})
    has_bleed = _one_of("bleed", bleed, {"yes": True, "no": False})
    farad = capacitance_under_load(v, a, Measured(hertz))
    return RealCapacitor(farad, v, value, lowest, highest, rated, purpose, hertz, has_bleed)


def read_allowed(text: str, farad: float) -> tuple[float, float]:
    """Lowest and highest capacitance from a tolerance or a printed range [F].

    Parameters
    ----------
    text : str
        Such as "±5 %", "-0 +20 %" or "88-108 uF" [-]
    farad : float
        Marked value [F]

    Raises
    ------
    AnswerError, InputError
        If it cannot be read, or the marked value does not lie inside.
    """
    if len(text) > 64 or is_blank(text):
        raise AnswerError('tolerance is not filled in; write it as on the label, such as "±5 %" or "88-108 uF"')
    if both := _BOTH.fullmatch(text):
        share = _share(both["percent"])
        return farad * (1 - share), farad * (1 + share)
    if two := _TWO.fullmatch(text):
        return farad * (1 - _share(two["low"])), farad * (1 + _share(two["high"]))
    low, sign, high = text.replace("–", "-").partition("-")
    if not sign or not low.strip():
        raise AnswerError('tolerance cannot be read; write it as "±5 %", "-0 +20 %" or "88-108 uF"')
    highest = read_positive("tolerance", high, Kind.CAPACITANCE)
    unit = re.sub(r"^[\s0-9.,]+", "", high)
    lowest = read_positive(
        "tolerance", low if re.search("[A-Za-zµ]", low) else f"{low.strip()} {unit}", Kind.CAPACITANCE
    )
    if not lowest <= farad <= highest:
        raise InputError(
            f"the range {text.strip()} does not hold the marked value, {_uf(farad)}; is one of the two mistyped?"
        )
    return lowest, highest


def _share(text: str) -> float:
    percent = read_number(text).value
    if not percent < 50:
        raise AnswerError(f"tolerance is {percent:g} %; capacitors of motors have less than 50 %")
    return percent / 100


def _reading(name: str, text: str, kind: Kind, meter: str) -> Measured:
    value = read_positive(name, text, kind, NO_AMPS if name == "amps" else "")
    try:
        accuracy = read_accuracy(meter)
    except AnswerError as error:
        raise AnswerError(f"{name}_meter: {error}") from None
    return accuracy.measured(value, read(text, kind).step)


def _one_of(name: str, text: str, known: dict[str, T]) -> T:
    found = known.get(text.strip().casefold())
    if found is None:
        raise AnswerError(f"{name} is {text[:20]!r}; write {' or '.join(known)}")
    return found


def _uf(farad: float, digits: int = 4) -> str:
    return f"{farad * 1e6:.{digits}g} µF"
