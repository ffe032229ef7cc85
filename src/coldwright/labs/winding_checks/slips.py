"""The known slips of the winding checks, each as a function of the true unit."""

from __future__ import annotations

from collections.abc import Callable

from coldwright.appliance.compressor import BenchCircuit
from coldwright.appliance.faults import FaultKind
from coldwright.electrical.windings import REFERENCE_K, Conductor, resistance_at
from coldwright.instruments.display import pick_range
from coldwright.instruments.insulation_tester import RANGES as INSULATION
from coldwright.instruments.multimeter import OHMS
from coldwright.labs.question import Misconception
from coldwright.labs.winding_checks.case import PAIR_NAMES, Case
from coldwright.quantities.constants import ICE_POINT_K

Value = Callable[[Case, str], float | str | tuple[float, ...] | None]
K = Conductor.COPPER.value
RESISTANCES = tuple(PAIR_NAMES)
OPENED = (FaultKind.OPEN_RUN, FaultKind.OPEN_START, FaultKind.OPEN_PROTECTOR)
SHORTED = (FaultKind.SHORTED_RUN, FaultKind.SHORTED_START)


def _finite(value: float) -> float | None:
    return value if value < OHMS[-1].full_scale else None


def _leads(case: Case, name: str) -> float | tuple[float, ...] | None:
    if name == "resistance_at_20":
        shown = case.cold[case.lowest_pair] + case.lead_ohm
        return resistance_at(shown, case.unit.room_k)
    if name == "temperature_rise":
        cold = case.cold
        return tuple(rise * cold[pair] / (cold[pair] + case.lead_ohm) for pair, rise in _rises(case))
    return _finite(case.cold[PAIR_NAMES[name]] + case.lead_ohm)


def _hot_k(case: Case) -> float:
    """Temperature of the winding when it was first read hot, or on arrival."""
    hot = case.hot_readings()
    return hot[0][1].winding_k if hot else case.unit.arrival_k


def _warm(case: Case, name: str) -> float | None:
    pair = PAIR_NAMES[name]
    hot = [t.winding_k for p, t in case.hot_readings() if p == pair]
    return _finite(case.unit.pair_resistances(hot[-1] if hot else _hot_k(case))[pair])


def _in_circuit(case: Case, name: str) -> float | None:
    if case.unit.plate.is_inverter:
        return None  # the board's inputs change no reading of a winding
    circuit = BenchCircuit(case.unit, case.unit.room_k, plugged=False, connected=True, capacitor_v=0.0)
    return _finite(circuit.resistance(*PAIR_NAMES[name]))


def _pins_known(case: Case) -> bool:
    return not case.unit.plate.is_inverter and case.unit.fault.kind not in OPENED


def _common_from_lowest(case: Case, _name: str) -> str | None:
    return case.unit.start if _pins_known(case) else None


def _swapped(case: Case, name: str) -> str | None:
    if not _pins_known(case):
        return None
    return case.unit.start if name == "run" else case.unit.run


def _not_corrected(case: Case, _name: str) -> float:
    return case.cold[case.lowest_pair]


def _wrong_way(case: Case, _name: str) -> float:
    return resistance_at(case.cold[case.lowest_pair], REFERENCE_K, case.unit.room_k)


def _fahrenheit_in_formula(case: Case, _name: str) -> float:
    room_f = (case.unit.room_k - ICE_POINT_K) * 9 / 5 + 32
    return case.cold[case.lowest_pair] * (K + 20) / (K + room_f)


def _rises(case: Case) -> list[tuple[tuple[str, str], float]]:
    """Each pair read hot and cold with its rise over the room; without readings, the lowest pair on arrival."""
    readings = [(pair, taken.winding_k - case.unit.room_k) for pair, taken in case.rise_readings()]
    return readings or [(case.lowest_pair, case.unit.arrival_k - case.unit.room_k)]


def _hot_temperature(case: Case, _name: str) -> tuple[float, ...]:
    return tuple(rise + case.unit.room_k - ICE_POINT_K for _, rise in _rises(case))


def _ratio_on_hot(case: Case, _name: str) -> tuple[float, ...]:
    cold = K + case.unit.room_k - ICE_POINT_K
    return tuple(cold * rise / (cold + rise) for _, rise in _rises(case))


def _rise_in_fahrenheit(case: Case, _name: str) -> tuple[float, ...]:
    return tuple(rise * 9 / 5 for _, rise in _rises(case))


def _largest(case: Case) -> float:
    return max(r for r in case.cold.values() if r < OHMS[-1].full_scale)


def _digits_forgotten(case: Case, _name: str) -> float | None:
    chosen = pick_range(OHMS, _largest(case) + case.lead_ohm)
    return _largest(case) * chosen.percent / 100 if chosen else None


def _percent_of_range(case: Case, _name: str) -> float | None:
    chosen = pick_range(OHMS, _largest(case) + case.lead_ohm)
    return chosen.limit(chosen.full_scale) if chosen else None


def _thousand(case: Case, _name: str) -> float | None:
    shown = case.unit.lowest_insulation(case.unit.room_k)
    return shown / 1000 if shown < INSULATION[-1].full_scale else None


def _word_if(applies: Callable[[Case], bool], word: str) -> Value:
    return lambda case, _name: word if applies(case) else None


def _is_inverter(case: Case) -> bool:
    return case.unit.plate.is_inverter


def _is_sound_inverter(case: Case) -> bool:
    return case.unit.plate.is_inverter and case.unit.fault.kind is FaultKind.NONE


MISCONCEPTIONS = (
    Misconception(
        "leads not zeroed",
        (*RESISTANCES, "resistance_at_20", "temperature_rise"),
        "Your value is higher by just the resistance of the meter's leads: zero the leads before you read a winding.",
        _leads,
    ),
    Misconception(
        "read while warm",
        RESISTANCES,
        "Your value is that of the winding while still hot: let it stand until the shell is at room temperature.",
        _warm,
    ),
    Misconception(
        "connector left on",
        RESISTANCES,
        "Your value is that of the winding with the rest of the circuit beside it: take the connector off first.",
        _in_circuit,
    ),
    Misconception(
        "common taken from the lowest pair",
        ("common",),
        "You took the pin that the lowest pair leaves out: common is the pin that the highest pair leaves out.",
        _common_from_lowest,
    ),
    Misconception(
        "run and start swapped",
        ("run", "start"),
        "This is the pin of the other winding: start, of thinner wire, reads more from common than run does.",
        _swapped,
    ),
    Misconception(
        "not corrected to 20 °C",
        ("resistance_at_20",),
        "You gave the reading as it was taken: correct it from the winding's temperature to 20 °C.",
        _not_corrected,
    ),
    Misconception(
        "corrected the wrong way",
        ("resistance_at_20",),
        "You corrected the wrong way: copper has less resistance when it is colder, more when it is warmer.",
        _wrong_way,
    ),
    Misconception(
        "degrees Fahrenheit in the formula",
        ("resistance_at_20",),
        "You put degrees Fahrenheit into the formula: the constant 234.5 goes with degrees Celsius.",
        _fahrenheit_in_formula,
    ),
    Misconception(
        "hot temperature for rise",
        ("temperature_rise",),
        "You gave the temperature of the hot winding: the rise is that less the temperature of the room.",
        _hot_temperature,
    ),
    Misconception(
        "divided by the hot resistance",
        ("temperature_rise",),
        "You divided by the hot resistance: the change is taken over the cold one.",
        _ratio_on_hot,
    ),
    Misconception(
        "rise in Fahrenheit degrees",
        ("temperature_rise",),
        "Your number is the rise in Fahrenheit degrees with another unit behind it: 9 F° are 5 K.",
        _rise_in_fahrenheit,
    ),
    Misconception(
        "digits forgotten",
        ("meter_limit",),
        "You took the percentage alone: the digits of the accuracy come on top of it.",
        _digits_forgotten,
    ),
    Misconception(
        "percent of the range",
        ("meter_limit",),
        "You took the percentage of the whole range: it is a percentage of the reading.",
        _percent_of_range,
    ),
    Misconception(
        "kilohm for megohm",
        ("insulation",),
        "Your value is a thousand times too small: the tester shows megohms, not kilohms.",
        _thousand,
    ),
    Misconception(
        "sum rule on an inverter compressor",
        ("sum_rule",),
        "The sum rule is for a run and a start winding: three equal windings of an inverter compressor are no fault.",
        _word_if(_is_inverter, "does not hold"),
    ),
    Misconception(
        "sum rule broken by the leads",
        ("sum_rule",),
        "A difference of one lead resistance comes from leads that were not zeroed, not from the windings.",
        _word_if(_pins_known, "does not hold"),
    ),
    Misconception(
        "inverter compressor condemned",
        ("verdict",),
        "Three equal windings belong to an inverter compressor: it is not shorted because no pair adds up.",
        _word_if(_is_sound_inverter, "shorted turns"),
    ),
    Misconception(
        "open winding for open protector",
        ("verdict",),
        "Both windings together still read: the path to the common pin is open, and that is the internal protector.",
        _word_if(lambda c: c.unit.fault.kind is FaultKind.OPEN_PROTECTOR, "open winding"),
    ),
    Misconception(
        "open protector for open winding",
        ("verdict",),
        "The pair that reads is one winding alone, not both in series: the other winding is open, not the protector.",
        _word_if(lambda c: c.unit.fault.kind in (FaultKind.OPEN_RUN, FaultKind.OPEN_START), "open internal protector"),
    ),
    Misconception(
        "hot protector condemned",
        ("verdict",),
        "The protector was open because it was hot: let the compressor cool and read again before you condemn it.",
        _word_if(lambda c: c.unit.protector_tripped, "open internal protector"),
    ),
    Misconception(
        "ground fault missed",
        ("verdict",),
        "Ohms from pin to pin do not see a ground fault: the low reading from a pin to the shell condemns it.",
        _word_if(lambda c: c.unit.fault.kind is FaultKind.GROUNDED, "good"),
    ),
    Misconception(
        "shorted turns missed",
        ("verdict",),
        "The sum rule holds with shorted turns too: compare each winding with the maker's value at its temperature.",
        _word_if(lambda c: c.unit.fault.kind in SHORTED, "good"),
    ),
)
