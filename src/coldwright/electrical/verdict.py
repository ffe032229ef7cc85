"""The verdict on a compressor's windings, from readings alone, with its reasons and the next test."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum

from coldwright.electrical.measured import Measured
from coldwright.electrical.pins import Pattern, PinReadings, Pins, all_equal, identify_pins, sum_rule
from coldwright.electrical.winding_data import WindingData
from coldwright.errors import InputError
from coldwright.quantities.constants import ICE_POINT_K

GROUNDED_BELOW_OHM = 2.0e6
"""Winding to shell, at or below this counts as grounded [Ω].

Older editions of IEC 60335-1 ask 2 MΩ of basic insulation (from memory). At 230 V it lets 0.1 mA through; a clean, dry
winding passes far less, so a winding below it has lost its insulation or stands in wet, acid oil.
"""

DOUBTFUL_BELOW_OHM = 20.0e6
"""Below this a winding is to be tested again, warm and dry [Ω] (common practice, no source)."""

PROTECTOR_MAY_BE_OPEN_ABOVE_K = ICE_POINT_K + 45.0
"""Above this an internal protector may be open because it is hot, not because it failed [K] (common practice)."""


_READ_AGAIN = "clean the pins, check temperature and type, then read again"
_FINER_METER = "zero the leads, or use a meter with a finer ohms range, then read again"


class Verdict(Enum):
    """What the readings say of the windings."""

    GOOD = "good"
    OPEN_WINDING = "open winding"
    OPEN_PROTECTOR = "open internal protector"
    SHORTED_TURNS = "shorted turns"
    GROUNDED = "grounded"
    UNDECIDED = "not decided"


@dataclass(frozen=True)
class Finding:
    """A verdict with its reasons, what the pins are, and what to do next where something stays open."""

    verdict: Verdict
    pins: Pins
    reasons: tuple[str, ...]
    next_test: str | None = None


def judge_windings(
    readings: PinReadings,
    winding_k: float,
    data: WindingData | None = None,
    insulation: Measured | None = None,
) -> Finding:
    """Verdict on a compressor's windings, with reasons.

    Parameters
    ----------
    readings : PinReadings
        Resistance of each pair of pins, connector off, leads zeroed [Ω]
    winding_k : float
        Temperature of the windings while they were read [K]
    data : WindingData, optional
        The maker's values; without them shorted turns cannot be told [Ω]
    insulation : Measured, optional
        Lowest resistance from any pin to the shell [Ω]

    Returns
    -------
    Finding
        `GOOD` only where nothing that the windings can show is left open.

    Raises
    ------
    InputError
        If the temperature is not that of a winding.

    Notes
    -----
    Says nothing about a seized rotor, valves, or a start device: ohms do not see them. A few shorted turns, less than
    the maker's tolerance, cannot be seen by resistance.
    """
    if not 200.0 < winding_k < 500.0:
        raise InputError(f"the winding's temperature is {winding_k:g} K; expected 200 K to 500 K. Was it typed in °C?")
    pins = identify_pins(readings)
    if insulation is not None and insulation.value <= GROUNDED_BELOW_OHM:
        megohm = insulation.value / 1e6
        return Finding(
            Verdict.GROUNDED,
            pins,
            (
                f"from a pin to the shell it reads {megohm:.2f} MΩ, not above the {GROUNDED_BELOW_OHM / 1e6:.0f} MΩ "
                "that a sound winding's insulation keeps: current can reach the shell",
            ),
        )
    finding = _from_pattern(readings, pins, winding_k, data)
    return _with_insulation(finding, insulation)


def _from_pattern(readings: PinReadings, pins: Pins, winding_k: float, data: WindingData | None) -> Finding:
    if pins.pattern is Pattern.NO_PAIR:
        return Finding(
            Verdict.UNDECIDED,
            pins,
            ("no pair reads: either a lead is broken, or at least two paths inside are",),
            "touch the leads together: if the meter shows about 0 Ω, the leads are whole and the windings are open",
        )
    if pins.pattern is Pattern.IMPOSSIBLE:
        return Finding(
            Verdict.UNDECIDED,
            pins,
            ("two pairs read and the third does not, which no winding can do",),
            "clean the pins, press the leads on and read all three pairs again",
        )
    if pins.pattern is Pattern.ONE_PAIR:
        return _one_pair(readings, pins, winding_k, data)
    if pins.pattern is Pattern.THREE_EQUAL or (data is not None and data.is_inverter):
        return _three_windings(readings, pins, winding_k, data)
    return _two_windings(readings, pins, winding_k, data)


def _one_pair(readings: PinReadings, pins: Pins, winding_k: float, data: WindingData | None) -> Finding:
    pair, reading = readings.closed[0]
    seen = f"only pins {' and '.join(sorted(pair))} read, {reading.value:.2f} Ω; pin {pins.left_out} reaches neither"
    if winding_k > PROTECTOR_MAY_BE_OPEN_ABOVE_K:
        return Finding(
            Verdict.UNDECIDED,
            pins,
            (seen, "the winding is hot: an internal protector may be open now and close again when it cools"),
            "let the compressor stand until its shell is at room temperature, then read all pairs again",
        )
    if data is None:
        return Finding(
            Verdict.UNDECIDED,
            pins,
            (seen, "without the maker's values it cannot be told which path is broken"),
            "find the maker's resistances or the pin drawing and compare",
        )
    if data.start is None:
        return Finding(
            Verdict.OPEN_WINDING, pins, (seen, "an inverter compressor has three windings, so the third is open")
        )
    candidates = {
        "run": ("the start winding, so the run winding is open", data.start, Verdict.OPEN_WINDING),
        "start": ("the run winding, so the start winding is open", data.run, Verdict.OPEN_WINDING),
        "common": (
            "both windings in series, so the path to the common pin is open: the internal protector",
            data.run + data.start,
            Verdict.OPEN_PROTECTOR,
        ),
    }
    fitting = [role for role, (_, value, _) in candidates.items() if data.may_be(value, reading, winding_k)]
    if len(fitting) != 1:
        return Finding(
            Verdict.UNDECIDED,
            pins,
            (seen, "the reading fits none, or more than one, of the maker's values"),
            "check the type on the nameplate against the data sheet",
        )
    (role,) = fitting
    text, _, verdict = candidates[role]
    return Finding(verdict, _name_left_out(pins, role), (seen, f"that is the maker's value for {text}"))


def _name_left_out(pins: Pins, role: str) -> Pins:
    common, run, start = (pins.left_out if role == name else None for name in ("common", "run", "start"))
    return replace(pins, common=common, run=run, start=start)


def _three_windings(readings: PinReadings, pins: Pins, winding_k: float, data: WindingData | None) -> Finding:
    if data is not None and not data.is_inverter:
        return Finding(
            Verdict.UNDECIDED,
            pins,
            ("three equal readings, but the maker's data speak of a run and a start winding",),
            "check the type on the nameplate against the data sheet",
        )
    if data is not None and not all_equal(readings):
        return _unequal(readings, pins, winding_k, data)
    reasons = [
        "three equal readings: an inverter compressor with three equal windings; it has no common, run or start pin "
        "and the sum rule is not for it"
    ]
    if data is None:
        return Finding(
            Verdict.UNDECIDED,
            pins,
            (*reasons, "nothing speaks against it, but the maker's value is needed to be sure"),
            "compare with the maker's value at the same temperature",
        )
    return _compare(pins, [("each pair", r, data.run) for _, r in readings.closed[:1]], winding_k, data, reasons)


def _unequal(readings: PinReadings, pins: Pins, winding_k: float, data: WindingData) -> Finding:
    """An inverter compressor whose pairs differ: shorted only where one is too low for the maker."""
    reason = "the three pairs of an inverter compressor must read the same, and they do not"
    rows = [(f"pair {' and '.join(sorted(pair))}", r, data.run) for pair, r in readings.closed]
    finding = _compare(pins, rows, winding_k, data, [reason])
    if finding.verdict is not Verdict.GOOD:
        return finding
    return replace(
        finding,
        verdict=Verdict.UNDECIDED,
        next_test="clean the pins, press the leads on and read all three pairs again",
    )


def _two_windings(readings: PinReadings, pins: Pins, winding_k: float, data: WindingData | None) -> Finding:
    rule = sum_rule(readings)
    if not rule.holds:
        return Finding(
            Verdict.UNDECIDED,
            pins,
            (rule.reason,),
            "zero the leads, take the connector off all three pins, clean them and read again",
        )
    if data is None or data.start is None:
        return Finding(
            Verdict.UNDECIDED,
            pins,
            (rule.reason, "both windings are whole; shorted turns cannot be told without the maker's values"),
            "compare each winding with the maker's value at the same temperature",
        )
    low, middle = (r for _, r in readings.closed[:2])
    return _compare(
        pins, [("the run winding", low, data.run), ("the start winding", middle, data.start)], winding_k, data,
        [rule.reason],
    )  # fmt: skip


def _compare(
    pins: Pins, rows: list[tuple[str, Measured, float]], winding_k: float, data: WindingData, reasons: list[str]
) -> Finding:
    for name, reading, value in rows:
        low, high = data.band(value, winding_k)
        text = (
            f"{name} reads {reading.value:.2f} ± {reading.limit:.2f} Ω; at {winding_k - ICE_POINT_K:.0f} °C the maker "
            f"allows {low:.2f} Ω to {high:.2f} Ω"
        )
        reasons.append(text)
        if reading.value < low - reading.limit:
            reasons.append("too low for its temperature: turns are shorted")
            return Finding(Verdict.SHORTED_TURNS, pins, tuple(reasons))
        if reading.value > high + reading.limit:
            reasons.append("too high for its temperature: a poor contact, a warmer winding, or another type")
            return Finding(Verdict.UNDECIDED, pins, tuple(reasons), _READ_AGAIN)
        if not low <= reading.value <= high or 2 * reading.limit > high - low:
            reasons.append("this meter's limit is too wide to say whether the winding is inside the maker's band")
            return Finding(Verdict.UNDECIDED, pins, tuple(reasons), _FINER_METER)
    return Finding(Verdict.GOOD, pins, tuple(reasons))


def _with_insulation(finding: Finding, insulation: Measured | None) -> Finding:
    if insulation is None:
        if finding.verdict is not Verdict.GOOD:
            return finding
        return Finding(
            Verdict.UNDECIDED,
            finding.pins,
            (*finding.reasons, "the insulation has not been tested"),
            "test from each pin to the shell at 500 V d.c., never under vacuum",
        )
    megohm = insulation.value / 1e6
    words = "above what the tester shows" if insulation.is_open else f"{megohm:.0f} MΩ"
    reason = f"insulation to the shell: {words}"
    if insulation.value < DOUBTFUL_BELOW_OHM:
        reason += "; low, though not grounded: test again warm and dry, and watch it fall or rise"
    return Finding(finding.verdict, finding.pins, (*finding.reasons, reason), finding.next_test)
