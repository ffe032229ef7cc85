"""The table docs/validation.md, made from tests/published and what our functions give.

`python tests/validation_table.py --write` writes it, `--check` says whether it is up to date.
"""

from __future__ import annotations

import argparse
import cmath
import math
import sys
import types
from collections.abc import Callable
from pathlib import Path
from typing import Any

from coldwright.bench.bench import SAFE_VOLTS
from coldwright.electrical.network import Branch, Network, Source
from coldwright.electrical.verdict import GROUNDED_BELOW_OHM
from coldwright.electrical.windings import Conductor, resistance_at, temperature_rise, winding_temperature
from coldwright.instruments.display import Range, pick_range
from coldwright.instruments.multimeter import VOLTS_AC
from coldwright.quantities.constants import ICE_POINT_K

if __name__ == "__main__":  # run as a script: some packages bring a `tests` of their own, and ours is meant
    ours = types.ModuleType("tests")
    ours.__path__ = [str(Path(__file__).parent)]
    sys.modules["tests"] = ours

from tests.cabinet import cabinet_functions
from tests.electrical import capacitor_functions, circuits, motor_functions, start_device_functions
from tests.instruments import meter_functions
from tests.published_values import Published, load
from tests.refrigerants import refrigerant_functions
from tests.sealed_system import cycle_functions, sealed_functions
from tests.sealed_system.service import evacuation_functions, service_functions

MODELS = (
    "motor",
    "winding",
    "capacitor",
    "start device",
    "overload",
    "network",
    "meter",
    "insulation",
    "saturation",
    "atmosphere",
    "refrigerant limits",
    "cycle",
    "sealed system",
    "service",
    "evacuation",
    "cabinet",
)
PAGE = Path(__file__).parents[1] / "docs" / "validation.md"
DUST = 1e-9  # part of a value below which a deviation is rounding, and not the same on every machine
Inputs = dict[str, Any]


def _k(celsius: float) -> float:
    return celsius + ICE_POINT_K


def _metal(inputs: Inputs) -> Conductor:
    return Conductor[inputs["metal"].upper()]


def _resistance_at(i: Inputs) -> float:
    return resistance_at(i["resistance"], _k(i["at_c"]), _k(i["wanted_c"]), _metal(i))


def _coefficient(i: Inputs) -> float:
    """Share by which a winding's resistance grows over the next kelvin."""
    return resistance_at(1.0, _k(i["at_c"]), _k(i["at_c"] + 1), _metal(i)) - 1.0


def _branches(i: Inputs) -> list[Branch]:
    found = []
    for number, (a, b, ohm, *rest) in enumerate(i["branches"]):
        henry, farad = rest or (0.0, 0.0)
        found.append(Branch(f"part {number}", a, b, ohm, henry, farad or None))
    return found


def _source(i: Inputs) -> Source:
    plus, minus, volts, hertz, ohm = i["source"]
    return Source("supply", plus, minus, volts, hertz, ohm)


def _voltage(i: Inputs, between: tuple[str, str]) -> complex:
    source = _source(i)
    return Network(_branches(i), [source]).voltage(*between, source.frequency_hz)


def _supply_current(i: Inputs) -> complex:
    source = _source(i)
    return (source.voltage - _voltage(i, (source.a, source.b))) / source.resistance


def _impedance(i: Inputs) -> complex:
    """From the share of 1 V behind 1 Ω that stands across the circuit."""
    a, b = i["between"]
    across = _voltage({**i, "source": [a, b, 1.0, i["hz"], 1.0]}, (a, b))
    return across / (1.0 - across)


FUNCTIONS: dict[str, Callable[[Inputs], float]] = {
    "resistance_at": _resistance_at,
    "winding_temperature": lambda i: winding_temperature(i["hot"], i["cold"], _k(i["cold_c"]), _metal(i)) - ICE_POINT_K,
    "temperature_rise": lambda i: temperature_rise(i["cold"], i["hot"], _k(i["start_c"]), _k(i["end_c"]), _metal(i)),
    "growth": lambda i: _resistance_at(i) - i["resistance"],
    "coefficient": _coefficient,
    "minus_zero_resistance": lambda i: ICE_POINT_K - _metal(i).zero_resistance_k,
    "circuit_resistance": lambda i: Network(_branches(i)).resistance(*i["between"]),
    "circuit_voltage": lambda i: _voltage(i, tuple(i["between"])).real,
    "supply_current_size": lambda i: abs(_supply_current(i)),
    "supply_current_angle": lambda i: math.degrees(cmath.phase(_supply_current(i))),
    "circuit_impedance_real": lambda i: _impedance(i).real,
    "circuit_impedance_imag": lambda i: _impedance(i).imag,
    "accuracy_limit": lambda i: Range(1e12, i["resolution"], i["percent"], i["digits"]).limit(i["reading"]),
    "resolution_of_volts_ac": lambda i: pick_range(VOLTS_AC, i["reading"]).resolution,
    "grounded_below": lambda _i: GROUNDED_BELOW_OHM / 1e6,
    "safe_volts": lambda _i: SAFE_VOLTS,
    **circuits.PUBLISHED,
    **motor_functions.FUNCTIONS,
    **capacitor_functions.FUNCTIONS,
    **start_device_functions.FUNCTIONS,
    **meter_functions.FUNCTIONS,
    **refrigerant_functions.FUNCTIONS,
    **cycle_functions.FUNCTIONS,
    **sealed_functions.FUNCTIONS,
    **service_functions.FUNCTIONS,
    **evacuation_functions.FUNCTIONS,
    **cabinet_functions.FUNCTIONS,
}


def computed(value: Published) -> float:
    """What our function gives for a published value."""
    return FUNCTIONS[value.function](value.inputs)


def _cell(text: str) -> str:
    return text.replace("|", "\\|")


def _row(value: Published) -> str:
    ours, printed = computed(value), float(value.printed)
    off = ours - printed
    if abs(off) <= DUST * abs(printed):
        off = 0.0
    share = f"{off / printed * 100:.2f} %" if printed else "of zero"
    allowed = f"{value.limit:g}" + (f": {value.because}" if value.because else "")
    place = value.source + (f". {value.note}" if value.note else "")
    cells = (value.what, f"{value.printed} {value.unit}", f"{ours:.6g}", f"{off:.2g}", share, allowed, value.standing)
    return "| " + " | ".join(map(_cell, (*cells, place))) + " |"


def pairs(values: tuple[Published, ...]) -> set[tuple[str, str, str]]:
    """Distinct pairs of a model's function and the work it is checked against; one formula repeated counts once."""
    return {(value.model, value.function, value.source.split(",")[0]) for value in values}


def page(values: tuple[Published, ...]) -> str:
    """The whole page."""
    counts = {s: sum(v.standing == s for v in values) for s in dict.fromkeys(v.standing for v in values)}
    lines = [
        "# Validation table",
        "",
        "Our functions against values from print and from other hands. Made from `tests/published` by",
        "`python tests/validation_table.py --write`; a test fails when it is out of date or a value is off by more",
        "than the column *allowed*: half a unit of the last printed digit, or what the reason given there calls for.",
        "",
        "Standing: *published*, read in the source or a copy of it; *companion*, inputs from the source and the result",
        "worked out by someone else; *from memory*, not seen while this was written.",
        "",
        f"{len(values)} values: " + ", ".join(f"{n} {standing}" for standing, n in counts.items()) + ".",
        f"{len(pairs(values))} distinct pairs of function and source.",
    ]
    for model in MODELS:
        lines += [
            "",
            f"## {model.capitalize()}",
            "",
            "| what | printed | ours | off by | of it | allowed | standing | source |",
            "|---|---|---|---|---|---|---|---|",
            *(_row(v) for v in values if v.model == model),
        ]
    return "\n".join(lines) + "\n"


def main(arguments: list[str] | None = None) -> int:
    """Writes the page, or says whether it is up to date."""
    parser = argparse.ArgumentParser(description="docs/validation.md from tests/published")
    choice = parser.add_mutually_exclusive_group(required=True)
    choice.add_argument("--write", action="store_true", help="write the page")
    choice.add_argument("--check", action="store_true", help="exit 1 if the page is out of date")
    options = parser.parse_args(arguments)
    text = page(load())
    if options.write:
        PAGE.write_text(text, encoding="utf-8")
        return 0
    if PAGE.exists() and PAGE.read_text(encoding="utf-8") == text:
        return 0
    print(f"{PAGE.name} is out of date: run python tests/validation_table.py --write", file=sys.stderr)
    return 1


if __name__ == "__main__":
    sys.exit(main())
