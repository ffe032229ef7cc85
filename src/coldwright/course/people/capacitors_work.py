"""How a scripted person works lab 05: reads the work order, tests, repairs, proves, and reasons from what showed."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from coldwright.bench.unit_bench import UnitBench
from coldwright.electrical.capacitor import Purpose, parallel, series, series_volts
from coldwright.electrical.capacitor_rule import Marking, ToleranceClass, judge_replacement
from coldwright.electrical.capacitor_sizing import (
    capacitor_voltage,
    impedance_from_readings,
    most_torque_capacitance,
    most_torque_per_amp_capacitance,
    quadrature_capacitance,
)
from coldwright.instruments.display import Display

Answers = dict[str, str]
LEAK_BELOW_OHM, SHORT_BELOW_OHM = 10e3, 10.0
BLEED_OHM = 15e3
DEAD_PAIRS = (("plug L", "plug N"), ("plug L", "plug E"), ("plug N", "plug E"))
NUMBER = r"([0-9]+(?:\.[0-9]+)?)"


@dataclass
class Order:
    """What the work order and the nameplate say: SI units."""

    component: str
    hertz: float
    supply: float
    farad: float
    volts: float
    tolerance: ToleranceClass
    run: complex
    start: complex
    load: tuple[float, float] | None
    shelf: dict[str, Marking]
    owners: str
    pair: tuple[float, float]

    @property
    def ends(self) -> tuple[str, str]:
        """The two terminals of the capacitor."""
        return f"{self.component} 1", f"{self.component} 2"


@dataclass
class Notes:
    """What a person wrote down: what showed on the old one, its label, and at work."""

    order: Order
    farads: Display
    ohms: Display
    label: str
    at_work: tuple[float, float] | None


def read_order(text: str) -> Order:
    """The work order and the nameplate, as a person reads them.

    Parameters
    ----------
    text : str
        What stands beside the bench [-]
    """

    def numbers(pattern: str) -> tuple[float, ...]:
        found = re.search(pattern, text)
        assert found is not None, pattern
        return tuple(map(float, found.groups()))

    component = "start capacitor" if "check the start capacitor" in text else "run capacitor"
    supply, hertz = numbers(rf"{NUMBER} V {NUMBER} Hz, R-")
    farad, volts = numbers(rf"{component.capitalize()}: {NUMBER} µF, {NUMBER} V a\.c\.")
    run, start = (
        impedance_from_readings(*numbers(rf"{which} winding alone: {NUMBER} V, {NUMBER} A, {NUMBER} W"))
        for which in ("run", "start")
    )
    tolerance = ToleranceClass.START_20 if "−0 % +20 %" in text else ToleranceClass.RUN_5
    one_second = rf"for one second: {NUMBER} V, {NUMBER} A"
    load = numbers(one_second) if re.search(one_second, text) else None
    owners = re.search(r"one like spare ([A-F])", text)
    assert owners is not None
    p, q = numbers(rf"P {NUMBER} µF, Q {NUMBER} µF")
    shelf = {found[1]: _marking(found, tolerance) for found in re.finditer(SPARE, text)}
    return Order(
        component, hertz, supply, farad * 1e-6, volts, tolerance, run, start,
        (load[0], load[1]) if load is not None else None, shelf, owners[1], (p * 1e-6, q * 1e-6),
    )  # fmt: skip


SPARE = rf"  ([A-F]): (start|run), {NUMBER} µF, {NUMBER} V, ([0-9/]+) Hz, (no )?bleed resistor"


def _marking(found: re.Match[str], tolerance: ToleranceClass) -> Marking:
    hertz = tuple(map(float, found[5].split("/")))
    bleed = None if found[6] else BLEED_OHM
    return Marking.of(float(found[3]) * 1e-6, tolerance, float(found[4]), Purpose(found[2]), hertz, bleed)


def work(bench: UnitBench) -> Notes:
    """Test the capacitor, fit the right one if need be, prove the repair, and read it at work.

    Parameters
    ----------
    bench : UnitBench
        The learner's own unit [-]
    """
    order = read_order(bench.look())
    name = order.component
    prove_dead(bench)
    bench.perform("discharge", (name,))
    bench.perform("volts dc", order.ends)
    bench.perform("take off", (name,))
    bench.perform("zero leads")
    farads, ohms = (_shown(bench, act, *order.ends) for act in ("capacitance", "ohms"))
    label = _shown(bench, "inspect", name).text
    notes = Notes(order, farads, ohms, label, None)
    part = _part(notes)
    if part == "none":
        bench.perform("put back", (name,))
    else:
        bench.perform("fit", (name, part))
    bench.perform("ohms", ("plug E", "cabinet metal"))
    bench.perform("insulation", ("plug L", "cabinet metal"))
    bench.perform("insulation", ("plug N", "cabinet metal"))
    bench.perform("continuity", ("plug L", "thermostat 1"))
    if name == "start capacitor":
        bench.perform("inrush", (order.ends[0],))
        return notes
    bench.perform("plug in")
    bench.perform("wait", ("10 s",))
    amps = _shown(bench, "clamp", order.ends[0]).value
    notes.at_work = (_shown(bench, "volts ac", *order.ends).value, amps)
    return notes


def prove_dead(bench: UnitBench) -> None:
    """Plug out; the meter tried on the outlet, all three pairs read, the meter tried again.

    Parameters
    ----------
    bench : UnitBench
        The learner's own unit [-]
    """
    bench.perform("isolate")
    for a, b in (("outlet L", "outlet N"), *DEAD_PAIRS, ("outlet L", "outlet N")):
        bench.perform("volts ac", (a, b))


def _shown(bench: UnitBench, act: str, *on: str) -> Display:
    display = bench.perform(act, on).display
    assert display is not None
    return display


def _condition(notes: Notes) -> str:
    order = notes.order
    marked, volts = map(float, re.findall(NUMBER, notes.label)[:2])
    if notes.ohms.value < SHORT_BELOW_OHM:
        return "shorted"
    if notes.farads.value < 0.01 * order.farad:
        return "open"
    if notes.ohms.value < LEAK_BELOW_OHM:
        return "leaky"
    if abs(marked * 1e-6 - order.farad) > 0.01 * order.farad:
        return "wrong value"
    if volts < order.volts:
        return "wrong voltage"
    lowest = order.tolerance.band(order.farad)[0]
    return "low" if notes.farads.value + notes.farads.limit < lowest else "good"


def why_not(order: Order, letter: str) -> list[str]:
    """Why a spare does not fit, by the nameplate; empty if it does.

    Parameters
    ----------
    order : Order
        The work order [-]
    letter : str
        Letter of the spare [-]
    """
    bleed = BLEED_OHM if order.component == "start capacitor" else None
    purpose = Purpose.START if order.component == "start capacitor" else Purpose.RUN
    wanted = Marking.of(order.farad, order.tolerance, order.volts, purpose, bleed_ohm=bleed)
    return judge_replacement(wanted, order.shelf[letter], order.hertz)


def _part(notes: Notes) -> str:
    if _condition(notes) == "good":
        return "none"
    return next(letter for letter in notes.order.shelf if not why_not(notes.order, letter))


REASONS = {
    "bleed resistor": "bleed resistor",
    "is a ": "type",
    "may have": "capacitance",
    "not marked": "frequency",
    "it is for": "voltage",
}


def _reason(text: str) -> str:
    return next(word for part, word in REASONS.items() if part in text)


def microfarads(farad: float) -> str:
    """A capacitance as a person types it.

    Parameters
    ----------
    farad : float
        Capacitance [F]
    """
    return f"{farad * 1e6:.5g} uF"


def answers_from(notes: Notes) -> Answers:
    """The answers that right reasoning draws from the notes.

    Parameters
    ----------
    notes : Notes
        Readings, label and work order [-]
    """
    order = notes.order
    condition = _condition(notes)
    lowest, highest = order.tolerance.band(order.farad)
    dead = condition in ("open", "shorted")
    adds_up = abs(parallel(order.pair) - order.farad) < abs(series(order.pair) - order.farad)
    volts = order.load or notes.at_work
    load = (
        condition if volts is None or (dead and order.load is not None) else microfarads(under_load(volts, order.hertz))
    )
    return {
        "capacitance": condition if dead else notes.farads.text.split(" after")[0],
        "resistance_across": notes.ohms.text,
        "lowest_allowed": microfarads(lowest),
        "highest_allowed": microfarads(highest),
        "condition": condition,
        "part": _part(notes),
        "owners_spare": _reason(why_not(order, order.owners)[0]),
        "made_up": microfarads(parallel(order.pair) if adds_up else series(order.pair)),
        "volts_on_p": f"{order.volts if adds_up else series_volts(order.pair, order.volts)[0]:.4g} V",
        "quadrature": microfarads(quadrature_capacitance(order.run, order.start, order.hertz)),
        "most_torque": microfarads(most_torque_capacitance(order.run, order.start, order.hertz)),
        "most_torque_per_amp": microfarads(most_torque_per_amp_capacitance(order.run, order.start, order.hertz)),
        "under_load": load,
        "volts_in_service": f"{_volts(notes):.1f} V",
    }


def under_load(readings: tuple[float, float], hertz: float) -> float:
    """Capacitance from volts and amps [F].

    Parameters
    ----------
    readings : tuple of float
        Volts across and amps through it [V and A]
    hertz : float
        Frequency in the formula [Hz]
    """
    return readings[1] / (2 * math.pi * hertz * readings[0])


def _volts(notes: Notes) -> float:
    order = notes.order
    if notes.at_work is not None:
        return notes.at_work[0]
    return abs(capacitor_voltage(order.supply, order.start, order.farad, order.hertz))
