"""How to get to each answer of lab 05, and what counts as right."""

from __future__ import annotations

from coldwright.instruments.clamp import RANGES as CLAMP
from coldwright.instruments.display import Range
from coldwright.instruments.meter_ranges import CAPACITANCE, OHMS, VOLTS_AC

HOW = {
    "capacitance": "Plug pulled, discharged, off the unit: then put the meter on capacitance across its two ends.",
    "resistance_across": "Off the unit and discharged, leads zeroed, read ohms across its two ends.",
    "lowest_allowed": "Take the value on the nameplate less the tolerance that the work order gives.",
    "highest_allowed": "Take the value on the nameplate plus the tolerance that the work order gives.",
    "condition": "In order: shorted, open, leaky, then label against nameplate, then reading against tolerance.",
    "part": "Same value, volts the same or more, same type, your frequency, and a bleed resistor if there was one.",
    "owners_spare": "Hold it against the nameplate, line by line: value, volts, type, frequency, bleed resistor.",
    "made_up": "In parallel they add up; in series it is product over sum: see which comes to the nameplate.",
    "volts_on_p": "In parallel each has the whole voltage; in series P has the voltage times Q over P plus Q.",
    "quadrature": "R is watts over amps squared, Z is volts over amps; X_C = X_s + R_s·R_r/X_r, and C = 1/(2πf·X_C).",
    "most_torque": "X_C = X_s + R_s·(Z_r − X_r)/R_r, and C = 1/(2πf·X_C).",
    "most_torque_per_amp": "X_C = X_s + (Z_r·√(R_s·(R_s + R_r)) − X_r·R_s)/R_r, and C = 1/(2πf·X_C).",
    "under_load": "C = amps / (2πf·volts), with the amps through it and the volts across it.",
    "volts_in_service": "Run capacitor: read volts a.c. across it while it runs. Start capacitor: "
    "supply × X_C / √(R_s² + (X_s − X_C)²).",
}


def _accuracy(chosen: Range) -> str:
    return f"±({chosen.percent:g} % of the reading + {chosen.digits} digits)"


NOMINAL = "Numbers that follow from marked values count as right to three digits."
RULES = {
    "farads": f"Capacitance counts as right within what the meter allows, {_accuracy(CAPACITANCE[3])}, "
    "and one digit more.",
    "ohms": f"Ohms count as right within what the meter allows, {_accuracy(OHMS[0])}, and one digit more.",
    "load": f"Counts as right within what volts, {_accuracy(VOLTS_AC[2])}, and clamp, {_accuracy(CLAMP[0])}, "
    "or the shop's meter leave open in the formula. The meter's own capacitance reading must stand beside it.",
    "at work": f"Volts count as right within what the meter allows, {_accuracy(VOLTS_AC[2])}, and one digit more; what "
    "is worked out from the slip, within what the shop's meter leaves open.",
    "tests": "Capacitance, ohms and label of the one that came with the unit must be on your job sheet.",
}
