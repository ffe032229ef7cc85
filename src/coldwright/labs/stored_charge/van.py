"""What lies in the van beside the cooler: discharge leads of which one is fit for the job, and two odd capacitors."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.bench.draw import Draw
from coldwright.electrical.capacitor import parallel, series

LETTERS = ("A", "B", "C")
WEAK, FIT, SLOW = "too weak", "fit", "too slow"
OHMS = {WEAK: (47.0, 68.0, 100.0, 150.0), FIT: (4.7e3, 6.8e3, 10e3), SLOW: (4.7e6, 6.8e6, 10e6)}
WATTS = {WEAK: 5.0, FIT: 10.0, SLOW: 0.5}
PULSE_FACTOR = 10.0  # times its watts a wirewound resistor stands for a moment: common practice, no source
EMPTY_V = 5.0  # what a discharge lead is held on down to: common practice, no source
WITHIN_S = 30.0
ODD_UF = (20, 25, 30, 35, 40, 50, 60, 80)
ODD_V = (200.0, 250.0, 300.0, 350.0)


@dataclass(frozen=True)
class Lead:
    """A discharge lead: ohms and watts of its resistor, and what it is worth for the job."""

    ohm: float
    watts: float
    worth: str

    @property
    def text(self) -> str:
        """Ohms and watts, as on its tag."""
        return f"{ohms(self.ohm)} {self.watts:g} W"


@dataclass(frozen=True)
class OddPair:
    """Two capacitors joined, and the direct voltage across the two."""

    p_farad: float
    q_farad: float
    in_parallel: bool
    volts: float

    @property
    def farad(self) -> float:
        """Capacitance of the two as they are joined [F]."""
        return (parallel if self.in_parallel else series)((self.p_farad, self.q_farad))

    @property
    def text(self) -> str:
        """The line on the work order."""
        how = "in parallel" if self.in_parallel else "in series"
        both = f"P {farads(self.p_farad)}, Q {farads(self.q_farad)}"
        return f"Two odd capacitors: {both}, joined {how}, charged to {self.volts:.0f} V across the two."


def drawn_leads(draw: Draw) -> dict[str, Lead]:
    """Three discharge leads by letter: one is fit for the job, one too weak and one too slow.

    Parameters
    ----------
    draw : Draw
        Where the numbers come from [-]
    """
    leads = [Lead(draw.one_of(f"lead {worth}", OHMS[worth]), WATTS[worth], worth) for worth in (WEAK, FIT, SLOW)]
    return dict(zip(LETTERS, draw.order("leads", leads), strict=True))


def drawn_pair(draw: Draw) -> OddPair:
    """Two odd capacitors of different value, in series or in parallel.

    Parameters
    ----------
    draw : Draw
        Where the numbers come from [-]
    """
    p, q = sorted(draw.order("odd", ODD_UF)[:2])
    return OddPair(p * 1e-6, q * 1e-6, draw.fraction("parallel") < 0.5, draw.one_of("odd volts", ODD_V))


def ohms(value: float) -> str:
    """A resistance as it is printed on a part: 100 Ω, 4.7 kΩ, 10 MΩ.

    Parameters
    ----------
    value : float
        Resistance [Ω]
    """
    for least, prefix in ((1e6, "M"), (1e3, "k")):
        if value >= least:
            return f"{value / least:g} {prefix}Ω"
    return f"{value:g} Ω"


def farads(value: float) -> str:
    """A capacitance as it is printed on a part: 180 µF.

    Parameters
    ----------
    value : float
        Capacitance [F]
    """
    return f"{value * 1e6:g} µF"
