"""The bench of a whole cooler: acts, hazards, time, the job sheet and its replay."""

from __future__ import annotations

import math

import pytest

from coldwright.appliance.cooler import cooler, coolers
from coldwright.appliance.unit_faults import FaultName, UnitFault
from coldwright.bench.hazards import Hazard
from coldwright.bench.replay import replay
from coldwright.bench.sheet import chained, header_text, line_text, parse_sheet
from coldwright.bench.unit_acts import SECONDS, WAITS
from coldwright.bench.unit_bench import UnitBench
from coldwright.errors import BenchError, InputError, SheetError
from tests.bench.survey import bench_with

JOB = (
    ("volts ac", ("outlet L", "outlet N")),
    ("inrush", ("pin C",)),
    ("wait", ("1 min",)),
    ("watts", ()),
    ("clamp", ("cord L",)),
    ("listen", ()),
    ("isolate", ()),
    ("volts ac", ("cord L", "cord N")),
    ("zero leads", ()),
    ("take off", ("overload",)),
    ("ohms", ("overload 1", "overload 2")),
    ("inspect", ("relay",)),
    ("fit", ("overload",)),
    ("insulation", ("plug L", "cabinet metal")),
    ("temperature", ("shell",)),
    ("plug in", ()),
)


def bench(model: str = "Tarn 11", fault: FaultName = FaultName.NONE) -> UnitBench:
    """A bench with a model and a fault."""
    return bench_with(cooler(model), UnitFault(fault, 0.5, "overload 1"))


def worked(on: UnitBench, job=JOB) -> UnitBench:
    """The bench after a job."""
    for act, where in job:
        on.perform(act, where)
    return on


@pytest.mark.parametrize("model", [each.model for each in coolers()])
def test_a_job_replays_on_the_same_unit(model):
    """Every line of a sheet comes out again on a fresh bench with the same unit and seed."""
    job = [
        (act, tuple("pin U" if w == "pin C" and model in ("Tarn 28", "Tarn 18") else w for w in where))
        for act, where in JOB
    ]
    has = {component.name for component in cooler(model).wiring.components}
    job = [(act, where) for act, where in job if not ({"overload", "relay"} & set(" ".join(where).split())) - has]
    if "board" in has:
        job = [(act, where) for act, where in job if act != "insulation"]
    on = worked(bench(model), job)
    assert not on.hazards
    assert replay(parse_sheet(on.sheet_text()), bench(model)).holds


def test_a_sheet_of_another_unit_does_not_replay():
    """The same acts on a unit with another fault show something else."""
    on = worked(bench())
    other = replay(parse_sheet(on.sheet_text()), bench(fault=FaultName.RELAY_STUCK_OPEN))
    assert not other.holds
    assert other.first_bad == 3  # the inrush of a locked rotor


def test_a_sheet_goes_on_from_its_file(tmp_path):
    """A bench opened on a written sheet stands where the old one stood; another unit's sheet is refused."""
    path = tmp_path / "job_sheet.jsonl"
    unit = bench().unit
    first = worked(UnitBench(unit, b"survey", 0.3, bench().header, path))
    again = UnitBench(unit, b"survey", 0.3, bench().header, path)
    assert (again.state, again.at, again.sheet_text()) == (first.state, first.at, first.sheet_text())
    with pytest.raises(SheetError, match="is not what this unit shows"):
        UnitBench(bench(fault=FaultName.SEIZED).unit, b"survey", 0.3, bench().header, path)


def test_doing_again_what_is_done_writes_nothing():
    """Acts that change nothing and readings in the same state give no second line."""
    on = worked(bench())
    for act in (("plug in", ()), ("temperature", ("shell",)), ("shut door", ()), ("thermostat on", ())):
        on.perform(*act)
        before = on.sheet_text()
        on.perform(*act)
        assert on.sheet_text() == before, act


def test_a_reading_taken_again_shows_what_is_there_now():
    """Volts before and after plugging in, a falling charge, amps through hum and silence: each of its own moment."""
    on = bench()
    assert on.perform("volts ac", ("pin C", "pin R")).display.value < 1
    on.perform("inrush", ("cord L",))
    assert on.perform("volts ac", ("pin C", "pin R")).display.value > 100
    board = worked(bench("Tarn 28"), (("plug in", ()), ("isolate", ())))
    falling = []
    for _ in range(3):
        falling.append(board.perform("volts dc", ("board plus", "board minus")).display.value)
        board.perform("temperature", ("room",))
    assert falling == sorted(falling, reverse=True)
    assert len(set(falling)) == 3
    seized = worked(bench(fault=FaultName.SEIZED), (("plug in", ()),))
    shown = set()
    for _ in range(12):
        shown.add(seized.perform("clamp", ("pin C",)).display.value > 5)
        seized.perform("volts ac", ("plug L", "plug N"))
    assert shown == {True, False}


def test_switches_stand_as_they_are_from_the_first_moment():
    """Before any time has passed: a warm terminator is open, a resting potential relay closed, a welded one closed."""
    warm = worked(bench("Tarn 27"), (("take off", ("terminator",)),))
    assert math.isinf(warm.perform("ohms", ("terminator 1", "terminator 2")).display.value)
    resting = worked(bench("Tarn 25"), (("take off", ("relay",)),))
    assert resting.perform("ohms", ("relay 1", "relay 2")).display.value < 1
    welded = worked(bench(fault=FaultName.RELAY_WELDED), (("take off", ("relay",)),))
    assert welded.perform("ohms", ("relay 1", "relay 3")).display.value < 1
    assert "stands at defrost" in bench("Tarn 17", FaultName.TIMER_STUCK_DEFROST).look()


def test_a_shorted_capacitor_shows_over_range_and_an_open_one_nothing():
    """A short cannot be charged: OL. An open one has no capacitance."""
    for fault, shows in ((FaultName.START_CAPACITOR_SHORTED, math.inf), (FaultName.START_CAPACITOR_OPEN, 0.0)):
        on = worked(bench("Tarn 14", fault), (("take off", ("start capacitor",)),))
        on.perform("discharge", ("start capacitor",))
        value = on.perform("capacitance", ("start capacitor 1", "start capacitor 2")).display.value
        assert value == shows


def test_a_running_inverter_shows_volts_amps_and_sound():
    """Its pins carry volts and amps while it runs, and it is heard; unplugged, nothing."""
    on = worked(bench("Tarn 28"), (("plug in", ()), ("wait", ("1 min",))))
    assert on.perform("volts ac", ("pin U", "pin V")).display.value > 50
    assert on.perform("clamp", ("pin U",)).display.value > 0.1
    assert on.perform("volts dc", ("board plus", "board minus")).display.value > 300
    assert on.perform("listen").display.text.startswith("runs")
    worked(on, (("isolate", ()),))
    assert on.perform("volts ac", ("pin U", "pin V")).display.value < 1


def test_a_forged_line_is_found_and_not_a_crash():
    """A part that is not there on a forged sheet: replay says which line, and goes no further."""
    on = worked(bench(), (("isolate", ()), ("plug in", ()), ("isolate", ()), ("take off", ("lamp",))))
    text = on.sheet_text().replace('"lamp"', '"lump"')
    lines = text.splitlines(keepends=True)
    header = parse_sheet(lines[0]).header
    last = on.lines[-1]
    forged = chained(on.lines[-2].chain, last.n, last.at, last.act, ("lump",), last.shown, last.hazards)
    sheet = header_text(header) + "".join(map(line_text, (*on.lines[:-1], forged)))
    result = replay(parse_sheet(sheet), bench())
    assert result.first_bad == last.n + 1
    assert "this unit has no 'lump'" in result.reason


def test_a_stuck_timer_is_said_to_be_stuck_once():
    """The knob turns, nothing clicks, and doing it again writes nothing."""
    on = bench("Tarn 17", FaultName.TIMER_STUCK_COOLING)
    assert "nothing clicks: the mark stays at cooling" in on.perform("advance timer").text
    before = on.sheet_text()
    on.perform("advance timer")
    assert on.sheet_text() == before


def test_time_on_the_sheet_is_whole_and_rises():
    """Simulated time is a whole number of seconds, rises by the act's seconds, and waiting takes what it says."""
    on = bench()
    for how_long in ("10 s", "1 min", "5 min"):
        before = on.at
        on.perform("wait", (how_long,))
        assert on.at - before == WAITS[how_long]
    before = on.at
    on.perform("listen")
    assert on.at - before == SECONDS["listen"]
    on = bench()
    on.perform("inrush", ("cord L",))
    assert on.at == SECONDS["inrush"]
    assert on.state.at_s == pytest.approx(SECONDS["inrush"])


def test_hands_on_a_live_part_are_stopped_and_logged():
    """Taking a part off, putting it back, fitting and discharging on a plugged unit do nothing but the hazard."""
    on = bench("Tarn 14")
    on.perform("take off", ("relay",))
    on.perform("plug in")
    for act, where in (("take off", ("overload",)), ("put back", ("relay",)), ("discharge", ("start capacitor",))):
        told = on.perform(act, where)
        assert told.hazards
        assert "overload" not in on.state.removed
    assert on.state.removed == {"relay"}
    assert {hazard for _, hazard in on.hazards} == {Hazard.TOUCHED_LIVE_PART, Hazard.DISCHARGED_LIVE}


def test_a_charged_capacitor_bites_once_and_a_discharged_one_does_not():
    """Pulled from its clip charged, it empties into the hand; discharged first, nothing happens."""
    for discharges in (True, False):
        on = bench("Tarn 28")
        worked(on, (("plug in", ()), ("wait", ("1 min",)), ("isolate", ())))
        if discharges:
            on.perform("discharge", ("board",))
        told = on.perform("take off", ("board",))
        assert (Hazard.TOUCHED_CHARGED in told.hazards) is not discharges
        assert on.state.bus_v == 0


def test_ohms_on_a_live_unit_is_a_hazard_whatever_the_tips_are_on():
    """Even where the two tips show no voltage between them."""
    on = worked(bench(), (("plug in", ()),))
    assert Hazard.OHMS_ON_LIVE in on.perform("ohms", ("shell", "cabinet metal")).hazards
    assert Hazard.OHMS_ON_LIVE in on.perform("continuity", ("cord E", "shell")).hazards


def test_the_current_input_across_the_supply_blows_its_fuse():
    """The fuse blows, amps show dashes until a new one is in, volts go on working."""
    on = worked(bench(), (("plug in", ()), ("thermostat off", ())))
    assert Hazard.FUSE_BLOWN in on.perform("amps ac", ("cord L", "cord N")).hazards
    assert on.perform("volts ac", ("cord L", "cord N")).display.value > 100
    assert math.isnan(on.perform("amps ac", ("lamp 1", "lamp 2")).display.value)
    on.perform("new fuse")
    assert not on.instruments.meter.fuse_blown


def test_insulation_is_not_tested_live_or_with_a_board_on():
    """Both are stopped, named as hazards, and give no reading."""
    live = worked(bench(), (("plug in", ()),)).perform("insulation", ("plug L", "cabinet metal"))
    assert live.hazards == (Hazard.INSULATION_TEST_ON_LIVE,)
    board = bench("Tarn 28").perform("insulation", ("pin U", "shell"))
    assert board.hazards == (Hazard.INSULATION_TEST_ON_ELECTRONICS,)
    assert math.isnan(board.display.value)


@pytest.mark.parametrize(
    ("fault", "words"),
    [
        (FaultName.NONE, "starts and runs"),
        (FaultName.RELAY_WELDED, "starts and runs"),
        (FaultName.SEIZED, "does not start"),
        (FaultName.START_WINDING_OPEN, "does not start"),
        (FaultName.RUN_WINDING_OPEN, "does not start"),
    ],
)
def test_the_start_test_tells_the_compressor_from_its_devices(fault, words):
    """With the devices bypassed a good compressor starts, whatever is wrong with them; a bad one does not."""
    on = bench(fault=fault)
    with pytest.raises(BenchError, match="still wired to the pins: overload, relay"):
        on.perform("start test")
    worked(on, (("take off", ("relay",)), ("take off", ("overload",))))
    assert on.perform("start test").display.text.startswith(words)


def test_a_fitted_part_mends_the_unit():
    """A new relay as the plate says, and it starts."""
    on = bench(fault=FaultName.RELAY_STUCK_OPEN)
    assert "hums" in on.perform("inrush", ("cord L",)).text or on.state.speed == 0
    worked(on, (("isolate", ()), ("take off", ("relay",)), ("fit", ("relay",)), ("wait", ("5 min",)), ("plug in", ())))
    assert on.state.speed > 300


def test_a_new_cord_is_fitted_in_one_act():
    """It never lies off by itself: fitted with the plug out it mends an open cord and a lost earth."""
    for fault, ends in ((FaultName.CORD_OPEN, ("plug L", "cord L")), (FaultName.EARTH_LOST, ("plug E", "shell"))):
        on = bench(fault=fault)
        assert math.isinf(on.perform("ohms", ends).display.value)
        on.perform("fit", ("cord",))
        assert on.perform("ohms", ends).display.value < 1
        before = on.sheet_text()
        on.perform("fit", ("cord",))
        assert on.sheet_text() == before


def test_waiting_for_the_next_try():
    """It waits until the overload has closed and the compressor has power again, ten minutes at most."""
    on = worked(bench(fault=FaultName.SEIZED), (("plug in", ()), ("wait", ("1 min",))))
    assert not on.powered
    assert "tries to start" in on.perform("wait", ("next try",)).text
    assert on.powered
    assert on.perform("clamp", ("pin C",)).display.value > 5


@pytest.mark.parametrize(
    ("act", "where", "message"),
    [
        ("weld", (), "the bench knows no act 'weld'"),
        ("ohms", ("pin C",), "two tips go on two terminals; 1 given"),
        ("ohms", ("pin C", "pin C"), "both tips are on pin C"),
        ("ohms", ("pin C", "pin Z"), "there is no terminal 'pin Z' here"),
        ("clamp", ("outlet L",), "the clamp goes round the cord or the wire at one terminal"),
        ("wait", ("a week",), "you can wait 10 s, 1 min"),
        ("wait", ("next try",), "the unit is not plugged in"),
        ("take off", ("compressor",), "the compressor stays where it is"),
        ("fit", ("compressor",), "The compressor is changed in the shop, not on this bench."),
        ("fit", ("overload",), "the old overload is still in its place; take it off first"),
        ("discharge", ("lamp",), "'lamp' holds no charge; what does here: nothing"),
        ("temperature", ("sky",), "the thermometer can be put on room"),
        ("advance timer", (), "this unit has no defrost timer"),
        ("watts", ("pin C",), "this reading is of the whole unit"),
        ("inspect", ("lamp", "relay"), "inspect one component at a time"),
    ],
)
def test_what_cannot_be_done_is_said(act, where, message):
    """The message names the thing and what can be done; nothing is written."""
    on = bench()
    with pytest.raises(BenchError) as refused:
        on.perform(act, where)
    assert message in str(refused.value)
    assert on.lines == []


def test_a_component_that_is_not_there_is_said():
    """The message lists the components."""
    with pytest.raises(InputError, match="this unit has no 'PTC'; its components are cord"):
        bench().perform("take off", ("PTC",))
