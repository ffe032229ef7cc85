"""Motors that the tests run: inputs, no expected values."""

from __future__ import annotations

from coldwright.electrical.motor_types import MotorParameters

QUARTER_HP = MotorParameters(
    run_ohm=2.02,  # run winding and rotor: Fitzgerald, Example 9.2 (companion)
    run_leakage_ohm=2.79,
    rotor_ohm=4.12,
    rotor_leakage_ohm=2.12,
    magnetising_ohm=66.8,
    start_ohm=7.14,  # start winding, turns and inertia: Krause, the same 1/4 hp motor (from memory)
    start_leakage_ohm=3.22,
    turns_ratio=1.18,
    frequency_hz=60.0,
    poles=4,
    inertia_kg_m2=1.46e-2,
    core_loss_w=24.0,
    friction_w=13.0,
)
"""1/4 hp, 110 V, 60 Hz, 4 poles."""

TWO_POLE = MotorParameters(
    run_ohm=2.2,  # run winding and rotor: question 5C of the ELE 205 examination of 2010; the rest is made up
    run_leakage_ohm=3.0,
    rotor_ohm=3.8,
    rotor_leakage_ohm=2.1,
    magnetising_ohm=86.0,
    start_ohm=6.5,
    start_leakage_ohm=4.0,
    turns_ratio=1.1,
    frequency_hz=50.0,
    poles=2,
    inertia_kg_m2=3e-3,
    core_loss_w=30.0,
    friction_w=20.0,
)
"""240 V, 50 Hz, 2 poles."""

SMALL = MotorParameters(
    run_ohm=12.0,  # made up, the size of a small hermetic
    run_leakage_ohm=13.0,
    rotor_ohm=14.0,
    rotor_leakage_ohm=13.0,
    magnetising_ohm=320.0,
    start_ohm=28.0,
    start_leakage_ohm=10.0,
    turns_ratio=0.9,
    frequency_hz=50.0,
    poles=2,
    inertia_kg_m2=1e-3,
    core_loss_w=12.0,
    friction_w=8.0,
)
"""230 V, 50 Hz, 2 poles."""
