"""How to get to each answer of lab 02, and what counts as right."""

from __future__ import annotations

from coldwright.instruments.clamp import RANGES as CLAMP
from coldwright.instruments.display import Range
from coldwright.instruments.insulation_tester import RANGES as INSULATION
from coldwright.instruments.multimeter import OHMS, VOLTS_AC

HOW = {
    "after_thermostat": "Find thermostat 2 in the list of nets: all that stands on that line is joined by wire.",
    "fan_path": "Put your finger on cord L and go to condenser fan 1; write down each switch that you cross.",
    "door_switch_volts": "Plug in, door shut, one tip on each end of the door switch.",
    "thermostat_contact": "Supply volts across a switch: open. Next to none, with supply in front of it: closed.",
    "fan_ohms": "Take the condenser fan off, zero the leads, and read across its two ends.",
    "timer_joins": "Read timer 1 to timer 2 and timer 1 to timer 4: the contact is where it reads near zero.",
    "terminator_cold": "Read across it while the evaporator is still cold, before you wait for hours.",
    "heater_ohms": "Take the heater off, zero the leads, and read across its two ends.",
    "heater_watts": "Multiply the supply volts by themselves and divide by the heater's ohms; an open one draws 0 W.",
    "joint": "With the unit running, read volts from end to end of each wire: only a poor joint shows any. Volts "
    "between A and B: is it A or B? Read each to a third terminal on the same line. The poor one shows volts to both "
    "others.",
    "joint_volts": "Put one tip on each side of the joint while current flows.",
    "joint_watts": "Multiply the volts across the joint by the amps in it, both read under the same load.",
    "component": "Go along the path from the supply: which part does not do what it should in that state?",
    "wrong": "Read the part in both of its states: switch on and off, cold and warm, turned by hand, taken off.",
    "insulation": "Plug out, all back in place: test L to the metal and N to the metal, and give the lower one.",
}


def _accuracy(chosen: Range) -> str:
    return f"±({chosen.percent:g} % of the reading + {chosen.digits} digits)"


_VOLTS = f"Counts as right within what the meter allows on volts a.c., {_accuracy(VOLTS_AC[0])}, and one digit more."
_OHMS = f"Counts as right within what the meter allows on ohms, {_accuracy(OHMS[0])}, and one digit more."
_STATE = "The reading must be on your job sheet, taken before you change that part."
RULES = {
    "thermostat volts": "Volts across the thermostat must be on your job sheet, plug in and knob turned on.",
    "door switch volts": _VOLTS,
    "fan off": _OHMS,
    "timer": _STATE,
    "terminator": _STATE,
    "heater": _OHMS,
    "heater and supply": "Counts as right within what the meter allows on the volts and the ohms that go into it.",
    "joint": _VOLTS,
    "joint and amps": "Counts as right within what the meter allows on the volts and the clamp on the amps, "
    f"{_accuracy(CLAMP[0])}, and one digit more of each.",
    "fault": "The readings that tell this fault from the others must be on your job sheet.",
    "insulation": f"Counts as right within what the tester allows, {_accuracy(INSULATION[0])} up to 200 MΩ and "
    f"{_accuracy(INSULATION[-1])} above, and one digit more.",
}
