"""What acts do on the bench, each hazard, and that doing again what is done writes nothing."""

from __future__ import annotations

import math
import time

import pytest
from hypothesis import given

from coldwright.appliance.cooler import cooler
from coldwright.appliance.faults import FaultKind, WindingFault
from coldwright.appliance.unit_faults import FaultName, UnitFault
from coldwright.bench.acts import SECONDS
from coldwright.bench.bench import SAFE_VOLTS
from coldwright.bench.cold_bench import ColdBench
from coldwright.bench.compressor_bench import CompressorBench
from coldwright.bench.hazards import Hazard
from coldwright.bench.sheet import SheetHeader, parse_sheet
from coldwright.errors import BenchError
from coldwright.instruments.multimeter import RANGES, Function
from tests.appliance.cold_units import cold_unit
from tests.appliance.units import INVERTER, SOUND, unit
from tests.bench.benches import ACTS, JOBS, PLAIN, SAFE_ORDER, bench, work, worked
from tests.bench.survey import bench_with


def made_safe(on: CompressorBench) -> CompressorBench:
    """Isolated, discharged, connector off."""
    on.isolate()
    on.discharge()
    on.disconnect()
    return on


def test_a_job_in_safe_order_meets_no_hazard():
    """Isolate, prove dead, discharge, disconnect, then measure: no hazard, and every act is one line."""
    on = worked(SAFE_ORDER)
    assert on.hazards == []
    assert [(line.act, line.on) for line in on.lines] == SAFE_ORDER


def test_readings_are_those_of_the_unit():
    """Zeroed leads, cold and bare: 10, 30 and 40 Ω within the meter's limits, 400 MΩ within the tester's."""
    on = made_safe(bench())
    on.let_stand()
    on.zero_leads()
    for pair, ohm in ((("2", "3"), 10.0), (("1", "2"), 30.0), (("1", "3"), 40.0)):
        shown = on.ohms(*pair).display
        assert shown is not None
        assert abs(shown.value - ohm) <= shown.limit + 0.002
    shown = on.insulation(2).display
    assert shown is not None
    assert abs(shown.value - 400e6) <= shown.limit * 1.001
    shell = on.temperature().display
    assert shell is not None
    assert abs(shell.value - 293.15) <= 0.5


def test_leads_that_are_not_zeroed_stay_in():
    """Without zeroing, the half ohm of the leads is in the reading."""
    on = made_safe(bench())
    on.let_stand()
    shown = on.ohms("2", "3").display
    assert shown is not None
    assert abs(shown.value - 10.5) <= shown.limit + 0.002


def test_ohms_on_230_volts_by_its_rating():
    """Up to 250 V the meter survives and misreads; a capacitor at 280 V ruins it."""
    live = bench()
    assert live.ohms("L", "N").hazards == (Hazard.OHMS_ON_LIVE,)
    assert not live.meter.ruined
    charged = bench()
    charged.isolate()
    told = charged.ohms("cap a", "cap b")
    assert told.hazards == (Hazard.OHMS_ON_CHARGED, Hazard.METER_RUINED)
    assert told.text.endswith("----")
    assert "HAZARD: more voltage than the ohms input stands: the meter is ruined." in repr(told)
    assert charged.volts_ac("L", "N").display.text == "----"


def test_another_meter_has_its_own_errors_and_leads_not_zeroed():
    """A ruined meter is replaced: the new one works, is not zeroed and is not the same instrument."""
    on = bench()
    on.isolate()
    on.zero_leads()
    on.ohms("cap a", "cap b")
    assert on.zero_leads().text == "The meter shows ----: it is ruined. Take another."
    old = on.meter
    assert on.new_meter().text == "Another multimeter on the bench. Its leads are not zeroed yet."
    assert on.new_meter().text == "The meter works; keep it."
    assert on.meter.draw_error(Function.OHMS, 0) != old.draw_error(Function.OHMS, 0)
    assert not on.meter.ruined
    assert not on.meter.is_zeroed
    on.zero_leads()
    assert on.meter.is_zeroed


def test_a_charged_capacitor_that_does_not_ruin():
    """At 100 V the ohms reading across the capacitor is told as a hazard and the meter lives."""
    on = bench(unit(capacitor_v=100.0))
    on.isolate()
    assert on.ohms("cap a", "cap b").hazards == (Hazard.OHMS_ON_CHARGED,)
    assert not on.meter.ruined


@pytest.mark.parametrize("act", ["discharge", "disconnect", "reconnect"])
def test_hands_on_a_live_unit(act):
    """With the plug in, each act with hands is stopped and is a hazard; written once, however often it is tried."""
    on = bench()
    if act == "reconnect":
        on.connected = False
    before = (on.connected, on.capacitor_v)
    told = on.perform(act)
    assert told.hazards == (Hazard.TOUCHED_LIVE,)
    assert told.text == "Stopped: the unit is still plugged in."
    assert (on.connected, on.capacitor_v) == before
    assert on.perform(act) == told
    assert len(on.lines) == 1


def test_hands_on_a_charged_capacitor():
    """The connector pulled with the capacitor charged is a shock, and the charge is gone after it."""
    on = bench()
    on.isolate()
    assert on.capacitor_v == 280.0
    assert on.disconnect().hazards == (Hazard.TOUCHED_CHARGED,)
    assert on.capacitor_v == 0.0
    assert on.discharge().text == "The capacitor is already discharged."


def test_the_edge_of_a_safe_voltage():
    """50 V counts as safe to touch, a little more does not."""
    for volts, hazards in ((SAFE_VOLTS, ()), (math.nextafter(SAFE_VOLTS, 60), (Hazard.TOUCHED_CHARGED,))):
        on = bench(unit(capacitor_v=volts))
        on.isolate()
        assert on.disconnect().hazards == hazards


def test_plugging_in_under_vacuum():
    """A hermetic compressor energised under vacuum is a hazard; with nitrogen in, or the connector off, it is not."""
    evacuated = unit(under_vacuum=True)
    on = bench(evacuated)
    assert not on.plugged
    assert on.plug_in().hazards == (Hazard.ENERGISED_UNDER_VACUUM,)
    on = bench(evacuated)
    on.break_vacuum()
    assert on.plug_in().hazards == ()
    on = bench(evacuated)
    on.discharge()
    on.disconnect()
    assert on.plug_in().hazards == ()


@pytest.mark.parametrize(
    ("before", "which", "hazard", "text"),
    [
        ([], unit(under_vacuum=True), Hazard.INSULATION_TEST_UNDER_VACUUM, "stopped: vacuum in the shell"),
        ([], SOUND, Hazard.INSULATION_TEST_ON_LIVE, "stopped: the unit is plugged in"),
        ([("isolate", ())], INVERTER, Hazard.INSULATION_TEST_ON_ELECTRONICS, "stopped: board connected"),
    ],
)
def test_an_insulation_test_that_must_not_be(before, which, hazard, text):
    """Under vacuum, on a live unit, with the electronics connected: stopped, a hazard, and no number."""
    on = bench(which)
    work(on, before)
    told = on.insulation("1")
    assert told.hazards == (hazard,)
    assert told.display is not None
    assert told.display.text == text
    assert math.isnan(told.display.value)


def test_an_insulation_test_as_it_should_be():
    """Broken vacuum, plug out, board off: it shows megohms and no hazard."""
    for which in (unit(under_vacuum=True), SOUND, INVERTER):
        on = bench(which)
        on.break_vacuum()
        made_safe(on)
        told = on.insulation("3")
        assert told.hazards == ()
        assert told.display is not None
        assert told.display.text.endswith("MΩ")


def test_every_hazard_can_be_met():
    """Each hazard is met by some job: none is there for show."""
    evacuated = unit(under_vacuum=True)
    jobs = [
        (SOUND, [("ohms", ("L", "N")), ("disconnect", ()), ("insulation", ("1", "shell"))]),
        (SOUND, [("isolate", ()), ("ohms", ("cap a", "cap b")), ("disconnect", ())]),
        (evacuated, [("insulation", ("1", "shell")), ("plug in", ())]),
        (INVERTER, [("isolate", ()), ("insulation", ("1", "shell"))]),
    ]
    met = {hazard for which, job in jobs for _, hazard in worked(job, which).hazards}
    assert met | hazards_on_a_cooler() | hazards_on_the_cold_side() == set(Hazard)


def hazards_on_the_cold_side() -> set[Hazard]:
    """Hazards that careless work on a sealed system meets."""
    on = ColdBench(cold_unit("Tarn 22"), b"seed", 0.1, SheetHeader("lab", "learner", "ticket", "1"))
    for act, where in (("join gauges", ("not purged",)), ("add", ("R-600a", "5 g"))):
        on.perform(act, where)
    return {hazard for _, hazard in on.hazards}


def hazards_on_a_cooler() -> set[Hazard]:
    """Hazards that careless jobs on whole coolers meet."""
    live = [
        ("plug in", ()),
        ("wait", ("10 s",)),
        ("take off", ("overload",)),
        ("discharge", ("start capacitor",)),
        ("amps ac", ("cord L", "cord N")),
        ("capacitance", ("cord L", "cord N")),
    ]
    charged = [("plug in", ()), ("isolate", ()), ("capacitance", ("board plus", "board minus"))]
    grounded = [("isolate", ()), ("take off", ("relay",)), ("take off", ("overload",))]
    grounded += [("insulation", ("pin C", "shell")), ("start test", ())]
    met = set()
    jobs = [("Tarn 14", live, FaultName.NONE), ("Tarn 28", charged, FaultName.NONE)]
    for model, job, fault in [*jobs, ("Tarn 11", grounded, FaultName.GROUNDED)]:
        on = bench_with(cooler(model), UnitFault(fault))
        for act, where in job:
            on.perform(act, where)
        met |= {hazard for _, hazard in on.hazards}
    return met


@given(JOBS, ACTS)
def test_an_act_done_again_at_once_writes_nothing(job, act):
    """Whatever was done before, the same act done again right away leaves sheet, time and state as they were."""
    on = worked(job)
    first = on.perform(*act)
    before = (on.sheet_text(), on.at, on.plugged, on.connected, on.capacitor_v, on.winding_k, on.under_vacuum)
    again = on.perform(*act)
    assert (on.sheet_text(), on.at, on.plugged, on.connected, on.capacitor_v, on.winding_k, on.under_vacuum) == before
    if act[0] not in (*PLAIN, "zero leads"):
        assert again == first


def test_a_reading_in_another_state_is_a_new_reading():
    """The same pair, hot and then cold, is two lines with two values; a third time adds none."""
    on = made_safe(bench())
    on.zero_leads()
    hot = on.ohms("2", "3")
    on.let_stand()
    cold = on.ohms("2", "3")
    assert hot.display.value > cold.display.value * 1.2
    count = len(on.lines)
    assert on.ohms("2", "3") == cold
    assert len(on.lines) == count


def test_a_whole_job_run_a_third_time_adds_nothing():
    """Run again, a job in safe order adds only readings not yet taken in the last state; after that it adds none."""
    on = worked(SAFE_ORDER)
    first = on.sheet_text()
    work(on, SAFE_ORDER)
    second = on.sheet_text()
    assert second.startswith(first)
    added = parse_sheet(second).lines[len(parse_sheet(first).lines) :]
    assert {line.act for line in added} <= {"volts ac", "volts dc", "temperature"}
    work(on, SAFE_ORDER)
    assert on.sheet_text() == second


@given(JOBS)
def test_time_is_on_the_fixed_grid(job):
    """Simulated time is the sum of the acts' fixed seconds, a whole number, and never goes back."""
    on = worked(job)
    assert on.at == sum(SECONDS[line.act] for line in on.lines)
    assert all(type(line.at) is int for line in on.lines)
    assert [line.at for line in on.lines] == sorted(line.at for line in on.lines)


def test_readings_do_not_depend_on_the_clock(monkeypatch):
    """With the clock standing still, running back or years ahead the sheet is the same, byte for byte."""
    expected = worked(SAFE_ORDER).sheet_text()
    for odd in (lambda: 0.0, lambda: -1e9, lambda: 4e9):
        for name in ("time", "monotonic", "perf_counter"):
            monkeypatch.setattr(time, name, odd)
        assert worked(SAFE_ORDER).sheet_text() == expected


@given(JOBS)
def test_the_same_seed_gives_the_same_sheet(job):
    """Two benches with one unit and one seed give the same sheet for the same job."""
    assert worked(job).sheet_text() == worked(job).sheet_text()


def test_another_seed_is_another_instrument():
    """Two seeds give two instruments that do not show the same digits throughout."""
    shown = set()
    for seed in (b"one", b"two", b"three"):
        on = bench(seed=seed)
        work(on, SAFE_ORDER)
        shown.add(tuple(line.shown for line in on.lines))
    assert len(shown) == 3


def test_every_instrument_stands_within_its_accuracy():
    """Over 300 seeds gain and offset of every range stay within 0.7 of the accuracy, and fill it."""
    drawn = []
    for number in range(300):
        on = bench(seed=f"seed {number}".encode())
        errors = [on.meter.draw_error(f, r) for f, ranges in RANGES.items() for r in range(len(ranges))]
        errors += [on.tester.draw_error(r) for r in range(4)]
        drawn += [value for error in errors for value in (error.gain, error.offset)]
    assert max(map(abs, drawn)) <= 0.7
    assert min(drawn) < -0.69
    assert max(drawn) > 0.69


def test_cooling_goes_on_between_readings():
    """Unplugged, the windings cool towards the room with every act; after standing they are there."""
    on = bench()
    on.isolate()
    warm = on.winding_k
    on.temperature("shell")
    assert on.winding_k < warm
    on.let_stand()
    assert on.winding_k == pytest.approx(293.15, abs=0.01)
    assert on.let_stand().text == "The compressor has already cooled to the room."


def test_standing_plugged_in_changes_nothing():
    """A unit that stays plugged in stays hot: no line is written for standing by."""
    on = bench()
    assert on.let_stand().text == "The unit is plugged in: the compressor stays as hot as it is."
    assert on.lines == []


def test_a_tripped_protector_resets_on_the_bench():
    """Hot, the pair of both windings alone reads; after standing all three do."""
    on = made_safe(bench(unit(protector_tripped=True)))
    assert on.ohms("2", "3").display.text == "OL"
    assert on.ohms("1", "3").display.text != "OL"
    on.let_stand()
    assert on.ohms("2", "3").display.text != "OL"


def test_an_open_winding_shows_ol():
    """An open run winding reads OL from common to run and from run to start."""
    on = made_safe(bench(unit(fault=WindingFault(FaultKind.OPEN_RUN))))
    shown = {pair: on.ohms(*pair).display.text for pair in (("1", "2"), ("2", "3"), ("1", "3"))}
    assert shown[("2", "3")] == shown[("1", "3")] == "OL"
    assert shown[("1", "2")].endswith("Ω")


def test_what_a_person_sees():
    """Looking tells plug, connector, capacitor and vacuum in words, and no fault."""
    on = bench(unit(under_vacuum=True))
    assert "The plug is pulled and locked off." in on.look()
    assert "deep vacuum" in on.look()
    on.break_vacuum()
    assert "vacuum" not in on.look()
    on.plug_in()
    assert "The unit is plugged in." in on.look()
    assert "The connector is on pins 1, 2 and 3." in on.look()
    assert "an inverter board with a large capacitor" in bench(INVERTER).look()
    for kind in FaultKind:
        assert bench(unit(fault=WindingFault(kind))).look() == bench().look()


@pytest.mark.parametrize(
    ("act", "message"),
    [
        (
            lambda on: on.ohms("1", "9"),
            r"^there is no terminal '9' here; they are L, N, earth, 1, 2, 3, shell, cap a, cap b$",
        ),
        (
            lambda on: on.volts_ac(1, 1),
            r"^both tips are on 1; choose two terminals\. To zero the leads, use 'zero leads'$",
        ),
        (
            lambda on: on.insulation("L"),
            r"^the insulation test goes from a pin to the shell; 'L' is no pin, they are 1, 2",
        ),
        (lambda on: on.temperature("wall"), r"^the thermometer can be put on the shell or in the room, not on 'wall'$"),
        (lambda on: on.perform("fly"), r"^the bench knows no act 'fly' on \(\)$"),
        (lambda on: on.perform("isolate", ("1",)), r"^the bench knows no act 'isolate' on \('1',\)$"),
        (lambda on: on.perform("insulation", ("1", "2")), r"^the bench knows no act 'insulation' on \('1', '2'\)$"),
    ],
)
def test_what_cannot_be_done(act, message):
    """An act that cannot be done is refused with what there is, and nothing is written."""
    on = bench()
    with pytest.raises(BenchError, match=message):
        act(on)
    assert on.lines == []


def test_pins_can_be_numbers():
    """Pins can be given as numbers or as text: it is the same reading."""
    on = made_safe(bench())
    assert on.ohms(1, 2) == on.ohms("1", "2")
    assert on.insulation(1) == on.insulation("1")
