"""The command line: what a wrong command is told."""

import pytest

from coldwright.cli import parser


def test_an_unknown_command_is_named_and_the_known_ones_are_listed(capsys):
    """The message says that it is the command which is wrong, and leaves with 2."""
    with pytest.raises(SystemExit) as left:
        parser().parse_args(["nonsense"])
    assert left.value.code == 2
    said = capsys.readouterr().err
    assert "argument command: invalid choice: 'nonsense'" in said
    assert "hand-out" in said
