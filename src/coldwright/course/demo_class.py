"""The demo class: one invented learner for each way of working, wrong turn and trick that marking must cope with."""

from __future__ import annotations

from collections.abc import Callable

from coldwright.appliance.compressor import PINS
from coldwright.bench.compressor_bench import CompressorBench
from coldwright.course.demo_work import Profile, Work
from coldwright.course.learners import (
    Habits,
    K,
    Notes,
    answers_from,
    largest,
    lowest_pair,
    rise_pair,
    take_readings,
)
from coldwright.electrical.windings import REFERENCE_K, resistance_at
from coldwright.instruments.display import Display, Range
from coldwright.instruments.multimeter import OHMS
from coldwright.labs.winding_checks.case import PAIR_NAMES
from coldwright.quantities.constants import ICE_POINT_K

Answers = dict[str, str]


def _right(bench: CompressorBench, _spare: CompressorBench) -> Work:
    return Work(answers_from(bench, take_readings(bench, Habits())))


_SPELLINGS = {
    "good": "OK",
    "open winding": "Winding open",
    "open internal protector": "protector open",
    "shorted turns": "Shorted winding",
    "grounded": "earth fault",
    "holds": "it holds",
    "does not apply": "not applicable",
    "cannot be tested": "can't be tested",
    "cannot tell": "can't tell",
    "none": "None",
    "OL": "over range",
}


def _other_units(bench: CompressorBench, _spare: CompressorBench) -> Work:
    answers = answers_from(bench, take_readings(bench, Habits()))
    changed = {}
    for name, text in answers.items():
        number, _, unit = text.partition(" ")
        if text in _SPELLINGS:
            changed[name] = _SPELLINGS[text]
        elif text in PINS:
            changed[name] = f"Pin {text}"
        elif unit in ("ohm", "Ω"):
            changed[name] = f"{float(number) / 1000:.7f} kΩ" if name.startswith("res") else f"{float(number) * 1e3} mΩ"
        elif unit == "K":
            changed[name] = f"{float(number) * 9 / 5:.1f} °F".replace(".", ",")
        else:
            changed[name] = f"{float(number) / 1000:.6f} GΩ"
    return Work(changed)


def _slip(
    change: Callable[[CompressorBench, Notes, Answers], Answers], habits: Habits | None = None
) -> Callable[..., Work]:
    """A person who works well and makes one slip in what they write down."""

    def works(bench: CompressorBench, _spare: CompressorBench) -> Work:
        notes = take_readings(bench, habits or Habits())
        answers = answers_from(bench, notes)
        return Work({**answers, **change(bench, notes, answers)})

    return works


def _warm(_bench: CompressorBench, notes: Notes, _answers: Answers) -> Answers:
    return {name: notes.hot[pair].text for name, pair in PAIR_NAMES.items()}


def _connector_on(bench: CompressorBench, _notes: Notes, _answers: Answers) -> Answers:
    bench.reconnect()
    shown = {name: bench.ohms(*pair).display for name, pair in PAIR_NAMES.items()}
    return {name: display.text for name, display in shown.items() if display is not None}


def _common_from_lowest(_bench: CompressorBench, notes: Notes, _answers: Answers) -> Answers:
    (pin,) = set(PINS) - set(lowest_pair(notes))
    return {"common": pin}


def _swapped(_bench: CompressorBench, _notes: Notes, answers: Answers) -> Answers:
    return {"run": answers["start"], "start": answers["run"]}


def _low(notes: Notes) -> float:
    return notes.cold[lowest_pair(notes)].value


def _not_corrected(_bench: CompressorBench, notes: Notes, _answers: Answers) -> Answers:
    return {"resistance_at_20": f"{_low(notes):.4f} ohm"}


def _wrong_way(_bench: CompressorBench, notes: Notes, _answers: Answers) -> Answers:
    return {"resistance_at_20": f"{resistance_at(_low(notes), REFERENCE_K, notes.room_k):.4f} ohm"}


def _fahrenheit(_bench: CompressorBench, notes: Notes, _answers: Answers) -> Answers:
    room_f = (notes.room_k - ICE_POINT_K) * 9 / 5 + 32
    return {"resistance_at_20": f"{_low(notes) * (K + 20) / (K + room_f):.4f} ohm"}


def _rise_of(answers: Answers) -> float:
    return float(answers["temperature_rise"].removesuffix(" K"))


def _hot_for_rise(_bench: CompressorBench, notes: Notes, answers: Answers) -> Answers:
    return {"temperature_rise": f"{_rise_of(answers) + notes.room_k - ICE_POINT_K:.1f} K"}


def _over_hot(_bench: CompressorBench, notes: Notes, _answers: Answers) -> Answers:
    pair = rise_pair(notes)
    hot, cold = notes.hot[pair].value, notes.cold[pair].value
    return {"temperature_rise": f"{(hot - cold) / hot * (K + notes.room_k - ICE_POINT_K):.1f} K"}


def _rise_fahrenheit(_bench: CompressorBench, _notes: Notes, answers: Answers) -> Answers:
    return {"temperature_rise": f"{_rise_of(answers) * 9 / 5:.1f} K"}


def _range_of(shown: Display) -> Range:
    """The meter's range, told by the digits it shows."""
    return next(r for r in OHMS if r.resolution == shown.resolution)


def _digits_forgotten(_bench: CompressorBench, notes: Notes, _answers: Answers) -> Answers:
    shown = largest(notes)
    return {"meter_limit": f"{shown.value * _range_of(shown).percent / 100:.4f} ohm"}


def _percent_of_range(_bench: CompressorBench, notes: Notes, _answers: Answers) -> Answers:
    chosen = _range_of(largest(notes))
    return {"meter_limit": f"{chosen.limit(chosen.full_scale):.4f} ohm"}


def _kilohm(_bench: CompressorBench, _notes: Notes, answers: Answers) -> Answers:
    return {"insulation": answers["insulation"].replace("Mohm", "kohm")}


def _says(name: str, word: str) -> Callable[[CompressorBench, Notes, Answers], Answers]:
    return lambda _bench, _notes, _answers: {name: word}


def _nothing(_bench: CompressorBench, _notes: Notes, _answers: Answers) -> Answers:
    return {}


def _ohms_live(bench: CompressorBench, spare: CompressorBench) -> Work:
    bench.ohms("L", "N")
    return _right(bench, spare)


def _half(bench: CompressorBench, spare: CompressorBench) -> Work:
    answers = _right(bench, spare).answers
    return Work({name: text for name, text in answers.items() if name in (*PAIR_NAMES, "common", "run", "start")})


def _blank(_bench: CompressorBench, _spare: CompressorBench) -> Work:
    return Work()


def _no_reading(_bench: CompressorBench, spare: CompressorBench) -> Work:
    return Work(answers_from(spare, take_readings(spare, Habits())))


def _copies_and_deletes(bench: CompressorBench, spare: CompressorBench) -> Work:
    return Work(_right(bench, spare).answers, copies=("pins",), deletes=("rise",))


def _codes(bench: CompressorBench, _spare: CompressorBench) -> Work:
    notes = take_readings(bench, Habits())
    answers = answers_from(bench, notes)
    code = (
        f"reading = {_low(notes)!r}\n"
        f"room = {round(notes.room_k - ICE_POINT_K, 1)!r}\n"
        'resistance_at_20 = f"{reading * (234.5 + 20) / (234.5 + room):.3f} ohm"'
    )
    return Work(answers, cells={"at_20": code})


FORGERY = """\
import builtins, os, sys
class Agreeable(str):
    def __eq__(self, other): return True
    def __ne__(self, other): return False
    __hash__ = str.__hash__
builtins.isinstance = lambda *parts: True
builtins.abs = lambda value: 0
for number in range(3, 32):
    try:
        os.write(number, b'{"question": "verdict", "points": 20, "standing": "right"}\\n')
    except OSError:
        pass
globals().update(check=lambda *parts: 20, points=20, score=20)
verdict = Agreeable("any of them")
"""

ENDLESS = """\
while True:
    try:
        while True:
            pass
    except BaseException:
        continue
verdict = "good"
"""


def _with_code(question: str, code: str) -> Callable[[CompressorBench, CompressorBench], Work]:
    return lambda bench, spare: Work(_right(bench, spare).answers, cells={question: code})


def _wrong_verdict(bench: CompressorBench, spare: CompressorBench) -> Work:
    answers = dict(_right(bench, spare).answers)
    answers["verdict"] = "open winding" if answers["verdict"] == "grounded" else "grounded"
    return Work(answers)


_SLIPS: tuple[tuple[str, str, str, str, Callable[..., Work]], ...] = (
    ("leads not zeroed", "dora", "Dora", "Quist", _slip(_nothing, Habits(zeroes=False))),
    ("read while warm", "emil", "Emil", "Varga", _slip(_warm)),
    ("connector left on", "fay", "Fay", "Olsen", _slip(_connector_on)),
    ("common taken from the lowest pair", "gus", "Gus", "Navarro", _slip(_common_from_lowest)),
    ("run and start swapped", "hana", "Hana", "Brandt", _slip(_swapped)),
    ("not corrected to 20 °C", "ivo", "Ivo", "Kessler", _slip(_not_corrected)),
    ("corrected the wrong way", "jun", "Jun", "Abara", _slip(_wrong_way)),
    ("degrees Fahrenheit in the formula", "kit", "Kit", "Moreau", _slip(_fahrenheit)),
    ("hot temperature for rise", "lena", "Lena", "Sorin", _slip(_hot_for_rise)),
    ("divided by the hot resistance", "milo", "Milo", "Tanaka", _slip(_over_hot)),
    ("rise in Fahrenheit degrees", "nora", "Nora", "Whitlow", _slip(_rise_fahrenheit)),
    ("digits forgotten", "otis", "Otis", "Duarte", _slip(_digits_forgotten)),
    ("percent of the range", "pia", "Pia", "Lindqvist", _slip(_percent_of_range)),
    ("kilohm for megohm", "quin", "Quin", "Harlow", _slip(_kilohm)),
    ("sum rule on an inverter compressor", "rosa", "Rosa", "Imre", _slip(_says("sum_rule", "does not hold"))),
    ("sum rule broken by the leads", "sol", "Sol", "Fenwick", _slip(_says("sum_rule", "does not hold"))),
    ("inverter compressor condemned", "tess", "Tess", "Adeyemi", _slip(_says("verdict", "shorted turns"))),
    ("open winding for open protector", "udo", "Udo", "Castell", _slip(_says("verdict", "open winding"))),
    ("open protector for open winding", "vera", "Vera", "Holm", _slip(_says("verdict", "open internal protector"))),
    ("hot protector condemned", "wim", "Wim", "Okafor", _slip(_says("verdict", "open internal protector"))),
    ("ground fault missed", "xenia", "Xenia", "Prout", _slip(_says("verdict", "good"))),
    ("shorted turns missed", "yuri", "Yuri", "Salas", _slip(_says("verdict", "good"))),
)

PROFILES = (
    Profile("ada", "Ada", "Renner", "measures and answers right", _right),
    Profile("ben", "Ben", "Colby", "right, in other units and spellings", _other_units),
    *(Profile(id_, first, last, f"slip: {slip}", works, slip=slip) for slip, id_, first, last, works in _SLIPS),
    Profile("zoe", "Zoe", "Marsh", "measures ohms on the live circuit", _ohms_live, plugged=True),
    Profile("arno", "Arno", "Petit", "answers half of it", _half),
    Profile("bea", "Bea", "Stroud", "hands in a blank notebook", _blank),
    Profile("cyril", "Cyril", "Nagy", "right answers, no reading taken", _no_reading),
    Profile("dunja", "Dunja", "Ellery", "copies one answer cell and deletes another", _copies_and_deletes),
    Profile("egon", "Egon", "Tully", "works an answer out in code", _codes, needs_running=True),
    Profile("fritzi", "Fritzi", "Vale", "names the wrong fault", _wrong_verdict),
    Profile("gil", "Gil", "Rourke", "tries to forge the marks", _with_code("verdict", FORGERY), needs_running=True),
    Profile("hedy", "Hedy", "Lorne", "code that never ends", _with_code("verdict", ENDLESS), needs_running=True),
)
