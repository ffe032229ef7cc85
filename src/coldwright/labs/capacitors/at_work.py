"""What is right where lab 05 asks for sizes from the shop's slip and for the capacitor at work, and why."""

from __future__ import annotations

from collections.abc import Callable

from coldwright.electrical.capacitor import reactance
from coldwright.electrical.capacitor_sizing import (
    capacitor_voltage,
    impedance_from_readings,
    most_torque_capacitance,
    most_torque_per_amp_capacitance,
    quadrature_capacitance,
)
from coldwright.electrical.capacitor_tests import capacitance_under_load
from coldwright.electrical.measured import Measured
from coldwright.instruments.clamp import limit_of_clamp
from coldwright.instruments.limits import reading_limits
from coldwright.instruments.meter_ranges import CAPACITANCE, Function, limit_of
from coldwright.labs.capacitors.case import Case
from coldwright.labs.capacitors.shop_slip import with_digit
from coldwright.labs.capacitors.unit import CONDITIONS, START, Job
from coldwright.labs.question import Expected, Solution
from coldwright.quantities import Kind, show

SIZES: dict[str, Callable[[complex, complex, float], float]] = {
    "quadrature": quadrature_capacitance,
    "most_torque": most_torque_capacitance,
    "most_torque_per_amp": most_torque_per_amp_capacitance,
}
SIZE_WORDS = {
    "quadrature": "the two currents stand 90° apart",
    "most_torque": "the start has the most torque; 90° is not what gives it",
    "most_torque_per_amp": "each amp of the line gives the most torque",
}


def load_readings(case: Case) -> list[tuple[Measured, Measured]]:
    """Pairs of volts and amps of a test under load; none if a short blew the fuse.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    if case.job.component == START:
        load = case.job.slip.load
        return [] if load is None else [(with_digit(load[0]), with_digit(load[1]))]
    pairs = [(with_digit(v.display), with_digit(a.display)) for v in case.service_volts for a in case.service_amps]
    if pairs:
        return pairs
    volts, amps = case.at_work
    return [(Measured(volts, sum(limit_of(Function.VOLTS_AC, volts))), Measured(amps, sum(limit_of_clamp(amps))))]


def _farads(value: float, digits: int = 4) -> str:
    return show(value, Kind.CAPACITANCE, "µF", digits)


def size(job: Job, name: str) -> Solution:
    """What is right for one of the three sizes.

    Parameters
    ----------
    job : Job
        The job with its slip [-]
    name : str
        One of `SIZES` [-]
    """
    slip, hertz = job.slip, job.unit.cooler.hertz

    def worked(*readings: float) -> float:
        return SIZES[name](impedance_from_readings(*readings[:3]), impedance_from_readings(*readings[3:]), hertz)

    found = reading_limits(worked, *slip.run.readings, *slip.start.readings)
    run, start = slip.run.impedance, slip.start.impedance
    ohm = reactance(found.value, hertz)
    reason = (
        f"R_r {run.real:.2f}, X_r {run.imag:.2f}, R_s {start.real:.2f}, X_s {start.imag:.2f} Ω give X_C {ohm:.2f} Ω, "
        f"so {_farads(found.value)}: there {SIZE_WORDS[name]}."
    )
    return Solution(Expected(numbers=((found.value, found.worst),)), reason)


def under_load(case: Case) -> Solution:
    """What is right for the capacitance under load.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    job, hertz = case.job, case.job.unit.cooler.hertz
    if job.component == START and job.ending in ("OPEN", "SHORTED"):
        word = CONDITIONS[job.ending]
        why = "Next to no current flowed" if word == "open" else "It blew the test fuse"
        return Solution(Expected(words=(word,), slip_tolerance=CAPACITANCE[3].resolution), f"{why}: it is {word}.")
    found = [capacitance_under_load(volts, amps, Measured(hertz)) for volts, amps in load_readings(case)]
    volts, amps = load_readings(case)[-1]
    reason = (
        f"{amps.value:.3f} A / (2π × {hertz:.0f} Hz × {volts.value:.1f} V) = {_farads(found[-1].value)}, "
        f"give or take {_farads(found[-1].limit, 2)}."
    )
    return Solution(Expected(numbers=tuple((c.value, c.limit) for c in found)), reason)


def volts_in_service(case: Case) -> Solution:
    """What is right for the volts across the capacitor at work.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    return _start_volts(case.job) if case.job.component == START else _run_volts(case)


def _run_volts(case: Case) -> Solution:
    shown = [with_digit(t.display) for t in case.service_volts]
    if not shown:
        volts = case.at_work[0]
        shown = [Measured(volts, sum(limit_of(Function.VOLTS_AC, volts)))]
    supply = case.job.unit.cooler.volts
    reason = (
        f"While it runs there are {shown[-1].value:.1f} V across it, on a supply of {supply:.0f} V: "
        "the start winding adds to it."
    )
    return Solution(Expected(numbers=tuple((m.value, m.limit) for m in shown)), reason)


def _start_volts(job: Job) -> Solution:
    supply, hertz, farad = job.unit.cooler.volts, job.unit.cooler.hertz, job.plate[0]

    def worked(*readings: float) -> float:
        return abs(capacitor_voltage(supply, impedance_from_readings(*readings), farad, hertz))

    found = reading_limits(worked, *job.slip.start.readings)
    start, ohm = job.slip.start.impedance, reactance(farad, hertz)
    reason = (
        f"{supply:.0f} V × {ohm:.2f} / √({start.real:.2f}² + ({start.imag:.2f} − {ohm:.2f})²) = {found.value:.1f} V."
    )
    return Solution(Expected(numbers=((found.value, found.worst),)), reason)
