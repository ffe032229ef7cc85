"""The shared checks, and that constructors and functions of the electrical room use them: no TypeError, no nan."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
import pytest

from coldwright.appliance.nameplate import CompressorPlate
from coldwright.appliance.parts import Cord, Defrost, Fan, Heat, Thermostat
from coldwright.electrical.capacitor import Capacitor, Purpose, series_volts, stored_energy
from coldwright.electrical.capacitor_discharge import (
    DischargeLimit,
    DischargeResistor,
    charging_volts,
    discharge_curve,
    time_to_fall,
    volts_left,
)
from coldwright.electrical.capacitor_rule import Marking
from coldwright.electrical.capacitor_sizing import capacitor_voltage, quadrature_capacitance, rating_needed
from coldwright.electrical.capacitor_tests import loss_tangent
from coldwright.electrical.heating import after, time_to
from coldwright.electrical.measured import Measured
from coldwright.electrical.motor_curves import starting
from coldwright.electrical.motor_estimate import MotorPlate
from coldwright.electrical.motor_types import Load, MotorType, StartCircuit, capacitor_impedance
from coldwright.electrical.network import Branch, Coupled, Network, Source, Switch
from coldwright.electrical.overload import Overload
from coldwright.electrical.ptc import Ptc
from coldwright.electrical.start_relays import CurrentRelay, SolidStateSwitch
from coldwright.electrical.winding_data import WindingData
from coldwright.electrical.windings import resistance_at
from coldwright.errors import InputError
from coldwright.instruments.display import Error, Range
from coldwright.instruments.limits import voltmeter_share
from coldwright.instruments.power_meter import energy_of, power_factor
from coldwright.quantities.checks import check_flag, check_phasor, check_positive, is_number

NAN, INF = math.nan, math.inf
BOTH = MotorType.CAPACITOR_START_CAPACITOR_RUN
DATA = WindingData(4.0, 12.0, 0.07)


@pytest.mark.parametrize("value", [1, 1.5, np.float64(2), np.float32(2), np.int64(3), Fraction(1, 2)])
def test_numbers_of_every_make_pass(value):
    """What Python and numpy call a real number is one."""
    assert is_number(value)
    check_positive("x", value, "V")


@pytest.mark.parametrize("value", ["5", None, True, np.True_, 1j, [1.0], np.array([1.0])])
def test_what_is_no_real_number_is_told_so(value):
    """Text, None, True, a complex number, a list: one sentence each, no TypeError."""
    with pytest.raises(InputError, match=r"^x is .*; it must be a number$"):
        check_positive("x", value, "V")


def test_flags_and_phasors():
    """Numpy's own truth values are truth values; numpy's complex numbers are numbers."""
    check_flag("x", np.False_)
    check_phasor("x", np.complex128(1j), "V")
    check_phasor("x", 3, "V")


NO_NUMBER = [
    lambda: Branch("b", "a", "c", "5"),
    lambda: Branch("b", "a", "c", 1.0, None),
    lambda: Branch("b", "a", "c", 1.0, 0.0, "5"),
    lambda: Branch("b", "a", "c", 1.0).impedance("50"),
    lambda: Source("s", "a", "b", "120", 60.0),
    lambda: Source("s", "a", "b", 120.0, None),
    lambda: Switch("s", "a", "b", True, "0"),
    lambda: Coupled("m", ("a", "b"), ("c", "d"), (("1", 0), (0, 1)), (1.0, 1.0), 50.0),
    lambda: Network([Branch("b", "a", "c", 1.0)]).solve("50"),
    lambda: Capacitor("5", 450.0),
    lambda: Capacitor(5e-6, "450"),
    lambda: Capacitor(5e-6, 450.0, leak_ohm=None),
    lambda: Capacitor(5e-6, 450.0, loss_tangent="0"),
    lambda: Marking("1", 2e-6, 450.0, Purpose.RUN),
    lambda: stored_energy(1e-6, "325"),
    lambda: volts_left("325", 1e-6, 1e6, 1.0),
    lambda: volts_left(325.0, 1e-6, 1e6, "1"),
    lambda: time_to_fall(325.0, None, 1e-6, 1e6),
    lambda: rating_needed("400", Purpose.RUN),
    lambda: rating_needed(400.0, Purpose.RUN, "0"),
    lambda: quadrature_capacitance("4.5", 9.5 + 3.5j, 60.0),
    lambda: capacitor_voltage("120", 9.5 + 3.5j, 1e-6, 60.0),
    lambda: loss_tangent("1", 230.0, 2.0),
    lambda: capacitor_impedance(None, 50.0),
    lambda: StartCircuit(BOTH, "80", 5e-6),
    lambda: Load("1"),
    lambda: MotorPlate("120", 60.0, 95.0, 1.8, 15.0, 2),
    lambda: MotorPlate(120.0, 60.0, 95.0, 1.8, None, 2),
    lambda: Measured("4.2"),
    lambda: Measured(4.2, None),
    lambda: starting("4", 5j, 120.0),
    lambda: Overload("0.13", 388.0, 335.0, 2.6, 0.04),
    lambda: Overload(0.13, 388.0, 335.0, 2.6, 0.04, "0.4"),
    lambda: Ptc(5.0, None, 0.16, 12e3, 3.6, 0.02),
    lambda: CurrentRelay("8", 7.0, 0.1, 0.0),
    lambda: SolidStateSwitch(None, 60.0),
    lambda: WindingData("4", 12.0, 0.07),
    lambda: WindingData(4.0, 12.0, "7"),
    lambda: resistance_at("4", 293.0),
    lambda: Range("600", 0.1, 1.0, 3),
    lambda: Error("0"),
    lambda: voltmeter_share("1", 1e7),
    lambda: energy_of([("1", 2.0)]),
    lambda: power_factor(10.0, None, 1.0),
]


@pytest.mark.parametrize("made", NO_NUMBER, ids=range(len(NO_NUMBER)))
def test_text_and_none_are_refused_in_words(made):
    """What used to be a TypeError names the value and says what is wanted."""
    with pytest.raises(InputError, match=r"must be (a number|numbers)$"):
        made()


CANNOT_BE = [
    (lambda: Switch("s", "a", "b", "no"), "closed of s is 'no'; it must be True or False"),
    (lambda: Branch("b", "a", "c", 1.0).impedance(-50.0), "the frequency is -50 Hz; it must be zero or more"),
    (lambda: StartCircuit(BOTH, 0.0, 5e-6), "the capacitance of the start capacitor is 0 µF; it must be above 0 µF"),
    (lambda: StartCircuit(BOTH, 80e-6, NAN), "the capacitance of the run capacitor is nan µF"),
    (
        lambda: StartCircuit(BOTH, 80e-6, 5e-6, start_loss=-1.0),
        "the loss of the start capacitor is -1; it must be zero",
    ),
    (lambda: StartCircuit(BOTH, 80e-6, 5e-6, run_loss=NAN), "the loss of the run capacitor is nan; it must be zero"),
    (lambda: after(1.0, 2.0, 3.0, 0.0), "the time constant is 0 s; it must be above 0 s"),
    (lambda: after(NAN, 2.0, 3.0, 1.0), "the temperature at the beginning is nan K; it must be finite"),
    (lambda: time_to(300.0, 300.0, 400.0, 0.0), "the time constant is 0 s; it must be above 0 s"),
    (lambda: time_to(300.0, NAN, 400.0, 1.0), "the temperature to reach is nan K; it must be finite"),
    (lambda: time_to(300.0, 350.0, INF, 1.0), "the temperature that it settles at is inf K; it must be finite"),
    (lambda: series_volts((1e-6, 2e-6), NAN), "the voltage across the row is nan V; it must be finite"),
    (lambda: volts_left(NAN, 1e-6, 1e6, 1.0), "the voltage at the beginning is nan V; it must be finite"),
    (lambda: discharge_curve(NAN, 1e-6, 1e6, np.zeros(2)), "the voltage at the beginning is nan V; it must be finite"),
    (lambda: charging_volts(NAN, 1e-6, 1e6, 1.0), "the direct voltage of the source is nan V; it must be finite"),
    (lambda: capacitor_voltage(NAN, 9 + 3j, 1e-6, 60.0), "the supply is nan V; it must be finite"),
    (lambda: capacitor_voltage(120.0, complex(NAN, 1), 1e-6, 60.0), "the impedance of the start winding is nan+1j Ω"),
    (lambda: DischargeLimit(0.0, 60.0, "none"), "the voltage of the limit is 0 V; it must be above 0 V"),
    (lambda: DischargeResistor(-1.0, 1.0, 1.0, 0.0), "the discharge resistor is -1 Ω; it must be above 0 Ω"),
    (lambda: DischargeResistor(1e3, NAN, 1.0, 0.0), "at the first moment is nan W; it must be zero or more"),
    (lambda: Cord(-5.0), "the cord's live conductor is -5 Ω; it must be zero or more; inf stands for a broken wire"),
    (lambda: Thermostat(NAN, 275.0), "the thermostat closes at is nan K; it must be 200 K or more and finite"),
    (lambda: Thermostat(279.0, INF), "the thermostat opens at is inf K; it must be 200 K or more and finite"),
    (lambda: Thermostat(275.0, 279.0), "it must open at the lower of the two. Were they swapped?"),
    (lambda: Defrost(-1.0), "the defrost heater is -1 Ω; it must be above 0 Ω"),
    (lambda: Defrost(40.0, cooling_s=0.0), "the cooling time of the defrost timer is 0 s; it must be above 0 s"),
    (lambda: Fan(9.0, 0.16, 96.0, stalled=NAN), "as a share of its amps, is nan; it must be above 0"),
    (lambda: Heat(winding_w_per_k=0.0), "winding_w_per_k of the compressor is 0 W/K; it must be above 0 W/K"),
    (
        lambda: CompressorPlate("T", 0.0, 60.0, "R-134a", DATA, 88e-6, 0.03, 0.04),
        "the supply on the compressor's nameplate is 0 V; it must be above 0 V",
    ),
    (
        lambda: CompressorPlate("T", 120.0, 60.0, 134, DATA, 88e-6, 0.03, 0.04),
        "the refrigerant on the compressor's nameplate is 134; it must be text",
    ),
    (lambda: Range(600.0, 0.0, 1.0, 3), "the resolution of a range is 0; it must be above 0 and finite"),
    (lambda: Error(gain=2.0), "the gain of an instrument's error is 2; it must be from -1 to 1"),
]


@pytest.mark.parametrize(("made", "message"), CANNOT_BE, ids=range(len(CANNOT_BE)))
def test_what_cannot_be_is_refused_by_name(made, message):
    """Zero, nan, a negative or an infinite value where none can be: named with its unit and the rule."""
    with pytest.raises(InputError) as refused:
        made()
    assert message in str(refused.value)


def test_a_broken_wire_may_have_infinite_ohms():
    """An open cord is a fault that the course teaches."""
    assert math.isinf(Cord(live_ohm=INF).live_ohm)
