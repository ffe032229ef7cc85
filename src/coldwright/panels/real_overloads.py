"""A real overload: trip time and amps as measured, held against two points of the maker's trip curve."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import product

from coldwright.answers.forms import is_blank
from coldwright.electrical.measured import Measured
from coldwright.electrical.overload import Overload, calibrated
from coldwright.errors import AnswerError, InputError
from coldwright.panels.typed import read_accuracy, read_kelvin, read_percent, read_positive
from coldwright.panels.typed_checks import takes_text
from coldwright.panels.words import say_study
from coldwright.quantities import Kind, read
from coldwright.quantities.constants import ICE_POINT_K

CAUTION = (
    "⚠ This test is live: do it only if you are allowed to, with the clamp round one wire, covers on and your hands "
    "off. Never bridge an overload, not even for a test. Pull the plug after one trip: each try heats the winding. "
    "Local codes and the maker's instructions come first."
)
NEXT = "Let it cool, then read it off the unit: closed when cold? And look at its label beside the compressor's plate."
THERMOMETER_K = 1.0  # what a person's thermometer is taken to be off by, on the room


@dataclass(frozen=True)
class RealOverload:
    """A trip as measured, and what the maker's curve says for that current: shortest and longest time [s]."""

    amps: Measured
    seconds: Measured
    shortest: float
    longest: float
    curve: Overload
    curve_k: float

    @property
    def verdict(self) -> str:
        """Whether this is the overload of the curve."""
        if self.seconds.value - self.seconds.limit > self.longest:
            return (
                "TOO SLOW. It holds on longer than the curve allows: it may be one for a larger compressor, and then "
                "it does not guard this winding. Fit the one that the maker names."
            )
        if self.seconds.value + self.seconds.limit < self.shortest:
            return (
                "TOO SOON. It lets go before the curve allows: it was warm, it is weak, or it is one for a smaller "
                "compressor."
            )
        inside = self.shortest <= self.seconds.value - self.seconds.limit
        if inside and self.seconds.value + self.seconds.limit <= self.longest:
            return "FITS. Time and amps lie on the maker's curve, with all that the instruments may be off."
        return "CANNOT TELL. An edge of what the curve allows lies within the ± of clock and clamp."

    @property
    def lines(self) -> list[str]:
        """Reading, verdict with its reason, and the next test, in lines."""
        longest = "for ever" if math.isinf(self.longest) else f"{self.longest:.1f} s"
        never = self.curve.ultimate_trip_current(self.curve_k, self.curve_k)
        return [
            CAUTION,
            "",
            f"It opened after {self.seconds.value:.1f} ± {self.seconds.limit:.1f} s at {self.amps.value:.2f} ± "
            f"{self.amps.limit:.2f} A.",
            f"By the maker's curve, from cold: {self.shortest:.1f} s to {longest}, clamp and room allowed for.",
            f"By the same curve it never opens below {never:.2f} A at {self.curve_k - ICE_POINT_K:.0f} °C.",
            "",
            f"Verdict: {self.verdict}",
            f"Next test: {NEXT}",
        ]


def real_overload(**typed: object) -> None:
    """Print the verdict on a real overload, or in one line what is still missing.

    Parameters
    ----------
    **typed : str
        What `study_real_overload` takes [-]
    """
    say_study(study_real_overload, typed)


@takes_text
def study_real_overload(
    seconds: str = "",
    watch: str = "1 s",
    amps: str = "",
    clamp: str = "",
    room: str = "",
    opens_at: str = "",
    slow_amps: str = "",
    slow_seconds: str = "",
    fast_amps: str = "",
    fast_seconds: str = "",
    curve_at: str = "25 °C",
    curve_tolerance: str = "",
) -> RealOverload:
    """What one trip from cold says of an overload, beside two points of the maker's trip curve.

    Parameters
    ----------
    seconds, watch : str
        Time from power on to the click, and how far your clock and thumb may be off [-]
    amps, clamp : str
        Amps through it while it heats, and the clamp's accuracy such as "2 % + 5 digits" [-]
    room : str
        Temperature of the room, and of the overload and the shell before the try [-]
    opens_at : str
        Temperature that the maker says it opens at [-]
    slow_amps, slow_seconds, fast_amps, fast_seconds : str
        Two points of the maker's curve: less amps and more, each with its time [-]
    curve_at : str
        Temperature that the curve holds for [-]
    curve_tolerance : str
        How far the maker lets the time be off, such as "20 %" [-]

    Raises
    ------
    AnswerError, InputError
        If something cannot be read or cannot be.
    """
    opens_k, curve_k = read_kelvin("opens_at", opens_at), read_kelvin("curve_at", curve_at)
    room_k = read_kelvin("room", room)
    if not max(room_k, curve_k) < opens_k:
        raise InputError(
            f"opens_at is {opens_at}, which is not above room {room} and curve_at {curve_at}. Was it a rise?"
        )
    points = [
        (read_positive(f"{which}_amps", a, Kind.CURRENT), read_positive(f"{which}_seconds", s, Kind.TIME))
        for which, a, s in (("slow", slow_amps, slow_seconds), ("fast", fast_amps, fast_seconds))
    ]
    curve = calibrated(points, opens_k, opens_k - 1.0, curve_k)
    flows = _amps(amps, clamp)
    took = Measured(read_positive("seconds", seconds, Kind.TIME), read_positive("watch", watch, Kind.TIME))
    low, high = _span(curve, flows, room_k)
    tolerance = read_percent(curve_tolerance, "curve_tolerance")
    return RealOverload(flows, took, low * (1 - tolerance), high * (1 + tolerance), curve, curve_k)


def _span(curve: Overload, amps: Measured, room_k: float) -> tuple[float, float]:
    """Shortest and longest time of the curve within what clamp and thermometer leave open [s]."""
    corners = product(
        (amps.value - amps.limit, amps.value + amps.limit), (room_k - THERMOMETER_K, room_k + THERMOMETER_K)
    )
    times = [curve.trip_time(max(0.0, current), kelvin, kelvin, kelvin) for current, kelvin in corners]
    return min(times), max(times)


def _amps(text: str, accuracy: str) -> Measured:
    if is_blank(text):
        raise AnswerError('amps is not filled in; type what the clamp showed, such as "15.2 A"')
    value = read_positive("amps", text, Kind.CURRENT, ". Was the clamp round the whole cord?")
    try:
        return read_accuracy(accuracy).measured(value, read(text, Kind.CURRENT).step)
    except AnswerError as error:
        raise AnswerError(f"clamp: {error}") from None
