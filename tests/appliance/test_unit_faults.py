"""Faults of a unit: at least two dozen, each a change of parameters and of nothing else."""

from __future__ import annotations

from dataclasses import fields

import pytest

from coldwright.appliance.cooler import cooler, cooler_from, coolers
from coldwright.appliance.unit import plate_of
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
    overload = {
        "heater_ohm": 0.13,
        "trip_c": 115,
        "reset_c": 62,
        "heat_capacity_j_per_k": 2.6,
        "conductance_w_per_k": 0.04,
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
        "overload": overload,
        "load": {"equal_nm": 0.08, "working_nm": 0.25},
        "fans": {
            "condenser fan": {"watts": 9, "amps": 0.16, "winding_ohm": 96},
            "evaporator fan": {"watts": 6, "amps": 0.11, "winding_ohm": 150},
        },
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
        ({"motor__run_ohm": -4.1}, "run_ohm of the motor is -4.1 Ω; it must be above 0 Ω"),
        ({"relay__drop_out_a": 9.9}, "drop-out"),
        ({"relay__pickup": 9.9}, "relay has 'pickup', which is unknown; known are"),
        ({"motor": 3}, "motor is 3; it must be a table"),
        ({"fans": 3}, "fans is 3; it must be a table"),
        ({"fans__condensor fan": {}}, "its wiring has condenser fan, evaporator fan"),
        (
            {"fans__condenser fan": {"watts": 9, "amps": 0, "winding_ohm": 96}},
            "the fan's amps is 0 A; it must be above 0",
        ),
        ({"motor__run_ohm": "4.1"}, "run_ohm of motor is '4.1'; it must be a number without quote marks"),
        ({"overload__trip_c": "115"}, "trip_c of overload is '115'; it must be a number"),
        ({"load": {"equal_nm": 0.3, "working_nm": 0.1}}, "it must be the smaller of the two. Were they swapped?"),
        ({"start_capacitor": {"volts": 165}}, "uf is missing"),
        ({"wiring": "resistance start, PTC"}, "its wiring has a PTC; ptc is missing"),
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


PLATE = {
    "rated_w": 95,
    "rated_amps": 1.8,
    "locked_rotor_amps": 15.0,
    "poles": 2,
    "run_ohm": 4.1,
    "start_ohm": 14.5,
}


def from_plate(**changes):
    """A cooler of which only the nameplate and the windings' ohms are known."""
    whole = entry(nameplate={**PLATE, **{key.removeprefix("nameplate__"): value for key, value in changes.items()}})
    del whole["motor"], whole["load"]
    return whole


def test_a_nameplate_and_two_ohms_make_a_cooler_that_starts_and_draws_what_it_says():
    """A shop's own unit from its plate: it starts on its relay, and its amps are the plate's within 10 %."""
    own = cooler_from(from_plate())
    assert own.estimates
    assert all(sentence.endswith(".") for sentence in own.estimates)
    plate = plate_of(own)
    assert plate.running_a == pytest.approx(1.8, rel=0.1)
    assert plate.locked_a == pytest.approx(15.0, rel=0.1)


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"nameplate__locked_rotor_amps": 1.5}, "locked-rotor current"),
        ({"nameplate__rated_rpm": 3700}, "rated speed"),
        ({"nameplate__run_ohm": -4}, "run_ohm is -4; it must be a positive number"),
        ({"nameplate__rated_watts": 95}, "nameplate has 'rated_watts', which is unknown"),
    ],
)
def test_a_typing_error_on_the_plate_is_named(changes, message):
    """The message names the model, the figure, its value and the rule."""
    with pytest.raises(InputError) as refused:
        cooler_from(from_plate(**changes))
    assert "Beck 1" in str(refused.value)
    assert message in str(refused.value)
