"""Talk and progress of the commands; answers go to stdout and are printed where they are made."""

from __future__ import annotations

import sys


def say(text: str) -> None:
    """One line on stderr.

    Parameters
    ----------
    text : str
        What to say [-]
    """
    print(text, file=sys.stderr, flush=True)
