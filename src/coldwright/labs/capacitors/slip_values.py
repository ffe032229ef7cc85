"""What each known slip of lab 05 gives on a true unit."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

from coldwright.electrical.capacitor import parallel, reactance, series, series_volts
from coldwright.electrical.capacitor_rule import ToleranceClass
from coldwright.electrical.capacitor_tests import capacitance_under_load
from coldwright.electrical.measured import Measured
from coldwright.labs.capacitors.at_work import SIZES, load_readings
from coldwright.labs.capacitors.case import Case
from coldwright.labs.capacitors.shelf import BLEED, CAPACITANCE, FREQUENCY, TYPE, VOLTAGE
from coldwright.labs.capacitors.unit import RUN, START, Job

Value = Callable[[Case, str], float | str | tuple[float, ...] | None]
SOUND_INSIDE = ("", "LOW", "LEAKY", "WRONG_VALUE", "WRONG_VOLTAGE")


def _in_circuit(case: Case, _name: str) -> float | None:
    """What the meter shows with the capacitor still wired in; None where it is open or shorted anyway."""
    return case.job.farad_in_place if case.job.ending in SOUND_INSIDE else None


def _other_frequency(case: Case, _name: str) -> tuple[float, ...] | None:
    """The test under load with 50 Hz for 60 Hz, or the other way."""
    hertz = case.job.unit.cooler.hertz
    return _loads(case, 110.0 - hertz, None)


def _supply_volts(case: Case, name: str) -> float | tuple[float, ...] | None:
    """The supply's volts where those of a run capacitor are asked for, alone or in the test under load."""
    if case.job.component == START:
        return None  # the slip gives the volts on the capacitor itself, and at a start they come near the supply
    volts = case.job.unit.cooler.volts
    return volts if name == "volts_in_service" else _loads(case, case.job.unit.cooler.hertz, volts)


def _loads(case: Case, hertz: float, volts: float | None) -> tuple[float, ...] | None:
    """What a test under load gives with another frequency, or with other volts, in the formula."""
    if case.job.component == START and case.job.ending in ("OPEN", "SHORTED"):
        return None
    readings = [(v if volts is None else Measured(volts), amps) for v, amps in load_readings(case)]
    return tuple(capacitance_under_load(v, amps, Measured(hertz)).value for v, amps in readings)


def _other_class(case: Case, name: str) -> float:
    """An edge of the tolerance, of the other type."""
    job = case.job
    other = ToleranceClass.RUN_5 if job.component == START else ToleranceClass.START_20
    return other.band(job.plate[0])[name == "highest_allowed"]


def _both(job: Job) -> tuple[float, float]:
    return job.pair.p_farad, job.pair.q_farad


def _series_for_parallel(case: Case, _name: str) -> float | None:
    """Both joined in series where in parallel they make the value."""
    return series(_both(case.job)) if case.job.pair.in_parallel else None


def _parallel_for_series(case: Case, _name: str) -> float | None:
    """Both added up where in series they make the value."""
    return None if case.job.pair.in_parallel else parallel(_both(case.job))


def _shared_in_parallel(case: Case, _name: str) -> tuple[float, ...] | None:
    """The volts shared out where both have the whole."""
    if not case.job.pair.in_parallel:
        return None
    volts = case.job.plate[1]
    return (*series_volts(_both(case.job), volts), volts / 2)


def _whole_in_series(case: Case, _name: str) -> float | None:
    """The whole volts where the two share them."""
    return None if case.job.pair.in_parallel else case.job.plate[1]


def _equal_in_series(case: Case, _name: str) -> float | None:
    """Half of the volts in series."""
    return None if case.job.pair.in_parallel else case.job.plate[1] / 2


def _shares_swapped(case: Case, _name: str) -> float | None:
    """The share of Q in place of that of P."""
    return None if case.job.pair.in_parallel else series_volts(_both(case.job), case.job.plate[1])[1]


def _size_of(wanted: str) -> Value:
    """A slip that gives one of the three sizes."""

    def value(case: Case, _name: str) -> float:
        slip = case.job.slip
        return SIZES[wanted](slip.run.impedance, slip.start.impedance, case.job.unit.cooler.hertz)

    return value


def _reactance_left_out(case: Case, name: str) -> float:
    """A size with X_s dropped from X_C: it comes out too large."""
    slip, hertz = case.job.slip, case.job.unit.cooler.hertz
    right = SIZES[name](slip.run.impedance, slip.start.impedance, hertz)
    ohm = reactance(right, hertz) - slip.start.impedance.imag
    return 1 / (2 * math.pi * hertz * ohm)


def _plain_sum(case: Case, _name: str) -> float | None:
    """The volts at a start with the ohms added as plain numbers; None for a run capacitor."""
    job = case.job
    if job.component == RUN:
        return None
    ohm = reactance(job.plate[0], job.unit.cooler.hertz)
    return job.unit.cooler.volts * ohm / (abs(job.slip.start.impedance) + ohm)


def _spare_that_breaks(rule: str) -> Value:
    """A slip that takes the spare which breaks one rule."""

    def value(case: Case, _name: str) -> str | None:
        if not case.job.ending:
            return None
        return next((letter for letter, spare in case.job.shelf.items() if spare.breaks == rule), None)

    return value


def _good_replaced(case: Case, _name: str) -> str | None:
    """The spare that would fit, where the capacitor is good."""
    return None if case.job.ending else case.job.fitting


def _says(word: str, *endings: str) -> Value:
    """A slip that says a word where one of some things is wrong with the capacitor."""
    return lambda case, _name: word if case.job.ending in endings else None


def _bleed_for_leak(case: Case, _name: str) -> str | None:
    """ "leaky" where a good bleed resistor sits across it."""
    has_bleed = case.job.came.bleed_ohm is not None
    return "leaky" if has_bleed and case.job.ending in ("", "LOW", "WRONG_VALUE", "WRONG_VOLTAGE") else None


VALUES: Mapping[str, Value] = {
    "read in circuit": _in_circuit,
    "figure of the other frequency": _other_frequency,
    "supply volts for the capacitor's": _supply_volts,
    "tolerance of the other type": _other_class,
    "series for parallel": _series_for_parallel,
    "parallel for series": _parallel_for_series,
    "volts shared in parallel": _shared_in_parallel,
    "whole volts in series": _whole_in_series,
    "equal shares in series": _equal_in_series,
    "shares swapped": _shares_swapped,
    "quadrature for most torque": _size_of("quadrature"),
    "most torque for torque per amp": _size_of("most_torque"),
    "start winding's reactance left out": _reactance_left_out,
    "ohms added as plain numbers": _plain_sum,
    "lower voltage accepted": _spare_that_breaks(VOLTAGE),
    "other type accepted": _spare_that_breaks(TYPE),
    "other value accepted": _spare_that_breaks(CAPACITANCE),
    "other frequency accepted": _spare_that_breaks(FREQUENCY),
    "bleed resistor not missed": _spare_that_breaks(BLEED),
    "good one replaced": _good_replaced,
    "capacitance alone trusted": _says("good", "LEAKY"),
    "own label trusted": _says("good", "WRONG_VALUE"),
    "marked volts not compared": _says("good", "WRONG_VOLTAGE"),
    "bleed resistor taken for a leak": _bleed_for_leak,
}
