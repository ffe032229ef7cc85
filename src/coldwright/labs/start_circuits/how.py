"""How to get to each answer of lab 04, and what counts as right."""

from __future__ import annotations

from coldwright.instruments.clamp import RANGES as CLAMP
from coldwright.instruments.multimeter import VOLTS_AC
from coldwright.labs.start_circuits.economy import CLOSE, SLACK

HOW = {
    "at_rest": "Think of the device cold, with no power: does spring or weight hold the contact open or closed?",
    "lets_go": "Ask what changes as the motor comes up to speed, and which of these the device can feel.",
    "found_amps": "Plug pulled, clamp on hold round cord L, plug in.",
    "part": "Go on until your readings leave one fault: compare each with what the other faults would show. A PTC that "
    "cannot cool shows itself five to ten minutes after a run of two minutes or more.",
    "wrong": "Name what your readings show of that part.",
    "remedy": "Fit a part only where a part has failed; a dead winding or a stuck rotor is not mended on this bench.",
    "start_run": "Plug pulled, clamp on hold round pin R, plug in.",
    "start_start": "Plug pulled, clamp on hold round pin S, plug in.",
    "start_common": "Plug pulled, clamp on hold round pin C, plug in; do not add the other two.",
    "running_line": "Let it run for a minute or more, then put the clamp round cord L.",
    "running_start": "Let it run for a minute or more, then put the clamp round pin S.",
    "source_ohm": "Take the volts at rest at the outlet minus the lowest volts at a start; divide by the start amps at "
    "cord L.",
    "supply": "Compare the volts at rest with the plate; a dip of a few percent at a start is normal.",
}
_CLAMP = f"±({CLAMP[0].percent:g} % of the reading + {CLAMP[0].digits} digits)"
_AMPS = f"Counts as right within what the clamp allows round what it showed, {_CLAMP}, and one digit more."
RULES = {
    "as found": _AMPS,
    "start amps": _AMPS,
    "running amps": _AMPS,
    "evidence": "Counts only if the readings on your job sheet leave this one fault and no other. Economy: the best "
    f"sequence of readings, and at most {SLACK} more for one mark, at most {CLOSE} more for the second.",
    "sag": f"Counts as right within what the meter, ±({VOLTS_AC[0].percent:g} % of the dip + {VOLTS_AC[0].digits} "
    f"digits), and the clamp, {_CLAMP}, leave open in the formula.",
}
