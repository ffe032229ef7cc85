"""The true unit: what its pins read for each fault, its heat, and the circuit it hangs in."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.appliance.compressor import PINS, PROTECTOR_RESETS_K, TERMINALS, BenchCircuit
from coldwright.appliance.faults import FaultKind, WindingFault
from coldwright.errors import InputError
from tests.appliance.units import INVERTER, SOUND, unit

COLD = 293.15
RUN, START, BOTH = ("2", "3"), ("1", "2"), ("1", "3")


def fault(kind: FaultKind, **more: float) -> WindingFault:
    """A fault of one kind."""
    return WindingFault(kind, **more)


def test_a_sound_unit_by_hand():
    """Run 10 Ω, start 30 Ω, both in series 40 Ω; 2 mΩ at most for the protector's contact."""
    pairs = SOUND.pair_resistances(COLD)
    assert pairs[RUN] == pytest.approx(10.0, abs=0.002)
    assert pairs[START] == pytest.approx(30.0, abs=0.002)
    assert pairs[BOTH] == pytest.approx(40.0, abs=0.002)


def test_windings_read_more_when_hot():
    """At 100 °C copper reads 334.5/254.5 of its value at 20 °C."""
    assert SOUND.pair_resistances(373.15)[BOTH] == pytest.approx(40.0 * 334.5 / 254.5, rel=1e-6)


@pytest.mark.parametrize(
    ("kind", "reads"),
    [
        (FaultKind.OPEN_RUN, {START: 30.0}),
        (FaultKind.OPEN_START, {RUN: 10.0}),
        (FaultKind.OPEN_PROTECTOR, {BOTH: 40.0}),
    ],
)
def test_an_open_path_leaves_one_pair(kind, reads):
    """Each open path leaves the one pair that does not use it."""
    pairs = unit(fault=fault(kind)).pair_resistances(COLD)
    for pair, value in pairs.items():
        assert value == (pytest.approx(reads[pair], abs=0.002) if pair in reads else math.inf), pair


@pytest.mark.parametrize(
    ("kind", "expected"),
    [(FaultKind.SHORTED_RUN, (6.0, 30.0, 36.0)), (FaultKind.SHORTED_START, (10.0, 18.0, 28.0))],
)
def test_shorted_turns_lower_one_winding(kind, expected):
    """60 % left of a winding lowers its pair and the series pair, and leaves the other alone."""
    pairs = unit(fault=fault(kind, remaining=0.6)).pair_resistances(COLD)
    assert (pairs[RUN], pairs[START], pairs[BOTH]) == pytest.approx(expected, abs=0.002)


def test_a_ground_does_not_show_between_the_pins():
    """A grounded winding reads right from pin to pin: only the way to the shell shows it."""
    grounded = unit(fault=fault(FaultKind.GROUNDED, ground_ohm=2e5))
    assert grounded.pair_resistances(COLD) == SOUND.pair_resistances(COLD)
    assert grounded.lowest_insulation(COLD) == pytest.approx(2e5, rel=1e-3)
    assert SOUND.lowest_insulation(COLD) == pytest.approx(400e6, rel=1e-3)


def test_an_inverter_unit_reads_three_alike():
    """Three windings in a star of 4 Ω each: every pair 8 Ω, hot or cold by the same factor."""
    assert list(INVERTER.pair_resistances(COLD).values()) == pytest.approx([8.0] * 3)
    assert list(INVERTER.pair_resistances(373.15).values()) == pytest.approx([8.0 * 334.5 / 254.5] * 3)
    assert INVERTER.lowest_insulation(COLD) == pytest.approx(400e6, rel=1e-3)


def test_a_tripped_protector_closes_when_it_cools():
    """One that opened from heat is open above its reset temperature and closed below; a failed one stays open."""
    tripped = unit(protector_tripped=True)
    assert tripped.protector_open(PROTECTOR_RESETS_K + 0.1)
    assert not tripped.protector_open(PROTECTOR_RESETS_K - 0.1)
    assert tripped.pair_resistances(PROTECTOR_RESETS_K + 1)[RUN] == math.inf
    assert tripped.pair_resistances(COLD)[RUN] == pytest.approx(10.0, abs=0.002)
    assert unit(fault=fault(FaultKind.OPEN_PROTECTOR)).protector_open(COLD)


def test_cooling_by_hand():
    """After one time constant 1/e of the difference to the room is left; plugged in it goes back the same way."""
    assert SOUND.winding_k(373.15, 0.0, plugged=False) == 373.15
    assert SOUND.winding_k(373.15, 3000.0, plugged=False) == pytest.approx(293.15 + 80.0 / math.e)
    assert SOUND.winding_k(293.15, 3000.0, plugged=True) == pytest.approx(373.15 - 80.0 / math.e)
    assert SOUND.winding_k(373.15, 1e9, plugged=False) == pytest.approx(293.15)


@given(st.floats(250, 400), st.floats(0, 1e5), st.floats(0, 1e5), st.booleans())
def test_cooling_in_two_steps_is_cooling_in_one(start_k, one_s, more_s, plugged):
    """The temperature after two spans is that after both together: it does not matter when someone looked."""
    halfway = SOUND.winding_k(start_k, one_s, plugged)
    in_one = SOUND.winding_k(start_k, one_s + more_s, plugged)
    assert SOUND.winding_k(halfway, more_s, plugged) == pytest.approx(in_one, abs=1e-9)


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"run_ohm": 0.0}, "the run winding of the compressor is 0 Ω; it must be above 0 Ω and finite"),
        ({"start_ohm": "30"}, "the start winding of the compressor is '30'; it must be a number"),
        ({"common": "1"}, "are pins '1', '3' and '1'; they must be 1, 2, 3, each once"),
        ({"insulation_ohm": -1.0}, "the insulation of the compressor is -1 Ω; it must be above 0 Ω"),
        ({"room_k": 20.0}, "the room's temperature is 20 K; it must be 200 K or more and finite. Was it in °C?"),
        ({"cooling_s": 0.0}, "the time constant of the compressor's cooling is 0 s"),
        ({"capacitor_v": math.nan}, "the voltage on the compressor's capacitor is nan V"),
        ({"under_vacuum": "no"}, "under_vacuum of the compressor is 'no'; it must be True or False"),
    ],
)
def test_a_compressor_that_cannot_be(changes, message):
    """Refused where it is made, by name, value and rule."""
    with pytest.raises(InputError) as refused:
        unit(**changes)
    assert message in str(refused.value)


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"winding_k": math.nan}, "the temperature of the windings is nan K"),
        ({"plugged": "no"}, "plugged of the bench is 'no'; it must be True or False"),
        ({"capacitor_v": math.inf}, "the voltage on the capacitor is inf V; it must be finite"),
    ],
)
def test_a_moment_that_cannot_be(changes, message):
    """Refused where it is made; the voltage may stand either way round."""
    assert circuit(capacitor_v=-280.0).capacitor_v == -280.0
    with pytest.raises(InputError) as refused:
        circuit(**changes)
    assert message in str(refused.value)


def circuit(**changes: object) -> BenchCircuit:
    """The sound unit unplugged, bare and discharged, unless told otherwise."""
    state = {"unit": SOUND, "winding_k": COLD, "plugged": False, "connected": False, "capacitor_v": 0.0}
    return BenchCircuit(**{**state, **changes})


def test_the_supply_stands_between_line_and_neutral():
    """Plugged in, L to N is the supply within a few per cent, N to earth next to nothing; unplugged all is dead."""
    live = circuit(plugged=True, connected=True)
    assert live.ac_voltage("L", "N", 10e6) == pytest.approx(230.0, rel=0.05)
    assert live.ac_voltage("L", "earth", 10e6) == pytest.approx(230.0, rel=0.05)
    assert live.ac_voltage("N", "earth", 10e6) < 1.0
    assert circuit(connected=True).ac_voltage("L", "N", 10e6) == 0.0


def test_the_capacitor_keeps_its_voltage():
    """A charged capacitor shows its voltage with its sign; the tips swapped, the other sign."""
    charged = circuit(capacitor_v=280.0)
    assert charged.dc_voltage("cap a", "cap b", 10e6) == pytest.approx(280.0, rel=1e-3)
    assert charged.dc_voltage("cap b", "cap a", 10e6) == pytest.approx(-280.0, rel=1e-3)
    assert circuit().dc_voltage("cap a", "cap b", 10e6) == 0.0


def test_a_reading_in_the_circuit_is_another_reading():
    """With the connector on, the fan lies beside the windings: run then reads less than on bare pins."""
    bare, joined = circuit(), circuit(connected=True)
    assert bare.resistance(*RUN) == pytest.approx(10.0, abs=0.01)
    by_hand = 1 / (1 / 10.0 + 1 / (120.0 + 0.05 + 0.3))
    assert joined.resistance(*RUN) == pytest.approx(by_hand, rel=1e-3)


def test_bare_pins_reach_no_lead():
    """With the connector off there is no path from a pin to the cord or the capacitor, except over the insulation."""
    bare = circuit()
    for pin in PINS:
        for far in ("L", "N", "cap a", "cap b"):
            assert bare.resistance(pin, far) == math.inf
        assert bare.resistance(pin, "shell") > 300e6


def test_the_shell_is_earthed():
    """Shell to earth is a tenth of an ohm, plugged in or not."""
    for plugged in (True, False):
        assert circuit(plugged=plugged).resistance("shell", "earth") == pytest.approx(0.1, rel=1e-6)


def test_an_inverter_board_joins_the_pins_to_its_capacitor():
    """With the board connected, each pin reaches the capacitor's minus over 220 kΩ: three of them side by side."""
    board = circuit(unit=INVERTER, connected=True)
    assert board.resistance("1", "cap b") == pytest.approx(220e3 / 3, rel=1e-3)
    assert circuit(unit=INVERTER).resistance("1", "cap b") == math.inf


def test_every_terminal_can_be_probed():
    """Each terminal is in the circuit in every state, for every kind of unit."""
    for each in (SOUND, INVERTER, unit(fault=fault(FaultKind.OPEN_PROTECTOR))):
        for plugged in (True, False):
            for connected in (True, False):
                state = circuit(unit=each, plugged=plugged, connected=connected)
                assert set(TERMINALS) <= set(state.network.nodes)
                assert state.terminals() == TERMINALS


@pytest.mark.parametrize(
    ("fields", "message"),
    [
        ({"remaining": 0.0}, r"^shorted turns leave 0 of the resistance; it must be above 0, at most 1$"),
        ({"remaining": 1.1}, r"^shorted turns leave 1\.1 of the resistance"),
        ({"ground_ohm": 0.0}, r"^the resistance to ground is 0 Ω; it must be above 0 Ω$"),
        ({"ground_ohm": math.nan}, r"^the resistance to ground is nan Ω"),
    ],
)
def test_a_fault_that_cannot_be(fields, message):
    """A size that no fault has is refused with its value."""
    with pytest.raises(InputError, match=message):
        WindingFault(FaultKind.GROUNDED, **fields)


@given(st.sampled_from([k for k in FaultKind if k.name.startswith("OPEN")]), st.floats(250, 400))
def test_a_fault_changes_parameters_only(kind, kelvin):
    """A unit with a fault has the windings of the same unit without it, less what the fault opens."""
    sound = {b.name for b in SOUND.windings(kelvin)}
    broken = {b.name for b in replace(SOUND, fault=fault(kind)).windings(kelvin)}
    assert len(sound - broken) == 1
    assert broken < sound
