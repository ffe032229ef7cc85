"""The desk of a cooler with its sealed system: acts by name, and a prediction beside the last reading."""

from __future__ import annotations

import inspect
from dataclasses import replace

import pytest

from coldwright.bench.acts import Told
from coldwright.bench.cold_acts import COLD_SECONDS
from coldwright.bench.cold_readings import COLD_READINGS
from coldwright.bench.unit_acts import UnitTaken
from coldwright.instruments.display import Display
from coldwright.labs.catalogue import lab
from coldwright.labs.practice import practice_unit
from coldwright.panels import practice
from coldwright.panels.cold_desk import COLD_KINDS, ColdDesk
from coldwright.panels.cold_panel import ColdPanel
from coldwright.panels.desk import desk_for
from coldwright.panels.marked_desk import PracticeDesk
from coldwright.panels.unit_desk import UnitDesk
from tests.panels.cold_benches import ShopBench, cold_bench
from tests.panels.unit_benches import unit_bench

CALLS: dict[str, tuple[str, ...]] = {
    "join_gauges": ("not purged",),
    "take_off_gauges": (),
    "gauge": ("low side",),
    "barometer": (),
    "probe": ("suction line",),
    "frost": (),
    "add": ("R-600a", "5 g"),
    "recover": ("all",),
    "tare": (),
    "scale": (),
    "open_door": (),
    "shut_door": (),
}
ODD_NAMES = {"frost": "frost line"}


def own_methods() -> set[str]:
    """Public methods that the desk of a whole unit has not."""
    own, unit = (
        {name for name, _ in inspect.getmembers(kind, inspect.isfunction) if not name.startswith("_")}
        for kind in (ColdDesk, UnitDesk)
    )
    return own - unit


@pytest.mark.parametrize("name", CALLS)
def test_each_act_by_name_is_the_act_of_the_sheet(monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    """A method does the act whose name it has, on what it is given, and hands back what came of it."""
    desk, done = ColdDesk(cold_bench()), []

    def perform(act: str, on: tuple[str, ...] = ()) -> Told:
        done.append((act, on))
        return Told("done")

    monkeypatch.setattr(desk.bench, "perform", perform)
    told = getattr(desk, name)(*CALLS[name])

    act = ODD_NAMES.get(name, name.replace("_", " "))
    assert done == [(act, CALLS[name])]
    assert act in COLD_SECONDS
    assert told == Told("done")


def test_all_methods_are_tried_here() -> None:
    """No public method of the desk is left out of the test above."""
    assert own_methods() == set(CALLS)


def test_each_bench_gets_its_own_desk() -> None:
    """A bench of the sealed system, and each kind of it, gets this desk; a whole unit without it keeps its own."""
    assert type(desk_for(cold_bench())) is ColdDesk
    assert type(desk_for(cold_bench(kind=ShopBench))) is ColdDesk
    assert type(desk_for(unit_bench())) is UnitDesk


def test_a_practice_unit_has_the_same_panel(monkeypatch: pytest.MonkeyPatch) -> None:
    """The desk of a practice unit with its sealed system marks answers and has the panel of the sealed system."""
    found = replace(practice_unit(lab("overloads"), 7), bench=cold_bench())
    monkeypatch.setattr(practice, "practice_unit", lambda _lab, _number: found)
    desk = practice.practice_desk(7, "overloads")

    assert isinstance(desk, PracticeDesk)
    assert isinstance(desk, ColdDesk)
    assert isinstance(desk.panel, ColdPanel)


def test_hoses_are_purged_unless_it_is_said_otherwise() -> None:
    """Joining by name without a word is the safe way."""
    desk = ColdDesk(cold_bench())
    desk.join_gauges()

    assert desk.bench.lines[-1].on == ("purged",)


def test_acts_by_name_show_on_the_panel_too() -> None:
    """The desk has the panel of the cold side; the desk in plain text is the panel's text."""
    desk = ColdDesk(cold_bench())
    panel = desk.panel
    assert isinstance(panel, ColdPanel)
    told = desk.barometer()

    assert panel.told is told
    assert "1 | 0:00:10 | barometer | 101." in panel.text()
    assert repr(desk) == panel.text()


def test_acts_of_a_kind_of_bench_are_done_by_name() -> None:
    """`do` reaches what only that bench has, and the panel shows it."""
    desk = ColdDesk(cold_bench(kind=ShopBench))
    panel = desk.panel
    desk.do("leak search", "soap")

    assert "leak search done" in panel.text()


@pytest.mark.parametrize(
    ("act", "display", "predicted", "words"),
    [
        (
            "gauge",
            Display("2.00 bar gauge (29 psig)", 2.0e5, 0.21e5, 1e3),
            "2.1 bar gauge",
            "±0.21 bar (3.0 psi). You predicted 2.1 bar gauge. The two are 0.100 bar (1.45 psi) apart: no more than",
        ),
        (
            "barometer",
            Display("100.00 kPa absolute (29.53 inHg)", 100.0e3, 100.0, 10.0),
            "110 kPa absolute",
            "±0.0010 bar (0.015 psi). You predicted 110 kPa absolute. The two are 0.100 bar (1.45 psi) apart: more",
        ),
        (
            "probe",
            Display("-10.0 °C", 263.15, 1.0, 0.1),
            "-8 °C",
            "The two are 2.00 K apart: more than the instrument may be off.",
        ),
        ("scale", Display("0.100 kg", 0.1, 0.002, 0.001), "101 g", "The two are 1.00 g apart: no more than"),
    ],
)
def test_a_prediction_stands_beside_the_reading(
    capsys: pytest.CaptureFixture[str], act: str, display: Display, predicted: str, words: str
) -> None:
    """By hand: 0.1 bar is 1.45 psi, 10 kPa is 0.1 bar, 2 K is 2 K; within or not as the limit says."""
    desk = ColdDesk(cold_bench())
    desk.tare()
    line = replace(desk.bench.lines[-1], act=act)
    desk.bench.taken.append(UnitTaken(line, display, desk.bench.state, True))
    desk.compare(predicted)

    assert words in capsys.readouterr().out


def test_every_reading_with_a_number_can_be_predicted() -> None:
    """Of the readings on the cold side only the frost, which is counted, is left out."""
    assert set(COLD_READINGS) - set(COLD_KINDS) == {"frost line"}
