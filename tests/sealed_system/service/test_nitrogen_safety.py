"""What must be in order before nitrogen goes in."""

from __future__ import annotations

from dataclasses import replace

import pytest

from coldwright.errors import BenchError, InputError
from coldwright.sealed_system.service.nitrogen_safety import (
    NitrogenHazard,
    Rig,
    TestGas,
    check_rig,
    hazards,
    highest_test_pressure,
)

GOOD = Rig(TestGas.NITROGEN, True, 9e5, 10e5, 10e5, 20e5)
WRONG = [
    ({"gas": TestGas.OXYGEN}, NitrogenHazard.OXYGEN),
    ({"gas": TestGas.COMPRESSED_AIR}, NitrogenHazard.COMPRESSED_AIR),
    ({"gas": TestGas.REFRIGERANT}, NitrogenHazard.REFRIGERANT),
    ({"has_regulator": False}, NitrogenHazard.NO_REGULATOR),
    ({"regulator_gauge_pa": 10.1e5}, NitrogenHazard.REGULATOR_TOO_HIGH),
    ({"relief_gauge_pa": None}, NitrogenHazard.NO_RELIEF),
    ({"relief_gauge_pa": 11.1e5}, NitrogenHazard.RELIEF_TOO_HIGH),
    ({"cylinder_tied": False}, NitrogenHazard.NOT_TIED),
    ({"recovered": False}, NitrogenHazard.NOT_RECOVERED),
    ({"unplugged": False}, NitrogenHazard.COMPRESSOR_PLUGGED_IN),
]


@pytest.mark.parametrize(("change", "hazard"), WRONG, ids=[h.name for _, h in WRONG])
def test_each_fault_raises_its_hazard_alone(change, hazard):
    """One thing wrong gives one hazard, and the bench refuses with its words."""
    rig = replace(GOOD, **change)

    assert hazards(rig) == (hazard,)
    with pytest.raises(BenchError, match=hazard.value.split(":")[0]):
        check_rig(rig)


def test_every_hazard_is_tried():
    """No hazard is without a case, and a good rig has none."""
    assert {hazard for _, hazard in WRONG} == set(NitrogenHazard)
    assert hazards(GOOD) == ()
    check_rig(GOOD)
    check_rig(replace(GOOD, gas=TestGas.NITROGEN_WITH_TRACER))


def test_a_capillary_joins_the_sides():
    """Joined sides take the low side's pressure, whatever the high side stands."""
    assert highest_test_pressure(10e5, 20e5) == 10e5
    assert highest_test_pressure(10e5, 20e5, sides_joined=False) == 20e5


@pytest.mark.parametrize(
    ("low", "high", "message"),
    [
        (150e5, 300e5, r"low side's nameplate pressure is 150 bar gauge.*Was it 150 psi, which is 10.3 bar"),
        (10.0, 20e5, r"Was it 10 bar or psi, typed where pascal"),
        (-1e5, 20e5, r"low side's nameplate pressure is -100000 Pa gauge"),
        (20e5, 10e5, r"20 bar gauge, above the high side's 10 bar.*swapped"),
    ],
)
def test_nameplates_that_cannot_be(low, high, message):
    """psi for bar, bar for pascal, negative, and the two swapped."""
    with pytest.raises(InputError, match=message):
        highest_test_pressure(low, high)
