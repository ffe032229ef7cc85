"""Reading answer cells from their syntax tree: nothing runs, nothing is guessed, one slip leaves the rest alone."""

import ast
import math
import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.marking.plain import Odd, PlainStanding, read_plain, unindented, value_of_wire

NAMES = ["run_winding", "common", "x", "y"]
PLAIN, NEEDS_RUNNING, BROKEN = PlainStanding.PLAIN, PlainStanding.NEEDS_RUNNING, PlainStanding.BROKEN


def read(source):
    return read_plain(source, NAMES)


@pytest.mark.parametrize(
    ("source", "values"),
    [
        ('run_winding = "3.1 ohm"', {"run_winding": "3.1 ohm"}),
        ("common = 2  # the left one", {"common": 2}),
        ('# my answers\n\n"""notes"""\nx = "B"\n', {"x": "B"}),
        ('x = "3.1" " ohm"', {"x": "3.1 ohm"}),
        ('x: str = "3"', {"x": "3"}),
        ('x, y = "1", "2"', {"x": "1", "y": "2"}),
        ("x = y = 4", {"x": 4, "y": 4}),
        ('x = "1"\nx = "2"', {"x": "2"}),
        ("lead = 0.2\nx = lead + 3", {"x": 3.2}),
        ("x = 4\nx += 1", {"x": 5}),
        ("other = 5", {}),
        ("x = 1\nx\npass", {"x": 1}),
        ("  x = 1\n  y = 2", {"x": 1, "y": 2}),
        ('\ufeffx = "3"', {"x": "3"}),
        ('x = "3"\r\ny = "4"\r\n', {"x": "3", "y": "4"}),
    ],
)
def test_plain_answers_are_read(source, values):
    """What a person without programming types, and small sums, is read without running anything."""
    cell = read(source)

    assert (dict(cell.values), cell.standing, cell.message) == (values, PLAIN, "")


@pytest.mark.parametrize("text", ["-(3.1 + 0.2) * 2", "7 // 2", "7 % 4", "2 ** 10", "1 / 3", "2 ** -1", "+5 - -3"])
def test_arithmetic_is_that_of_python(text):
    """Sums that are read give what Python itself gives for the same text, to the last bit."""
    value = read(f"x = {text}").values["x"]

    expected = eval(text)
    assert (value, type(value)) == (expected, type(expected))


SUMS = st.recursive(
    st.integers(0, 99).map(str),
    lambda part: st.tuples(part, st.sampled_from("+-*/"), part).map("".join).map("({})".format),
    max_leaves=20,
)


@given(SUMS)
def test_nested_arithmetic_agrees_with_python(text):
    """Any nesting of sums agrees with Python, where Python has an outcome."""
    try:
        expected = eval(text)
    except ZeroDivisionError:
        assert read(f"x = {text}").message == "Line 1 divides by zero; check the numbers in it."
        return
    value = read(f"x = {text}").values["x"]
    assert value == (expected if abs(expected) < 10**40 or type(expected) is float else Odd("too long"))


@given(st.text(max_size=200) | st.integers(-(10**39), 10**39) | st.floats(allow_nan=False, allow_infinity=False))
def test_every_literal_comes_back_as_itself(value):
    """A text, a whole number or a decimal number comes back equal and of its type; minus zero stays minus zero."""
    found = read(f"x = {value!r}").values["x"]

    assert type(found) is type(value)
    assert repr(found) == repr(value)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("None", "None"),
        ("True", "True or False"),
        ("[1, 2]", "a list"),
        ("3,1", "several values with commas between them"),
        ('{"a": 1}', "a table of names and values"),
        ("{1}", "a set"),
        ('b"3"', "bytes"),
        ("3j", "a complex number"),
        ("(-8) ** 0.5", "a complex number"),
        ("1e999", "an endless number"),
        ("-1e999", "an endless number"),
        ("1e999 - 1e999", "not a number"),
        (r'"\ud800"', "a text with broken signs"),
        (repr("a" * 201), "too long"),
        ("1" * 41, "too long"),
        ("-" + "1" * 150, "too long"),
        ("0x" + "f" * 5000, "too long"),
        ("3." + "1" * 300, "too long"),
    ],
)
def test_odd_values_are_named_not_read(text, kind):
    """A value that is no single readable number or text is named for what it is; a long one is never cut."""
    cell = read(f"x = {text}")

    assert (dict(cell.values), cell.standing) == ({"x": Odd(kind)}, PLAIN)


def test_a_number_beyond_what_python_parses_is_too_long():
    """A number of 5000 digits, which Python refuses to parse, is too long as shorter ones are."""
    cell = read(f'x = {"7" * 5000}\ny = "4 ohm"')

    assert cell.values == {"x": Odd("too long"), "y": "4 ohm"}
    assert cell.message == "Line 1 holds a number that is too long to be read whole."


@pytest.mark.parametrize(
    ("source", "reason"),
    [
        ("import math", "is more than values: it has to be run"),
        ("for x in 1, 2: pass", "is more than values: it has to be run"),
        ("x = round(3.14, 1)", "is worked out in code"),
        ('x = f"{3} ohm"', "is worked out in code"),
        ('x = "3" + " ohm"', "is worked out in code"),
        ('x = "3" * 9', "is worked out in code"),
        ("x = 3 if 1 else 4", "is worked out in code"),
        ("x = [f()]", "is worked out in code"),
        ("x = 1 << 900", "is worked out in code"),
        ("x: f() = 3", "is worked out in code"),
        ("x, *y = 1, 2", "is more than values: it has to be run"),
        ("y = 3\nx.real = y", "is more than values: it has to be run"),
        ("del x", "is more than values: it has to be run"),
        ("x = B", "uses the name B, which this cell does not set; if you mean the word, put it in quotes"),
    ],
)
def test_what_is_more_than_plain_needs_running(source, reason):
    """Right Python beyond values is left to a run, and nothing of the cell is guessed."""
    cell = read('common = "B"\n' + source)

    assert (dict(cell.values), cell.standing) == ({}, NEEDS_RUNNING)
    assert cell.message in (f"Line 2 {reason}.", f"Line 3 {reason}.")


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ("x = 3.1 ohm", 'cannot be read: put the value in quotes, as in x = "3.1 ohm".'),
        ("x = 3,1 kΩ # about", 'cannot be read: put the value in quotes, as in x = "3,1 kΩ".'),
        ('x = "3.1 ohm', 'cannot be read: a quote is missing; put one on each side of the value, as in x = "3.1 ohm".'),
        ("x = 3.1 ohm'", 'cannot be read: a quote is missing; put one on each side of the value, as in x = "3.1 ohm".'),
        ('x "3.1"', 'cannot be read: the = is missing; type it between name and value, as in x = "3.1".'),
        ("x 3.1 ohm", 'cannot be read: the = is missing; type it between name and value, as in x = "3.1 ohm".'),
        ("x =", 'cannot be read: nothing stands after the =; type the value there, as in x = "your answer".'),
        ("x = “3.1 ohm”", 'cannot be read: it has curly quotes; type straight ones, as in "your answer".'),
        ("x = 5\xa0", "cannot be read: it holds a sign that cannot be seen; type the line again by hand."),
        ("x = (3 + 1", "cannot be read: a bracket is missing."),
        ('x == "3"', 'compares with two =; type one, as in x = "your answer".'),
        ('x == 3 "', 'cannot be read: two = compare; type one, as in x = "your answer".'),
        (" x = 3", "cannot be read: it begins with a blank; take that away."),
        ('x = "3" ohm', 'cannot be read: it must be one value in quotes, as in x = "your answer".'),
        (
            "so good",
            'cannot be read: it is not of the form name = value; an answer is typed as in run_winding = "your answer".',
        ),
        ("x = 1 / 0", "divides by zero; check the numbers in it."),
        ("x = 1e300 ** 2", "works with a number too large to be read; type the value itself."),
    ],
)
def test_a_slip_is_explained_and_leaves_the_other_answers(line, message):
    """A broken line is explained with its number and its likely slip; answers before and after it are read."""
    cell = read(f'common = "B"\n{line}\ny = 7')

    assert (dict(cell.values), cell.standing, cell.message) == ({"common": "B", "y": 7}, BROKEN, f"Line 2 {message}")


def test_a_broken_line_takes_back_what_an_earlier_one_set():
    """The last line for a name counts, also when it is broken: the earlier value is not used in its place."""
    assert dict(read('x = "5"\nx = 3 ohm\ny = 1').values) == {"y": 1}
    assert dict(read("x = 5\nx = 1 / 0\ny = 1").values) == {"y": 1}
    assert dict(read("x = 5\nx = f(x)\ny = 3 ohm").values) == {}


def test_the_line_python_stumbles_over_is_named():
    """In a bracket over several lines the lines before the slip are read, and the slip itself is named."""
    cell = read("x = (\n  3.1\n)\ny = 4 ohm")

    assert dict(cell.values) == {"x": 3.1}
    assert cell.message == 'Line 4 cannot be read: put the value in quotes, as in y = "4 ohm".'


@pytest.mark.parametrize("line", ["!ls", "%run other.py", "x = !ls", "x = %time 3", "?x", "x?"])
def test_commands_to_the_notebook_are_refused(line):
    """Shell and notebook commands are told as such, never carried out; the other answers are read."""
    cell = read(f'{line}\ny = "4 ohm"')

    assert (dict(cell.values), cell.standing) == ({"y": "4 ohm"}, BROKEN)
    assert cell.message.startswith("Line 1 cannot be read: it is a command to the notebook, which is not carried out")


def test_a_cell_in_another_language_is_not_read_as_python():
    """Below a %% line a cell is no Python any more, so none of its lines is read."""
    cell = read('%%bash\nx = "4 ohm"')

    assert (dict(cell.values), cell.standing) == ({}, BROKEN)
    assert cell.message == "This cell begins with %%, a command to the notebook, which is not carried out here."


@pytest.mark.parametrize(
    ("source", "message"),
    [
        ("x = 1\0", "This cell holds a NUL sign, which no keyboard types; clear the cell and type it again."),
        ("#" * 20_001, "This cell is longer than 20,000 signs; keep only your answers in it."),
        (
            "x = " + "(" * 101 + "1" + ")" * 101,
            "This cell has more than 100 brackets in one another; type the values alone.",
        ),
        ("x = " + "-" * 19_000 + "1", "This cell has too much nested in one another; type the values alone."),
        ("x =\n" * 501, "A line is broken in a cell of more than 500; keep only your answers in it."),
    ],
)
def test_unreadable_cells_are_refused(source, message):
    """Cells that no learner types are refused with the reason."""
    assert (read(source).standing, read(source).message) == (BROKEN, message)


@pytest.mark.parametrize("text", ["9**9**9", "9**9**9**9", "2**10**10", "10**101 * 3", "(-9)**(9**9)", "1.5**10**9"])
def test_nothing_large_is_ever_worked_out(text):
    """A number that would fill the memory is refused at once."""
    start = time.monotonic()
    cell = read(f"x = {text}")

    assert time.monotonic() - start < 0.1
    assert cell.message == "Line 1 works with a number too large to be read; type the value itself."


REPEATED = ["-", "~", "not ", "lambda:", "1+", "1**", "a.", "x=", "*", "f'{", "[", "(", "{", "1<", "x[", "if 1:", "a="]
REPEATED += ["a=(", "'''", '"', "b'", "a:", "-(", "1or ", "(yield ", "@a", "%", "a=\n", "a=(\n", "'''\n", "(\n)"]


@pytest.mark.parametrize("part", REPEATED)
def test_a_cell_filled_with_one_sign_is_read_or_refused_quickly(part):
    """20,000 signs of whatever nests or breaks end in an outcome within a second, without an error."""
    start = time.monotonic()
    cell = read(("x=" + part * 20_000)[:19_999] + "1")

    assert time.monotonic() - start < 1.0
    assert cell.standing in PlainStanding


@given(st.text(alphabet=st.sampled_from("xy=\"'()[]{},.:#\n \t\\+-*/%!?019eEjfb_“\xa0é\r"), max_size=60) | st.text())
def test_any_text_ends_in_an_outcome(source):
    """Whatever is typed ends in values or in a message, and only wanted names come out."""
    cell = read(source)

    assert set(cell.values) <= set(NAMES)
    assert bool(cell.message) is (cell.standing is not PLAIN)
    for value in cell.values.values():
        assert type(value) in (str, int, float, Odd)
        assert not isinstance(value, float) or math.isfinite(value)


@given(st.dictionaries(st.sampled_from(NAMES), st.text(max_size=20) | st.integers(-999, 999)), st.randoms())
def test_what_is_plain_is_what_python_would_set(wanted, chance):
    """A plain cell says what running it would give, in any order of its lines and with comments between."""
    lines = [f"{name} = {value!r}" for name, value in wanted.items()] + ["# a note", '"a text"', ""]
    chance.shuffle(lines)
    namespace: dict[str, object] = {}
    exec("\n".join(lines), namespace)

    cell = read("\n".join(lines))
    assert (cell.standing, dict(cell.values)) == (PLAIN, {name: namespace[name] for name in wanted})


@pytest.mark.parametrize(
    "wire",
    [None, [], ["text"], ["text", 3], ["odd", "mine"], ["integer", "1" * 50], ["decimal", "inf"], ["list", "[]"]],
)
def test_a_wire_value_of_another_form_is_refused(wire):
    """Only the kinds that the program inside writes are taken, each within its bounds."""
    with pytest.raises(ValueError, match=r"a value is a kind and a text|no plain value"):
        value_of_wire(wire)


@given(st.text(alphabet=" x=1\n\t", max_size=30))
def test_taking_the_indent_off_leaves_right_python_alone(source):
    """A source that Python accepts means the same after its first line's indent is taken off."""
    try:
        tree = ast.dump(ast.parse(source))
    except SyntaxError:
        return
    assert ast.dump(ast.parse(unindented(source))) == tree
