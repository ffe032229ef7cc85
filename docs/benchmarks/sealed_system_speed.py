"""How fast a sealed system is worked out: with CoolProp in the loop, from tables in plain Python, and compiled.

    python docs/benchmarks/sealed_system_speed.py

Steady balances are warm: each begins from the last one's state, with other room, air and charge. "CoolProp" solves the
same equations by the same solver; its look-ups are calls of CoolProp through objects that are made once and used again.
The day is that of the test of the step: a thermostat and a cabinet in the loop. Prints times, ratios and how far apart
the answers are. Times are the processor's, so that a busy machine does not falsify them: on a free one they are wall
time. The day's wall time stands beside. Exit 1 if the answers differ or a ratio misses its target.
Compiling needs the extra `fast`.
"""

from __future__ import annotations

import importlib.util
import math
import statistics
import sys
import time
import types
from collections.abc import Callable
from contextlib import contextmanager
from pathlib import Path
from typing import Any

ours = types.ModuleType("tests")  # some packages bring a `tests` of their own, and ours is meant
ours.__path__ = [str(Path(__file__).parents[2] / "tests")]
sys.modules["tests"] = ours

from coldwright.refrigerants import kernels  # noqa: E402
from coldwright.refrigerants.coolprop import fluid_of  # noqa: E402
from coldwright.refrigerants.kernels import Saturation, compiled  # noqa: E402
from coldwright.sealed_system import balance, capillary, compressor, exchangers, moment, plant  # noqa: E402
from coldwright.sealed_system.balance import CLOSED, first_guess  # noqa: E402
from coldwright.sealed_system.design import design_around  # noqa: E402
from tests.sealed_system.daily import BOX, DAY_S, cooler_day  # noqa: E402
from tests.sealed_system.plants import COOLER, built, engine  # noqa: E402

ROOMS = (15, 18, 21, 24, 27, 30, 33, 36, 39, 42)
REPEATS, COMPILED_REPEATS = 3, 30
TARGETS = {"plain": 3.0, "compiled": 50.0}
DAY_TARGETS = {"plain": 15e3, "compiled": 200e3}
AGREED = 2e-3  # pressures from tables and from CoolProp, of each
USERS = (kernels, balance, capillary, compressor, exchangers, moment, plant)


class InTheLoop:
    """The look-ups of the tables as calls of CoolProp."""

    def __init__(self, name: str) -> None:
        import CoolProp.CoolProp as library

        fluid = fluid_of(name)
        self.library, self.h_zero, self.s_zero = library, fluid._enthalpy_offset, fluid._entropy_offset
        coolprop_name = fluid.refrigerant.coolprop_name
        self.wet, self.dry, self.gas = (library.AbstractState("HEOS", coolprop_name) for _ in range(3))
        self.gas.specify_phase(library.iphase_gas)

    def saturation(self, _tables: Any, pressure: float, viscous: bool = False) -> Saturation:
        """Both sides of saturation; viscosities only where they are asked for."""
        for state, quality in ((self.wet, 0.0), (self.dry, 1.0)):
            state.update(self.library.PQ_INPUTS, pressure, quality)
        wet, dry = self.wet, self.dry
        return Saturation(
            wet.T(),
            dry.T(),
            wet.hmass() + self.h_zero,
            dry.hmass() + self.h_zero,
            1.0 / wet.rhomass(),
            1.0 / dry.rhomass(),
            wet.viscosity() if viscous else math.nan,
            dry.viscosity() if viscous else math.nan,
            wet.cpmass(),
            dry.cpmass(),
        )

    def viscous(self, tables: Any, pressure: float) -> Saturation:
        """The same with viscosities."""
        return self.saturation(tables, pressure, viscous=True)

    def on_grid(self, tables: Any, grid: Any, pressure: float, above: float) -> float:
        """A quantity of vapour."""
        self.dry.update(self.library.PQ_INPUTS, pressure, 1.0)
        if above <= 0.0:
            state = self.dry
        else:
            state = self.gas
            state.update(self.library.HmassP_INPUTS, self.dry.hmass() + above, pressure)
        if grid is tables.grid_k:
            return float(state.T())
        return float(pressure / state.rhomass() if grid is tables.grid_pv else state.smass() + self.s_zero)

    def dew_pressure_at(self, _tables: Any, temperature: float) -> float:
        """Pressure of dew at a temperature."""
        self.dry.update(self.library.QT_INPUTS, 1.0, temperature)
        return float(self.dry.p())

    def boiling_pressure(self, _tables: Any, pressure: float, enthalpy: float) -> float:
        """Where liquid begins to boil, by Newton's method on the temperature."""
        self.wet.update(self.library.PQ_INPUTS, pressure, 0.0)
        kelvin = self.wet.T()
        for _ in range(4):
            self.wet.update(self.library.QT_INPUTS, 0.0, kelvin)
            off = self.wet.hmass() + self.h_zero - enthalpy
            if abs(off) < 1e-6:
                break
            kelvin -= off / self.wet.cpmass()
        return min(pressure, float(self.wet.p()))

    def compressed_enthalpy(self, tables: Any, low: float, enthalpy: float, high: float) -> float:
        """After compression without loss, by CoolProp's own search along constant entropy."""
        self.dry.update(self.library.PQ_INPUTS, low, 1.0)
        dry_h, dry_k = self.dry.hmass() + self.h_zero, self.dry.T()
        entropy = self.on_grid(tables, tables.grid_s, low, max(0.0, enthalpy - dry_h))
        entropy += min(0.0, enthalpy - dry_h) / dry_k
        self.gas.update(self.library.PSmass_INPUTS, high, entropy - self.s_zero)
        return float(self.gas.hmass() + self.h_zero)

    @contextmanager
    def patched(self) -> Any:
        """The package's look-ups replaced for as long as it is open."""
        names = {
            "saturation": self.saturation,
            "_on_grid": self.on_grid,
            "dew_pressure_at": self.dew_pressure_at,
            "boiling_pressure": self.boiling_pressure,
            "compressed_enthalpy": self.compressed_enthalpy,
        }
        kept = [(user, name, getattr(user, name)) for user in USERS for name in names if hasattr(user, name)]
        try:
            for user, name, _ in kept:
                setattr(user, name, self.viscous if (user, name) == (capillary, "saturation") else names[name])
            yield
        finally:
            for user, name, function in kept:
                setattr(user, name, function)


def balances(steady: Callable[..., Any], tables: Any, repeats: int) -> tuple[float, list[Any]]:
    """Median seconds for one warm balance, and the states found."""
    plant_ = built(COOLER)
    around = [
        design_around(COOLER.charge_kg * (0.8 + 0.02 * n))._replace(room_k=273.15 + room, air_k=275.15 + 0.3 * n)
        for n, room in enumerate(ROOMS)
    ]
    state = steady(tables, plant_, around[0], first_guess(tables, around[0])).state
    times, found = [], []
    for _ in range(repeats):
        found, before = [], state
        began = time.process_time()
        for each in around:
            one = steady(tables, plant_, each, before)
            before = one.state
            found.append(one)
        times.append((time.process_time() - began) / len(around))
    return statistics.median(times), found


def furthest(one: list[Any], other: list[Any]) -> float:
    """Largest difference of the pressures of two sets of states."""
    gaps = [
        max(abs(a.state.log_high - b.state.log_high), abs(a.state.log_low - b.state.log_low))
        for a, b in zip(one, other, strict=True)
    ]
    return max(gaps)


def timed_day(run: Callable[..., Any], tables: Any) -> tuple[float, float, Any]:
    """Simulated time over the processor's and over wall time of a day, and what the day came to."""
    around = design_around(COOLER.charge_kg)
    start = first_guess(tables, around)
    run(tables, built(COOLER), around, BOX, start, 600.0, 1.0)
    began, wall = time.process_time(), time.perf_counter()
    day = run(tables, built(COOLER), around, BOX, start, DAY_S, 1.0)
    return DAY_S / (time.process_time() - began), DAY_S / (time.perf_counter() - wall), day


def main() -> int:
    """Print both tables; 0 if the answers agree and the targets are met."""
    fast = importlib.util.find_spec("numba") is not None
    plain = engine(COOLER)
    with InTheLoop(COOLER.refrigerant).patched():
        slow_s, slow = balances(balance.steady, plain.tables, 1)
    rows = {"plain": balances(plain.steady, plain.tables, REPEATS)}
    days = {"plain": timed_day(cooler_day, plain.tables)}
    if fast:
        quick = engine(COOLER, fast=True)
        rows["compiled"] = balances(quick.steady, quick.tables, COMPILED_REPEATS)
        days["compiled"] = timed_day(compiled(cooler_day), quick.tables)
    good = all(each.residual <= CLOSED for _, found in rows.values() for each in found)
    print(f"{'steady balance, CoolProp in the loop':<40}{slow_s * 1e3:9.3f} ms")
    for name, (seconds, found) in rows.items():
        apart, ratio = furthest(found, slow), slow_s / seconds
        good &= apart < AGREED and ratio >= TARGETS[name]
        print(
            f"{'steady balance, tables, ' + name:<40}{seconds * 1e3:9.3f} ms {ratio:8.1f} × faster "
            f"(wanted {TARGETS[name]:g}), pressures within {apart:.1e}"
        )
    for name, (ratio, by_wall, day) in days.items():
        good &= ratio >= DAY_TARGETS[name]
        print(
            f"{'24 h on the thermostat, ' + name:<40}{DAY_S / ratio:9.3f} s  {ratio:8,.0f} × real time "
            f"(wanted {DAY_TARGETS[name]:,.0f}; by wall time {by_wall:,.0f}), "
            f"{day.steps} steps, {day.starts} starts, {day.joules / 3.6e6:.3f} kWh"
        )
    if not fast:
        print("the compiled rows need the extra: pip install coldwright[fast]")
    print("answers agree and every target is met" if good else "an answer is apart or a target is missed")
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
