"""The spares on the shelf, one of which fits, and two odd capacitors that make up the value between them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from coldwright.appliance.parts import Parts
from coldwright.appliance.unit import Spare
from coldwright.bench.draw import Draw
from coldwright.electrical.capacitor import Capacitor, Purpose
from coldwright.electrical.capacitor_rule import Marking, ToleranceClass
from coldwright.electrical.capacitor_sizing import STANDARD_VOLTS

LETTERS = ("A", "B", "C", "D", "E", "F")
FITS, CAPACITANCE, VOLTAGE, TYPE, FREQUENCY, BLEED = (
    "fits",
    "capacitance",
    "voltage",
    "type",
    "frequency",
    "bleed resistor",
)
A_STEP = 0.1  # of the volts: a rating this far off is another one
BLEED_OHM = 15000.0
SPARE_IS = {Purpose.START: (1.03, 1.12), Purpose.RUN: (0.98, 1.02)}  # of what is marked on it: a new one in its class
ASIDE = (0.5, 0.65, 1.6, 2.0)  # of the value on the plate: far outside every class
SERIES = ((1.2, 6.0), (1.25, 5.0), (1.4, 3.5), (1.5, 3.0))  # of the value on the plate; each pair makes it in series


@dataclass(frozen=True)
class ShelfSpare:
    """One spare on the shelf: what is marked on it, and the rule that it breaks, or "fits"."""

    letter: str
    farad: float
    volts: float
    purpose: Purpose
    hertz: tuple[float, ...]
    bleed: bool
    breaks: str

    @property
    def text(self) -> str:
        """The spare as the shelf shows it."""
        bleed = "bleed resistor" if self.bleed else "no bleed resistor"
        hertz = "/".join(f"{h:.0f}" for h in self.hertz)
        return (
            f"{self.letter}: {self.purpose.value}, {microfarads(self.farad)}, {self.volts:.0f} V, {hertz} Hz, {bleed}"
        )

    def marking(self, tolerance: ToleranceClass) -> Marking:
        """What is printed on it, for the rule.

        Parameters
        ----------
        tolerance : ToleranceClass
            The maker's tolerance, which all spares on the shelf have [-]
        """
        bleed = BLEED_OHM if self.bleed else None
        return Marking.of(self.farad, tolerance, self.volts, self.purpose, self.hertz, bleed)


@dataclass(frozen=True)
class OddPair:
    """Two odd capacitors: P is the smaller. Joined one way they make the value on the plate."""

    p_farad: float
    q_farad: float
    in_parallel: bool


def microfarads(farad: float) -> str:
    """A marked capacitance as it is printed, such as "4.5 µF".

    Parameters
    ----------
    farad : float
        Capacitance [F]
    """
    return f"{farad * 1e6:.4g} µF"


def drawn_shelf(draw: Draw, old: Capacitor, marked: tuple[float, float], hertz: float) -> dict[str, ShelfSpare]:
    """The spares by letter: one that fits, and one for each rule that can be broken.

    Parameters
    ----------
    draw : Draw
        Where the numbers come from [-]
    old : Capacitor
        The capacitor that the maker fitted [-]
    marked : tuple of float
        Capacitance and volts on the nameplate [F, V]
    hertz : float
        Frequency of the supply [Hz]
    """
    farad, volts = marked
    steps = STANDARD_VOLTS[old.purpose]
    higher = next((step for step in steps if step >= volts * (1 + A_STEP)), volts)
    lower = max((step for step in steps if step <= volts * (1 - A_STEP)), default=volts * (1 - 2 * A_STEP))
    both = (50.0, 60.0)
    right = ShelfSpare("", farad, volts, old.purpose, both, old.bleed_ohm is not None, FITS)
    if draw.fraction("higher volts") < 0.5:
        right = replace(right, volts=higher)
    other = Purpose.RUN if old.purpose is Purpose.START else Purpose.START
    wrong = [
        replace(right, farad=_tidy(farad * draw.one_of("aside", ASIDE)), breaks=CAPACITANCE),
        replace(right, volts=lower, breaks=VOLTAGE),
        replace(right, purpose=other, breaks=TYPE),
        replace(right, hertz=tuple(h for h in both if h != hertz), breaks=FREQUENCY),
    ]
    if right.bleed:
        wrong.append(replace(right, bleed=False, breaks=BLEED))
    ordered = draw.order("shelf", range(len(wrong) + 1))
    spares = [(right, *wrong)[i] for i in ordered]
    return {letter: replace(spare, letter=letter) for letter, spare in zip(LETTERS, spares, strict=False)}


def as_fitted(draw: Draw, which: str, spare: ShelfSpare, old: Capacitor) -> Spare:
    """What fitting a spare does to the parts.

    Parameters
    ----------
    draw : Draw
        Where the true value within its class comes from [-]
    which : str
        Name of the field, such as "run_capacitor" [-]
    spare : ShelfSpare
        The spare [-]
    old : Capacitor
        The capacitor that the maker fitted, for the losses [-]
    """
    true = spare.farad * draw.between(f"spare {spare.letter}", *SPARE_IS[spare.purpose])
    new = replace(
        old,
        farad=true,
        volts_rated=spare.volts,
        purpose=spare.purpose,
        bleed_ohm=BLEED_OHM if spare.bleed else None,
    )

    def fit(parts: Parts) -> Parts:
        marked: Mapping[str, tuple[float, float]] = {**parts.marked, which: (spare.farad, spare.volts)}
        return replace(parts, marked=marked, **{which: new})  # type: ignore[arg-type]

    return fit


def drawn_pair(draw: Draw, farad: float) -> OddPair:
    """Two capacitors that make a value between them, in parallel or in series.

    Parameters
    ----------
    draw : Draw
        Where the numbers come from [-]
    farad : float
        Value to make up [F]
    """
    if draw.fraction("parallel") < 0.5:
        smaller = _tidy(farad * draw.between("part", 0.25, 0.42))
        return OddPair(smaller, farad - smaller, in_parallel=True)
    p, q = draw.one_of("series", SERIES)
    return OddPair(farad * p, farad * q, in_parallel=False)


def _tidy(farad: float) -> float:
    """Rounded to whole microfarads, or to halves below ten."""
    step = 1e-6 if farad >= 10e-6 else 0.5e-6
    return max(step, round(farad / step) * step)
