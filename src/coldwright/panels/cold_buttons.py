"""What the panel of the cold side offers beside that of a whole unit: gauges, clip probe, cylinder, scale, recovery."""

from __future__ import annotations

from collections.abc import Mapping

from coldwright.bench.cold_acts import ALL, GRAMS, HIGH, LOW, NOT_PURGED, PROBES, PURGED
from coldwright.bench.cold_bench import ColdBench
from coldwright.panels.unit_buttons import TO_THE_UNIT, WITH_INSTRUMENTS, Button, Group, Options
from coldwright.refrigerants.catalogue import NAMES

Choices = Mapping[str, Mapping[str, tuple[str, ...]]]

COLD_LISTS = {
    "probe": "Clip probe (P)",
    "cylinder": "Cylinder of",
    "let in": "Let in",
    "take out": "Take out",
}
SAID: dict[str, tuple[str, tuple[str, ...]]] = {
    "join gauges, purged": ("join gauges", (PURGED,)),
    "join gauges, not purged": ("join gauges", (NOT_PURGED,)),
    "gauge, low side": ("gauge", (LOW,)),
    "gauge, high side": ("gauge", (HIGH,)),
}
"""Buttons that do an act always on the same: the act and what it is done on."""

ON_THE_SYSTEM = (
    Group(
        "Gauge set",
        {
            "join gauges, purged": Button("Join gauges, hoses purged"),
            "join gauges, not purged": Button("Join gauges, hoses not purged"),
            "gauge, low side": Button("Read the low side"),
            "gauge, high side": Button("Read the high side"),
            "barometer": Button("Read the barometer"),
            "take off gauges": Button("Take the gauges off, caps on"),
        },
    ),
    Group(
        "Clip probe and frost",
        {
            "probe": Button("Clip it on, wait 2 minutes, read", ("probe",)),
            "frost line": Button("Look how far the frost goes"),
        },
    ),
    Group(
        "Cylinder, scale and recovery",
        {
            "tare": Button("Cylinder on the scale, set to zero"),
            "scale": Button("Read the scale"),
            "add": Button("Let refrigerant in as vapour", ("cylinder", "let in")),
            "recover": Button("Recover into a cylinder", ("take out",)),
        },
    ),
)
_BY_TITLE = {found.title: found for found in (*TO_THE_UNIT, *WITH_INSTRUMENTS)}
_WIRING = ("Parts", *(title for title in _BY_TITLE if title.startswith(("Multimeter", "Insulation"))))
ON_THE_WIRING = tuple(found for title, found in _BY_TITLE.items() if title in _WIRING)
ALWAYS = tuple(found for title, found in _BY_TITLE.items() if title not in _WIRING)
CHOOSE = "choose one"  # nothing is chosen yet
MORE = "More work on the sealed system"


def cold_options() -> dict[str, Options]:
    """What each list of the cold side offers: words and value. No cylinder is chosen for the learner."""
    return {
        "probe": [(place, place) for place in PROBES],
        "cylinder": [(CHOOSE, ""), *((name, name) for name in NAMES)],
        "let in": [(grams, grams) for grams in GRAMS],
        "take out": [(grams, grams) for grams in (*GRAMS, ALL)],
    }


def choices_of(bench: ColdBench) -> Choices:
    """What acts of its own a bench offers to choose from: by act, by label of the list; empty if it says nothing.

    Parameters
    ----------
    bench : ColdBench
        The bench, or one of a kind of its own with `choices` [-]
    """
    return getattr(bench, "choices", {})


def more_group(bench: ColdBench) -> Group:
    """The buttons of acts that only this kind of bench has, named as the acts.

    Parameters
    ----------
    bench : ColdBench
        The bench [-]
    """
    known = {SAID[name][0] if name in SAID else name for found in _all() for name in found.buttons}
    choices = choices_of(bench)
    return Group(
        MORE,
        {
            act: Button(act.capitalize(), tuple(more_name(act, label) for label in choices.get(act, {})))
            for act in bench.seconds
            if act not in known
        },
    )


def more_name(act: str, label: str) -> str:
    """Name of a list that belongs to an act of a kind of bench.

    Parameters
    ----------
    act, label : str
        Name of the act, and the label of the list [-]
    """
    return f"{act}: {label}"


def more_options(bench: ColdBench) -> dict[str, tuple[str, Options]]:
    """Label, words and values of each list for acts that only this kind of bench has, by name.

    Parameters
    ----------
    bench : ColdBench
        The bench [-]
    """
    return {
        more_name(act, label): (label, [(word or CHOOSE, word) for word in words])
        for act, lists in choices_of(bench).items()
        for label, words in lists.items()
    }


def _all() -> tuple[Group, ...]:
    return (*ON_THE_SYSTEM, *TO_THE_UNIT, *WITH_INSTRUMENTS)
