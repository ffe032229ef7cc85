"""Readings on the cold side: gauges, barometer, clip probes, the frost line, the scale."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from coldwright.bench.cold_acts import HIGH, LOW, PASSES, PROBES
from coldwright.bench.unit_readings import Shown
from coldwright.errors import BenchError
from coldwright.instruments.contact_thermometer import Contact, contact_limit, seen_temperature
from coldwright.instruments.display import Display, Error, Range, show
from coldwright.instruments.gauge_set import HIGH_DIGITS, LOW_DIGITS, Gauge
from coldwright.instruments.scale import Scale
from coldwright.instruments.thermometer import read_temperature
from coldwright.quantities import Kind, in_unit
from coldwright.quantities.constants import ICE_POINT_K

if TYPE_CHECKING:
    from coldwright.bench.cold_bench import ColdBench

BAROMETER = Range(full_scale=110e3, resolution=10.0, percent=0.0, digits=10)  # ±1 hPa; common practice, no source


@dataclass
class ColdInstruments:
    """The instruments of the cold side on one bench; where each stands within its accuracy is drawn once.

    Parameters
    ----------
    error : callable
        Where an instrument stands, by name [-]
    drift : float
        Of the scale, -1 to 1 [-]
    """

    error: Callable[[str], Error]
    drift: float
    gauges: dict[str, Gauge] = field(init=False)
    scale: Scale = field(init=False)

    def __post_init__(self) -> None:
        self.gauges = {
            LOW: Gauge(LOW_DIGITS, self.error("low gauge")),
            HIGH: Gauge(HIGH_DIGITS, self.error("high gauge")),
        }
        self.scale = Scale(self.error("scale"), self.drift)


@dataclass(frozen=True)
class ColdReading:
    """One kind of reading: what it may be taken on, what it is called, how it is taken."""

    check: Callable[[ColdBench, tuple[str, ...]], None]
    words: Callable[[tuple[str, ...]], str]
    take: Callable[[ColdBench, tuple[str, ...]], Shown]


def _gauge(bench: ColdBench, on: tuple[str, ...]) -> Shown:
    gauge, outside = bench.instrument.gauges[on[0]], bench.unit.atmosphere_pa
    gauge.zeroed_at_pa = outside  # it is zeroed at the place before it is joined
    shown, _ = gauge.read(bench, on[0], outside) if bench.joined else gauge.show(outside, outside)
    return shown, ()


def _side(_bench: ColdBench, on: tuple[str, ...]) -> None:
    if len(on) != 1 or on[0] not in (LOW, HIGH):
        raise BenchError(f"read the gauge of the {LOW} or of the {HIGH}")


def _none(_bench: ColdBench, on: tuple[str, ...]) -> None:
    if on:
        raise BenchError(f"this reading is taken on nothing else; leave out {', '.join(on)}")


def _barometer(bench: ColdBench, _on: tuple[str, ...]) -> Shown:
    return show(bench.unit.atmosphere_pa, BAROMETER, bench.instrument.error("barometer"), _kilopascal), ()


def _kilopascal(pascal: float, _range: Range) -> str:
    inches = in_unit(pascal, Kind.PRESSURE_ABSOLUTE, "inHg abs")
    return f"{pascal / 1e3:.2f} kPa absolute ({inches:.2f} inHg)"


def _probed(_bench: ColdBench, on: tuple[str, ...]) -> None:
    if len(on) != 1 or on[0] not in PROBES:
        raise BenchError(f"the probe can be clipped on {', '.join(PROBES)}")


def _probe(bench: ColdBench, on: tuple[str, ...]) -> Shown:
    """A clip probe left for two minutes, so that it stands still; in air it hangs free."""
    now, state, room_k = bench.moment, bench.state, bench.unit.room_k
    pipes = {
        "suction line": (now.return_k, room_k),
        "discharge line": (now.discharge_k, room_k),
        "condenser middle": (0.5 * (now.condensing_k + now.bubbling_k), room_k),
        "liquid line": (now.liquid_k, room_k),
        "evaporator inlet": (now.evaporating_k, state.cabinet_k),
        "evaporator outlet": (now.evaporating_k + now.superheat_k, state.cabinet_k),
    }
    error = bench.instrument.error(f"probe {on[0]}")
    if on[0] in pipes:
        surface_k, air_k = pipes[on[0]]
        shown = read_temperature(seen_temperature(surface_k, air_k, Contact.INSULATED), error)
        limit = shown.limit + contact_limit(shown.value, air_k, Contact.INSULATED)
        return Display(shown.text, shown.value, limit, shown.resolution), ()
    air = {"air in the room": room_k, "air in the cabinet": state.cabinet_k, "product": bench.cold.product_k}
    return read_temperature(air[on[0]], error), ()


def _frost(bench: ColdBench, _on: tuple[str, ...]) -> Shown:
    now = bench.moment
    passes = min(PASSES, max(0, round(PASSES * now.wetted)))
    if now.evaporating_k >= ICE_POINT_K:
        return Display("no frost", math.nan, math.nan, math.nan), ()
    if now.outlet_quality < 1.0 and now.return_superheat_k < 1.0:
        return Display("frost on all passes and along the suction line", float(PASSES), 0.5, 1.0), ()
    return Display(f"frost on {passes} of {PASSES} passes", float(passes), 0.5, 1.0), ()


def _scale(bench: ColdBench, _on: tuple[str, ...]) -> Shown:
    return bench.instrument.scale.read(bench.cylinder_kg, float(bench.at))[0], ()


COLD_READINGS: dict[str, ColdReading] = {
    "gauge": ColdReading(_side, lambda on: f"Gauge, {on[0]}", _gauge),
    "barometer": ColdReading(_none, lambda _on: "Barometer", _barometer),
    "probe": ColdReading(_probed, lambda on: f"Probe, {on[0]}", _probe),
    "frost line": ColdReading(_none, lambda _on: "Frost on the evaporator", _frost),
    "scale": ColdReading(_none, lambda _on: "Scale", _scale),
}
