"""Switches, ideal wires, coupled windings, powers, ghost voltages: by hand, by properties, and each error's message."""

from __future__ import annotations

import cmath
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.electrical.network import Branch, Coupled, Network, Source, Switch
from coldwright.errors import InputError
from tests.electrical.circuits import TURNING, cooler

OPEN, SHUT = False, True
IMPEDANCE = st.complex_numbers(max_magnitude=100, allow_nan=False, allow_infinity=False)


def cell(volts: float = 12.0, ohm: float = 1.0) -> Source:
    """A cell from g to a."""
    return Source("cell", "a", "g", volts, 0.0, ohm)


def pair(z: tuple[tuple[complex, complex], tuple[complex, complex]], hertz: float = 50.0) -> Coupled:
    """Windings a to g and s to g."""
    return Coupled("motor", ("a", "g"), ("s", "g"), z, (4.0, 6.0), hertz)


# ---------------------------------------------------------------------------------------------- switches and wires


def test_an_open_switch_is_nothing_and_a_closed_one_is_its_contact():
    """12 V behind 1 Ω over 5 Ω: no current while open, 2 A while closed, 12/8 A with 2 Ω of contact."""
    load = [Branch("load", "b", "g", 5.0)]
    for switch, amps in (
        (Switch("s", "a", "b", OPEN), 0.0),
        (Switch("s", "a", "b", SHUT), 2.0),
        (Switch("s", "a", "b", SHUT, 2.0), 1.5),
    ):
        solution = Network(load, [cell()], switches=[switch]).solve(0.0)
        assert solution.current("s") == pytest.approx(amps)
        assert solution.current("load") == pytest.approx(amps)
        alone = Network([], [cell()], extra_nodes=["b"], switches=[switch]).solve(0.0)
        assert alone.joined("a", "b") is switch.closed


def test_the_current_of_each_ideal_wire_in_a_chain_and_a_tree():
    """Wires have no voltage and each carries what hangs behind it: 6 A, then 6 − 1 − 2 = 3 A (12 V; 12, 6 and 4 Ω)."""
    switches = [Switch("w1", "a", "b", SHUT), Switch("w2", "b", "c", SHUT), Switch("w3", "d", "c", SHUT)]
    loads = [Branch("12", "b", "g", 12.0), Branch("6", "b", "g", 6.0), Branch("4", "d", "g", 4.0)]
    solution = Network(loads, [cell(12.0, 1e-9)], switches=switches).solve(0.0)
    assert [solution.current(f"w{n}").real for n in (1, 2, 3)] == pytest.approx([6.0, 3.0, -3.0])
    assert solution.voltage("a", "d") == 0
    assert solution.power("w1") == 0


def test_equal_wires_side_by_side_share():
    """Two ideal wires between the same nodes carry half each; a third way of two wires in a row half of that."""
    switches = [Switch("one", "a", "b", SHUT), Switch("two", "a", "b", SHUT)]
    load = [Branch("load", "b", "g", 5.0)]
    solution = Network(load, [cell()], switches=switches).solve(0.0)
    assert solution.current("one") == pytest.approx(1.0)
    switches += [Switch("long way", "a", "x", SHUT), Switch("long way back", "x", "b", SHUT)]
    solution = Network(load, [cell()], switches=switches).solve(0.0)
    assert solution.current("two") == pytest.approx(0.8)
    assert solution.current("long way") == solution.current("long way back") == pytest.approx(0.4)


def test_a_coil_without_resistance_is_a_wire_to_direct_current():
    """0.5 H and no ohms: an ideal wire at 0 Hz whose current can be asked for, 2πf·0.5 Ω at 50 Hz."""
    net = Network([Branch("coil", "a", "b", 0.0, 0.5), Branch("load", "b", "g", 5.0)], [cell()])
    assert net.solve(0.0).current("coil") == pytest.approx(2.0)
    assert net.resistance("a", "b") == 0.0
    alone = Network([Branch("coil", "a", "g", 0.0, 0.5)], [Source("s", "a", "g", 100.0, 50.0, 1e-6)])
    assert alone.solve(50.0).current("coil") == pytest.approx(100 / (1j * math.pi * 50), rel=1e-6)


# ---------------------------------------------------------------------------------------- laws that hold in any circuit


@pytest.mark.parametrize("closed", [set(), {"thermostat"}, {"thermostat", "relay contact", "door switch"}])
def test_currents_of_a_whole_cooler_sum_to_nothing_at_each_node(closed):
    """Kirchhoff's current law, ideal wires included; and all powers sum to zero (Tellegen)."""
    net = cooler(closed=closed, run_farad=4e-6)
    solution = net.solve(50.0)
    sums = dict.fromkeys(net.nodes, 0j)
    ends = {e.name: (e.a, e.b) for e in (*net.branches, *net.sources, *net.switches)}
    for windings in net.coupled:
        ends |= dict(zip(windings.names, (windings.first, windings.second), strict=True))
    assert set(ends) == solution.names
    for name, (a, b) in ends.items():
        sums[a] += solution.current(name)
        sums[b] -= solution.current(name)
    largest = max(abs(solution.current(name)) for name in ends)
    assert largest > 0
    assert max(map(abs, sums.values())) < 1e-12 * largest
    # the power of a source is taken at its terminals, so that the sum runs over everything
    assert abs(sum(solution.power(name) for name in ends)) < 1e-9 * abs(solution.power("supply"))


def test_watts_and_reactive_power_by_hand():
    """5 A through 3 Ω and an inductive 4 Ω from 25 V: 75 W and 100 var in the branch, as much out of the source."""
    branch = Branch("coil", "a", "g", 3.0, 4 / (2 * math.pi * 50))
    solution = Network([branch], [Source("s", "a", "g", 25.0, 50.0, 1e-9)]).solve_ac(50.0)
    assert abs(solution.current("coil")) == pytest.approx(5.0)
    assert solution.power("coil") == pytest.approx(75 + 100j)
    assert solution.power("s") == pytest.approx(-75 - 100j)


def test_one_solve_answers_as_many_do():
    """A solution gives what `voltage` and `voltages` give, with and without meters; the same every time."""
    net = cooler()
    meters = [Branch("m1", "C", "R", 1e7), Branch("m2", "S", "earth", 3e3)]
    solution, again = net.solve(50.0, meters), net.solve(50.0, iter(meters))
    assert solution.voltage("C", "S") == again.voltage("C", "S")
    assert solution.current("m2") == pytest.approx(solution.voltage("S", "earth") / 3e3, rel=1e-12)
    assert net.voltage("C", "R", 50.0, 1e7) == net.solve(50.0, [Branch("m", "C", "R", 1e7)]).voltage("C", "R")
    volts = net.voltages(50.0)
    bare = net.solve(50.0)
    assert volts["S"] - volts["earth"] == pytest.approx(bare.voltage("S", "earth"), rel=1e-12)


# --------------------------------------------------------------------------------------------------- coupled windings


def test_without_mutual_impedance_two_windings_are_two_branches():
    """z12 = z21 = 0: the pair is two coils side by side, at 50 Hz and for direct current."""
    coil = Branch("coil", "s", "g", 6.0, 8 / (2 * math.pi * 50))
    supply = [Source("s", "a", "g", 100.0, 50.0, 2.0), Source("cell", "a", "g", 10.0, 0.0, 2.0)]
    lead = Branch("lead", "a", "s", 3.0)
    two = Network([lead, coil, Branch("other", "a", "g", 4.0, 5 / (2 * math.pi * 50))], supply)
    one = Network([lead], supply, coupled=[pair(((4 + 5j, 0j), (0j, 6 + 8j)))])
    for hertz in (50.0, 0.0):
        ours, theirs = one.solve(hertz), two.solve(hertz)
        assert ours.current("motor second") == pytest.approx(theirs.current("coil"))
        assert ours.current("motor first") == pytest.approx(theirs.current("other"))


def test_a_secondary_reflects_into_the_primary():
    """Open, it does nothing; shorted, the primary shows Z1 + (ωM)²/Z2 (textbook formula of the coupled circuit)."""
    z1, z2, wm = 10 + 30j, 4 + 20j, 12.0
    windings = Coupled("t", ("a", "g"), ("p", "q"), ((z1, 1j * wm), (1j * wm, z2)), (10.0, 4.0), 50.0)
    supply = [Source("s", "a", "g", 100.0, 50.0, 1e-9)]
    for switch, seen in ((OPEN, z1), (SHUT, z1 + wm**2 / z2)):
        net = Network([], supply, switches=[Switch("short", "p", "q", switch)], coupled=[windings])
        solution = net.solve(50.0)
        assert solution.voltage("a", "g") / solution.current("t first") == pytest.approx(seen, rel=1e-6)
        assert not solution.joined("a", "p")
    assert solution.current("short") == pytest.approx(-solution.current("t second"))


@given(IMPEDANCE, IMPEDANCE, IMPEDANCE, IMPEDANCE)
def test_the_two_windings_hold_to_their_equations(z11, z12, z21, z22):
    """Whatever the four impedances, solved voltages and currents fit them, and both supplies fit theirs."""
    z = np.array([[z11 + 150, z12], [z21, z22 + 150]])
    windings = pair(((z[0, 0], z12), (z21, z[1, 1])))
    sources = [Source("one", "a", "g", 100.0, 50.0, 2.0), Source("two", "s", "g", 40j, 50.0, 3.0)]
    solution = Network([], sources, coupled=[windings]).solve(50.0)
    amps = np.array([solution.current(name) for name in windings.names])
    volts = np.array([solution.voltage("a", "g"), solution.voltage("s", "g")])
    assert np.allclose(z @ amps, volts, rtol=1e-9, atol=1e-9)
    assert np.allclose(volts, [100 - 2 * amps[0], 40j - 3 * amps[1]], rtol=1e-9, atol=1e-9)


def test_which_winding_acts_on_which_matters():
    """z21 alone: the first winding drives the second, and feels nothing of it (10 V, 5 Ω: 2 A; 2 A · 3 Ω = 6 V)."""
    windings = pair(((5 + 0j, 0j), (3 + 0j, 7 + 0j)))
    solution = Network([], [Source("s", "a", "g", 10.0, 50.0, 1e-9)], coupled=[windings]).solve(50.0)
    assert solution.current("motor first") == pytest.approx(2.0)
    assert solution.voltage("s", "g") == pytest.approx(6.0)
    assert solution.current("motor second") == 0


def test_a_broken_winding_of_a_pair_carries_nothing():
    """A break of 1e12 Ω in the second winding leaves the first alone, though each acts on the other."""
    broken = ((TURNING[0][0], TURNING[0][1]), (TURNING[1][0], TURNING[1][1] + 1e12))
    solution = Network(
        [], [Source("s", "a", "g", 230.0, 50.0, 1e-9)], (), [Switch("w", "a", "s", SHUT)], [pair(broken)]
    )
    solved = solution.solve(50.0)
    assert solved.current("motor first") == pytest.approx(230 / TURNING[0][0], rel=1e-9)
    assert abs(solved.current("motor second")) < 1e-9


# ------------------------------------------------------------------------------------------------------ ghost voltage


@pytest.mark.parametrize("live", [(230.0, 50.0), (120.0, 60.0)])
def test_a_ghost_voltage_shows_on_one_meter_and_not_on_the_other(live):
    """A floating wire beside a live one, by hand as a divider of a stray 300 pF and the meter's ohms.

    300 pF is 10.6 MΩ at 50 Hz: a 10 MΩ meter reads R / |R − jX|, about 0.69 of the supply; 3 kΩ reads below 0.1 V.
    """
    volts, hertz = live
    stray = Branch("stray", "live", "wire", capacitance=300e-12)
    net = Network([stray], [Source("supply", "live", "neutral", volts, hertz)], extra_nodes=["wire"])
    reactance = 1 / (2 * math.pi * hertz * 300e-12)
    for ohm in (10e6, 3e3):
        by_hand = volts * ohm / math.hypot(ohm, reactance)
        assert abs(net.voltage("wire", "neutral", hertz, ohm)) == pytest.approx(by_hand, rel=1e-6)
    assert abs(net.voltage("wire", "neutral", hertz, 10e6)) > 0.6 * volts
    assert abs(net.voltage("wire", "neutral", hertz, 3e3)) < 0.1
    assert net.voltage("wire", "neutral", 0.0, 10e6) == 0


def test_a_meter_joins_two_parts_that_do_not_touch():
    """Without it the two are not joined; with it they are, and still no current flows, for there is no way back."""
    net = Network([Branch("r", "a", "g", 10.0), Branch("other", "c", "d", 5.0)], [cell()])
    assert not net.solve(0.0).joined("a", "c")
    solution = net.solve(0.0, [Branch("meter", "a", "c", 1e7)])
    assert solution.joined("a", "d")
    assert abs(solution.voltage("a", "c")) < 1e-9
    two = net.solve(0.0, [Branch("meter", "a", "c", 1e7), Branch("finger", "d", "g", 1e5)])
    assert two.voltage("a", "c") == pytest.approx(two.voltage("a", "g") * 1e7 / (1e7 + 5 + 1e5))


# -------------------------------------------------------------------------------------------------------------- errors

R = Branch("r", "a", "g", 5.0)


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: Switch("door", "a", "a", SHUT), r"^door has both ends on a; it needs two different terminals$"),
        (
            lambda: Switch("door", "a", "b", SHUT, -0.1),
            r"^the contact resistance of door is -0.1 Ω; it must be zero or more and finite$",
        ),
        (lambda: Coupled("m", ("a", "a"), ("s", "g"), TURNING, (1, 1), 50.0), r"^m first has both ends on a"),
        (lambda: Coupled("m", ("a", "g"), ("s", "s"), TURNING, (1, 1), 50.0), r"^m second has both ends on s"),
        (lambda: Coupled("m", ("a", "g"), ("s", "g"), TURNING, (1, -1), 50.0), r"^the resistance of m second is -1 Ω"),
        (
            lambda: pair(TURNING, 0.0),
            r"^the frequency of motor is 0 Hz; it must be above 0 Hz and finite. Windings act",
        ),
        (lambda: pair(((1j, complex(math.inf)), (1j, 1j))), r"^an impedance of motor is inf\+0j Ω; it must be finite$"),
        (
            lambda: Network([R, Branch("r", "a", "b", 1.0)]),
            r"^two elements are named 'r'; each needs a name of its own$",
        ),
        (
            lambda: Network([Branch("motor first", "a", "b", 1.0)], coupled=[pair(TURNING)]),
            r"^two elements are named 'motor first'",
        ),
        (lambda: Network([R]).solve(0.0, [R]), r"^two elements are named 'r'"),
        (
            lambda: Network([R]).solve(0.0, [Branch("meter", "a", "z", 1e7)]),
            r"^there is no terminal 'z' here; the terminals are a, g$",
        ),
        (lambda: Network([R]).solve(0.0).voltage("a", "z"), r"^there is no terminal 'z' here; the terminals are a, g$"),
        (lambda: Network([R]).solve(0.0).current("x"), r"^there is no element 'x' here; the elements are r$"),
        (
            lambda: Network([R]).solve(-50.0),
            r"^the frequency is -50 Hz; it must be zero or more and finite. Zero stands for direct current$",
        ),
        (lambda: Network([R]).solve(math.nan), r"^the frequency is nan Hz"),
        (
            lambda: Network([R]).solve_ac(0.0),
            r"^the frequency is 0 Hz; it must be above 0 Hz and finite. An alternating supply has most often 50 Hz",
        ),
        (lambda: Network([R]).solve_ac(-60.0), r"^the frequency is -60 Hz; it must be above 0 Hz"),
        (
            lambda: Network([], coupled=[pair(TURNING)]).solve(60.0),
            r"^motor is asked for at 60 Hz; its impedances hold at 50 Hz and for direct current only$",
        ),
        (
            lambda: Network([], coupled=[Coupled("m", ("a", "g"), ("a", "g"), ((0, 0), (0, 0)), (1, 1), 50)]).solve(50),
            r"^the circuit has no single answer: a coil and a capacitor without any resistance resonate in it, or",
        ),
    ],
)
def test_what_is_refused(make, message):
    """What cannot be is refused by its name, with its value and the rule."""
    with pytest.raises(InputError, match=message):
        make()


def test_floating_nodes_are_named():
    """A node on one element or none is named with it; an open switch counts; what is to be kept may be."""
    switch = Switch("door switch", "live", "lamp 1", OPEN)
    lamp, fan = Branch("lamp", "lamp 1", "lamp 2", 300.0), Branch("fan", "live", "neutral", 480.0)
    net = Network([lamp, fan], extra_nodes=["spare"], switches=[switch])
    with pytest.raises(InputError) as caught:
        net.check_floating(keep=["neutral"])
    assert str(caught.value) == (
        "the circuit has floating nodes: lamp 2 (on lamp), spare (on nothing); each node must join at least two "
        "elements. Was a wire left out?"
    )
    net.check_floating(keep=["neutral", "lamp 2", "spare"])
    with pytest.raises(InputError, match=r"^there is no terminal 'plug' here"):
        net.check_floating(keep=["plug"])
    cooler().check_floating(keep=["outlet L", "outlet E"])


def test_the_phase_of_a_source_is_kept():
    """10 V at 90° over 5 Ω gives 2 A at 90°; at another frequency nothing."""
    net = Network([R], [Source("s", "a", "g", cmath.rect(10.0, math.pi / 2), 50.0, 1e-9)])
    assert net.solve(50.0).current("r") == pytest.approx(2j)
    assert net.solve(60.0).current("r") == 0
