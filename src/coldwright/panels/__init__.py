"""What a notebook shows: the bench as a panel, the line under an answer, practice, a real unit's verdict.

Only what an answer's check needs is imported at once. Widgets and figures are loaded when one of them is asked for.
"""

from importlib import import_module
from typing import TYPE_CHECKING

from coldwright.panels.answer_check import check
from coldwright.panels.real_unit import real_unit

if TYPE_CHECKING:
    from coldwright.panels.desk import open_desk
    from coldwright.panels.figures import winding_figure
    from coldwright.panels.practice import new_practice, practice_desk

_HOMES = {
    "open_desk": "desk",
    "practice_desk": "practice",
    "new_practice": "practice",
    "winding_figure": "figures",
}

__all__ = ["check", "new_practice", "open_desk", "practice_desk", "real_unit", "winding_figure"]


def __getattr__(name: str) -> object:
    """A name that is loaded when it is first asked for."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)
