"""What brazing needs and what a burn-out asks for (common practice, no source)."""

from __future__ import annotations

import pytest

from coldwright.errors import InputError
from coldwright.sealed_system.service.access_valves import TubeMetal
from coldwright.sealed_system.service.brazing import (
    ONLY_FLAMMABLE,
    WITH_ALUMINIUM,
    Readiness,
    join_of,
    may_light,
)
from coldwright.sealed_system.service.burnout import (
    AcidFinding,
    Oil,
    OilLook,
    acid_finding,
    clean_up,
    oil_fits,
)

ALL = frozenset(Readiness)


def test_joins_of_the_usual_metals():
    """Copper with copper takes no flux, steel takes silver and flux, aluminium no flame; the order does not matter."""
    assert not join_of(TubeMetal.COPPER, TubeMetal.COPPER).flux
    assert "phosphorus" in join_of(TubeMetal.COPPER, TubeMetal.COPPER).method
    assert join_of(TubeMetal.COPPER, TubeMetal.STEEL).flux
    assert "silver" in join_of(TubeMetal.STEEL, TubeMetal.STEEL).method
    for metal in TubeMetal:
        assert join_of(TubeMetal.ALUMINIUM, metal) == join_of(metal, TubeMetal.ALUMINIUM) == WITH_ALUMINIUM


@pytest.mark.parametrize("missing", Readiness)
def test_each_thing_missing_forbids_the_flame(missing):
    """On R-600a each missing thing alone says no, with its words; on R-134a all but the two for flammables."""
    ruling = may_light(ALL - {missing}, "R-600a")

    assert not ruling.allowed
    assert ruling.reasons == (missing.value,)
    assert may_light(ALL - {missing}, "R-134a").allowed is (missing in ONLY_FLAMMABLE)


def test_with_all_ready_a_flammable_still_hears_of_the_connector():
    """All ready: yes; and for R-600a a crimped connector is named as first choice."""
    assert may_light(ALL, "R-134a").allowed
    assert "crimped connector" in may_light(ALL, "R-600a").reasons[0]


@pytest.mark.parametrize(
    ("number", "limit", "oil", "expected"),
    [
        (0.02, 0.01, Oil.MINERAL, AcidFinding.CLEAN),
        (0.045, 0.01, Oil.MINERAL, AcidFinding.DOUBTFUL),
        (0.10, 0.01, Oil.MINERAL, AcidFinding.DOUBTFUL),
        (0.30, 0.05, Oil.MINERAL, AcidFinding.BURNT),
        (0.07, 0.02, Oil.POE, AcidFinding.CLEAN),
        (0.32, 0.05, Oil.POE, AcidFinding.DOUBTFUL),
        (0.32, 0.05, Oil.ALKYLBENZENE, AcidFinding.BURNT),
    ],
)
def test_acid_with_the_limit_of_the_test(number, limit, oil, expected):
    """Clean and burnt are only said where the limit of the test leaves no doubt; ester oil is judged by its own."""
    assert acid_finding(number, limit, oil) is expected


def test_the_worse_of_look_and_test_counts():
    """Clean and clear is the short list; anything else flushes; black sludge is not worth it."""
    short = clean_up(AcidFinding.CLEAN, OilLook.CLEAR)

    for finding in AcidFinding:
        for look in OilLook:
            found = clean_up(finding, look)
            if (finding, look) == (AcidFinding.CLEAN, OilLook.CLEAR):
                continue
            assert set(short.steps) < set(found.steps)
            assert any("flush" in step for step in found.steps)
            assert found.worth_repair is (look is not OilLook.BLACK)


def test_every_clean_up_starts_by_recovery_and_charges_last():
    """Recovery comes first; the charge comes after the flush."""
    steps = clean_up(AcidFinding.BURNT, OilLook.DARK).steps

    assert "recover" in steps[0]
    flush = next(n for n, step in enumerate(steps) if step.startswith("flush"))
    charge = next(n for n, step in enumerate(steps) if "weigh in" in step)
    assert flush < charge


@pytest.mark.parametrize(
    ("oil", "refrigerant", "expected"),
    [
        (Oil.POE, "R-134a", True),
        (Oil.MINERAL, "R-134a", False),
        (Oil.MINERAL, "R-600a", True),
        (Oil.MINERAL, "R-12", True),
        (Oil.ALKYLBENZENE, "R-600a", True),
        (Oil.POE, "R-404A", True),
    ],
)
def test_oils_of_common_refrigerants(oil, refrigerant, expected):
    """Ester for R-134a and R-404A, mineral or alkylbenzene for R-600a and R-12."""
    assert oil_fits(oil, refrigerant) is expected


@pytest.mark.parametrize(
    ("act", "message"),
    [
        (lambda: acid_finding(7.0, 0.05, Oil.POE), r"acid number is 7 mg KOH/g.*pH"),
        (lambda: acid_finding(-0.1, 0.05, Oil.POE), r"acid number is -0.1"),
        (lambda: acid_finding(0.1, -0.05, Oil.POE), r"limit of the acid test is -0.05"),
        (lambda: may_light(ALL, "R-999"), r"R-999"),
    ],
)
def test_bad_input_is_named(act, message):
    """Each message names the thing, its value and the slip."""
    with pytest.raises(InputError, match=message):
        act()
