"""The face of a pressure gauge, drawn: a scale in bar, one in psi inside it, the needle, and the reading as text."""

from __future__ import annotations

import math
from dataclasses import dataclass
from html import escape

from coldwright.bench.cold_acts import HIGH, LOW
from coldwright.quantities import Kind, to_si

SWEEP_FROM, SWEEP_TO = 225.0, -45.0  # degrees, counted as in mathematics
RADIUS = 70.0
NUMBER_AT, LONG_TICK, TICK, PSI_AT = 0.73, 0.86, 0.94, 0.46  # of the radius


@dataclass(frozen=True)
class Face:
    """What is printed on a face: ends of the scale in bar above the air, numbered marks in bar and in psi."""

    title: str
    low_bar: float
    high_bar: float
    step_bar: float
    marks_bar: tuple[int, ...]
    marks_psi: tuple[int, ...]

    def angle(self, gauge_pa: float) -> float:
        """Where the needle points, in degrees as in mathematics; at a stop for what is beyond the scale.

        Parameters
        ----------
        gauge_pa : float
            Pressure above the air [Pa]
        """
        low, high = (to_si(bar, Kind.PRESSURE_GAUGE, "barg") for bar in (self.low_bar, self.high_bar))
        share = min(1.0, max(0.0, (gauge_pa - low) / (high - low)))
        return SWEEP_FROM + share * (SWEEP_TO - SWEEP_FROM)


FACES = {
    LOW: Face("low side", -1.0, 15.0, 1.0, (-1, 0, 5, 10, 15), (50, 100, 150, 200)),
    HIGH: Face("high side", -1.0, 40.0, 5.0, (0, 10, 20, 30, 40), (200, 400)),
}
"""The marks of the course's own drawing; beyond them the needle stands at its stop and the digits go on."""


def face_svg(side: str, x: float, y: float, value_pa: float | None, text: str) -> str:
    """A gauge as a group of a picture; nothing of its meaning is in a colour.

    Parameters
    ----------
    side : str
        Low side or high side [-]
    x, y : float
        Middle of the face in the picture [-]
    value_pa : float, optional
        What the needle points at, above the air; None for no needle [Pa]
    text : str
        The reading, or why there is none [-]
    """
    face = FACES[side]
    parts = [f'<circle r="{RADIUS:.0f}"/>', *_ticks(face), *_numbers(face)]
    if value_pa is not None and not math.isnan(value_pa):
        parts.append(_needle(face.angle(value_pa)))
    parts.append('<circle r="4" fill="currentColor"/>')
    first, _, second = text.partition(" (")
    parts += [
        _words(0, 44, face.title, "600"),
        _words(0, RADIUS + 15, first, "600"),
        _words(0, RADIUS + 29, f"({second}" if second else ""),
    ]
    title = f"<title>gauge of the {escape(side)}: {escape(text)}</title>"
    return f'<g transform="translate({x:.1f} {y:.1f})">{title}{"".join(parts)}</g>'


def _at(angle: float, radius: float) -> tuple[float, float]:
    return radius * math.cos(math.radians(angle)), -radius * math.sin(math.radians(angle))


def _ticks(face: Face) -> list[str]:
    steps = range(math.ceil(face.low_bar / face.step_bar), math.floor(face.high_bar / face.step_bar) + 1)
    lines = []
    for bar in sorted({face.low_bar, *(step * face.step_bar for step in steps)}):
        angle = face.angle(to_si(bar, Kind.PRESSURE_GAUGE, "barg"))
        (x1, y1), (x2, y2) = _at(angle, RADIUS), _at(angle, RADIUS * (LONG_TICK if bar in face.marks_bar else TICK))
        lines.append(f'<path d="M{x1:.1f} {y1:.1f}L{x2:.1f} {y2:.1f}"/>')
    return lines


def _numbers(face: Face) -> list[str]:
    outer = [(mark, "barg", RADIUS * NUMBER_AT, 10) for mark in face.marks_bar]
    inner = [(mark, "psig", RADIUS * PSI_AT, 8) for mark in face.marks_psi]
    found = []
    for mark, unit, radius, size in (*outer, *inner):
        x, y = _at(face.angle(to_si(mark, Kind.PRESSURE_GAUGE, unit)), radius)
        found.append(_words(x, y + 0.35 * size, f"{mark}".replace("-", "−"), size=size))
    return [*found, _words(0, 58, "bar, inside psi", size=8)]


def _needle(angle: float) -> str:
    (x, y), (back_x, back_y) = _at(angle, 0.9 * RADIUS), _at(angle + 180.0, 10.0)
    return f'<path class="needle" d="M{back_x:.1f} {back_y:.1f}L{x:.1f} {y:.1f}" stroke-width="2.5"/>'


def _words(x: float, y: float, words: str, weight: str = "400", size: int = 11) -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="middle" fill="currentColor" stroke="none" font-size="{size}" '
        f'font-weight="{weight}">{escape(words)}</text>'
    )
