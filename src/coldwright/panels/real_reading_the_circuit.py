"""A real joint or switch: volts across it and amps in it, and whether it is good, poor or open."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.answers.forms import NumberForm, is_blank
from coldwright.electrical.measured import Measured
from coldwright.errors import AnswerError, InputError
from coldwright.instruments.limits import reading_limits
from coldwright.panels.typed import read_accuracy
from coldwright.panels.typed_checks import check_sense, takes_text
from coldwright.panels.words import say_study
from coldwright.quantities import Kind, read

CAUTION = (
    "⚠ This reading is live: do it only if you are allowed to. Put tips and clamp on with the plug out, plug in, hands "
    "off, read, pull the plug. Local codes, the maker's instructions and licensed practice come first."
)
OPEN_SHARE = 0.8  # of the supply across it: the path ends here
NO_LOAD_A = 0.02
VOLTS = NumberForm(Kind.VOLTAGE, "0.35 V")
AMPS = NumberForm(Kind.CURRENT, "1.80 A")


@dataclass(frozen=True)
class RealJoint:
    """Volts across a closed switch or a joint, amps in it, the supply, and the most volts that may stand there."""

    across: Measured
    supply: Measured
    amps: Measured | None
    allowed_v: float

    @property
    def verdict(self) -> str:
        """What it is, with the reason."""
        low, high = self.across.value - self.across.limit, self.across.value + self.across.limit
        if low > OPEN_SHARE * self.supply.value:
            return "OPEN. Nearly all of the supply stands across it, so the path ends here and the rest is whole."
        if self.amps is None or self.amps.value - self.amps.limit <= NO_LOAD_A:
            return "CANNOT TELL. No current was read in it, and without current even a poor joint shows no volts."
        if low > self.allowed_v:
            return f"POOR. More than {self.allowed_v:g} V are lost in it, and what is lost turns into heat there."
        if high <= self.allowed_v:
            return f"GOOD. Current flows, and no more than {self.allowed_v:g} V are lost in it."
        return "CANNOT TELL. The edge of what is allowed lies within the ± of the meter: use a finer range."

    @property
    def next_test(self) -> str:
        """What to do next."""
        word = self.verdict.split(".")[0]
        return {
            "OPEN": "Plug out, prove it dead, take one wire off, and read ohms: is the switch meant to be open now?",
            "POOR": "Plug out, prove it dead, remake the joint, fit a new tab if it is burnt, then read again.",
            "GOOD": "Go on to the next joint.",
        }.get(word, "Read volts and amps again while the load runs.")

    @property
    def lines(self) -> list[str]:
        """Readings, verdict with its reason, and the next test, in lines."""
        found = [CAUTION, "", f"Across it: {_shown(self.across, 'V')} of {_shown(self.supply, 'V')}."]
        if self.amps is not None and self.amps.value > self.amps.limit:
            ohms = reading_limits(lambda v, i: v / i, self.across, self.amps)
            watts = reading_limits(lambda v, i: v * i, self.across, self.amps)
            found.append(f"At {_shown(self.amps, 'A')} it has {ohms.value:.3g} Ω ± {ohms.worst:.2g} Ω.")
            found.append(f"It turns {watts.value:.3g} W ± {watts.worst:.2g} W into heat.")
        return [*found, "", f"Verdict: {self.verdict}", f"Next test: {self.next_test}"]


def _shown(reading: Measured, unit: str) -> str:
    return f"{reading.value:.4g} {unit} ± {reading.limit:.2g} {unit}"


def real_joint(**typed: object) -> None:
    """Print the verdict on a real joint or switch, or in one line what is still missing.

    Parameters
    ----------
    **typed : str
        What `study_real_joint` takes [-]
    """
    say_study(study_real_joint, typed)


@takes_text
def study_real_joint(
    across: str = "",
    supply: str = "",
    amps: str = "",
    meter: str = "",
    clamp: str = "",
    allowed: str = "0.1 V",
) -> RealJoint:
    """What volts across a joint or a closed switch say of it.

    Parameters
    ----------
    across : str
        Volts across it with the load on, such as "0.35 V" [-]
    supply : str
        Volts of the supply, such as "119.6 V" [-]
    amps : str
        Amps in it under the same load; blank if not read [-]
    meter, clamp : str
        Accuracy of each from its manual, such as "0.8 % + 3 digits"; the clamp's only with amps [-]
    allowed : str
        Most volts that may stand across it; 0.1 V is common practice, no source [-]

    Raises
    ------
    AnswerError, InputError
        If something cannot be read or cannot be.
    """
    found, total = _measured("across", across, meter, VOLTS), _measured("supply", supply, meter, VOLTS)
    current = None if is_blank(amps) else _measured("amps", amps, clamp, AMPS)
    most = _read("allowed", allowed, VOLTS).value
    if not total.value > 0:
        raise InputError(f"supply is {supply}; it must be above zero. Is the plug in?")
    if found.value - found.limit > total.value + total.limit:
        raise InputError(f"across is {across}, more than the supply of {supply}. Were the two mixed up?")
    if not most > 0:
        raise InputError(f"allowed is {allowed}; it must be above zero")
    if not most < total.value:
        raise InputError(f"allowed is {allowed}; it must be below the supply of {supply}. Is there a typing error?")
    return RealJoint(found, total, current, most)


def _read(name: str, text: str, form: NumberForm) -> Measured:
    """A typed number with one step of its last digit as its limit."""
    if is_blank(text):
        raise AnswerError(f'{name} is not filled in; type what the meter showed, such as "{form.example}"')
    try:
        reading = read(text, form.kind)
    except AnswerError as error:
        raise AnswerError(f"{name}: {error}") from None
    if reading.value < 0:
        raise AnswerError(f"{name} is {text.strip()}; volts and amps a.c. are never below zero")
    check_sense(name, text, reading.value, form.kind)
    return Measured(reading.value, reading.step)


def _measured(name: str, text: str, accuracy: str, form: NumberForm) -> Measured:
    typed = _read(name, text, form)
    return read_accuracy(accuracy).measured(typed.value, typed.limit)
