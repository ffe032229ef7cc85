"""The sealed system as a picture: parts in a loop, two gauges with their hoses, the clip probe, the last readings."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape

from coldwright.bench.cold_acts import HIGH, LOW
from coldwright.panels.cold_seen import ColdSeen, Seen
from coldwright.panels.gauge_face import RADIUS, face_svg
from coldwright.panels.words import clock

TOP, WIDTH, HEIGHT = 14, 800, 482
GAUGES = {LOW: (285.0, 222.0), HIGH: (485.0, 222.0)}
PORTS = {LOW: 312, HIGH: 140}
LOOP = (
    "The sealed system is a loop: compressor – discharge line – condenser – liquid line – drier – capillary tube – "
    "evaporator – suction line – compressor. The port of the low side is on the suction line, that of the high side on "
    "the discharge line."
)


@dataclass(frozen=True)
class Spot:
    """Where a probe can be: its point, the place of its words, and to which side the clip hangs (x, y)."""

    x: float
    y: float
    words_y: float
    clip: tuple[float, float]


ABOVE, BELOW = (0.0, -24.0), (0.0, 26.0)
SPOTS = {
    "discharge line": Spot(160, 78, 29, BELOW),
    "condenser middle": Spot(345, 78, 29, BELOW),
    "liquid line": Spot(525, 78, 29, BELOW),
    "air in the room": Spot(630, 172, 194, ABOVE),
    "suction line": Spot(150, 390, 424, ABOVE),
    "evaporator outlet": Spot(262, 390, 424, ABOVE),
    "air in the cabinet": Spot(398, 430, 452, (-24.0, 0.0)),
    "product": Spot(515, 430, 452, (-30.0, 0.0)),
    "evaporator inlet": Spot(648, 390, 424, ABOVE),
}


def cold_svg(seen: ColdSeen) -> str:
    """The picture; all of it stands in words in its label.

    Parameters
    ----------
    seen : ColdSeen
        What can be seen of the cold side [-]
    """
    label = escape(" ".join(["Sealed system.", *seen.lines()]), quote=True)
    parts = [
        *_loop(),
        *_hoses(seen.joined),
        *(face_svg(side, *at, *_needle(seen, side)) for side, at in GAUGES.items()),
        *(_spot(place, spot, seen.probed.get(place)) for place, spot in SPOTS.items()),
        _clip(seen.probe, SPOTS[seen.probe]),
    ]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 {TOP} {WIDTH} {HEIGHT}" width="100%" role="img" '
        f'aria-label="{label}" font-family="sans-serif" font-size="11" fill="none" stroke="currentColor" '
        f'stroke-width="1.5">{"".join(parts)}</svg>'
    )


def _needle(seen: ColdSeen, side: str) -> tuple[float | None, str]:
    """Where the needle points, and the words below the face."""
    read = seen.gauges.get(side)
    if read is not None:
        return read.value, read.text
    return None, "joined, not read yet" if seen.joined else "not joined"


def _loop() -> list[str]:
    pipe = 'stroke-width="3" stroke-linejoin="round"'
    return [
        f'<path d="M90 190V78H240" {pipe}/>',
        f'<path d="{_passes(240, 450, 78, 18, 7)}" {pipe}/>',
        f'<path d="M450 78H585" {pipe}/><path d="M635 78H735V150"/>',
        '<rect x="585" y="66" width="50" height="24" rx="10"/>',
        _coil(735, 159, 9),
        '<path d="M735 264V390H630"/>',
        f'<path d="{_passes(630, 280, 390, 18, 11)}" {pipe}/>',
        f'<path d="M280 390H90V270" {pipe}/>',
        '<rect x="50" y="190" width="80" height="80" rx="26" stroke-width="2"/>',
        '<rect x="205" y="335" width="500" height="156" rx="6" stroke-dasharray="7 4"/>',
        _text(90, 234, "compressor", bold=True),
        _text(345, 124, "condenser", bold=True),
        _text(610, 108, "drier", bold=True),
        _text(708, 262, "capillary", bold=True, anchor="end"),
        _text(708, 276, "tube", bold=True, anchor="end"),
        _text(455, 362, "evaporator", bold=True),
        _text(214, 350, "cabinet", anchor="start"),
    ]


def _passes(start: float, end: float, y: float, high: float, legs: int) -> str:
    """A tube in passes: up and down round a height, from one end to the other."""
    step = (end - start) / legs
    turns = "".join(f"V{y + (high if leg % 2 else -high):.1f}H{start + (leg + 1) * step:.1f}" for leg in range(legs))
    return f"M{start:.1f} {y:.1f}{turns}V{y:.1f}"


def _coil(x: float, top: float, turns: int) -> str:
    """The capillary tube, rolled up."""
    return "".join(f'<ellipse cx="{x}" cy="{top + 12 * turn}" rx="18" ry="9"/>' for turn in range(turns))


def _hoses(joined: bool) -> list[str]:
    ports = [f'<rect x="78" y="{y - 7}" width="24" height="14" rx="3"/>' for y in PORTS.values()]
    if not joined:
        return [*ports, *(_text(72, y + 4, "port, capped", anchor="end") for y in PORTS.values())]
    (low_x, low_y), (high_x, high_y) = GAUGES[LOW], GAUGES[HIGH]
    left, top = low_x - RADIUS, high_y - RADIUS
    low = f"M102 {PORTS[LOW]}C{left - 40} {PORTS[LOW]} {left - 70} {low_y} {left} {low_y}"
    high = f"M102 {PORTS[HIGH]}H{high_x - 12}Q{high_x} {PORTS[HIGH]} {high_x} {top}"
    names = [_text(72, y + 4, "hose on", anchor="end") for y in PORTS.values()]
    return [*ports, *names, *(f'<path d="{path}" stroke-width="5" stroke-opacity="0.55"/>' for path in (low, high))]


def _spot(place: str, spot: Spot, read: Seen | None) -> str:
    lines = [_text(spot.x, spot.words_y, place)]
    if read is not None:
        lines.append(_text(spot.x, spot.words_y + 14, read.text, bold=True))
        lines.append(_text(spot.x, spot.words_y + 27, f"at {clock(read.at)}"))
    dot = f'<circle cx="{spot.x}" cy="{spot.y}" r="4" fill="currentColor" stroke="none"/>'
    return f"<g>{dot}{''.join(lines)}</g>"


def _clip(place: str, spot: Spot) -> str:
    """The clip probe: a round handle with P and its lead."""
    x, y = spot.x + spot.clip[0], spot.y + spot.clip[1]
    return (
        f"<g><title>clip probe on {escape(place)}</title>"
        f'<path d="M{spot.x} {spot.y}L{x} {y}" stroke-width="3"/>'
        f'<circle cx="{x}" cy="{y}" r="10" fill="#1f2933" stroke="white"/>'
        f'<text x="{x}" y="{y + 4}" text-anchor="middle" fill="white" stroke="none" font-weight="bold">P</text></g>'
    )


def _text(x: float, y: float, words: str, *, bold: bool = False, anchor: str = "middle") -> str:
    weight = ' font-weight="bold"' if bold else ""
    return (
        f'<text x="{x}" y="{y}" text-anchor="{anchor}" fill="currentColor" stroke="none"{weight}>{escape(words)}</text>'
    )
