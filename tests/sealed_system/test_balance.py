"""The steady balance: a healthy cooler, what closes, random draws, one solution from any start, and what is refused."""

from __future__ import annotations

import dataclasses
import math
import sys
from collections import Counter

import pytest

from coldwright.errors import InputError
from coldwright.refrigerants.kernels import compiled, dew_pressure_at, saturation
from coldwright.sealed_system import engine as module
from coldwright.sealed_system.around import surroundings
from coldwright.sealed_system.balance import CLOSED, first_guess
from coldwright.sealed_system.design import SystemPlate, design_around, plant_of
from coldwright.sealed_system.engine import engine_of
from coldwright.sealed_system.outcome import Outcome, settled
from coldwright.sealed_system.plant import State
from coldwright.sealed_system.void_fraction import quality_of_mass
from tests.sealed_system.bracketing import Brackets, machine_code
from tests.sealed_system.plants import COOLER, FAST, PLATES, built, drawn, engine
from tests.sealed_system.states import settled_of

BAR = 1e5
ATMOSPHERE_PA = 101325.0
AGREED = 1e-5  # in ln P, between the package and the slow solver
BRACKETED = {"draws": 30}


def test_a_healthy_cooler_reads_as_one():
    """R-134a, 5 cm³, 80 g, room 25 °C, air 4 °C: pressures, superheat, subcooling, watts of such a cooler.

    Common practice, no source: suction 0.5 to 1 bar gauge, discharge 9 to 11, superheat 8 to 12 K, subcooling 5 to 9 K,
    130 to 150 W.
    """
    now = settled_of(COOLER)[1]
    assert 0.5 < (now.suction_pa - ATMOSPHERE_PA) / BAR < 1.0
    assert 9.0 < (now.discharge_pa - ATMOSPHERE_PA) / BAR < 11.0
    assert 8.0 < now.superheat_k < 12.0
    assert 5.0 < now.subcooling_k < 9.0
    assert 130.0 < now.watts < 150.0


@pytest.mark.parametrize("plate", PLATES, ids=lambda p: p.refrigerant)
def test_the_plates_charge_gives_the_designs_readings(plate):
    """Calibrated: with the charge on the plate 10 K of superheat and 7 K of subcooling, a capillary of usual length."""
    now = settled_of(plate)[1]
    assert now.superheat_k == pytest.approx(10.0, abs=0.05)
    assert now.subcooling_k == pytest.approx(7.0, abs=0.05)
    assert 1.0 < built(plate).capillary_m < 6.0


def starts(tables, around) -> list[State]:
    """Six states to begin from: the usual guess, hot, cold, at one pressure, refrigerant all high, all low."""
    usual, charge = first_guess(tables, around), around.charge_kg
    equal = math.log(dew_pressure_at(tables, min(around.room_k, around.air_k)))
    return [
        usual,
        usual._replace(log_high=usual.log_high + 0.4, log_low=usual.log_low + 0.4, shell_k=usual.shell_k + 30.0),
        usual._replace(log_high=usual.log_high - 0.2, log_low=usual.log_low - 0.6, shell_k=around.room_k),
        usual._replace(log_high=equal + 0.05, log_low=equal, shell_k=around.room_k),
        usual._replace(high_kg=0.85 * charge),
        usual._replace(high_kg=0.15 * charge),
    ]


def test_random_draws_settle_and_close(sample, figure):
    """Draws over three plates, charge 30 to 160 %, room 10 to 43 °C, cabinet -5 to 32 °C, ten faults of any size.

    At least 99.5 % of those with a steady state are found: what is not found and not tripped is given to the slow
    solver. Energy closes to 1e-6 of the watts, mass to 1e-9 of the charge.
    """
    count = sample(small=60, full=2000)
    fast = count > 100
    outcomes, unsettled, worst_w, worst_kg, worst_flow = Counter(), [], 0.0, 0.0, 0.0
    for number in range(count):
        draw = drawn(number)
        found = settled(engine(draw.plate, fast=fast), draw.plant, draw.around)
        outcomes[found.outcome] += 1
        if not found.is_steady:
            if found.outcome is Outcome.UNSETTLED:
                unsettled.append(number)
            continue
        now, state = found.moment, found.state
        worst_w = max(worst_w, abs(now.surplus_w) / now.watts)
        whole = state.high_kg + now.low_kg + state.oil_kg
        worst_kg = max(worst_kg, abs(whole - draw.around.charge_kg) / draw.around.charge_kg)
        worst_flow = max(worst_flow, abs(now.flow - now.capillary) / now.flow)
    missed = [number for number in unsettled if _slowly(number)]
    figure("balance: outcomes of the draws", ", ".join(f"{n} {o.name}" for o, n in outcomes.most_common()))
    figure("balance: not found though there is a steady state", f"{len(missed)} of {count}")
    figure("balance: worst of energy over watts, mass over charge", f"{worst_w:.1e}, {worst_kg:.1e}")
    figure("balance: worst of capillary against compressor, of the flow", f"{worst_flow:.1e}")
    assert len(missed) <= 0.005 * (count - len(unsettled) + len(missed))
    assert worst_w < 1e-6
    assert worst_kg < 1e-9
    assert worst_flow < 1e-6
    assert Outcome.STEADY in outcomes


def _slowly(number: int) -> list[State]:
    """The steady states of a draw by the slow solver."""
    draw = drawn(number)
    tables = engine(draw.plate, fast=True).tables
    if FAST:
        fast_moment, fast_capillary = machine_code()
        return Brackets(tables, draw.plant, draw.around, moment=fast_moment, capillary=fast_capillary).steady_states()
    return Brackets(tables, draw.plant, draw.around).steady_states()


def test_the_slow_solver_finds_the_same(sample, figure):
    """Nested bracketing, without a line of our solver, ends in the same pressures; the full run counts its solutions.

    Plain runs look only near the mass that the low side has.
    """
    if sample(small=1, full=BRACKETED["draws"]) == 1:
        draw = drawn(0)
        found = settled(engine(draw.plate), draw.plant, draw.around)
        slow = Brackets(engine(draw.plate).tables, draw.plant, draw.around)
        state, charge = slow.balanced(found.moment.low_kg)
        assert charge == pytest.approx(draw.around.charge_kg, rel=AGREED)
        assert (state.log_high, state.log_low) == pytest.approx((found.state.log_high, found.state.log_low), abs=AGREED)
        return
    worst, alone = 0.0, 0
    for number in range(BRACKETED["draws"]):
        draw = drawn(number)
        found = settled(engine(draw.plate, fast=True), draw.plant, draw.around)
        if not found.is_steady:
            continue
        states = _slowly(number)
        off = [abs(s.log_high - found.state.log_high) + abs(s.log_low - found.state.log_low) for s in states]
        worst, alone = max(worst, min(off)), alone + (len(states) == 1)
    figure("balance: worst difference from the slow solver, ln P", f"{worst:.1e}")
    figure("balance: draws in which the slow solver finds one solution", f"{alone} of {BRACKETED['draws']}")
    assert worst < AGREED


def test_one_solution_from_six_starts(sample, figure):
    """From six starts each draw settles in the same state, to 1e-5 in both pressures."""
    count = sample(small=8, full=300)
    two, ends = [], Counter()
    for number in range(count):
        draw = drawn(number)
        machine = engine(draw.plate, fast=count > 100)
        found = [settled(machine, draw.plant, draw.around, each) for each in starts(machine.tables, draw.around)]
        ends[len({each.outcome for each in found})] += 1
        steady = [each.state for each in found if each.is_steady]
        for other in steady[1:]:
            if max(abs(other.log_high - steady[0].log_high), abs(other.log_low - steady[0].log_low)) > AGREED:
                two.append(number)
                break
    figure("balance: draws with two solutions from six starts", f"{len(two)} of {count}")
    figure("balance: draws in which all six starts have the same outcome", f"{ends[1]} of {count}")
    assert two == []


def test_machine_code_settles_in_the_same_state(sample):
    """Compiled and plain agree to 1e-9 in ln P; the plain run, which has no half minute to compile, tries one part."""
    pytest.importorskip("numba")
    if sample(small=1, full=len(PLATES)) == 1:
        arguments = (1200.0, 30.0, 0.085, 0.3, 1.5e-4, 4e-5, 0.02, 0.0)
        assert compiled(quality_of_mass)(*arguments) == pytest.approx(quality_of_mass(*arguments), abs=1e-12)
        return
    for plate in PLATES:
        around = design_around(plate.charge_kg)
        fast = settled(engine(plate, fast=True), built(plate), around).state
        plain = settled(engine(plate), built(plate), around).state
        assert (fast.log_high, fast.log_low) == pytest.approx((plain.log_high, plain.log_low), abs=1e-9)


def test_a_condenser_without_air_on_a_hot_day_trips():
    """An overheated system is no error: its motor cannot drive it, and it trips on overload."""
    around = surroundings(room_k=316.15, air_k=303.15, charge_kg=1.3 * COOLER.charge_kg, condenser_air=0.15)
    assert settled(engine(COOLER), built(COOLER), around).outcome is Outcome.TRIPS


def test_too_much_charge_floods_back():
    """Far overcharged and cold: liquid comes back to the compressor."""
    around = surroundings(room_k=298.15, air_k=272.15, charge_kg=1.6 * COOLER.charge_kg)
    found = settled(engine(COOLER), built(COOLER), around)
    assert found.outcome is Outcome.FLOODS_BACK
    assert found.moment.outlet_quality < 0.9
    assert found.moment.superheat_k == pytest.approx(0.0, abs=1e-9)


def test_almost_nothing_left_runs_empty():
    """With a tenth of its charge the evaporator has next to no liquid, and suction falls far below the atmosphere."""
    around = surroundings(room_k=298.15, air_k=293.15, charge_kg=0.12 * COOLER.charge_kg)
    found = settled(engine(COOLER), built(COOLER), around)
    assert found.outcome is Outcome.EMPTY
    assert found.moment.suction_pa < 0.6 * ATMOSPHERE_PA


def test_steady_is_when_nothing_changes():
    """In the state that is called steady every rate is below what is called closed, in its own scale."""
    state, now = settled_of(COOLER)
    rates = now.rates
    assert max(abs(rates.log_high), abs(rates.log_low), abs(rates.high_kg) / COOLER.charge_kg) <= CLOSED
    assert abs(rates.shell_k) / 30.0 <= CLOSED
    assert max(abs(rates.return_h), abs(rates.inlet_h)) / 2e4 <= CLOSED
    assert saturation(engine(COOLER).tables, math.exp(state.log_low)).dew_k == pytest.approx(now.evaporating_k)


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        ({"charge_kg": -0.08}, "the charge is -80 g; it must be above zero"),
        ({"charge_kg": float("nan")}, "the charge is nan g; it must be above zero"),
        ({"charge_kg": 0.00282}, "Were ounces typed as grams\\? Then it would be 79.9 g"),
        ({"charge_kg": 2.268}, "Were grams typed as ounces\\? Then it would be 80 g"),
        ({"charge_kg": 80.0}, "Were grams typed where kilograms are wanted\\? Then it would be 80 g"),
        ({"charge_kg": 8e-5}, "Were kilograms typed where grams are wanted\\? Then it would be 80 g"),
        ({"refrigerant": "R-999"}, "R-999"),
        ({"displacement_m3": 5e-3}, "the displacement is 5000 cm³; .* Were litres or cubic inches typed for cm³\\?"),
        ({"hertz": 55.0}, "the frequency is 55 Hz; a supply has 50 Hz or 60 Hz"),
    ],
)
def test_nonsense_on_a_plate_is_refused(changed, message):
    """A plate that no cooler has gets a message with the thing, the rule and the likely slip."""
    with pytest.raises(InputError, match=message):
        plant_of(dataclasses.replace(COOLER, **changed))


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        ({"room_k": 473.15}, "the room's temperature is 473.15 K, 200 °C; it must be from -10 °C to 60 °C"),
        ({"room_k": 25.0}, "Was it in °C\\? 25 °C is 298.15 K"),
        ({"room_k": 350.15}, "the room's temperature is 350.15 K, 77 °C; .* Was it in °F\\? 77 °F is 25 °C"),
        ({"air_k": float("nan")}, "the temperature of the air on the evaporator is nan K"),
        ({"charge_kg": -0.01}, "the charge is -0.01 kg; a plug-in unit holds more than nothing and at most 3 kg"),
        ({"charge_kg": 80.0}, "Was it in grams\\? 80 g is 0.08 kg"),
        ({"condenser_air": 0.0}, "the condenser's air is 0; it is a share of what is usual, from 0.02 to 1.5"),
        ({"evaporator_air": 50.0}, "the evaporator's air is 50; .* Was it in percent\\? 50 % is 0.5"),
        ({"speed": 3000.0}, "the speed is 3000; it is a share of what is usual, from 0.4 to 1.6"),
    ],
)
def test_nonsense_around_is_refused(changed, message):
    """Surroundings that no unit meets get a message with the thing, its value, the rule and the likely slip."""
    usual = {"room_k": 298.15, "air_k": 277.15, "charge_kg": 0.08}
    with pytest.raises(InputError, match=message):
        surroundings(**{**usual, **changed})


def test_machine_code_without_the_extra_says_so(monkeypatch):
    """Without the optional extra the message names it."""
    module._machine_code.cache_clear()
    monkeypatch.setitem(sys.modules, "numba", None)
    engine_of.cache_clear()
    with pytest.raises(InputError, match=r"machine code needs the extra 'fast': pip install coldwright\[fast\]"):
        engine_of("R-134a", fast=True)
    module._machine_code.cache_clear()
    engine_of.cache_clear()


def test_a_small_propane_plate_in_ounces_is_caught():
    """60 g of propane typed as 2.1: the message says ounces, not a bad plate."""
    with pytest.raises(InputError, match="Were ounces typed as grams"):
        SystemPlate("R-290", 0.0021, 5e-6, 60.0)
