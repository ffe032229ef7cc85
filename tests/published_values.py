"""Values from print and from other hands, and how close our own must come to them.

Each file in tests/published holds tables `[[value]]` with these keys:
`id`; `model` (winding, network, meter, insulation); `function`, a name in tests/validation_table.py; `what` it is;
`inputs`, as the source gives them; `printed`, the value digit by digit; `unit`; `source`; `standing`; `note`.
`within` and `because` stand where half a unit of the last printed digit is not the measure, and say why.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

import pytest

FOLDER = Path(__file__).parent / "published"
STANDINGS = ("published", "companion", "common practice, no source", "from memory")
"""published: read in the source or a copy of it. companion: inputs from the book, result by someone else.
from memory: not seen while this was written."""


def half_digit(printed: str) -> float:
    """Half a unit of the last digit printed."""
    try:
        exponent = Decimal(printed).as_tuple().exponent
    except InvalidOperation:
        raise ValueError(f"{printed!r} is no printed number") from None
    assert isinstance(exponent, int), f"{printed!r} is not finite"
    return 0.5 * 10.0**exponent


def as_printed(printed: str, within: float | None = None, because: str | None = None) -> Any:
    """What a computed value must equal: the printed digits, to half a unit of the last one.

    Another measure than that takes a written reason.
    """
    if within is not None and not because:
        raise ValueError(f"{printed} within {within}: another measure than the printed digits needs a reason")
    limit = half_digit(printed) if within is None else within
    return pytest.approx(float(printed), abs=limit * (1 + 1e-9), rel=0)


@dataclass(frozen=True)
class Published:
    """One value with its source."""

    id: str
    model: str
    function: str
    what: str
    inputs: dict[str, Any]
    printed: str
    unit: str
    source: str
    standing: str
    note: str
    within: float | None = None
    because: str | None = None

    def __post_init__(self) -> None:
        if self.standing not in STANDINGS:
            raise ValueError(f"{self.id}: standing {self.standing!r}; it must be one of {', '.join(STANDINGS)}")
        if not self.source.strip():
            raise ValueError(f"{self.id}: no source")
        as_printed(self.printed, self.within, self.because)

    @property
    def limit(self) -> float:
        """Most that a computed value may be off."""
        return half_digit(self.printed) if self.within is None else self.within


def load(folder: Path = FOLDER) -> tuple[Published, ...]:
    """Every value, file by file."""
    found = [
        Published(**entry)
        for path in sorted(folder.glob("*.toml"))
        for entry in tomllib.loads(path.read_text(encoding="utf-8"))["value"]
    ]
    ids = [value.id for value in found]
    twice = sorted({i for i in ids if ids.count(i) > 1})
    if twice:
        raise ValueError(f"ids used twice: {', '.join(twice)}")
    return tuple(found)
