"""The formula behind each number that lab 01 asks for, from peak volts, farads and ohms."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

from coldwright.electrical.capacitor import stored_charge, stored_energy
from coldwright.electrical.capacitor_discharge import (
    IN_ONE_MINUTE,
    bleed_resistance,
    discharge_resistor,
    time_to_fall,
)
from coldwright.labs.stored_charge.unit import BUS, Job
from coldwright.labs.stored_charge.van import EMPTY_V, SLOW, WEAK, Lead

Worked = Callable[[float, float, float], float]
SAFE_V = IN_ONE_MINUTE.volts
USES = {
    "peak_volts": "V",
    "charge": "VC",
    "energy": "VC",
    "low_lead_watts": "V",
    "high_lead_time": "VC",
    "bleed_ohm": "VC",
    "bleed_watts": "V",
    "time_alone": "VCR",
}
"""Which of peak volts V, farads C and ohms R each formula takes."""


def lead_of(job: Job, worth: str) -> Lead:
    """The discharge lead of that worth.

    Parameters
    ----------
    job : Job
        The job [-]
    worth : str
        Such as "too weak" [-]
    """
    return next(lead for lead in job.leads.values() if lead.worth == worth)


def formulas(job: Job) -> Mapping[str, Worked]:
    """The formula for each answer; each takes peak volts, farads and ohms, and leaves aside what it has no use for.

    Parameters
    ----------
    job : Job
        The job [-]
    """
    weak, slow = lead_of(job, WEAK).ohm, lead_of(job, SLOW).ohm
    return {
        "peak_volts": lambda v, _c, _r: v,
        "charge": lambda v, c, _r: stored_charge(c, v),
        "energy": lambda v, c, _r: stored_energy(c, v),
        "low_lead_watts": lambda v, _c, _r: _watts(v, weak),
        "high_lead_time": lambda v, c, _r: time_to_fall(v, EMPTY_V, c, slow),
        "bleed_ohm": lambda v, c, _r: bleed_resistance(v, c, IN_ONE_MINUTE),
        "bleed_watts": lambda v, _c, _r: _watts(at_work(job, v), job.offered_ohm),
        "time_alone": lambda v, c, r: time_to_fall(v, SAFE_V, c, r),
    }


def at_work(job: Job, peak: float) -> float:
    """Volts that heat a resistor across the store all the time: RMS of alternating ones, the whole of direct ones [V].

    Parameters
    ----------
    job : Job
        The job [-]
    peak : float
        Peak volts [V]
    """
    return peak if job.store == BUS else peak / math.sqrt(2)


def _watts(volts: float, ohm: float) -> float:
    return discharge_resistor(volts, 1e-6, ohm).peak_w
