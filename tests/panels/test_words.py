"""Printed text breaks between words, so that a notebook does not break it inside one."""

from __future__ import annotations

import pytest

from coldwright.panels import words


def test_long_lines_break_between_words(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    """No line is longer than the limit, no word is cut, and what goes on is set in."""
    monkeypatch.setattr(words, "LINE", 30)
    text = "  run: the start winding, of thinner wire, has the higher resistance"
    words.say("short", text)
    lines = capsys.readouterr().out.splitlines()

    assert lines[0] == "short"
    assert all(len(line) <= 30 for line in lines)
    assert " ".join(" ".join(lines[1:]).split()) == text.strip()
    assert all(line.startswith("      ") for line in lines[2:])
