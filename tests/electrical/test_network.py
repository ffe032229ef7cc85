"""The nodal solver: circuits by hand, properties of every linear circuit, and another formulation of the same laws."""

from __future__ import annotations

import cmath
import math
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.electrical.network import Branch, Network, Source
from coldwright.errors import InputError
from tests.electrical.circuits import PUBLISHED
from tests.published_values import as_printed, load

NODES = "abcdef"
OHMS = st.floats(0.1, 1e5)


def wires(*rows: tuple[str, str, float]) -> list[Branch]:
    """Resistors from rows of two nodes and ohms."""
    return [Branch(f"r{n}", a, b, ohm) for n, (a, b, ohm) in enumerate(rows)]


@st.composite
def circuits(draw) -> list[Branch]:
    """A connected circuit of three to six nodes with resistors, coils and capacitors."""
    count = draw(st.integers(3, 6))
    pairs = [(draw(st.integers(0, n - 1)), n) for n in range(1, count)]
    pairs += draw(st.lists(st.tuples(st.integers(0, count - 1), st.integers(0, count - 1)), max_size=6))
    return [
        Branch(
            f"b{n}",
            NODES[i],
            NODES[j],
            draw(OHMS),
            draw(st.sampled_from([0.0, 0.01, 0.2])),
            draw(st.sampled_from([None, None, 40e-6])),
        )
        for n, (i, j) in enumerate(pairs)
        if i != j
    ]


def by_incidence(branches: list[Branch], source: Source, hertz: float) -> dict[str, complex]:
    """Node voltages another way: all branch currents and voltages at once, by least squares over Kirchhoff's laws.

    The unknowns are the branch currents and the node voltages; rows are Ohm's law for each branch, the current law for
    each node and one node at zero. No admittance matrix is built.
    """
    omega = 2 * math.pi * hertz
    nodes = sorted({n for b in branches for n in (b.a, b.b)})
    parts = [*((b.a, b.b) for b in branches), (source.a, source.b)]
    drops = [
        b.resistance + 1j * omega * b.inductance + (1 / (1j * omega * b.capacitance) if b.capacitance else 0)
        for b in branches
    ]
    drops.append(source.resistance)
    size, count = len(parts), len(nodes)
    matrix = np.zeros((size + count + 1, size + count), dtype=complex)
    right = np.zeros(size + count + 1, dtype=complex)
    for row, ((a, b), drop) in enumerate(zip(parts, drops, strict=True)):
        matrix[row, size + nodes.index(a)] = 1
        matrix[row, size + nodes.index(b)] = -1
        matrix[row, row] = -drop
        matrix[size + nodes.index(a), row] = 1
        matrix[size + nodes.index(b), row] = -1
    right[size - 1] = source.voltage
    matrix[size + count, size] = 1
    scale = np.abs(matrix).max(axis=1)
    solved = np.linalg.lstsq(matrix / scale[:, None], right / scale, rcond=None)[0]
    return dict(zip(nodes, solved[size:], strict=True))


def test_series_and_parallel_by_hand():
    """2 Ω and 3 Ω in series are 5 Ω; 6 Ω beside 3 Ω is 2 Ω."""
    assert Network(wires(("a", "b", 2), ("b", "c", 3))).resistance("a", "c") == pytest.approx(5.0)
    assert Network(wires(("a", "b", 6), ("a", "b", 3))).resistance("a", "b") == pytest.approx(2.0)


def test_a_balanced_bridge_by_hand():
    """A bridge of 1, 2, 2, 4 Ω is balanced: 3 Ω beside 6 Ω is 2 Ω whatever lies across, and no voltage stands there."""
    for across in (0.5, 10.0, 1e6):
        net = wires(("a", "b", 1), ("b", "d", 2), ("a", "c", 2), ("c", "d", 4), ("b", "c", across))
        assert Network(net).resistance("a", "d") == pytest.approx(2.0)
        fed = Network(net, [Source("cell", "a", "d", 10.0, 0.0, 0.01)])
        assert abs(fed.voltage("b", "c", 0.0)) < 1e-9


def test_an_unbalanced_bridge_by_hand():
    """Four 1 Ω arms, one of them 2 Ω, with 1 Ω across: 13/11 Ω by the star that replaces one triangle."""
    net = wires(("a", "b", 1), ("b", "d", 1), ("a", "c", 1), ("c", "d", 2), ("b", "c", 1))
    assert Network(net).resistance("a", "d") == pytest.approx(13 / 11, rel=1e-9)


def test_a_star_and_its_triangle_are_the_same():
    """Three 5 Ω in a star and three 15 Ω in a triangle read alike: each pair 10 Ω."""
    star = Network(wires(("o", "1", 5), ("o", "2", 5), ("o", "3", 5)))
    triangle = Network(wires(("1", "2", 15), ("2", "3", 15), ("1", "3", 15)))
    for pair in (("1", "2"), ("2", "3"), ("1", "3")):
        assert star.resistance(*pair) == pytest.approx(10.0)
        assert triangle.resistance(*pair) == pytest.approx(10.0)


def test_no_path_is_infinite_and_a_node_to_itself_is_nothing():
    """Between two parts that do not touch the resistance is infinite; a node against itself is zero."""
    net = Network(wires(("a", "b", 2), ("c", "d", 3)), extra_nodes=("x",))
    assert net.resistance("a", "c") == math.inf
    assert net.resistance("a", "x") == math.inf
    assert net.resistance("a", "a") == 0.0
    assert net.islands(0.0) == [{"a", "b"}, {"c", "d"}, {"x"}]


def test_a_capacitor_is_open_to_direct_current():
    """A capacitor parts the circuit at 0 Hz and joins it at 50 Hz."""
    net = Network([Branch("c", "a", "b", 1.0, capacitance=10e-6)])
    assert net.resistance("a", "b") == math.inf
    assert net.islands(0.0) == [{"a"}, {"b"}]
    assert net.islands(50.0) == [{"a", "b"}]


def test_a_floating_part_has_no_voltage_against_the_rest():
    """Nothing joins the two parts: the voltage between them is given as zero, and each part still has its own."""
    net = Network(wires(("a", "b", 10), ("c", "d", 10)), [Source("cell", "a", "b", 9.0, 0.0, 1e-3)])
    assert net.voltage("a", "c", 0.0) == 0
    assert net.voltage("c", "d", 0.0) == 0
    assert net.voltage("a", "b", 0.0).real == pytest.approx(9.0, rel=1e-3)


def test_a_voltage_divider_by_hand():
    """10 V over 2 kΩ and 3 kΩ leave 6 V across the 3 kΩ; the sign follows the order of the tips."""
    net = Network(wires(("a", "m", 2e3), ("m", "b", 3e3)), [Source("cell", "a", "b", 10.0, 0.0, 1e-3)])
    assert net.voltage("m", "b", 0.0).real == pytest.approx(6.0, rel=1e-6)
    assert net.voltage("b", "m", 0.0).real == pytest.approx(-6.0, rel=1e-6)
    assert net.voltage("m", "m", 0.0) == 0


def test_an_alternating_divider_by_hand():
    """30 Ω and an inductive 40 Ω on 100 V: 2 A, 60 V on the resistor, 80 V on the coil a quarter cycle ahead of it."""
    henry = 40 / (2 * math.pi * 50)
    parts = [Branch("r", "a", "m", 30.0), Branch("l", "m", "b", 0.0, henry)]
    net = Network(parts, [Source("supply", "a", "b", 100.0, 50.0, 1e-6)])
    resistor, coil = net.voltage("a", "m", 50.0), net.voltage("m", "b", 50.0)
    assert abs(resistor) == pytest.approx(60.0, rel=1e-4)
    assert abs(coil) == pytest.approx(80.0, rel=1e-4)
    assert math.degrees(cmath.phase(coil / resistor)) == pytest.approx(90.0, abs=0.01)
    assert abs(resistor + coil) == pytest.approx(100.0, rel=1e-6)


def test_resonance_by_hand():
    """1 H and 1 F at 1/2π Hz cancel: only the resistance is left, and the capacitor's voltage lags by 90°."""
    hertz = 1 / (2 * math.pi)
    branch = Branch("series", "a", "b", 2.0, 1.0, 1.0)
    assert branch.impedance(hertz) == pytest.approx(2.0, abs=1e-12)
    assert branch.impedance(0.0) is None
    solution = Network([branch], [Source("supply", "a", "b", 6.0, hertz, 1.0)]).solve(hertz)
    assert solution.current("series") == pytest.approx(2.0, abs=1e-12)


def test_a_meter_of_ten_megohm_loads_the_circuit():
    """Over 10 MΩ in series, a 10 MΩ meter reads half; without a meter the whole voltage stands there."""
    net = Network(wires(("a", "m", 10e6), ("m", "b", 1e12)), [Source("cell", "a", "b", 10.0, 0.0, 1e-3)])
    assert net.voltage("m", "b", 0.0).real == pytest.approx(10.0, rel=1e-4)
    assert net.voltage("m", "b", 0.0, load_ohm=10e6).real == pytest.approx(5.0, rel=1e-4)


def test_a_meter_across_two_floating_parts_reads_nothing():
    """A meter joins the parts it touches; with no way back there is no current and so no voltage."""
    net = Network(wires(("a", "b", 10), ("c", "d", 10)), [Source("cell", "a", "b", 9.0, 0.0)])
    assert abs(net.voltage("a", "c", 0.0, load_ohm=10e6)) < 1e-6


@given(circuits(), st.sampled_from([50.0, 60.0]), st.floats(1, 400))
def test_the_same_as_another_formulation(branches, hertz, volts):
    """Node voltages agree with Kirchhoff's laws written out branch by branch and solved by least squares."""
    nodes = sorted({n for b in branches for n in (b.a, b.b)})
    source = Source("supply", nodes[0], nodes[-1], volts, hertz, 0.5)
    ours = Network(branches, [source]).voltages(hertz)
    theirs = by_incidence(branches, source, hertz)
    for node in nodes:
        assert ours[node] - ours[nodes[0]] == pytest.approx(theirs[node] - theirs[nodes[0]], abs=1e-6 * volts)


@given(circuits(), st.floats(-300, 300), st.floats(-300, 300))
def test_superposition(branches, one, other):
    """The voltages of two sources together are the sum of those of each alone, the other dead behind its resistance."""
    nodes = sorted({n for b in branches for n in (b.a, b.b)})

    def fed(first: float, second: float) -> dict[str, complex]:
        sources = [
            Source("s1", nodes[0], nodes[1], first, 50.0, 1.0),
            Source("s2", nodes[1], nodes[2], second, 50.0, 2.0),
        ]
        return Network(branches, sources).voltages(50.0)

    both, alone, rest = fed(one, other), fed(one, 0.0), fed(0.0, other)
    for node in nodes:
        assert both[node] == pytest.approx(alone[node] + rest[node], abs=1e-7 * (abs(one) + abs(other) + 1))


@given(circuits(), st.floats(1, 400), st.floats(0.1, 10))
def test_twice_the_voltage_gives_twice_everywhere(branches, volts, factor):
    """A linear circuit scales with its source."""
    nodes = sorted({n for b in branches for n in (b.a, b.b)})

    def across(voltage: float) -> complex:
        return Network(branches, [Source("s", nodes[0], nodes[1], voltage, 50.0)]).voltage(nodes[0], nodes[2], 50.0)

    assert across(volts * factor) == pytest.approx(across(volts) * factor, abs=1e-7 * volts * factor)


@given(st.lists(OHMS, min_size=3, max_size=3), OHMS)
def test_another_way_round_never_raises_the_resistance(ohms, extra):
    """A further resistor between any two nodes can only lower a resistance; and tips can be swapped."""
    net = wires(("a", "b", ohms[0]), ("b", "c", ohms[1]), ("a", "c", ohms[2]))
    before = Network(net).resistance("a", "b")
    after = Network([*net, Branch("more", "b", "c", extra)]).resistance("a", "b")
    assert after <= before * (1 + 1e-9)
    assert Network(net).resistance("b", "a") == pytest.approx(before, rel=1e-9)


@given(st.floats(1e-2, 1e10))
def test_one_resistor_reads_its_own_value(ohm):
    """From a hundredth of an ohm to ten gigohm, one resistor reads what it is."""
    assert Network(wires(("a", "b", ohm))).resistance("a", "b") == pytest.approx(ohm, rel=1e-5)


def test_sources_are_dead_to_an_ohmmeter():
    """Between two terminals a source counts with its own resistance and not with its voltage."""
    for volts in (0.0, 5.0, 230.0):
        net = Network(wires(("a", "m", 4)), [Source("supply", "m", "b", volts, 0.0, resistance=2.0)])
        assert net.resistance("a", "b") == pytest.approx(6.0)


def test_a_source_of_another_frequency_is_only_its_resistance():
    """A direct voltage does not show at 50 Hz, nor an alternating one at 0 Hz."""
    net = Network(wires(("a", "b", 100)), [Source("cell", "a", "b", 12.0, 0.0)])
    assert net.voltage("a", "b", 50.0) == 0
    assert net.voltage("a", "b", 0.0).real == pytest.approx(12.0, rel=1e-3)


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: Branch("coil", "a", "a", 1.0), r"^coil has both ends on a; it needs two different terminals$"),
        (
            lambda: Branch("coil", "a", "b", -1.0),
            r"^the resistance of coil is -1 Ω; it must be zero or more and finite$",
        ),
        (lambda: Branch("coil", "a", "b", math.nan), r"^the resistance of coil is nan Ω"),
        (lambda: Branch("coil", "a", "b", 1.0, math.inf), r"^the inductance of coil is inf H"),
        (
            lambda: Branch("can", "a", "b", 1.0, 0.0, 0.0),
            r"^the capacitance of can is 0 µF; it must be above 0 µF and fin",
        ),
        (lambda: Branch("can", "a", "b", 1.0, 0.0, -4e-6), r"^the capacitance of can is -4 µF; it must be above 0 µF"),
        (lambda: Source("cell", "a", "a", 1.0, 0.0), r"^cell has both ends on a"),
        (
            lambda: Source("cell", "a", "b", 1.0, 0.0, 0.0),
            r"^the resistance of cell is 0 Ω; it must be above 0 Ω and finite$",
        ),
        (lambda: Source("cell", "a", "b", math.nan, 0.0), r"^the voltage of cell is nan V; it must be finite$"),
        (lambda: Source("cell", "a", "b", 5j, 0.0), r"^the voltage of cell is 0\+5j V at 0 Hz; direct voltage has no"),
        (
            lambda: Source("cell", "a", "b", 1.0, -50.0),
            r"^the frequency of cell is -50 Hz; it must be zero or more and finite$",
        ),
    ],
)
def test_parts_that_cannot_be(make, message):
    """A part that cannot be is refused by its name, with its value and unit."""
    with pytest.raises(InputError, match=message):
        make()


def test_a_terminal_that_is_not_there():
    """An unknown terminal is named with those that there are; a meter needs a resistance."""
    net = Network(wires(("a", "b", 1)))
    with pytest.raises(InputError, match=r"^there is no terminal 'z' here; the terminals are a, b$"):
        net.resistance("a", "z")
    with pytest.raises(InputError, match=r"^there is no terminal 'z' here"):
        net.voltage("z", "a", 0.0)
    with pytest.raises(InputError, match=r"^the meter's resistance is 0 Ω; it must be above 0 Ω$"):
        net.voltage("a", "b", 0.0, load_ohm=0.0)


@pytest.mark.parametrize("value", [v for v in load() if v.function in PUBLISHED], ids=lambda v: v.id)
def test_circuits_in_print(value):
    """Currents, powers and impedances of worked examples come out to the digits printed."""
    assert PUBLISHED[value.function](value.inputs) == as_printed(value.printed, value.within, value.because)


def exact_currents(branches: list[Branch], source: Source) -> dict[str, Fraction]:
    """Direct currents in fractions, without any rounding: Ohm's law for each branch, the current law for each node."""
    parts = [*((b.name, b.a, b.b, Fraction(b.resistance), Fraction(0)) for b in branches)]
    parts.append((source.name, source.a, source.b, Fraction(source.resistance), Fraction(complex(source.voltage).real)))
    nodes = sorted({node for part in parts for node in part[1:3]})[1:]
    count = len(parts)
    column = {node: count + k for k, node in enumerate(nodes)}
    size = count + len(nodes)
    rows = [[Fraction(0)] * (size + 1) for _ in range(size)]
    for k, (_, a, b, ohm, emf) in enumerate(parts):
        rows[k][k], rows[k][size] = -ohm, emf
        for node, sign in ((a, 1), (b, -1)):
            if node in column:
                rows[k][column[node]] += sign
                rows[column[node]][k] += sign
    for k in range(size):
        pivot = next(i for i in range(k, size) if rows[i][k] != 0)
        rows[k], rows[pivot] = rows[pivot], rows[k]
        for i in range(size):
            if i != k and rows[i][k] != 0:
                share = rows[i][k] / rows[k][k]
                rows[i] = [x - share * y for x, y in zip(rows[i], rows[k], strict=True)]
    return {part[0]: rows[k][size] / rows[k][k] for k, part in enumerate(parts)}


@given(
    st.lists(st.tuples(st.integers(0, 4), st.integers(0, 4), st.sampled_from([-3, -1, 0, 1, 3, 6, 9])), max_size=6),
    st.lists(st.sampled_from([-3, -1, 0, 1, 3, 6, 9]), min_size=4, max_size=4),
)
def test_a_milliohm_beside_a_gigohm_loses_nothing(more, chain):
    """From 1e-3 Ω to 1e9 Ω in one circuit, currents are those of exact arithmetic to nine digits.

    Or to what 1e-13 of the supply's volts drives through the element: two node voltages have no more digits.
    """
    rows = [(n, n + 1, power) for n, power in enumerate(chain)] + [row for row in more if row[0] != row[1]]
    net = wires(*((NODES[i], NODES[j], 10.0**power) for i, j, power in rows))
    source = Source("cell", "a", "e", 230.0, 0.0, 0.4)
    solution = Network(net, [source]).solve(0.0)
    exact = exact_currents(net, source)
    largest = float(max(abs(value) for value in exact.values()))
    for part in (*net, source):
        allowed = max(1e-13 * largest, 230e-13 / part.resistance if part.resistance >= 1e3 else 0.0)
        assert solution.current(part.name).real == pytest.approx(float(exact[part.name]), rel=1e-9, abs=allowed)
