"""Faults of a unit: at least two dozen, each a change of parameters and of nothing else."""

from __future__ import annotations

from dataclasses import fields

import pytest

from coldwright.appliance.cooler import cooler, cooler_from, coolers
from coldwright.appliance.unit_faults import CHANGES, FaultName, UnitFault, can_have, with_fault
from coldwright.errors import InputError


def test_every_fault_can_be_had_by_some_model_and_none_is_for_show():
    """Each name has a change; each but 'no fault' changes some part of some model; there are more than two dozen."""
    assert set(CHANGES) == set(FaultName)
    assert len(FaultName) > 24
    for name in FaultName:
        having = [each for each in coolers() if can_have(each.parts, name)]
        assert having, name
        if name is not FaultName.NONE:
            assert all(with_fault(e.parts, UnitFault(name, 0.5, "pin C")) != e.parts for e in having), name


@pytest.mark.parametrize("name", [name for name in FaultName if name is not FaultName.NONE])
def test_a_fault_changes_one_part(name):
    """Of all parts of a unit one changes; a wrong capacitor changes its marking with it."""
    for each in coolers():
        if not can_have(each.parts, name):
            continue
        faulty = with_fault(each.parts, UnitFault(name, 0.3, "pin C"))
        changed = {f.name for f in fields(faulty) if getattr(faulty, f.name) != getattr(each.parts, f.name)}
        assert len(changed - {"marked"}) == 1, (each.model, changed)


def test_a_fault_that_a_unit_cannot_have_is_refused():
    """The message says what the unit lacks."""
    with pytest.raises(InputError, match="start capacitor open: this unit has no start capacitor"):
        with_fault(cooler("Tarn 11").parts, UnitFault(FaultName.START_CAPACITOR_OPEN))
    with pytest.raises(InputError, match="the size of a fault is 2; it must be from 0 to 1"):
        UnitFault(FaultName.SEIZED, 2.0)


def entry(**changes):
    """A cooler's entry with parts of it changed."""
    motor = {
        "run_ohm": 4.1,
        "run_leakage_ohm": 4.2,
        "rotor_ohm": 4.6,
        "rotor_leakage_ohm": 3.2,
        "magnetising_ohm": 150,
        "start_ohm": 14.5,
        "start_leakage_ohm": 4.0,
        "turns_ratio": 0.95,
        "poles": 2,
        "inertia_kg_m2": 8e-4,
        "core_loss_w": 8,
        "friction_w": 6,
    }
    relay = {"pick_up_a": 8.6, "drop_out_a": 7.3, "coil_ohm": 0.12, "coil_inductance_h": 0.0004}
    whole = {
        "model": "Beck 1",
        "wiring": "resistance start, current relay",
        "volts": 120,
        "hertz": 60,
        "refrigerant": "R-134a",
        "motor": motor,
        "relay": relay,
        "load": {"equal_nm": 0.08, "working_nm": 0.25},
        "fans": {"condenser fan": {"watts": 9, "amps": 0.16, "winding_ohm": 96}},
        "lamp_w": 15,
    }
    for key, value in changes.items():
        inner, _, leaf = key.partition("__")
        if leaf:
            whole[inner] = {**whole[inner], leaf: value}
        else:
            whole[inner] = value
    return whole


def test_a_sound_entry_is_read():
    """A shop's own cooler, from the same keys."""
    assert cooler_from(entry()).model == "Beck 1"


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"volts": 12}, "volts is 12 V at 60 Hz; the course has 120 V at 60 Hz and 230 V at 50 Hz. Is there a typing"),
        ({"hertz": 0}, "hertz is 0; it must be a positive number"),
        ({"volts": "120 V"}, "volts is '120 V'; it must be a positive number"),
        ({"wiring": "star"}, "wiring 'star' is unknown; known are resistance start"),
        ({"colour": "white"}, "colour is no key of a cooler; known keys are"),
        ({"motor__run_ohm": -4.1}, "run_ohm of the motor is -4.1 Ω; it must be above zero"),
        ({"relay__drop_out_a": 9.9}, "drop-out"),
        ({"relay__pickup": 9.9}, "relay has 'pickup', which is unknown; known are"),
        ({"start_capacitor": {"uf": 0, "volts": 165}}, "uf is 0; it must be a positive number"),
    ],
)
def test_a_nameplate_with_a_typing_error_is_refused(changes, message):
    """The message names the model, the key, its value and the rule."""
    with pytest.raises(InputError) as refused:
        cooler_from(entry(**changes))
    assert "Beck 1" in str(refused.value)
    assert message in str(refused.value)


def test_a_model_that_is_not_there_is_refused():
    """The message lists the models."""
    with pytest.raises(InputError, match="there is no cooler 'Tarn 99'; there are Tarn 11"):
        cooler("Tarn 99")
