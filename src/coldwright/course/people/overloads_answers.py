"""What right reasoning draws from the notes of the lab on overloads: the fault, and every answer."""

from __future__ import annotations

import math

from coldwright.bench.unit_bench import UnitBench
from coldwright.course.people.overloads_notes import NOT_DONE, Notes, device_of
from coldwright.electrical.windings import Conductor
from coldwright.labs.overloads.sheet import trip_sheet
from coldwright.quantities.constants import ICE_POINT_K

K = Conductor.COPPER.value
NO_CLICK = "no click"
LOW_SUPPLY_BELOW = 0.85  # of the plate's volts
WRONG_LABEL_BELOW = 0.75  # of the plate's locked-rotor amps


def average(on_w: float, off_w: float, on_s: float, off_s: float) -> float:
    """Average watts, each weighed by its seconds [W].

    Parameters
    ----------
    on_w, off_w : float
        Watts with and without power on the compressor [W]
    on_s, off_s : float
        How long each lasts [s]
    """
    return (on_w * on_s + off_w * off_s) / (on_s + off_s)


def fault_of(bench: UnitBench, notes: Notes) -> str:
    """What is wrong, by the readings, in the order that a wise person goes.

    Parameters
    ----------
    bench : UnitBench
        The bench, for its plate [-]
    notes : Notes
        Readings [-]
    """
    if notes.outlet_v < LOW_SUPPLY_BELOW * bench.unit.cooler.volts:
        return "low supply"
    if notes.grounded:
        return "grounded winding"
    if math.isinf(notes.overload.value):
        return "overload open"
    if notes.label_a < WRONG_LABEL_BELOW * bench.unit.plate.locked_a:
        return "overload of the wrong rating"
    if math.isinf(notes.ohms["start winding"].value):
        return "start winding open"
    return _device_or_rotor(bench, notes)


def _device_or_rotor(bench: UnitBench, notes: Notes) -> str:
    if device_of(bench) == "relay" and math.isfinite(notes.device_ohm):
        return "start device stays closed"
    if notes.clicks and not notes.runs:
        return "start device open" if notes.start_test == "starts and runs" else "seized rotor"
    if notes.clicks or notes.silent:
        return "overload weak"
    return "condenser fan" if "still" in notes.fan else "no fault"


REMEDIES = {
    "no fault": "leave it as it is",
    "low supply": "have the supply put right",
    "grounded winding": "change the compressor",
    "start winding open": "change the compressor",
    "seized rotor": "change the compressor",
    "condenser fan": "fit a new condenser fan",
    "start device open": "fit a new start device",
    "start device stays closed": "fit a new start device",
}


def answers_from(bench: UnitBench, notes: Notes) -> dict[str, str]:
    """The answers that right reasoning draws from the notes.

    Parameters
    ----------
    bench : UnitBench
        The bench, for its plate and data sheet [-]
    notes : Notes
        Readings [-]
    """
    sheet, fault = trip_sheet(bench.unit.cooler), fault_of(bench, notes)
    does = "runs" if notes.runs else "hums"
    sound = f"{does} and clicks off" if notes.clicks else "stays silent" if notes.silent else f"{does} and stays on"
    mean = average(notes.watts_on, notes.watts_off, notes.on_s, notes.off_s) if notes.clicks else notes.watts_on
    hot_c = notes.hot.value / notes.cold.value * (K + notes.room_k - ICE_POINT_K) - K
    lowest = notes.ohms["insulation"]
    return {
        "sound": sound,
        "on_seconds": f"{notes.on_s:.0f} s" if notes.clicks else NO_CLICK,
        "off_seconds": f"{notes.off_s:.0f} s" if notes.clicks else NO_CLICK,
        "average_watts": f"{mean:.1f} W",
        "start_amps": NOT_DONE if notes.grounded else f"{notes.start_a:.3f} A",
        "trip_estimate": _trip_estimate(bench, notes),
        "ultimate_amps": f"{sheet.ultimate(sheet.around(notes.shell_k, notes.room_k)):.3f} A",
        "winding_hot": f"{hot_c:.1f} °C",
        "overload_ohms": notes.overload.text,
        "overload_rating": "does not fit" if notes.label_a < WRONG_LABEL_BELOW * bench.unit.plate.locked_a else "fits",
        "start_test": notes.start_test,
        "fault": fault,
        "remedy": REMEDIES.get(fault, "fit a new overload"),
        "earth_ohms": notes.ohms["earth"].text,
        "insulation": lowest.text if math.isfinite(lowest.value) else "OL",
    }


def _trip_estimate(bench: UnitBench, notes: Notes) -> str:
    if notes.grounded:
        return NOT_DONE
    flows = notes.start_a > 0.05
    return f"{trip_sheet(bench.unit.cooler).trip_estimate(notes.start_a):.2f} s" if flows else NO_CLICK
