"""A wiring as a picture and in words: both show the netlist, all of it, and nothing else.

There is no published value to hold a layout against. The checks are properties of graphs (the number of rungs is
Euler's: parts - nodes + 2), ladders written out by hand from the netlist, and the picture read back with the standard
library's own XML reader.
"""

from __future__ import annotations

import re
import subprocess
import sys
from collections import Counter
from itertools import combinations
from xml.etree import ElementTree

import pytest

from coldwright.appliance.ladder_places import places
from coldwright.appliance.rungs import Rung, from_left_to_right, ladder
from coldwright.appliance.schematic import node_name, schematic_svg, schematic_text
from coldwright.appliance.schematic_parts import PARTS, Part, Symbol, parts_of
from coldwright.appliance.wiring import ROLES, TWO_ENDS, ComponentKind, Wiring, wiring_from, wirings
from coldwright.errors import InputError

SVG = "{http://www.w3.org/2000/svg}"
ALL = pytest.mark.parametrize("wiring", wirings().values(), ids=lambda wiring: wiring.name)
ENTRY = {
    "name": "lamp",
    "title": "A lamp <and> its switch",
    "components": {
        "cord": {"kind": "cord", "terminals": ["plug L", "plug N", "plug E", "cord L", "cord N", "cord E"]},
        "door switch": {"kind": "door switch", "terminals": ["door switch 1", "door switch 2"]},
        "lamp": {"kind": "lamp", "terminals": ["lamp 1", "lamp 2"]},
        "cabinet": {"kind": "cabinet", "terminals": ["cabinet metal"]},
    },
    "nets": {
        "live": ["cord L", "door switch 1"],
        "lamp wire": ["door switch 2", "lamp 1"],
        "neutral": ["lamp 2", "cord N"],
        "earth": ["cord E", "cabinet metal"],
    },
}


def written(svg: str) -> list[str]:
    """Every piece of writing in the picture, its lines joined; what screen readers get is left out."""
    return [" ".join(text.itertext()) for text in ElementTree.fromstring(svg).iter(f"{SVG}text")]


def rungs_text(wiring: Wiring) -> list[str]:
    """The lines of the rungs in words."""
    words = schematic_text(wiring).partition("What each net joins:")[0]
    return [line.removeprefix("- ") for line in words.splitlines() if line.startswith("- ")]


def test_the_words_of_a_lamp_and_its_switch() -> None:
    """The whole text of four components, written by hand from the netlist."""
    assert schematic_text(wiring_from(ENTRY)) == (
        "A lamp <and> its switch. Names in square brackets are nets: all that is joined by wire.\n"
        "From live to neutral:\n"
        "- plug L – cord – [live] – door switch – [lamp wire] – lamp – [neutral] – cord – plug N\n"
        "Apart from these:\n"
        "- plug E – cord – [earth] – cabinet\n"
        "What each net joins:\n"
        "- [live]: cord L, door switch 1\n"
        "- [lamp wire]: door switch 2, lamp 1\n"
        "- [neutral]: lamp 2, cord N\n"
        "- [earth]: cord E, cabinet metal\n"
    )


def test_the_ladder_of_a_current_relay() -> None:
    """Capacitor start with a current relay, followed by hand in the netlist: the compressor first, the lamp last."""
    assert rungs_text(wirings()["capacitor start, current relay"]) == [
        "plug L – cord – [live] – thermostat – [after thermostat] – overload – [common] – compressor, run winding – "
        "[run] – relay, coil – [neutral] – cord – plug N",
        "[common] – compressor, start winding – [start] – start capacitor – [relay to capacitor] – relay, contact – "
        "[neutral]",
        "[after thermostat] – condenser fan – [neutral]",
        "[after thermostat] – evaporator fan – [neutral]",
        "[live] – door switch – [lamp wire] – lamp – [neutral]",
        "plug E – cord – [earth] – cabinet",
        "[earth] – compressor, shell",
    ]


def test_a_coil_between_two_nets_in_the_middle() -> None:
    """A potential relay's coil lies across the start winding, from common to start, not from live to neutral."""
    assert "[common] – relay, coil – [start]" in rungs_text(wirings()["capacitor start, capacitor run"])


@pytest.mark.parametrize("kind", ComponentKind)
def test_every_kind_has_parts_that_reach_all_its_terminals(kind: ComponentKind) -> None:
    """No kind of component is left out, and no terminal of one hangs loose in the picture."""
    reached = {role for part in PARTS[kind] for role in (part.a, part.b) if not role.startswith("*")}

    assert reached == set(ROLES.get(kind, TWO_ENDS))


@ALL
def test_every_part_stands_in_one_rung_between_its_own_nets(wiring: Wiring) -> None:
    """Each part is drawn once, and its neighbours in the rung are the nets that its terminals are wired to."""
    rungs = [rung for rungs in ladder(wiring) for rung in rungs]
    drawn = [part for rung in rungs for part in rung.parts]

    assert Counter(drawn) == Counter(parts_of(wiring))
    for rung in rungs:
        for part, *beside in zip(rung.parts, rung.nodes, rung.nodes[1:], strict=False):
            assert sorted(beside) == sorted(part.nodes)
            for terminal, node in zip(part.terminals, part.nodes, strict=True):
                assert not terminal or terminal in wiring.nets.get(node, (node,))


@ALL
def test_the_number_of_rungs_is_eulers(wiring: Wiring) -> None:
    """Each rung after the first closes one loop, so the mains circuit has parts - nodes + 2 rungs."""
    rungs = ladder(wiring)[0]
    nodes = {node for rung in rungs for node in rung.nodes}

    assert len(rungs) == sum(len(rung.parts) for rung in rungs) - len(nodes) + 2
    assert (rungs[0].nodes[0], rungs[0].nodes[-1]) == ("plug L", "plug N")


@ALL
def test_no_line_runs_into_another(wiring: Wiring) -> None:
    """Every rung goes from left to right, and upright lines in one column keep to rows of their own."""
    for rungs in ladder(wiring):
        at = places(rungs)
        for row, rung in enumerate(rungs):
            columns = [at[node].column for node in rung.nodes]
            assert columns == sorted(set(columns))
            assert all(row in at[node].rows for node in rung.nodes)
        for a, b in combinations(at.values(), 2):
            shared = set(range(a.top, a.bottom + 1)) & set(range(b.top, b.bottom + 1))
            assert a.column != b.column or not shared


def test_a_node_gives_way_to_a_long_one_in_its_column() -> None:
    """By hand: b reaches from the first row to the third, so c in the second row goes one column further right."""
    wire = Part("", Symbol.WIRE)
    rungs = [Rung(("a", "b", "z"), (wire, wire)), Rung(("a", "c", "z"), (wire, wire)), Rung(("b", "z"), (wire,))]

    assert {node: place.column for node, place in places(rungs).items()} == {"a": 0, "b": 1, "c": 2, "z": 3}


def test_a_rung_that_would_lead_back_is_turned() -> None:
    """By hand: c lies right of b, so the rung c, x, b becomes b, x, c; one that leads on stays."""
    wire = Part("", Symbol.WIRE)
    first = Rung(("a", "b", "c", "d"), (wire,) * 3)
    back, on = Rung(("c", "x", "b"), (wire,) * 2), Rung(("x", "d"), (wire,))

    assert from_left_to_right([first, back, on]) == (first, Rung(("b", "x", "c"), (wire,) * 2), on)


@ALL
def test_every_component_and_net_is_in_both(wiring: Wiring) -> None:
    """Names are in the words, and written in the picture itself: each net once, each part's label as often as it is."""
    words, svg = schematic_text(wiring), schematic_svg(wiring)
    seen = Counter(written(svg))

    for net, joined in wiring.nets.items():
        assert seen[net] == 1
        assert f"- [{net}]: {', '.join(joined)}\n" in words
    for component in wiring.components:
        assert any(text.split(",")[0].startswith(component.name) for text in seen)
        assert re.search(rf"– {component.name}\b", words)
    labels = Counter(part.label.replace(",", "") for part in parts_of(wiring) if "*motor side" not in part.nodes[0])
    assert {label: seen[label] for label in labels} == labels


@ALL
def test_the_picture_suits_any_page_and_reader(wiring: Wiring) -> None:
    """Well-formed; title and words for screen readers; only the colour of the text around it; nothing from outside."""
    svg = schematic_svg(wiring)
    root = ElementTree.fromstring(svg)

    assert root.get("role") == "img"
    assert [child.tag for child in root[:2]] == [f"{SVG}title", f"{SVG}desc"]
    assert root[0].text == f"Schematic: {wiring.title}"
    assert (root[1].text or "").split() == schematic_text(wiring).split()
    colours = {c.lower() for c in re.findall(r"(?:stroke|fill)(?:=\"|:)\s*([^;\"]+)", svg)}
    assert colours == {"currentcolor", "none"}
    assert set(re.findall(r'font-family="([^"]*)"', svg)) == {"sans-serif"}
    assert not re.search(r"url\(|href=|<script|<image|@import", svg)


def test_the_title_is_escaped() -> None:
    """A title with < and > stays text."""
    assert "<title>Schematic: A lamp &lt;and&gt; its switch</title>" in schematic_svg(wiring_from(ENTRY))


def test_symbols_of_a_lamp_circuit() -> None:
    """By hand: a lamp is a circle with a cross; three plug pins are rings; no dot, as no wire branches."""
    root = ElementTree.fromstring(schematic_svg(wiring_from(ENTRY)))
    radii = Counter(round(float(circle.get("r", "0")), 1) for circle in root.iter(f"{SVG}circle"))

    assert sorted(radii.values()) == [1, 3]
    assert radii[max(radii)] == 1


def test_the_same_bytes_from_another_process() -> None:
    """Two processes with different hash seeds draw the same bytes."""
    program = "from coldwright.appliance.schematic import schematic_svg as s; from coldwright.appliance.wiring import "
    program += "wirings; import sys; sys.stdout.buffer.write(s(wirings()['frost-free']).encode())"
    environment = {"PYTHONPATH": ":".join(path for path in sys.path if path)}
    drawn = [
        subprocess.run(
            [sys.executable, "-c", program],
            env={**environment, "PYTHONHASHSEED": seed},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    ]

    assert drawn[0] == drawn[1] == schematic_svg(wirings()["frost-free"]).encode()


def test_a_point_inside_a_component_has_a_name_or_none() -> None:
    """The star point of an inverter's motor is named; the inside of a frame is not; a net is its own name."""
    assert node_name("compressor *star") == "compressor, star point"
    assert node_name("cabinet *metal") == ""
    assert node_name("live") == "live"


def changed(**entry: object) -> Wiring:
    """The lamp circuit with some tables changed."""
    return wiring_from({**ENTRY, **entry})


def test_without_a_cord_there_is_nothing_to_draw_between() -> None:
    """The message names the wiring and what is missing."""
    components = {"lamp": ENTRY["components"]["lamp"], "fan": {"kind": "fan", "terminals": ["fan 1", "fan 2"]}}
    wiring = changed(components=components, nets={"a": ["lamp 1", "fan 1"], "b": ["lamp 2", "fan 2"]})

    with pytest.raises(InputError, match=r"wiring 'lamp' has no cord, so there is no live and no neutral"):
        schematic_text(wiring)


def test_no_way_from_live_to_neutral_is_named() -> None:
    """The message names both pins of the plug and asks for the net."""
    components = {name: value for name, value in ENTRY["components"].items() if name != "lamp"}
    nets = {
        "live": ["cord L", "door switch 1"],
        "dead end": ["door switch 2", "cabinet metal"],
        "neutral": ["cord N", "cord E"],
    }

    with pytest.raises(
        InputError, match=r"no way leads from 'plug L' through components to 'plug N'\. Is a net missing"
    ):
        schematic_svg(changed(components=components, nets=nets))


def test_a_bridged_part_is_named() -> None:
    """Both ends in one net: the message names the wiring, the part and the net."""
    nets = {
        "live": ["cord L", "door switch 1"],
        "neutral": ["door switch 2", "lamp 1", "lamp 2", "cord N"],
        "earth": ["cord E", "cabinet metal"],
    }

    with pytest.raises(
        InputError, match=r"'lamp': both ends of lamp are in net 'neutral', so it is bridged\. Which of"
    ):
        schematic_text(changed(nets=nets))
