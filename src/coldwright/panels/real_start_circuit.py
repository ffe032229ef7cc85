"""A real current relay: locked and running amps as measured, held against its pick-up and drop-out."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.answers.forms import is_blank
from coldwright.electrical.measured import Measured
from coldwright.electrical.start_relays import CurrentRelay, Fit
from coldwright.errors import AnswerError, InputError
from coldwright.panels.typed import Accuracy, read_accuracy
from coldwright.panels.typed_checks import check_sense, takes_text
from coldwright.panels.words import say_study
from coldwright.quantities import Kind, read

CAUTION = (
    "⚠ These are live readings: take them only if you are allowed to, clamp round one wire, covers on, hands off. Hold "
    "a locked rotor no longer than the clamp needs. Local codes and the maker's instructions come first."
)
NOT_SEEN = (
    "Amps do not show a worn or welded contact, an open coil or a relay that sits upside down: look at it, and read it "
    "with ohms, off the unit."
)
NEXT = {
    Fit.SUITS: "read coil and contact of the relay with ohms, off the unit; then the start winding",
    Fit.NEVER_STARTS: "read the volts at the plug while it hums; if they are right, fit the relay that the maker names",
    Fit.NEVER_RELEASES: "pull the plug now; fit the relay that the maker names, or look for what loads the motor",
    Fit.CANNOT_TELL: "read again with a better clamp, or fit the relay that the maker names",
}
COIL_OHM, COIL_HENRY = 0.1, 0.0004  # the verdict looks at the thresholds alone


@dataclass(frozen=True)
class RealRelay:
    """Amps in the run winding with the rotor locked and running, and the relay's thresholds [A]."""

    locked: Measured
    running: Measured
    relay: CurrentRelay

    @property
    def verdict(self) -> Fit:
        """Whether the relay suits the motor."""
        return self.relay.suits(self.locked.value, self.running.value, self.locked.limit, self.running.limit)

    @property
    def lines(self) -> list[str]:
        """Readings, verdict with its reason, and the next test, in lines."""
        relay = self.relay
        return [
            CAUTION,
            "",
            f"Locked {_amps(self.locked)} against pick-up {relay.pick_up_a:g} A: "
            f"{self._side(self.locked, relay.pick_up_a)}.",
            f"Running {_amps(self.running)} against drop-out {relay.drop_out_a:g} A: "
            f"{self._side(self.running, relay.drop_out_a)}.",
            "It must pull in at the locked amps and let go at the running amps.",
            "",
            f"Verdict: {self.verdict.value}.",
            f"Next test: {NEXT[self.verdict]}.",
            NOT_SEEN,
        ]

    @staticmethod
    def _side(reading: Measured, threshold: float) -> str:
        if abs(reading.value - threshold) <= reading.limit:
            return "too close to tell with this clamp"
        return "above it" if reading.value > threshold else "below it"


def _amps(reading: Measured) -> str:
    return f"{reading.value:.2f} ± {reading.limit:.2f} A"


def real_relay(**typed: object) -> None:
    """Print whether a real current relay suits its motor, or in one line what is still missing.

    Parameters
    ----------
    **typed : str
        What `study_real_relay` takes [-]
    """
    say_study(study_real_relay, typed)


@takes_text
def study_real_relay(
    locked: str = "", running: str = "", pick_up: str = "", drop_out: str = "", clamp: str = ""
) -> RealRelay:
    """What two clamp readings say of a real current relay.

    Parameters
    ----------
    locked, running : str
        Amps in the wire to the run pin at the start and once it runs, such as "11.4 A" [-]
    pick_up, drop_out : str
        Of the relay, from its label or its maker [-]
    clamp : str
        Accuracy of the clamp from its manual, such as "2 % + 5 digits" [-]

    Raises
    ------
    AnswerError, InputError
        If something cannot be read or cannot be.
    """
    accuracy = read_accuracy(clamp)
    relay = CurrentRelay(_value("pick_up", pick_up)[0], _value("drop_out", drop_out)[0], COIL_OHM, COIL_HENRY)
    return RealRelay(_reading("locked", locked, accuracy), _reading("running", running, accuracy), relay)


def _value(name: str, text: str) -> tuple[float, float]:
    if is_blank(text):
        raise AnswerError(f'{name} is not filled in; type amps, such as "11.4 A"')
    try:
        reading = read(text, Kind.CURRENT)
    except AnswerError as error:
        raise AnswerError(f"{name}: {error}") from None
    if not reading.value > 0:
        raise InputError(f"{name} is {text.strip()}; it must be above zero. Was the clamp round the whole cord?")
    check_sense(name, text, reading.value, Kind.CURRENT)
    return reading.value, reading.step


def _reading(name: str, text: str, accuracy: Accuracy) -> Measured:
    value, step = _value(name, text)
    return accuracy.measured(value, step)
