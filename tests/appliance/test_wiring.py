"""Wirings: what the course brings, and what is refused with which words."""

from __future__ import annotations

import pytest

from coldwright.appliance.wiring import ComponentKind, Wiring, wiring_from, wirings
from coldwright.errors import InputError

COOLERS = [wiring for wiring in wirings().values() if not wiring.is_test]


def entry(**changes):
    """A small sound wiring, with parts of it changed."""
    two = {
        "name": "small",
        "components": {
            "cord": {"kind": "cord", "terminals": ["plug L", "plug N", "plug E", "cord L", "cord N", "cord E"]},
            "lamp": {"kind": "lamp", "terminals": ["lamp 1", "lamp 2"]},
            "cabinet": {"kind": "cabinet", "terminals": ["cabinet metal"]},
        },
        "nets": {
            "live": ["cord L", "lamp 1"],
            "neutral": ["cord N", "lamp 2"],
            "earth": ["cord E", "cabinet metal"],
        },
    }
    return {**two, **changes}


def test_the_course_brings_the_wirings_it_teaches():
    """Every way of starting, a frost-free and an inverter-driven cooler are there."""
    kinds = {component.kind for wiring in COOLERS for component in wiring.components}
    assert len(COOLERS) == 8
    assert kinds >= {
        ComponentKind.CURRENT_RELAY,
        ComponentKind.PTC,
        ComponentKind.POTENTIAL_RELAY,
        ComponentKind.SOLID_STATE_SWITCH,
        ComponentKind.DEFROST_TIMER,
        ComponentKind.INVERTER_BOARD,
    }


@pytest.mark.parametrize("wiring", COOLERS, ids=[wiring.name for wiring in COOLERS])
def test_every_cooler_has_what_every_cooler_has(wiring: Wiring):
    """Cord and earth, thermostat, door switch, lamp and two fans belong to each; the shell is earthed."""
    kinds = [component.kind for component in wiring.components]
    for kind in (ComponentKind.CORD, ComponentKind.THERMOSTAT, ComponentKind.DOOR_SWITCH, ComponentKind.LAMP):
        assert kinds.count(kind) == 1
    assert kinds.count(ComponentKind.FAN) == 2
    assert set(wiring.nets["earth"]) == {"cord E", "shell", "cabinet metal"}


@pytest.mark.parametrize("wiring", COOLERS, ids=[wiring.name for wiring in COOLERS])
def test_every_terminal_is_in_one_net_or_is_a_plug_or_a_probe_point(wiring: Wiring):
    """No terminal floats and none is in two nets."""
    wired = [terminal for net in wiring.nets.values() for terminal in net]
    assert len(wired) == len(set(wired))
    assert set(wiring.terminals) - set(wired) <= {"plug L", "plug N", "plug E", "board plus", "board minus"}


def test_a_sound_wiring_is_read():
    """The small one has three components, and each terminal knows its net."""
    wiring = wiring_from(entry())
    assert [component.name for component in wiring.components] == ["cord", "lamp", "cabinet"]
    assert wiring.net_of["lamp 1"] == "net live"
    assert wiring.owner("lamp 2").name == "lamp"


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"name": ""}, "a wiring has no name"),
        ({"nets": {"live": ["cord L", "lamp 1"], "earth": ["cord E", "cabinet metal"]}}, "'cord N' floats"),
        ({"nets": {"live": ["cord L"]}}, "net 'live' joins 1 terminals; a net joins two or more"),
        ({"nets": {"live": ["cord L", "lamp 3"]}}, "net 'live' has 'lamp 3', which no component has"),
        ({"nets": {"a": ["cord L", "lamp 1"], "b": ["lamp 1", "cord N"]}}, "terminal 'lamp 1' is in two nets"),
        ({"components": {"lamp": {"kind": "bulb", "terminals": []}}}, "lamp is of the kind 'bulb'; known kinds are"),
        ({"components": {"lamp": {"kind": "lamp", "terminals": ["a"]}}}, "lamp has 1 terminals; a lamp has 2: end 1"),
        (
            {"components": {n: {"kind": "lamp", "terminals": ["a", "b"]} for n in ("lamp", "other")}},
            "terminal 'a' stands twice; each terminal needs its own name",
        ),
    ],
)
def test_a_faulty_wiring_is_refused(changes, message):
    """The message names the wiring, the thing and the rule."""
    with pytest.raises(InputError, match=message.replace("'", ".").replace("(", r"\(")):
        wiring_from(entry(**changes))


def test_unknown_names_are_refused_with_those_there_are():
    """Asking for a component or a terminal that is not there lists what is."""
    wiring = wiring_from(entry())
    with pytest.raises(InputError, match=r"this unit has no 'relay'; its components are cord, lamp, cabinet"):
        wiring.component("relay")
    with pytest.raises(InputError, match=r"there is no terminal 'pin C' here; the terminals are plug L"):
        wiring.owner("pin C")


def renamed_plug():
    """The small wiring with another name on the plug's live pin."""
    terminals = ["pin L", "plug N", "plug E", "cord L", "cord N", "cord E"]
    return {**entry()["components"], "cord": {"kind": "cord", "terminals": terminals}}


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"components": 5}, "wiring 'small': components is 5; it must be a table"),
        ({"components": {"lamp": 5}}, "wiring 'small': lamp is 5; it must be a table"),
        ({"components": {"": {}}}, "wiring 'small': components: a name in it is ''; it must be text that is not empty"),
        ({"components": {"lamp": {"kind": "lamp", "terminals": "ab"}}}, "lamp is 'ab'; it must be a list of terminals"),
        (
            {"components": {"lamp": {"kind": "lamp", "terminals": ["a", " "]}}},
            "lamp: a terminal is ' '; it must be text",
        ),
        ({"components": {"lamp": {"kind": "lamp", "terminals": ["a", 2]}}}, "lamp: a terminal is 2; it must be text"),
        ({"components": {"lamp": {"kind": [], "terminals": []}}}, "lamp is of the kind []; known kinds are"),
        ({"components": renamed_plug()}, "the plug's terminals are pin L, plug N, plug E; they must be plug L, plug N"),
        ({"nets": 5}, "wiring 'small': nets is 5; it must be a table"),
        ({"nets": {"live": "cord L"}}, "net 'live' is 'cord L'; it must be a list of terminals"),
        ({"name": 5}, "a wiring: its name is 5; it must be text that is not empty"),
        ({"title": 5}, "wiring 'small': its title is 5; it must be text"),
        ({"is_test": "no"}, "wiring 'small': is_test is 'no'; it must be True or False"),
    ],
)
def test_what_is_not_of_its_kind_is_refused_in_words(changes, message):
    """No AttributeError and no TypeError: the wiring, the thing, its value and what it must be."""
    with pytest.raises(InputError) as refused:
        wiring_from(entry(**changes))
    assert message in str(refused.value)


def test_a_wiring_that_is_no_table_is_refused():
    """A number in its place is told so."""
    with pytest.raises(InputError, match="a wiring is 5; it must be a table"):
        wiring_from(5)
