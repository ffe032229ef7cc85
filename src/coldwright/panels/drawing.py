"""A plain drawing of the bench as it stands: cord, connector, three pins, shell, capacitor, and where the tips are."""

from __future__ import annotations

from html import escape

from coldwright.bench.compressor_bench import CompressorBench
from coldwright.panels.words import TERMINAL_WORDS, tips_words

WIDTH, HEIGHT = 710, 300
PLACES = {
    "L": (190, 70),
    "N": (190, 120),
    "earth": (190, 170),
    "1": (500, 112),
    "2": (468, 168),
    "3": (532, 168),
    "shell": (612, 150),
    "cap a": (306, 214),
    "cap b": (350, 214),
}
INK = "currentColor"
RED, BLACK = "#b3261e", "#1f2933"


def drawing(bench: CompressorBench, tips: tuple[str, str]) -> str:
    """The bench as SVG; its words stand in the picture's label.

    Parameters
    ----------
    bench : CompressorBench
        The bench [-]
    tips : tuple of str
        Terminal of the red tip and of the black one [-]
    """
    parts = [
        _plug(bench.plugged),
        _strip(),
        _shell(),
        _connector(bench.connected),
        _capacitor("inverter board" if bench.unit.plate.is_inverter else "start capacitor"),
        _gauge() if bench.under_vacuum else "",
        *(_point(name) for name in PLACES),
        _tip(tips[0], "R", RED, -1),
        _tip(tips[1], "B", BLACK, 1),
    ]
    label = escape(f"{_state(bench)} {tips_words(tips)}", quote=True)
    return (
        f'<svg role="img" aria-label="{label}" viewBox="0 0 {WIDTH} {HEIGHT}" xmlns="http://www.w3.org/2000/svg" '
        f'style="width:100%;max-width:{WIDTH}px;height:auto;display:block" font-family="sans-serif" font-size="13" '
        f'fill="none" stroke="{INK}" stroke-width="2" stroke-linejoin="round">{"".join(parts)}</svg>'
    )


def _state(bench: CompressorBench) -> str:
    plug = "plugged in" if bench.plugged else "plug pulled and locked off"
    connector = "connector on the three pins" if bench.connected else "connector off, three bare pins"
    return f"The bench: {plug}; {connector}{'; a gauge shows vacuum' if bench.under_vacuum else ''}."


def _text(x: float, y: float, words: str, anchor: str = "middle", extra: str = "") -> str:
    return f'<text x="{x}" y="{y}" text-anchor="{anchor}" fill="{INK}" stroke="none" {extra}>{escape(words)}</text>'


def _plug(plugged: bool) -> str:
    """Wall socket and plug; pulled, it hangs apart with a padlock on it."""
    socket = '<rect x="14" y="92" width="26" height="56" rx="3"/>' + _text(27, 168, "supply")
    x = 46 if plugged else 84
    plug = f'<path d="M{x} 106h26v28h-26z M{x} 113h-6 M{x} 127h-6 M{x + 26} 120H170"/>'
    if plugged:
        return socket + plug + _text(62, 80, "plugged in")
    lock = '<rect x="86" y="140" width="22" height="18" rx="2"/><path d="M90 140v-6a7 7 0 0 1 14 0v6"/>'
    return socket + plug + lock + _text(97, 80, "pulled,") + _text(97, 94, "locked off")


def _strip() -> str:
    words = (("L", "L"), ("N", "N"), ("earth", "earth"))
    labels = "".join(_text(PLACES[name][0] + 14, PLACES[name][1] + 5, word, "start") for name, word in words)
    return '<rect x="170" y="46" width="84" height="148" rx="4"/>' + _text(212, 212, "end of the cord") + labels


def _shell() -> str:
    """The compressor's shell with its round plate of pins."""
    shell = '<path d="M372 236V128a128 104 0 0 1 256 0v108a128 34 0 0 1-256 0z"/>'
    return shell + '<circle cx="500" cy="149" r="62"/>' + _text(500, 256, "compressor")


def _connector(connected: bool) -> str:
    bundle = "M254 108 C300 100 330 104 {x} {y} M254 120 C300 112 330 116 {x} {z} M254 132 C300 124 330 128 {x} {w}"
    if connected:
        cap = '<rect x="440" y="94" width="120" height="108" rx="8" stroke-dasharray="7 4"/>'
        wires = bundle.format(x=440, y=136, z=148, w=160)
        return f'{cap}<path d="{wires}"/>' + _text(500, 80, "connector on")
    cap = '<path d="M318 88h40l8 10v44l-8 10h-40z" stroke-dasharray="7 4"/>'
    wires = bundle.format(x=318, y=108, z=120, w=132)
    return f'{cap}<path d="{wires}"/>' + _text(338, 78, "connector off")


def _capacitor(words: str) -> str:
    can = '<rect x="288" y="226" width="80" height="44" rx="10"/><path d="M306 226v-12M350 226v-12"/>'
    return can + _text(328, 288, words) + _text(306, 247, "a") + _text(350, 247, "b")


def _gauge() -> str:
    """The gauge on the process tube, its needle down at vacuum."""
    dial = '<circle cx="674" cy="70" r="24"/><path d="M674 70l-14 12M674 94V200H628"/>'
    return dial + _text(674, 24, "gauge:") + _text(674, 39, "vacuum")


def _point(name: str) -> str:
    x, y = PLACES[name]
    circle = f'<circle cx="{x}" cy="{y}" r="5" fill="{INK}"/>'
    if name in ("1", "2", "3"):
        return circle + _text(x, y + 22, name, extra='font-weight="bold" font-size="16"')
    return circle + (_text(x - 12, y + 5, "shell", "end") if name == "shell" else "")


def _tip(name: str, letter: str, colour: str, side: int) -> str:
    """A tip: red is a round handle with R, black a square one with B, so that colour is not needed to tell them."""
    x, y = PLACES[name]
    hx, hy = x + 22 * side, y - 26
    if letter == "R":
        handle = f'<circle cx="{hx}" cy="{hy}" r="11" fill="{colour}" stroke="white"/>'
    else:
        handle = f'<rect x="{hx - 10}" y="{hy - 10}" width="20" height="20" rx="2" fill="{colour}" stroke="white"/>'
    title = f"<title>{'red' if letter == 'R' else 'black'} tip on {escape(TERMINAL_WORDS[name])}</title>"
    lead = f'<path d="M{x} {y}L{hx} {hy}" stroke="{colour if letter == "R" else INK}" stroke-width="4"/>'
    letters = f'<text x="{hx}" y="{hy + 5}" text-anchor="middle" fill="white" stroke="none">{letter}</text>'
    return f"<g>{title}{lead}{handle}{letters}</g>"
