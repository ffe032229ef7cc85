"""The circuit of a whole cooler at one moment, against arithmetic by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from coldwright.appliance.cooler import cooler, coolers
from coldwright.appliance.unit import arrival_state
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.electrical.windings import REFERENCE_K
from coldwright.errors import InputError

COLD = arrival_state(REFERENCE_K)
MEGOHM = 10e6


def circuit(model: str = "Tarn 11", **state) -> UnitCircuit:
    """A healthy unit of a model, windings at 20 °C, with parts of its state changed."""
    found = cooler(model)
    return UnitCircuit(found.wiring, found.parts, replace(COLD, **state))


def test_windings_read_as_the_plate_says_with_the_start_device_off():
    """At 20 °C run, start and both in series read the plate's ohms: nothing else joins the bare pins."""
    bare = circuit(removed=frozenset({"relay", "overload"}))
    motor = cooler("Tarn 11").parts.motor
    assert bare.resistance("pin C", "pin R") == pytest.approx(motor.run_ohm, rel=1e-6)
    assert bare.resistance("pin C", "pin S") == pytest.approx(motor.start_ohm, rel=1e-6)
    assert bare.resistance("pin R", "pin S") == pytest.approx(motor.run_ohm + motor.start_ohm, rel=1e-6)


def test_lamp_has_the_ohms_of_its_watts_hot_and_a_tenth_cold():
    """A lamp of 15 W at 120 V has 120²/15 = 960 Ω at white heat; a cold filament has about a tenth (from memory)."""
    assert circuit(removed=frozenset({"lamp"})).resistance("lamp 1", "lamp 2") == pytest.approx(96.0)
    lit = circuit(plugged=True, knob_on=False, door_open=True)
    assert lit.ac_voltage("lamp 1", "lamp 2", MEGOHM) / lit.ac_current("lamp 1") == pytest.approx(960.0, rel=1e-3)


def test_cord_resistance_adds_up():
    """From plug to plug through the closed lamp circuit: two conductors, the closed door switch, the lamp."""
    off = frozenset({"thermostat"})
    opened = circuit(door_open=True, removed=off)
    assert opened.resistance("plug L", "plug N") == pytest.approx(0.08 + 0.02 + 96.0 + 0.08, rel=1e-6)
    assert math.isinf(circuit(door_open=False, removed=off).resistance("plug L", "cord N"))


def test_unplugged_shows_no_volts_and_the_outlet_stays_live():
    """With the plug out every terminal is dead; the outlet on the bench shows the supply."""
    dead = circuit()
    assert dead.ac_voltage("cord L", "cord N", MEGOHM) < 1e-9
    assert dead.ac_voltage("outlet L", "outlet N", MEGOHM) == pytest.approx(120.0, rel=1e-3)
    assert dead.power() == (0.0, 0.0, 0.0)


def test_plugged_in_an_open_switch_carries_the_supply_and_a_closed_one_nothing():
    """Across an open door switch stands the supply, across it closed hardly anything; the lamp the other way round."""
    shut, opened = (circuit(plugged=True, speed=370.0, door_open=door) for door in (False, True))
    assert shut.ac_voltage("door switch 1", "door switch 2", MEGOHM) == pytest.approx(119.4, abs=0.5)
    assert opened.ac_voltage("door switch 1", "door switch 2", MEGOHM) < 0.01
    assert opened.ac_voltage("lamp 1", "lamp 2", MEGOHM) == pytest.approx(119.4, abs=0.5)


def test_clamp_round_the_whole_cord_reads_nothing():
    """Live and neutral cancel; one conductor alone shows the current of the unit."""
    running = circuit(plugged=True, speed=370.0)
    assert running.ac_current("cord L") > 1.5
    assert running.ac_current("cord") < 1e-3
    assert running.ac_current("cord L") == pytest.approx(running.ac_current("cord N"), rel=1e-3)


def test_currents_into_a_component_and_out_of_it_are_equal():
    """Kirchhoff: what goes into the overload comes out; pins R and S together carry what pin C does."""
    locked = circuit(plugged=True, contact_closed=True)
    assert locked.ac_current("overload 1") == pytest.approx(locked.ac_current("overload 2"), rel=1e-9)
    total = locked.component_current("compressor first") + locked.component_current("compressor second")
    assert abs(total) == pytest.approx(locked.ac_current("pin C"), rel=1e-4)


def test_power_is_that_of_a_lone_resistor():
    """With the thermostat off and the door open the lamp alone takes power: V²/R, power factor one."""
    lamp = circuit(plugged=True, knob_on=False, door_open=True)
    watts, volts, amps = lamp.power()
    assert watts == pytest.approx(volts * amps, rel=1e-6)
    assert watts == pytest.approx(120.0**2 / 960.0, rel=2e-3)


def test_ghost_voltage_on_a_floating_wire():
    """Lamp off its wire: the wire behind the open switch floats beside a live one.

    By hand: 300 pF from live in series with the meter beside 100 pF to earth. At 60 Hz 10 MΩ sees tens of volts,
    3 kΩ next to nothing.
    """
    floating = circuit(plugged=True, knob_on=False, removed=frozenset({"lamp"}))
    omega = 2 * math.pi * 60
    above = 1 / (1j * omega * 300e-12)
    for ohm in (10e6, 3e3):
        below = 1 / (1 / ohm + 1j * omega * 100e-12)
        by_hand = 120.0 * abs(below / (above + below))
        assert floating.ac_voltage("door switch 2", "cord N", ohm) == pytest.approx(by_hand, rel=0.01, abs=0.01)
    assert floating.ac_voltage("door switch 2", "cord N", 10e6) > 20
    assert floating.ac_voltage("door switch 2", "cord N", 3e3) < 1


def test_capacitance_is_read_off_the_unit_and_not_in_it():
    """Off, a capacitor reads its microfarads; wired to the windings it does not."""
    model = "Tarn 26"
    farad = cooler(model).parts.run_capacitor.farad
    off = circuit(model, removed=frozenset({"run capacitor"}))
    assert off.capacitance("run capacitor 1", "run capacitor 2") == pytest.approx(farad, rel=1e-3)
    assert abs(circuit(model).capacitance("run capacitor 1", "run capacitor 2") / farad - 1) > 0.05


def test_charged_capacitor_shows_its_volts():
    """What stays on a start capacitor shows on d.c. volts, whichever way the tips are."""
    charged = circuit("Tarn 14", start_capacitor_v=150.0, removed=frozenset({"start capacitor"}))
    assert charged.dc_voltage("start capacitor 1", "start capacitor 2", MEGOHM) == pytest.approx(150.0, rel=1e-3)
    assert charged.dc_voltage("start capacitor 2", "start capacitor 1", MEGOHM) == pytest.approx(-150.0, rel=1e-3)


def test_current_input_across_the_supply_is_a_short_circuit():
    """A shunt of 10 mΩ from live to neutral takes what the wiring lets through: 120 V over 0.35 + 0.16 + 0.01 Ω."""
    assert circuit(plugged=True, knob_on=False).series_current("cord L", "cord N", 0.01) == pytest.approx(
        120.0 / (0.35 + 0.16 + 0.01), rel=1e-3
    )


def test_loose_joint_drops_volts_under_load_and_none_without():
    """A joint of 4 Ω in series with the running compressor drops volts by Ohm's law, and nothing at rest."""
    found = cooler("Tarn 11")
    parts = replace(found.parts, loose={"overload 1": 4.0})
    running = UnitCircuit(found.wiring, parts, replace(COLD, plugged=True, speed=370.0))
    drop = running.ac_voltage("thermostat 2", "overload 1", MEGOHM)
    assert drop == pytest.approx(4.0 * running.ac_current("overload 1"), rel=1e-3)
    off = UnitCircuit(found.wiring, parts, replace(COLD, plugged=True, knob_on=False))
    assert off.ac_voltage("thermostat 2", "overload 1", MEGOHM) < 0.01


@pytest.mark.parametrize("model", [each.model for each in coolers()])
def test_nothing_in_a_plugged_unit_floats_but_what_a_switch_leaves(model):
    """Every terminal of a healthy unit has a voltage to neutral that is no more than the windings can make."""
    live = circuit(model, plugged=True, door_open=True)
    volts = cooler(model).volts
    for terminal in live.wiring.terminals:
        assert live.ac_voltage(terminal, "plug N", MEGOHM) < 2.5 * volts if terminal != "plug N" else True


def test_a_terminal_that_is_not_there_is_refused():
    """The message lists the terminals."""
    with pytest.raises(InputError, match=r"there is no terminal 'pin X' here; the terminals are outlet L"):
        circuit().resistance("pin X", "pin C")
    with pytest.raises(InputError, match=r"there is no wire at 'outlet L'"):
        circuit(plugged=True).ac_current("outlet L")
