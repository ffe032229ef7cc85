"""How a scripted person works lab 01: reads the order, makes it safe, tests, and reasons from what showed."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from coldwright.bench.unit_bench import UnitBench
from coldwright.electrical.capacitor import parallel, series
from coldwright.instruments.display import Display

Answers = dict[str, str]
UNITS = {"": 1.0, "k": 1e3, "M": 1e6}
SAFE_V, EMPTY_V, WITHIN_S, PULSE_FACTOR = 50.0, 5.0, 30.0, 10.0  # as the lab's notebook says
LEAKS_BELOW = 0.5  # of the maker's bleed resistor


@dataclass
class Notes:
    """What a person wrote down, in SI: from the work order, from the label and from the meter."""

    store: str
    on_order: str
    left: Display
    peak: float
    farad: float
    ohm: float
    label: str
    leads: dict[str, tuple[float, float]]
    offered_ohm: float
    pair: tuple[float, float]
    pair_in_parallel: bool
    pair_volts: float
    wired_ohm: Display | None = None

    @property
    def at_work(self) -> float:
        """Volts that heat a resistor across it."""
        return self.peak if self.store == "board" else self.peak / math.sqrt(2)

    @property
    def makers_bleed(self) -> float | None:
        """The maker's bleed resistor, if there is one."""
        found = re.search(r"a bleed resistor of ([0-9.]+) (k|M|)Ω", self.on_order)
        return float(found[1]) * UNITS[found[2]] if found else None

    @property
    def sheet_ohm(self) -> tuple[float, float]:
        """What a board's sheet says is read in its place: in order, and with the bleed resistor burnt open."""
        sound = re.search(r"beside it: ([0-9.]+) (k|M)Ω", self.on_order)
        burnt = re.search(r"burnt open ([0-9.]+) (k|M)Ω", self.on_order)
        assert sound is not None
        assert burnt is not None
        return float(sound[1]) * UNITS[sound[2]], float(burnt[1]) * UNITS[burnt[2]]

    @property
    def joined(self) -> float:
        """Capacitance of the two odd ones as they are joined."""
        return (parallel if self.pair_in_parallel else series)(self.pair)


def take_notes(bench: UnitBench, wired: bool = False) -> Notes:
    """Read it live, make it safe, read what is left, discharge, test, and put it back.

    Parameters
    ----------
    bench : UnitBench
        The learner's own unit [-]
    wired : bool
        Whether ohms are read once before the capacitor is taken off [-]
    """
    order = bench.look()
    store = next(
        name
        for words, name in (("the start", "start capacitor"), ("the run", "run capacitor"), ("the bus", "board"))
        if f"Work order: {words} capacitor" in order
    )
    ends = ("board plus", "board minus") if store == "board" else (f"{store} 1", f"{store} 2")

    def read(act: str, *on: str) -> Display:
        shown = bench.perform(act, on).display
        assert shown is not None
        return shown

    supply = read("volts ac", "plug L", "plug N").value
    running = read("volts ac", *ends).value if store == "run capacitor" else supply
    bench.perform("isolate")
    for pair in (("plug L", "plug N"), ("plug L", "plug E"), ("plug N", "plug E"), ("outlet L", "outlet N")):
        bench.perform("volts ac", pair)
    left = read("volts dc", *ends)
    bench.perform("discharge", (store,))
    read("volts dc", *ends)
    label, farad, wired_ohm = "", _number(r"sheet: ([0-9.]+) µF", order) * 1e-6, None
    if store != "board":
        label = bench.perform("inspect", (store,)).text
        wired_ohm = read("ohms", *ends) if wired else None
        bench.perform("take off", (store,))
        farad = read("capacitance", *ends).value
    ohm = read("ohms", *ends).value
    if store != "board":
        bench.perform("put back", (store,))
    rms = _number(r"µF ([0-9.]+) V", label) if store == "start capacitor" else running
    p, q = _number(r"P ([0-9.]+) µF", order) * 1e-6, _number(r"Q ([0-9.]+) µF", order) * 1e-6
    leads = {
        found[1]: (float(found[2]) * UNITS[found[3]], float(found[4]))
        for found in re.finditer(r"([ABC]) ([0-9.]+) (k|M|)Ω ([0-9.]+) W", order)
    }
    return Notes(
        store,
        order,
        left,
        math.sqrt(2) * rms,
        farad,
        ohm,
        label,
        leads,
        1e3 * _number(r"Offered as a bleed resistor: ([0-9.]+) kΩ", order),
        (p, q),
        "joined in parallel" in order,
        _number(r"charged to ([0-9.]+) V", order),
        wired_ohm,
    )


def _number(pattern: str, text: str) -> float:
    found = re.search(pattern, text)
    return float(found[1]) if found else math.nan


def answers_from(notes: Notes) -> Answers:
    """What a person who reasons right writes down.

    Parameters
    ----------
    notes : Notes
        What was read [-]
    """
    v, c = notes.peak, notes.farad
    low, high = min(notes.leads.values())[0], max(notes.leads.values())[0]
    falls = math.log(v / SAFE_V)
    is_open = math.isinf(notes.ohm)
    return {
        "volts_left": notes.left.text.removesuffix(" d.c."),
        "peak_volts": f"{v:.2f} V",
        "charge": f"{1e3 * c * v:.5g} mC",
        "energy": f"{0.5 * c * v**2:.5g} J",
        "low_lead_watts": f"{v**2 / low:.5g} W",
        "high_lead_time": f"{high * c * math.log(v / EMPTY_V):.5g} s",
        "lead": next(letter for letter, lead in notes.leads.items() if _fits(notes, *lead)),
        "bleed_ohm": f"{60 / (c * falls) / 1e3:.5g} kohm",
        "bleed_watts": f"{notes.at_work**2 / notes.offered_ohm:.5g} W",
        "ohms_across": "OL" if is_open else f"{notes.ohm:.6g} ohm",
        "time_alone": "never" if is_open else f"{notes.ohm * c * falls:.5g} s",
        "condition": _condition(notes),
        "energy_two": f"{0.5 * notes.joined * notes.pair_volts**2:.5g} J",
    }


def _fits(notes: Notes, ohm: float, watts: float) -> bool:
    quick = ohm * notes.farad * math.log(notes.peak / EMPTY_V) <= WITHIN_S
    return quick and notes.peak**2 / ohm <= PULSE_FACTOR * watts


def _condition(notes: Notes) -> str:
    bleed = notes.makers_bleed
    if notes.store == "board":
        bleed, burnt = notes.sheet_ohm
        if notes.ohm > 0.9 * burnt:
            return "bleed resistor open"
    if bleed is not None and math.isinf(notes.ohm):
        return "bleed resistor open" if "bleed" in notes.label else "bleed resistor missing"
    if bleed is not None and notes.ohm > 1.1 * bleed:
        return "bleed resistor too high"
    if notes.ohm < (LEAKS_BELOW * bleed if bleed is not None else math.inf):
        return "leaky"
    least = 0.95 if notes.store == "run capacitor" else 1.0
    marked = _number(r"marked ([0-9.]+) µF", notes.label) * 1e-6
    return "low" if notes.farad < least * marked else "in order"
