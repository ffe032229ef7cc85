"""The known slips of the lab on overloads: what each gives, and the sentence a learner reads."""

from __future__ import annotations

from collections.abc import Callable

from coldwright.appliance.unit_faults import FaultName
from coldwright.labs.overloads.case import Case
from coldwright.labs.overloads.slips_dead import DEAD, opens_hot
from coldwright.labs.overloads.slips_live import LIVE
from coldwright.labs.question import Misconception

DEVICE_OPEN = (FaultName.RELAY_STUCK_OPEN, FaultName.PTC_OPEN)
OVERLOAD_FAULTS = (FaultName.OVERLOAD_OPEN, FaultName.OVERLOAD_WEAK, FaultName.OVERLOAD_WRONG)


def _word_if(applies: Callable[[Case], bool], word: str) -> Callable[[Case, str], str | None]:
    return lambda case, _name: word if applies(case) else None


def _does_its_duty(case: Case) -> bool:
    return case.truth.heard.clicked and case.fault not in OVERLOAD_FAULTS


MISCONCEPTIONS = (
    *LIVE,
    *DEAD,
    Misconception(
        "hot overload condemned",
        ("fault",),
        "An overload that opens hot and closes cold is not open for good: read it again when it is cold.",
        _word_if(opens_hot, "overload open"),
    ),
    Misconception(
        "overload blamed for its duty",
        ("fault",),
        "The clicking is the overload doing its duty: look for what keeps the current up, or the parts too hot.",
        _word_if(_does_its_duty, "overload weak"),
    ),
    Misconception(
        "seized without a start test",
        ("fault",),
        "With the start devices bypassed it starts, so the rotor is free: the start device is at fault.",
        _word_if(lambda case: case.fault in DEVICE_OPEN, "seized rotor"),
    ),
    Misconception(
        "seized for an open winding",
        ("fault",),
        "A compressor with an open start winding cannot start either: read common to start before you call it seized.",
        _word_if(lambda case: case.fault is FaultName.START_WINDING_OPEN, "seized rotor"),
    ),
    Misconception(
        "ground fault missed",
        ("fault",),
        "It runs, but its winding leaks to the shell: the insulation test condemns it before anyone is hurt.",
        _word_if(lambda case: case.fault is FaultName.GROUNDED, "no fault"),
    ),
    Misconception(
        "overload bridged",
        ("remedy",),
        "A bridged overload lets the winding burn: only a start test of three seconds, on a fused cord, goes without.",
        _word_if(lambda _case: True, "bridge the overload"),
    ),
    Misconception(
        "new overload for its duty",
        ("remedy",),
        "A new overload will click just the same: it did its duty, so put right what makes it click.",
        _word_if(_does_its_duty, "fit a new overload"),
    ),
)
