"""The bench of the cold side: gauges, probes, frost, scale, adding and recovering; the job sheet replays."""

import math

import pytest

from coldwright.appliance.cold_faults import ColdFaultName
from coldwright.bench.cold_acts import COLD_SECONDS, PROBES
from coldwright.bench.cold_bench import ColdBench
from coldwright.bench.hazards import Hazard
from coldwright.bench.replay import replay
from coldwright.bench.sheet import SheetHeader, parse_sheet
from coldwright.errors import BenchError
from coldwright.refrigerants.saturation import dew_pressure
from tests.appliance.cold_units import ROOM_K, cold_unit

HEADER = SheetHeader(lab="lab", learner="learner", ticket="ticket", model="1")
READ = (
    ("gauge", ("low side",)),
    ("gauge", ("high side",)),
    ("probe", ("suction line",)),
    ("probe", ("liquid line",)),
    ("probe", ("evaporator outlet",)),
    ("probe", ("discharge line",)),
    ("probe", ("air in the cabinet",)),
    ("frost line", ()),
    ("watts", ()),
)


def bench(fault=ColdFaultName.NONE, model="Tarn 22", **more):
    """A bench with a unit at rest."""
    return ColdBench(cold_unit(model, fault, **more), b"seed", 0.1, HEADER)


def ran(fault=ColdFaultName.NONE, **more):
    """A bench with its unit run for 40 minutes and the gauges on: before the thermostat stops it."""
    made = bench(fault, **more)
    made.perform("join gauges", ("purged",))
    made.perform("plug in")
    for _ in range(8):
        made.perform("wait", ("5 min",))
    return made


def test_at_rest_the_gauges_show_the_room():
    """Long at rest at 25 °C, both gauges show R-134a's saturation at 25 °C within their limits."""
    made = bench()
    made.perform("join gauges", ("purged",))
    for side in ("low side", "high side"):
        shown = made.perform("gauge", (side,)).display
        assert shown.value + 101_325.0 == pytest.approx(dew_pressure("R-134a", ROOM_K), abs=shown.limit + 1500.0)


def test_gauges_off_show_nothing():
    """A gauge that is not joined stands at zero, within its limit."""
    shown = bench().perform("gauge", ("low side",)).display
    assert shown.value == pytest.approx(0.0, abs=shown.limit)


def test_a_reading_lies_within_its_limit():
    """Every probe and gauge of a running unit shows the true value within the limit that it gives."""
    made = ran()
    for act, on in READ[:2]:
        true = made.pressure_pa(on[0]) - made.unit.atmosphere_pa
        shown = made.perform(act, on).display
        assert abs(shown.value - true) <= shown.limit
    for place in PROBES:
        moment, state = made.moment, made.state
        true = {
            "suction line": moment.return_k,
            "discharge line": moment.discharge_k,
            "condenser middle": 0.5 * (moment.condensing_k + moment.bubbling_k),
            "liquid line": moment.liquid_k,
            "evaporator inlet": moment.evaporating_k,
            "evaporator outlet": moment.evaporating_k + moment.superheat_k,
            "air in the room": made.unit.room_k,
            "air in the cabinet": state.cabinet_k,
            "product": made.cold.product_k,
        }[place]
        shown = made.perform("probe", (place,)).display
        assert abs(shown.value - true) <= shown.limit * 1.05, place  # the limit is worked out from what is shown


@pytest.mark.parametrize("fault", [name for name in ColdFaultName if name is not ColdFaultName.NONE])
def test_every_fault_can_be_seen(fault):
    """At the least size, some reading differs from the healthy unit's by more than both limits together."""
    apart = []
    pairs = zip(readings(ran()), readings(ran(fault, size=0.0)), strict=True)
    for healthy, faulty in pairs:
        limits = healthy.limit + faulty.limit
        apart.append(math.isfinite(limits) and abs(healthy.value - faulty.value) > limits)
    assert any(apart)


def readings(made):
    """What all instruments show, for the air in the cabinet as well."""
    return [made.perform(act, on).display for act, on in READ]


def test_grams_are_kept():
    """What is added and recovered is in the unit, less what the hoses hold; gauges off gives most of that back."""
    made = bench()
    plate = made.cold.charge_kg
    made.perform("join gauges", ("purged",))
    held = plate - made.cold.charge_kg
    assert 0.0 < held < 0.005
    made.perform("add", ("R-134a", "10 g"))
    made.perform("recover", ("5 g",))
    assert made.cold.charge_kg == pytest.approx(plate - held + 0.005, abs=1e-12)
    made.perform("take off gauges")
    assert made.cold.charge_kg == pytest.approx(plate + 0.005 - 0.03 * held, abs=1e-9)


def test_the_scale_shows_what_was_added():
    """Set to zero with the cylinder on it, the scale shows minus 20 g within its limit after 20 g have left."""
    made = bench()
    made.perform("join gauges", ("purged",))
    made.perform("tare")
    made.perform("add", ("R-134a", "20 g"))
    shown = made.perform("scale").display
    assert abs(shown.value + 0.020) <= shown.limit


def test_all_can_be_recovered():
    """A system that was recovered shows next to no pressure."""
    made = bench()
    made.perform("join gauges", ("purged",))
    made.perform("recover", ("all",))
    for _ in range(3):
        made.perform("wait", ("5 min",))
    assert made.perform("gauge", ("low side",)).display.value < -60e3


def test_another_refrigerant_is_refused():
    """Adding another refrigerant is stopped as a hazard, and nothing goes in."""
    made = bench()
    made.perform("join gauges", ("purged",))
    before = made.cold.charge_kg
    assert made.perform("add", ("R-600a", "5 g")).hazards == (Hazard.WRONG_REFRIGERANT,)
    assert made.cold.charge_kg == before


def test_unpurged_hoses_bring_air():
    """It is a hazard, and the discharge pressure of the running unit is higher for it."""
    shown = []
    for how in ("purged", "not purged"):
        made = bench()
        told = made.perform("join gauges", (how,))
        assert (Hazard.AIR_PUSHED_IN in told.hazards) == (how == "not purged")
        made.perform("plug in")
        made.perform("wait", ("1 h",))
        shown.append(made.moment.discharge_pa)
    assert shown[1] > shown[0]


def test_a_job_replays():
    """Hours with readings, adding and a stop: the sheet's lines come out again, each display within one digit."""
    made = ran(ColdFaultName.UNDERCHARGED)
    for _ in range(3):
        made.perform("add", ("R-134a", "5 g"))
        made.perform("wait", ("5 min",))
        for act, on in READ:
            made.perform(act, on)
    made.perform("isolate")
    made.perform("wait", ("1 h",))
    again = replay(parse_sheet(made.sheet_text()), bench(ColdFaultName.UNDERCHARGED))
    assert again.holds, again.reason


def test_every_act_has_its_time():
    """Each act takes a whole number of seconds, none below zero."""
    assert all(isinstance(each, int) and each >= 0 for each in COLD_SECONDS.values())


@pytest.mark.parametrize(
    ("act", "on", "message"),
    [
        ("join gauges", ("somehow",), "purged"),
        ("gauge", ("middle",), "low side"),
        ("probe", ("tail pipe",), "suction line"),
        ("add", ("R-134a", "7 g"), "at a time"),
        ("add", ("R-134a", "5 g"), "join the gauges first"),
        ("recover", ("some",), "you can recover"),
        ("barometer", ("here",), "leave out"),
        ("fly", (), "no act"),
    ],
)
def test_what_cannot_be_done_says_why(act, on, message):
    """A wrong act names what can be done instead."""
    with pytest.raises(BenchError, match=message):
        bench().perform(act, on)
