"""The sealed system's picture and gauge faces: true to the scale, no more than was read, all of it in words."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from xml.etree import ElementTree

import pytest

from coldwright.bench.cold_acts import HIGH, LOW, PROBES
from coldwright.panels.cold_desk import ColdDesk
from coldwright.panels.cold_drawing import SPOTS, cold_svg
from coldwright.panels.cold_panel import ColdPanel
from coldwright.panels.cold_seen import cold_seen
from coldwright.panels.gauge_face import FACES, face_svg
from tests.panels.cold_benches import click, clicked, cold_bench

PSI_PA = 6_894.757  # NIST SP 811 (2008), appendix B.8: 1 psi (from memory)
SVG = "{http://www.w3.org/2000/svg}"


def needle(svg: str) -> float | None:
    """Angle of the first needle in a picture, in degrees as in mathematics, from its drawn ends."""
    found = re.search(r'class="needle" d="M(\S+) (\S+)L(\S+) (\S+)"', svg)
    if found is None:
        return None
    x1, y1, x2, y2 = map(float, found.groups())
    return math.degrees(math.atan2(y1 - y2, x2 - x1)) % 360


def mark(svg: str, number: str, size: int) -> float:
    """Angle at which a number is printed on a face."""
    found = re.search(rf'<text x="(\S+)" y="(\S+)" [^>]*font-size="{size}"[^>]*>{number}<', svg)
    assert found
    x, y = float(found[1]), float(found[2]) - 0.35 * size
    return math.degrees(math.atan2(-y, x)) % 360


@pytest.mark.parametrize(
    ("side", "pascal", "number", "size"),
    [
        (LOW, 5e5, "5", 10),
        (LOW, 0.0, "0", 10),
        (LOW, -1e5, "−1", 10),
        (LOW, 100 * PSI_PA, "100", 8),
        (LOW, 200 * PSI_PA, "200", 8),
        (HIGH, 0.0, "0", 10),
        (HIGH, 20e5, "20", 10),
        (HIGH, 40e5, "40", 10),
        (HIGH, 400 * PSI_PA, "400", 8),
    ],
)
def test_the_needle_points_at_the_number_printed(side: str, pascal: float, number: str, size: int) -> None:
    """A pressure of so many bar or psi puts the needle on that number, within a degree."""
    svg = face_svg(side, 0, 0, pascal, "text")

    angle = needle(svg)
    assert angle is not None
    assert angle == pytest.approx(mark(svg, number, size), abs=1.0)


def test_the_needle_by_hand() -> None:
    """Half way between the ends it points straight up; at the ends and beyond it stands at 225° and 315°."""
    assert FACES[LOW].angle(7e5) == pytest.approx(90.0)  # -1 to 15 bar: the middle is 7
    assert FACES[HIGH].angle(19.5e5) == pytest.approx(90.0)  # -1 to 40 bar
    for face in FACES.values():
        assert [face.angle(p) for p in (-2e5, -1e5, 9e7, math.inf)] == pytest.approx([225.0, 225.0, -45.0, -45.0])
    assert FACES[LOW].angle(-0.5e5) > FACES[LOW].angle(0.0)


def test_no_needle_without_a_number() -> None:
    """A gauge not read, or with no number to show, has no needle; its words stand below it and in its title."""
    for value in (None, math.nan):
        svg = face_svg(LOW, 0, 0, value, "joined, not read yet")
        assert needle(svg) is None
        assert svg.count("joined, not read yet") == 2


def test_nothing_is_seen_that_was_not_read() -> None:
    """Needles come with a reading, stay as read while time passes, and go when the hoses are joined or taken off."""
    panel = ColdPanel(cold_bench())
    drawn = []

    def look() -> None:
        drawn.append((panel._loop.value.count('class="needle"'), panel.seen.gauge_words(LOW)))

    look()
    clicked(panel, [("join gauges", ("purged",)), ("plug in", ())])
    look()
    click(panel, "gauge", (LOW,))
    read = panel.bench.taken[-1]
    assert needle(panel._loop.value) == pytest.approx(FACES[LOW].angle(read.display.value) % 360, abs=0.5)
    look()
    click(panel, "wait", ("5 min",))
    look()
    click(panel, "take off gauges")
    look()

    as_read = f"{read.display.text} at 0:02:40"  # two minutes for the hoses, 30 s for the plug, 10 s to read
    assert drawn == [(0, "not joined"), (0, "joined, not read yet"), (1, as_read), (1, as_read), (0, "not joined")]


def test_a_gauge_read_with_its_hose_off_says_so() -> None:
    """Its words say that it shows the air."""
    panel = clicked(ColdPanel(cold_bench()), [("gauge", (HIGH,))])

    assert panel.seen.gauge_words(HIGH).endswith("at 0:00:10, its hose open to the air")


def test_all_of_the_picture_stands_in_words() -> None:
    """Label, lines below the picture and text of the panel hold every gauge, the probe's place and its readings."""
    panel = clicked(
        ColdPanel(cold_bench()),
        [("join gauges", ("purged",)), ("gauge", (HIGH,)), ("probe", ("liquid line",)), ("probe", ("product",))],
    )
    lines = panel.seen.lines()
    text = panel.text()

    assert [line.split(":")[0] for line in lines] == [
        "Gauge of the low side",
        "Gauge of the high side",
        "The clip probe is on",
        "Last readings of the probe",
    ]
    assert all(line in text for line in lines)
    picture = ElementTree.fromstring(cold_svg(panel.seen))
    assert all(line in picture.attrib["aria-label"] for line in lines)
    written = " ".join("".join(each.itertext()) for each in picture.iter(f"{SVG}text"))
    for taken in panel.bench.taken:
        assert taken.display.text.split(" (")[0] in written
        assert taken.display.text in " ".join(lines)


def test_the_last_reading_of_a_place_counts() -> None:
    """Read again later, a place shows the later reading with its time, once."""
    panel = clicked(ColdPanel(cold_bench()), [("probe", ("product",)), ("wait", ("1 min",)), ("probe", ("product",))])

    assert panel.seen.probed["product"].at == 300
    assert panel._loop.value.count("at 0:05:00</text>") == 1
    assert "at 0:02:00" not in panel._loop.value


def test_the_clip_is_where_it_was_put() -> None:
    """Chosen in the list or read by name, the clip and the words follow."""
    desk = ColdDesk(cold_bench())
    panel = desk.panel
    assert isinstance(panel, ColdPanel)
    panel.lists["probe"].value = "liquid line"
    assert "<title>clip probe on liquid line</title>" in panel._loop.value
    assert "The clip probe is on: liquid line." in panel.text()
    desk.probe("product")

    assert "<title>clip probe on product</title>" in panel._loop.value
    assert panel._loop.value.count("<title>clip probe on") == 1


def test_hoses_are_drawn_while_they_are_on() -> None:
    """Each port says whether its hose is on or its cap."""
    bench = cold_bench()
    counts = []
    for act, on in (("barometer", ()), ("join gauges", ("purged",)), ("take off gauges", ())):
        bench.perform(act, on)
        svg = cold_svg(cold_seen(bench, "product"))
        counts.append((svg.count(">port, capped<"), svg.count(">hose on<")))

    assert counts == [(2, 0), (0, 2), (2, 0)]


def corners(element: ElementTree.Element, x: float = 0.0, y: float = 0.0) -> Iterator[tuple[float, float]]:
    """Where each text of a picture stands, groups moved as they are."""
    moved = re.match(r"translate\((\S+) (\S+)\)", element.get("transform", ""))
    if moved:
        x, y = x + float(moved[1]), y + float(moved[2])
    if element.tag == f"{SVG}text":
        yield x + float(element.attrib["x"]), y + float(element.attrib["y"])
    for child in element:
        yield from corners(child, x, y)


def test_the_picture_is_well_formed_and_holds_its_words() -> None:
    """It reads as XML with every probe read; each text stands inside, and no two on one spot; no fill but ink."""
    bench = cold_bench()
    for place in PROBES:
        bench.perform("probe", (place,))
    svg = cold_svg(cold_seen(bench, "product"))
    picture = ElementTree.fromstring(svg)
    left, top, width, height = map(float, picture.attrib["viewBox"].split())
    spots = list(corners(picture))

    assert set(SPOTS) == set(PROBES)
    assert all(left < x < left + width and top + 8 < y < top + height for x, y in spots)
    assert len(set(spots)) == len(spots)
    assert set(re.findall(r'(?:stroke|fill)="([^"]+)"', svg)) == {"none", "currentColor", "white", "#1f2933"}
