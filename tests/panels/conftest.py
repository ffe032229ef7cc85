"""A panel's callback must not fail in silence: ipywidgets only logs what it raises."""

from typing import Any

import pytest
from ipywidgets.widgets.widget import CallbackDispatcher


def _call_all(dispatcher: Any, *args: Any, **kwargs: Any) -> None:
    for callback in dispatcher.callbacks:
        callback(*args, **kwargs)


@pytest.fixture(autouse=True)
def callbacks_raise(monkeypatch: pytest.MonkeyPatch) -> None:
    """What a callback raises comes out of the click, so that the test fails."""
    monkeypatch.setattr(CallbackDispatcher, "__call__", _call_all)


@pytest.fixture(autouse=True)
def unbroken_lines(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is printed comes without line breaks of its own; test_words.py looks at those."""
    monkeypatch.setattr("coldwright.panels.words.LINE", 10_000)
