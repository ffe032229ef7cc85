"""How a person works through the lab on overloads, from listening to the proof."""

from __future__ import annotations

import math

from coldwright.appliance.wiring import ComponentKind
from coldwright.bench.unit_bench import UnitBench
from coldwright.course.people.overloads_answers import fault_of
from coldwright.course.people.overloads_notes import NOT_DONE, Notes, device_of, read
from coldwright.labs.overloads.heard import Heard, heard_readings

QUIET_LISTENING, MOST_LISTENING = 5, 15  # times two minutes
LONG_ENOUGH_S = 15.0  # on for longer than this: time to wait until the start is over
METAL = "cabinet metal"


def take_readings(bench: UnitBench, zeroes: bool = True) -> Notes:
    """Work through the lab on a bench and note what shows.

    Parameters
    ----------
    bench : UnitBench
        The learner's own unit [-]
    zeroes : bool
        Whether the leads are zeroed [-]
    """
    notes = Notes()
    _listen(bench, notes)
    _read_live(bench, notes)
    _prove_dead(bench)
    if zeroes:
        bench.perform("zero leads")
    _read_dead(bench, notes)
    _read_start(bench, notes)
    _repair(bench, notes)
    return notes


def _listen(bench: UnitBench, notes: Notes) -> None:
    """Listen until both times are known, or long enough that it does not click."""
    heard = Heard((), frozenset(), False)
    for times in range(1, MOST_LISTENING + 1):
        read(bench, "listen")
        heard = heard_readings([t for t in bench.taken if t.act == "listen"])
        if (heard.on and heard.off) or (times >= QUIET_LISTENING and not heard.clicked):
            break
    notes.clicks = heard.clicked
    notes.runs = any(word.startswith("runs") for word in heard.words)
    notes.silent = "stays silent" in heard.words
    if heard.on and heard.off:
        notes.on_s, notes.off_s = heard.on[-1], heard.off[-1]


def _read_live(bench: UnitBench, notes: Notes) -> None:
    """Temperatures, volts, watts and amps under power."""
    notes.shell_k, notes.room_k = read(bench, "temperature", "shell").value, read(bench, "temperature", "room").value
    if notes.clicks:
        bench.perform("wait", ("next try",))
        if notes.runs and notes.on_s > LONG_ENOUGH_S:
            bench.perform("wait", ("10 s",))
    notes.watts_on = read(bench, "watts").value
    if notes.clicks:
        notes.watts_off = _watts_in_the_pause(bench)
    elif notes.runs:
        notes.running_a = read(bench, "clamp", "pin C").value
    notes.outlet_v = read(bench, "volts ac", "outlet L", "outlet N").value
    notes.fan = read(bench, "inspect", "condenser fan").text


def _watts_in_the_pause(bench: UnitBench) -> float:
    """Watts once the overload has let go: the clamp says when."""
    for _ in range(60):
        if read(bench, "clamp", "pin C").value < 0.05:
            return read(bench, "watts").value
        bench.perform("wait", ("10 s",))
    return math.nan


def _prove_dead(bench: UnitBench) -> None:
    read(bench, "volts ac", "outlet L", "outlet N")
    bench.perform("isolate")
    for pair in (("plug L", "plug N"), ("plug L", "plug E"), ("plug N", "plug E")):
        read(bench, "volts ac", *pair)
    read(bench, "volts ac", "outlet L", "outlet N")
    _discharge(bench)


def _discharge(bench: UnitBench) -> None:
    if bench.unit.wiring.of_kind(ComponentKind.START_CAPACITOR):
        bench.perform("discharge", ("start capacitor",))


def _read_dead(bench: UnitBench, notes: Notes) -> None:
    """Ohms hot and cold, labels, insulation, start test: with the start device and the overload off."""
    device = device_of(bench)
    notes.ohms["overload in place"] = read(bench, "ohms", "overload 1", "overload 2")
    for part in (device, "overload"):
        bench.perform("take off", (part,))
    notes.ohms["hot"] = read(bench, "ohms", "pin C", "pin R")
    bench.perform("wait", ("12 h",))
    notes.ohms["cold"] = read(bench, "ohms", "pin C", "pin R")
    notes.ohms["start winding"] = read(bench, "ohms", "pin C", "pin S")
    notes.ohms["overload"] = read(bench, "ohms", "overload 1", "overload 2")
    ends = ("relay 1", "relay 3") if device == "relay" else ("PTC 1", "PTC 2")
    notes.device_ohm = read(bench, "ohms", *ends).value
    notes.label_a = float(read(bench, "inspect", "overload").text.removesuffix(" A").rpartition(" ")[2])
    notes.pin_to_shell_ohm = read(bench, "insulation", "pin C", "shell").value
    notes.start_test = NOT_DONE if notes.grounded else read(bench, "start test").text.partition(",")[0]


def _read_start(bench: UnitBench, notes: Notes) -> None:
    """Old parts back in, amps of the start on hold; a grounded motor gets no power."""
    for part in (device_of(bench), "overload"):
        bench.perform("put back", (part,))
    if notes.grounded:
        return
    notes.start_a = read(bench, "inrush", "pin C").value
    bench.perform("isolate")
    _discharge(bench)


REPAIRS = {
    "overload open": "overload",
    "overload weak": "overload",
    "overload of the wrong rating": "overload",
    "start device open": "device",
    "start device stays closed": "device",
    "condenser fan": "condenser fan",
}


def _repair(bench: UnitBench, notes: Notes) -> None:
    """Fit what is wrong, prove earth, insulation and polarity, then try a new part."""
    part = REPAIRS.get(fault_of(bench, notes))
    if part is not None:
        name = device_of(bench) if part == "device" else part
        bench.perform("take off", (name,))
        bench.perform("fit", (name,))
    notes.ohms["earth"] = read(bench, "ohms", "plug E", METAL)
    read(bench, "ohms", "plug L", "thermostat 1")
    both = [read(bench, "insulation", pin, METAL) for pin in ("plug L", "plug N")]
    notes.ohms["insulation"] = min(both, key=lambda shown: shown.value)
    if part is not None:
        bench.perform("plug in")
        read(bench, "listen")
