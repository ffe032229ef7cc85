"""What can be wrong with a capacitor of a unit: open, shorted, low, leaky, or a wrong one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from coldwright.appliance.fault_names import FaultName, UnitFault
from coldwright.appliance.parts import Parts
from coldwright.electrical.capacitor import Capacitor, Condition
from coldwright.errors import InputError

Change = Callable[[Parts, UnitFault], Parts]


def _capacitor(which: str, new: Callable[[Capacitor, UnitFault], Capacitor]) -> Change:
    def change(parts: Parts, fault: UnitFault) -> Parts:
        old = getattr(parts, which)
        if old is None:
            raise InputError(f"{fault.name.value}: this unit has no {which.replace('_', ' ')}")
        return replace(parts, **{which: new(old, fault)})  # type: ignore[arg-type]

    return change


def _marked(which: str, factor: Callable[[UnitFault], float], volts: float = 1.0) -> Change:
    def change(parts: Parts, fault: UnitFault) -> Parts:
        old = getattr(parts, which)
        if old is None:
            raise InputError(f"{fault.name.value}: this unit has no {which.replace('_', ' ')}")
        by = factor(fault)
        marked = dict(parts.marked)
        was = marked[which]
        marked[which] = (round(was[0] * 1e6 * by) * 1e-6, was[1] * volts)
        scaled = old.farad * marked[which][0] / was[0]
        return replace(parts, marked=marked, **{which: replace(old, farad=scaled, volts_rated=old.volts_rated * volts)})

    return change


def capacitor_faults(which: str, word: str) -> dict[FaultName, Change]:
    """Changes for the faults of one of a unit's capacitors.

    Parameters
    ----------
    which : str
        Its field, such as "start_capacitor" [-]
    word : str
        Beginning of the faults' names, such as "START_CAPACITOR" [-]
    """
    named = {suffix: FaultName[f"{word}_{suffix}"] for suffix in ("OPEN", "SHORTED", "LOW", "LEAKY")}
    return {
        named["OPEN"]: _capacitor(which, lambda c, _f: replace(c, condition=Condition.OPEN)),
        named["SHORTED"]: _capacitor(which, lambda c, _f: replace(c, condition=Condition.SHORTED)),
        named["LOW"]: _capacitor(which, lambda c, f: replace(c, farad=c.farad * f.between(0.35, 0.6))),
        named["LEAKY"]: _capacitor(which, lambda c, f: replace(c, leak_ohm=f.between(800.0, 3000.0))),
        FaultName[f"{word}_WRONG_VALUE"]: _marked(which, lambda f: f.between(0.4, 0.6)),
        FaultName[f"{word}_WRONG_VOLTAGE"]: _marked(which, lambda _f: 1.0, volts=0.5),
    }
