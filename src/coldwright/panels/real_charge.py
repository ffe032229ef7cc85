"""A real capacitor that holds a charge: volts left against time, when it is safe, and what its resistor must stand."""

from __future__ import annotations

import math
from dataclasses import dataclass

from coldwright.answers.forms import is_blank
from coldwright.electrical.capacitor import stored_charge, stored_energy
from coldwright.electrical.capacitor_discharge import (
    IN_ONE_MINUTE,
    bleed_resistance,
    discharge_resistor,
    time_to_fall,
    volts_left,
)
from coldwright.electrical.measured import Measured
from coldwright.errors import AnswerError, InputError
from coldwright.instruments.limits import Limits, reading_limits
from coldwright.panels.typed import OHMS, Accuracy, read_accuracy, read_measured, read_percent, read_positive
from coldwright.panels.typed_checks import check_sense, takes_text
from coldwright.panels.words import say_study
from coldwright.quantities import Kind, read, show

CAUTION = (
    "⚠ A number is no proof. Isolate, lock off, prove dead. Read volts d.c. across the capacitor, discharge it through "
    "a resistor, and read again before your hands go near it. Never use a screwdriver. Local codes, the maker's "
    "instructions and licensed practice come first."
)
TIMES_S = (1.0, 5.0, 10.0, 30.0, 60.0, 300.0)
FOR_A_RESISTOR = (
    "What is left is chance: next time it can be more. To size a resistor, give the a.c. volts across it at work or "
    'those printed on it, with kind="ac"; for a board those of its supply, with kind="bus".'
)
NEXT_TO_NOTHING_V = 0.01
SAFE_V = IN_ONE_MINUTE.volts
KINDS = ("dc", "ac", "bus")


@dataclass(frozen=True)
class RealCharge:
    """A real charged capacitor with the resistor across it.

    `heat_v` are the volts that heat a resistor all the time at work; None where `peak` is what happens to be left.
    """

    peak: Measured
    farad: Measured
    ohm: Measured
    heat_v: float | None

    @property
    def safe_s(self) -> Limits:
        """Time to the safe voltage, with its limits [s]; inf where nothing is across it."""
        if self.ohm.is_open:
            return Limits(math.inf, 0.0, 0.0)
        return reading_limits(lambda v, c, r: time_to_fall(v, SAFE_V, c, r), self.peak, self.farad, self.ohm)

    @property
    def is_empty(self) -> bool:
        """Whether the meter could not tell what is left from nothing."""
        return self.heat_v is None and self.peak.value <= self.peak.limit

    @property
    def lines(self) -> list[str]:
        """Charge, energy, volts against time, verdict with its reason, and the resistor, in lines."""
        v, c = self.peak, self.farad
        what = "Volts on it now" if self.heat_v is None else "Peak volts on it"
        found = [CAUTION, "", f"{what}: {v.value:.1f} ± {v.limit:.1f} V."]
        if self.is_empty:
            return [*found, "", "Verdict: EMPTY NOW. That says nothing of next time.", FOR_A_RESISTOR]
        energy = reading_limits(lambda volts, farad: stored_energy(farad, volts), v, c)
        charge = show(stored_charge(c.value, v.value), Kind.CHARGE, "mC")
        found.append(f"In it: {charge} and {energy.value:.3g} ± {energy.worst:.2g} J.")
        found += ["", "Volts left, and the most that can be left:", *map(self._at, TIMES_S)]
        return [*found, "", f"Verdict: {self._verdict}", *self._resistor]

    def _at(self, seconds: float) -> str:
        highest = self.ohm.value + self.ohm.limit
        most = volts_left(self.peak.value + self.peak.limit, self.farad.value + self.farad.limit, highest, seconds)
        now = volts_left(self.peak.value, self.farad.value, self.ohm.value, seconds)
        return f"  after {seconds:.0f} s: {volts_words(now)}, at most {volts_words(most)}"

    @property
    def _verdict(self) -> str:
        safe, minute = self.safe_s, IN_ONE_MINUTE.seconds
        if math.isinf(safe.value):
            return f"IT STAYS CHARGED. Nothing is across it, so it does not fall to {SAFE_V:.0f} V by itself."
        if safe.value + safe.worst == 0:
            return f"BELOW {SAFE_V:.0f} V from the start. Measure all the same."
        now = ", from the volts on it now" if self.heat_v is None else ""
        words = f"{SAFE_V:.0f} V after {safe.value:.3g} ± {safe.worst:.2g} s{now}"
        if safe.value + safe.worst <= minute:
            return f"IN TIME. It is down to {words}, inside one minute with all that the readings may be off."
        if safe.value - safe.worst > minute:
            return f"TOO SLOW. It is down to {words}; one minute is asked for."
        return f"CANNOT TELL. It is down to {words}; one minute lies within the ±. Next test: watch the volts fall."

    @property
    def _resistor(self) -> list[str]:
        v, c, heat = self.peak.value, self.farad.value, self.heat_v
        found = []
        if not self.ohm.is_open:
            stands = discharge_resistor(v, c, self.ohm.value, heat or v)
            at_work = "" if heat is None else f"{stands.standing_w:.3g} W all the time that these volts stand there, "
            found.append(
                f"The resistor takes {at_work}{stands.peak_w:.3g} W at the first moment, and {stands.energy_j:.3g} J "
                "in all as it empties it."
            )
        if heat is None:
            return [*found, FOR_A_RESISTOR]
        needed = bleed_resistance(v + self.peak.limit, c + self.farad.limit, IN_ONE_MINUTE)
        if math.isfinite(needed):
            found.append(
                f"For {SAFE_V:.0f} V within one minute it must be {show(needed, Kind.RESISTANCE)} or less. At that it "
                f"takes {heat**2 / needed:.2g} W at work: choose one for twice that or more, and for the volts "
                "(common practice, no source)."
            )
        return found


def volts_words(volts: float) -> str:
    """Volts left in words: three digits, or that it is next to nothing.

    Parameters
    ----------
    volts : float
        Volts, zero or more [V]
    """
    return f"{volts:.3g} V" if volts >= NEXT_TO_NOTHING_V else "next to nothing"


def real_charge(**typed: object) -> None:
    """Print what a real capacitor holds and when it is safe, or in one line what is still missing.

    Parameters
    ----------
    **typed : str
        What `study_real_charge` takes [-]
    """
    say_study(study_real_charge, typed)


@takes_text
def study_real_charge(
    volts: str = "",
    kind: str = "dc",
    volts_meter: str = "",
    capacitance: str = "",
    capacitance_tolerance: str = "",
    resistor: str = "",
    resistor_tolerance: str = "",
) -> RealCharge:
    """What volts, capacitance and resistor of a real capacitor say.

    Parameters
    ----------
    volts : str
        All digits, such as "162.4 V" [-]
    kind : str
        "dc": direct volts left on it; "ac": alternating ones across it at work, or printed on it; "bus": alternating
        ones of the supply of a board [-]
    volts_meter : str
        The meter's accuracy from its manual, such as "0.5 % + 3 digits" [-]
    capacitance : str
        Measured or printed, such as "189 uF" [-]
    capacitance_tolerance : str
        How far it may be off, such as "5 %" [-]
    resistor : str
        Ohms across it, read with the capacitor empty, such as "15.1 kohm", or "OL" [-]
    resistor_tolerance : str
        How far these may be off, such as "2 %"; blank with "OL" [-]

    Raises
    ------
    AnswerError, InputError
        If something cannot be read or cannot be.
    """
    sort = kind.strip().casefold().replace(".", "")
    if sort not in KINDS:
        raise AnswerError(f"kind is {kind[:20]!r}; write dc for volts left, ac for a.c. volts at work, bus for a board")
    value = _left(volts) if sort == "dc" else read_positive("volts", volts, Kind.VOLTAGE)
    try:
        shown = read_accuracy(volts_meter).measured(value, read(volts, Kind.VOLTAGE).step)
    except AnswerError as error:
        raise AnswerError(f"volts_meter: {error}") from None
    farad = read_positive("capacitance", capacitance, Kind.CAPACITANCE)
    off = _percent("capacitance_tolerance", capacitance_tolerance)
    ohm = read_measured("resistor", resistor, Accuracy(0.0, 0), OHMS)
    if not ohm.value > 0:
        raise InputError("resistor is 0 Ω; it must be above zero. A dead short arcs, and so does a shorted capacitor")
    if not ohm.is_open:
        ohm = Measured(ohm.value, ohm.value * _percent("resistor_tolerance", resistor_tolerance))
    peak = shown if sort == "dc" else shown.scaled(math.sqrt(2))
    heat = {"dc": None, "ac": value, "bus": peak.value}[sort]
    return RealCharge(peak, Measured(farad, farad * off), ohm, heat)


def _left(text: str) -> float:
    """Direct volts left: their size, for the tips may be either way round; nought is a reading too."""
    if is_blank(text):
        raise AnswerError("volts is not filled in")
    try:
        value = abs(read(text, Kind.VOLTAGE).value)
    except AnswerError as error:
        raise AnswerError(f"volts: {error}") from None
    check_sense("volts", text, value, Kind.VOLTAGE)
    return value


def _percent(name: str, text: str) -> float:
    if is_blank(text):
        raise AnswerError(f'{name} is not filled in; write it as a percentage, such as "5 %"')
    return read_percent(text, name, below=50)
