"""The best next test: which reading tells most about which fault it is, and what the readings of a sheet leave open.

Every fault that the model can have is taken as likely as any other. A reading splits the faults into groups whose
ranges do not meet; the best next one takes away the most doubt (information gain, C. E. Shannon, 1948, from memory).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from functools import lru_cache

from coldwright.appliance.unit_faults import FaultName
from coldwright.labs.start_circuits.readings import LATER, Diagnostic, Shows
from coldwright.labs.start_circuits.table import table

Faults = frozenset[FaultName]
Row = Mapping[FaultName, tuple[Shows, ...]]
SLACK = 3  # readings that a learner may take beyond the best sequence
CLOSE = 1  # and for the second mark
LEAST_GAIN = 1e-9


def can_meet(one: Iterable[Shows], other: Iterable[Shows]) -> bool:
    """Whether two faults can show the same on a reading.

    Parameters
    ----------
    one, other : iterable of Shows
        What each can show [-]
    """
    others = tuple(other)
    return any(a.meets(b) for a in one for b in others)


def groups(row: Row, faults: Faults) -> list[Faults]:
    """Groups of faults that a reading tells apart for certain; inside a group it may or may not.

    Parameters
    ----------
    row : mapping
        What each fault can show on that reading [-]
    faults : frozenset of FaultName
        Faults still possible [-]
    """
    left = sorted(faults, key=lambda fault: fault.name)
    found: list[set[FaultName]] = []
    for fault in left:
        touching = [group for group in found if any(can_meet(row[fault], row[other]) for other in group)]
        found = [group for group in found if group not in touching]
        found.append({fault}.union(*touching))
    return [frozenset(group) for group in found]


def gain(parts: Iterable[Faults]) -> float:
    """Doubt that a split takes away.

    Parameters
    ----------
    parts : iterable of frozenset
        The groups that a reading leaves [-]

    Returns
    -------
    float
        Gain of information [bit]
    """
    sizes = [len(part) for part in parts]
    total = sum(sizes)
    return -sum(size / total * math.log2(size / total) for size in sizes)


def free_start(model: str) -> list[Diagnostic]:
    """Readings that everyone takes: looking, listening and what the lab asks for.

    Parameters
    ----------
    model : str
        The model [-]
    """
    return [test for test in table(model) if not test.paid and test.when != LATER]


def best_next(model: str, faults: Faults) -> Diagnostic | None:
    """The reading that takes away most doubt; None where none takes away any.

    Parameters
    ----------
    model : str
        The model [-]
    faults : frozenset of FaultName
        Faults still possible [-]
    """
    tests = [(gain(groups(row, faults)), test) for test, row in table(model).items() if test.paid]
    most = max(value for value, _ in tests)
    return next(test for value, test in tests if value == most) if most > LEAST_GAIN else None


@lru_cache(maxsize=1024)
def best_sequence(model: str, fault: FaultName) -> tuple[Diagnostic, ...]:
    """Readings that single out a fault, each the best next one, after those that everyone takes.

    Parameters
    ----------
    model : str
        The model [-]
    fault : FaultName
        What is wrong [-]
    """
    shown = table(model)
    left = _left(model, fault, ())
    taken: list[Diagnostic] = []
    while len(left) > 1 and (test := best_next(model, left)) is not None:
        left = _with(groups(shown[test], left), fault)
        taken.append(test)
    return tuple(taken)


def best_tests(model: str, fault: FaultName) -> tuple[Diagnostic, ...]:
    """The best sequence, and with it what no one should go without who condemns a relay's contact or a compressor.

    Not being heard proves nothing of a contact: its coil, the contact itself and a start test do. A stuck rotor is
    shown by a start test, a dead winding by its ohms.

    Parameters
    ----------
    model : str
        The model [-]
    fault : FaultName
        What is wrong [-]
    """
    found = best_sequence(model, fault)
    proof = tuple(test for test in table(model) if _proves(test, fault))
    if proof and _left(model, fault, proof) == {fault}:
        return proof
    return (*found, *(test for test in proof if test not in found))


def _proves(test: Diagnostic, fault: FaultName) -> bool:
    started, ohms = test.act == "start test", test.act == "ohms"
    return {
        FaultName.RELAY_STUCK_OPEN: started or (ohms and test.off == ("relay",)),
        FaultName.SEIZED: started,
        FaultName.START_WINDING_OPEN: ohms and test.on == ("pin C", "pin S"),
        FaultName.RUN_WINDING_OPEN: ohms and test.on == ("pin C", "pin R"),
    }.get(fault, False)


def _left(model: str, fault: FaultName, tests: Iterable[Diagnostic]) -> Faults:
    """Faults that cannot be told from one for certain by what everyone reads and by these tests."""
    shown = table(model)
    left: Faults = frozenset(next(iter(shown.values())))
    for test in (*free_start(model), *tests):
        left = _with(groups(shown[test], left), fault)
    return left


def _with(parts: Iterable[Faults], fault: FaultName) -> Faults:
    return next(part for part in parts if fault in part)


def left_open(model: str, shown: Iterable[tuple[Diagnostic, Shows]]) -> Faults:
    """Faults that all these readings leave possible.

    Parameters
    ----------
    model : str
        The model [-]
    shown : iterable
        Readings, each with what the instrument showed [-]
    """
    rows = table(model)
    left: Faults = frozenset(next(iter(rows.values())))
    for test, show in shown:
        left = frozenset(fault for fault in left if can_meet(rows[test][fault], (show,)))
    return left
