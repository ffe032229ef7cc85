"""Compressors for tests, with round numbers so that what a meter must show can be worked out by hand."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from coldwright.appliance.compressor import BenchCompressor
from coldwright.appliance.faults import WindingFault
from coldwright.appliance.nameplate import CompressorPlate, plate_from

PLATE: CompressorPlate = plate_from(
    {
        "model": "T 1",
        "supply_v": 230.0,
        "frequency_hz": 50.0,
        "refrigerant": "R-600a",
        "run_ohm": 10.0,
        "start_ohm": 30.0,
        "tolerance": 0.07,
        "capacitor_uf": 60.0,
        "run_inductance_h": 0.1,
        "start_inductance_h": 0.12,
    }
)
INVERTER_PLATE: CompressorPlate = plate_from(
    {
        "model": "T 2",
        "supply_v": 230.0,
        "frequency_hz": 50.0,
        "refrigerant": "R-600a",
        "pair_ohm": 8.0,
        "tolerance": 0.07,
        "capacitor_uf": 150.0,
        "run_inductance_h": 0.05,
    }
)
SOUND = BenchCompressor(
    plate=PLATE,
    run_ohm=10.0,
    start_ohm=30.0,
    common="2",
    run="3",
    start="1",
    fault=WindingFault(),
    insulation_ohm=400e6,
    room_k=293.15,
    arrival_k=373.15,
    cooling_s=3000.0,
    capacitor_v=280.0,
    fan_ohm=120.0,
)
INVERTER = replace(SOUND, plate=INVERTER_PLATE, run_ohm=8.0, start_ohm=8.0)


def unit(**changes: Any) -> BenchCompressor:
    """The sound single-phase unit with some of it changed."""
    return replace(SOUND, **changes)
