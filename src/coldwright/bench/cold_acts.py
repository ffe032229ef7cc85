"""Acts on the cold side of a unit: how long each takes, where a probe can be clipped, how much can be added at once."""

from __future__ import annotations

from coldwright.bench.unit_acts import SECONDS

PLATE = "plate"
PURGED, NOT_PURGED = "purged", "not purged"
LOW, HIGH = "low side", "high side"
GRAMS = {"1 g": 1e-3, "2 g": 2e-3, "5 g": 5e-3, "10 g": 10e-3, "20 g": 20e-3, "50 g": 50e-3}
ALL = "all"
PASSES = 10  # of the evaporator's tube, that frost can be counted on

COLD_SECONDS = {
    **SECONDS,
    "join gauges": 120,
    "take off gauges": 60,
    "gauge": 10,
    "barometer": 10,
    "probe": 120,
    "frost line": 20,
    "add": 60,
    "recover": 120,
    "tare": 10,
    "scale": 10,
}
PROBES = (
    "suction line",
    "discharge line",
    "condenser middle",
    "liquid line",
    "evaporator inlet",
    "evaporator outlet",
    "air in the room",
    "air in the cabinet",
    "product",
)
