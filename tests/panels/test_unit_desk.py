"""The desk of a whole unit: acts by name, and a prediction beside the last reading."""

from __future__ import annotations

import inspect

import pytest

from coldwright.bench.acts import Told
from coldwright.bench.unit_acts import SECONDS
from coldwright.bench.unit_readings import READINGS
from coldwright.errors import BenchError
from coldwright.panels.compressor_desk import CompressorDesk
from coldwright.panels.desk import Desk, desk_for
from coldwright.panels.unit_compare import KINDS
from coldwright.panels.unit_desk import UnitDesk
from tests.bench.benches import bench
from tests.panels.unit_benches import unit_bench

WITH_WORDS = {
    "discharge": ("start capacitor",),
    "take_off": ("relay",),
    "put_back": ("relay",),
    "fit": ("relay", "a spare"),
    "wait": ("5 min",),
    "clamp": ("cord",),
    "inrush": ("cord L",),
    "temperature": ("shell",),
    "inspect": ("lamp",),
}
TWO_TIPS = ("ohms", "continuity", "volts_ac", "volts_ac_low_impedance", "volts_dc", "capacitance", "insulation")
PLAIN = ("isolate", "plug_in", "zero_leads", "lowest_volts", "watts", "power_factor", "start_test", "listen")
ODD_NAMES = {"kilowatt_hours": "kilowatt-hours"}
CALLS = {
    **WITH_WORDS,
    **dict.fromkeys(TWO_TIPS, ("plug L", "plug N")),
    **dict.fromkeys((*PLAIN, *ODD_NAMES), ()),
}


def said(capsys: pytest.CaptureFixture[str], desk: UnitDesk, predicted: object) -> str:
    """What comparing prints."""
    capsys.readouterr()
    desk.compare(predicted)
    return capsys.readouterr().out.strip()


@pytest.mark.parametrize("name", CALLS)
def test_each_act_by_name_is_the_act_of_the_sheet(monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    """A method does the act whose name it has, on what it is given, and hands back what came of it."""
    desk, done = UnitDesk(unit_bench()), []

    def perform(act: str, on: tuple[str, ...] = ()) -> Told:
        done.append((act, on))
        return Told("done")

    monkeypatch.setattr(desk.bench, "perform", perform)
    told = getattr(desk, name)(*CALLS[name])

    act = ODD_NAMES.get(name, name.replace("_", " "))
    assert done == [(act, CALLS[name])]
    assert act in SECONDS
    assert told == Told("done")


def test_all_methods_are_tried_here() -> None:
    """No public method of the desk is left out of the test above."""
    own = {name for name, _ in inspect.getmembers(UnitDesk, inspect.isfunction)} - {
        name for name, _ in inspect.getmembers(Desk, inspect.isfunction)
    }

    assert {name for name in own if not name.startswith("_")} == {*CALLS, "compare"}


def test_a_spare_that_is_not_named_is_left_to_the_bench() -> None:
    """The sheet then holds the component alone."""
    desk = UnitDesk(unit_bench())
    desk.take_off("lamp")
    desk.fit("lamp")

    assert desk.bench.lines[-1].on == ("lamp",)


def test_each_bench_gets_its_own_desk() -> None:
    """A whole unit gets the desk of whole units, a compressor its own."""
    assert type(desk_for(unit_bench())) is UnitDesk
    assert type(desk_for(bench())) is CompressorDesk


def test_before_the_panel_the_desk_reads_as_the_bench() -> None:
    """Printed, it says how the unit looks and what stands on the sheet, without loading widgets."""
    desk = UnitDesk(unit_bench())
    desk.isolate()
    desk.volts_ac("plug L", "plug N")

    words = repr(desk)
    assert words.startswith(desk.bench.look())
    assert words.endswith("Job sheet, 1 line:\n1 | 0:00:15 | volts ac, plug L to plug N | 0.000 V a.c.")
    assert desk._panel is None


def test_a_prediction_is_put_beside_the_last_reading(capsys: pytest.CaptureFixture[str]) -> None:
    """Dead wires read 0 V: 0 V was right within the meter's limit, 230 V is 230 V apart, which is more."""
    desk = UnitDesk(unit_bench())
    desk.volts_ac("outlet L", "outlet N")
    desk.volts_ac("plug L", "plug N")

    right, wrong = said(capsys, desk, "0 V"), said(capsys, desk, "230 V")
    assert right.startswith("The last reading is line 2, volts ac, plug L to plug N, and shows 0.000 V a.c., ±")
    assert "You predicted 0 V. The two are 0" in right
    assert right.endswith("apart: no more than the instrument may be off.")
    assert "You predicted 230 V. The two are 230 V apart: more than the instrument may be off." in wrong


def test_the_unit_of_a_prediction_is_free(capsys: pytest.CaptureFixture[str]) -> None:
    """0.5 kV and 500 V are as far from a dead plug."""
    desk = UnitDesk(unit_bench())
    desk.volts_ac("plug L", "plug N")

    assert "The two are 500 V apart" in said(capsys, desk, "0.5 kV")
    assert "The two are 500 V apart" in said(capsys, desk, "500 V")


@pytest.mark.parametrize(
    ("act", "on", "clash", "message"),
    [
        ("volts ac", ("plug L", "plug N"), "3 ohm", '"3 ohm" is a resistance; a voltage is wanted'),
        ("ohms", ("pin C", "pin R"), "3", '"3" has no unit; a resistance needs one'),
        ("temperature", ("room",), "20 V", '"20 V" is a voltage; a temperature is wanted'),
        ("watts", (), "ten watts", '"ten watts" does not start with a number'),
        ("volts ac", ("plug L", "plug N"), 230, '"230" has no unit; a voltage needs one'),
    ],
)
def test_a_prediction_of_another_kind_is_said(
    capsys: pytest.CaptureFixture[str], act: str, on: tuple[str, ...], clash: object, message: str
) -> None:
    """What the instrument showed still stands there; why the two cannot be compared is said."""
    desk = UnitDesk(unit_bench())
    told = desk.do(act, *on)

    words = said(capsys, desk, clash)
    assert told.display is not None
    assert f"and shows {told.display.text}, ±" in words
    assert f"Your prediction cannot be put beside it: {message}" in words


@pytest.mark.parametrize("blank", ["", "  ", "?", "...", None])
def test_no_prediction_yet_is_said(capsys: pytest.CaptureFixture[str], blank: object) -> None:
    """A blank one asks for a prediction and shows no reading, so that it comes first."""
    desk = UnitDesk(unit_bench())
    desk.volts_ac("plug L", "plug N")

    assert said(capsys, desk, blank) == (
        "No prediction yet. Write one between the quote marks, run that cell again, then this one."
    )


def test_no_reading_yet_is_said(capsys: pytest.CaptureFixture[str]) -> None:
    """Before the first reading there is nothing to compare; an act that is no reading does not count."""
    desk = UnitDesk(unit_bench())
    desk.do("open door")

    assert said(capsys, desk, "3 V") == "There is no reading yet. Take one on the bench, then run this cell again."


def test_over_range_and_words_are_compared_as_words(capsys: pytest.CaptureFixture[str]) -> None:
    """With the relay off its coil end and the lamp have no path between them: OL. A look at a part has no number."""
    desk = UnitDesk(unit_bench())
    desk.discharge("start capacitor")
    desk.take_off("relay")
    desk.ohms("relay 1", "lamp 1")
    assert said(capsys, desk, "OL").endswith("shows OL: so it does.")
    assert said(capsys, desk, "3 ohm").endswith("shows OL: there is no number to compare.")
    desk.volts_ac("plug L", "plug N")
    assert said(capsys, desk, "ol").endswith("shows 0.000 V a.c.: not over range.")
    desk.inspect("lamp")
    assert said(capsys, desk, "whole").endswith("shows the filament is whole: there is no number to compare.")


def test_every_reading_with_a_number_has_its_kind() -> None:
    """Only what answers in words has none."""
    assert set(READINGS) - set(KINDS) == {"inspect", "listen"}
    assert set(KINDS) <= set(READINGS)


def test_unknown_acts_are_told_by_the_bench() -> None:
    """`do` with a name that is none lists the acts."""
    desk = UnitDesk(unit_bench())

    with pytest.raises(BenchError, match=r"the bench knows no act 'fly' on \(\); the acts are isolate, plug in, "):
        desk.do("fly")
