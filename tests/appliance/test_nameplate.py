"""Nameplates: those that come with the course, and what a wrong entry is told."""

from __future__ import annotations

import math

import pytest

from coldwright.appliance.nameplate import compressors, plate_from
from coldwright.errors import InputError

SINGLE = {
    "model": "T 1",
    "supply_v": 120.0,
    "frequency_hz": 60.0,
    "refrigerant": "R-134a",
    "run_ohm": 4.0,
    "start_ohm": 12.0,
    "tolerance": 0.07,
    "capacitor_uf": 88.0,
    "run_inductance_h": 0.03,
    "start_inductance_h": 0.04,
}
INVERTER = {
    **{k: v for k, v in SINGLE.items() if k not in ("run_ohm", "start_ohm", "start_inductance_h")},
    "pair_ohm": 6.8,
}


def test_the_data_sheet_is_read_in_si():
    """Microfarads become farads; run and start become the maker's values."""
    plate = plate_from(SINGLE)
    assert plate.capacitor_f == pytest.approx(88e-6)
    assert (plate.windings.run, plate.windings.start, plate.windings.tolerance) == (4.0, 12.0, 0.07)
    assert not plate.is_inverter
    assert "Run winding 4.00 Ω, start winding 12.00 Ω, ±7 % at 20 °C." in plate.describe()


def test_one_value_for_three_windings_is_an_inverter():
    """An entry with pair_ohm is an inverter compressor, and says so."""
    plate = plate_from(INVERTER)
    assert plate.is_inverter
    assert plate.windings.run == 6.8
    assert "Inverter driven. Each pair of pins: 6.80 Ω ±7 % at 20 °C." in plate.describe()


def test_whole_numbers_will_do():
    """A whole number in the file is as good as one with a point."""
    assert plate_from({**SINGLE, "supply_v": 230}).supply_v == 230.0


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"model": ""}, r"^a compressor has no model; add a line such as model = \"KW 5-120\"$"),
        ({"model": 5}, r"^a compressor has no model"),
        ({"run_ohm": -1}, r"^T 1: run_ohm is -1; it must be a positive number$"),
        ({"run_ohm": math.nan}, r"^T 1: run_ohm is nan; it must be a positive number$"),
        ({"run_ohm": "4 ohm"}, r"^T 1: run_ohm is '4 ohm'; it must be a positive number$"),
        ({"supply_v": True}, r"^T 1: supply_v is True; it must be a positive number$"),
        ({"colour": "red"}, r"^T 1: colour is not a nameplate key; known keys are capacitor_uf, "),
        ({"tolerance": 7.0}, r"^the maker's tolerance is 7; give a fraction"),
    ],
)
def test_a_wrong_entry_names_model_key_and_value(change, message):
    """Each wrong entry is refused with the model, the key and the value."""
    with pytest.raises(InputError, match=message):
        plate_from({**SINGLE, **change})


@pytest.mark.parametrize("key", [k for k in SINGLE if k != "model"])
def test_a_missing_key_is_named(key):
    """Each key that is left out is named."""
    entry = {k: v for k, v in SINGLE.items() if k != key}
    with pytest.raises(InputError, match=rf"^T 1: {key} is missing from its nameplate$"):
        plate_from(entry)


def test_the_types_that_come_with_the_course():
    """Both supplies are there, names are used once, and run and start stand clear of each other."""
    plates = compressors()
    assert len({plate.model for plate in plates}) == len(plates)
    assert {(plate.supply_v, plate.frequency_hz) for plate in plates} == {(120.0, 60.0), (230.0, 50.0)}
    assert {plate.is_inverter for plate in plates} == {True, False}
    for plate in plates:
        data = plate.windings
        if data.start is not None:
            assert data.start * (1 - data.tolerance) > data.run * (1 + data.tolerance), plate.model
