"""Reading a decay test: curves that are known to be one thing, simulated ones, and what is refused."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from coldwright.errors import InputError
from coldwright.refrigerants.water import water_vapour_pressure
from coldwright.sealed_system.service.decay import Decay, leak_flow, read_decay
from coldwright.sealed_system.service.decay_curves import best_below, level_fits, rising_fits, scatter_of, slopes_of
from coldwright.sealed_system.service.decay_words import MICRON_PA
from coldwright.sealed_system.service.evacuation import evacuate, hold
from coldwright.sealed_system.service.vacuum_flow import QUARTER_INCH_HOSE, Pump
from coldwright.sealed_system.service.vacuum_system import Rig, VacuumSystem, opened

ROOM_K = 293.15
WATER = water_vapour_pressure(ROOM_K) / MICRON_PA
TIMES = np.linspace(0.0, 1200.0, 21)


def level(start: float, end: float, pace: float, times: np.ndarray = TIMES) -> np.ndarray:
    """Microns of a curve that comes to a level."""
    return start + (end - start) * (1 - np.exp(-times / pace))


def line(start: float, per_minute: float, times: np.ndarray = TIMES) -> np.ndarray:
    """Microns of a straight rise."""
    return start + per_minute * times / 60


def shown(microns: np.ndarray, seed: int, gain: float = 1.0, noise: float = 0.003) -> list[float]:
    """What a gauge shows of it: off by one factor, a little noise, whole microns; in Pa."""
    scatter = 1 + noise * np.random.default_rng(seed).standard_normal(microns.size)
    return (np.round(gain * microns * scatter) * MICRON_PA).tolist()


KNOWN = {
    "tight": (level(300, 450, 200), Decay.TIGHT),
    "tight, slow": (level(250, 600, 350), Decay.TIGHT),
    "tight, flat": (line(180, 0), Decay.TIGHT),
    "water": (level(300, WATER, 200), Decay.WATER),
    "leak": (line(300, 300), Decay.LEAK),
    "large leak": (line(500, 2000), Decay.LEAK),
    "leak after a first bend": (line(0, 400) + level(200, 700, 100), Decay.LEAK),
    "oil": (level(300, 8000, 200), Decay.OTHER_GAS),
    "above water": (level(900, 40_000, 150), Decay.OTHER_GAS),
    "slow water, too early": (level(300, WATER, 20_000), Decay.CANNOT_TELL),
    "small leak, too early": (line(300, 20), Decay.CANNOT_TELL),
    "still bending": (level(300, 9000, 1500), Decay.CANNOT_TELL),
    "melting ice": (level(300, 4588, 100), Decay.CANNOT_TELL),
    "falls": (line(900, -30), Decay.CANNOT_TELL),
}


@pytest.mark.parametrize("name", list(KNOWN))
@pytest.mark.parametrize("gain", [0.93, 1.0, 1.07])
def test_what_a_curve_is_by_construction(name, gain, sample):
    """Curves made to be one thing are read as that, whatever the noise and wherever the gauge stands in its 10 %."""
    microns, verdict = KNOWN[name]
    for seed in range(sample(small=4, full=60)):
        assert read_decay(TIMES.tolist(), shown(microns, seed, gain), ROOM_K).verdict is verdict, seed


def test_nothing_false_is_claimed(sample, figure):
    """Random curves of three kinds, short and long: a claim is right in at least 98 of 100, else nothing is claimed."""
    draw = np.random.default_rng(7)
    count = sample(small=60, full=2000)
    right = wrong = 0
    for number in range(count):
        times = np.linspace(0.0, draw.uniform(300, 3600), draw.integers(10, 31))
        kind = (Decay.TIGHT, Decay.WATER, Decay.LEAK)[number % 3]
        pace = 10 ** draw.uniform(1.5, 4.0)
        microns = {
            Decay.TIGHT: level(200, draw.uniform(250, 850), pace, times),
            Decay.WATER: level(300, WATER, pace, times),
            Decay.LEAK: line(300, 10 ** draw.uniform(1.3, 3.5), times),
        }[kind]
        pascal = np.minimum(shown(microns, number, draw.uniform(0.93, 1.07)), 1.0e5).tolist()
        found = read_decay(times.tolist(), pascal, ROOM_K).verdict
        right += found is kind
        wrong += found not in (kind, Decay.CANNOT_TELL)
    figure("decay tests read right, wrong, of all", f"{right}, {wrong}, {count}")
    assert wrong <= 0.02 * count
    assert right >= 0.4 * count


def test_the_rise_of_a_leak_lies_within_its_bounds():
    """A rise of 300 microns a minute lies within what is told, and the bounds are within 5 % of it."""
    found = read_decay(TIMES.tolist(), shown(line(300, 300), 1), ROOM_K)
    per_minute = (60 * found.least_rise / MICRON_PA, 60 * found.most_rise / MICRON_PA)
    assert per_minute[0] <= 300 <= per_minute[1]
    assert per_minute == (pytest.approx(300, rel=0.05), pytest.approx(300, rel=0.05))
    assert "it goes on rising in a straight line" in found.reason
    assert math.isnan(found.level_pa)


def test_the_level_lies_within_its_limit():
    """A level of 450 microns, on a gauge 7 % high, lies within the ± told; a hidden leak is told too."""
    found = read_decay(TIMES.tolist(), shown(level(300, 450, 200), 2, gain=1.07), ROOM_K)
    assert abs(found.level_pa - 450 * MICRON_PA) <= found.level_limit_pa
    assert "does not show here: that takes the pressure test" in found.reason


def test_a_leak_above_the_pressure_of_water_is_said_to_be_so():
    """Past what water can have, water alone is ruled out in words."""
    found = read_decay(TIMES.tolist(), shown(line(500, 2000), 3), ROOM_K)
    assert "so water alone cannot be it" in found.reason


def test_a_cold_system_hides_its_water():
    """At -30 °C ice has 285 microns (IAPWS): a level at 250 says nothing, and the reason says to warm it."""
    found = read_decay(TIMES.tolist(), shown(level(100, 250, 200), 4), 243.15)
    assert found.verdict is Decay.CANNOT_TELL
    assert found.reason.endswith("A cold system hides its water. Warm it and test again.")


def test_warmer_water_levels_higher():
    """The same level is water at 10 °C and other gas at 30 °C: temperature belongs to the reading."""
    at_ten = water_vapour_pressure(283.15) / MICRON_PA
    pascal = shown(level(300, at_ten, 200), 5)
    assert read_decay(TIMES.tolist(), pascal, 283.15).verdict is Decay.WATER
    assert read_decay(TIMES.tolist(), pascal, 303.15).verdict is Decay.OTHER_GAS


def _simulated(system: VacuumSystem, water_kg: float, minutes: float) -> tuple[list[float], list[float]]:
    rig = Rig(Pump(1e-3, 2.0), (QUARTER_INCH_HOSE,), (QUARTER_INCH_HOSE,))
    emptied = evacuate(system, opened(system, water_kg), rig, 900.0, readings=2).end
    record = hold(system, emptied, 60 * minutes, rig, readings=21)
    return record.seconds.tolist(), shown(record.near_pa / MICRON_PA, 6)


def test_simulated_systems_are_read_right():
    """Systems of the evacuation model: dry, leaking and wet with warm walls are told apart once there is enough."""
    dry = VacuumSystem()
    assert read_decay(*_simulated(dry, 0.0, 20), ROOM_K).verdict is Decay.TIGHT
    assert read_decay(*_simulated(replace(dry, leak_m2=1e-10), 0.0, 20), ROOM_K).verdict is Decay.LEAK
    wet = replace(dry, wet_w_per_k=0.3)
    assert read_decay(*_simulated(wet, 2e-3, 60), ROOM_K).verdict is Decay.WATER


def test_ice_that_thaws_is_not_taken_for_a_leak():
    """Water frozen by the pump stands at 0 °C for long, then rises quicker: at no time is a leak or gas claimed."""
    for minutes in (10, 20, 40, 80):
        found = read_decay(*_simulated(VacuumSystem(), 5e-3, minutes), ROOM_K)
        assert found.verdict in (Decay.CANNOT_TELL, Decay.WATER)


def test_the_fits_find_what_they_are_made_of():
    """Level, rise and pace of clean curves come back."""
    pascal = level(300, 5000, 200)
    flat = scatter_of(pascal, 1.0)
    best = min(level_fits(TIMES, pascal, flat, np.array([100.0, 200.0, 400.0])), key=lambda fit: fit.misfit)
    assert (best.pace_s, best.level_pa) == (200.0, pytest.approx(5000))
    straight = line(300, 60)
    rising = rising_fits(TIMES, straight, flat, np.array([100.0]))[0]
    assert (rising.rise, rising.level_pa) == (pytest.approx(1.0), pytest.approx(300, rel=1e-6))
    held = best_below(TIMES, pascal, flat, np.geomspace(50, 800, 9), 4000.0)
    assert held.level_pa == 4000.0
    assert held.misfit > 1.0
    assert slopes_of(TIMES, straight, flat)[:2] == (pytest.approx(1.0), pytest.approx(1.0))


def test_leak_flow_by_hand():
    """0.1 Pa/s in 2 litres is 2e-4 Pa·m³/s."""
    assert leak_flow(0.1, 2e-3) == pytest.approx(2e-4)


GOOD = [50.0] * 6


@pytest.mark.parametrize(
    ("times", "pressures", "more", "message"),
    [
        ([0, 1], [1.0, 2.0], {}, r"^there are 2 readings; a decay test needs at least 6$"),
        ([0, 1, 2], [1.0], {}, r"^there are 3 times and 1 pressures; each reading needs both$"),
        ([0, 1, 2, 2, 4, 5], GOOD, {}, r"^a reading at 2 s follows one at 2 s; times must rise$"),
        (range(6), [50.0] * 5 + [-80.0], {}, r"^a pressure is -80 Pa; .* Was it a gauge pressure\?$"),
        (
            range(6),
            [50.0] * 5 + [5e5],
            {},
            r"^a pressure is 500000 Pa, more than the atmosphere has; .* Was it microns\?$",
        ),
        (range(6), GOOD, {"temperature_k": 20.0}, r"^the temperature of the water is 20 K; .* Was it typed in °C\?$"),
        (range(6), GOOD, {"gauge_share": 10.0}, r"^the accuracy of the gauge is 10; as a share it must be above 0"),
        (range(6), GOOD, {"tight_below_pa": 0.0}, r"^the level to pass is 0 Pa; it must be above zero$"),
    ],
)
def test_what_is_refused(times, pressures, more, message):
    """Each message names the thing, its value, the rule and the likely slip."""
    with pytest.raises(InputError, match=message):
        read_decay(list(times), pressures, **{"temperature_k": ROOM_K, **more})


@pytest.mark.parametrize(
    ("rise", "volume", "message"),
    [
        (-1.0, 1e-3, r"^the rise is -1 Pa/s; it must be zero or more and finite$"),
        (0.1, 2.0, r"^the volume is 2 m³; .* Was it typed in litres\?$"),
    ],
)
def test_a_leak_flow_that_cannot_be(rise, volume, message):
    """The message names the value and the likely slip."""
    with pytest.raises(InputError, match=message):
        leak_flow(rise, volume)
