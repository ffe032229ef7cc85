"""Our functions against every value in tests/published, and the page that shows how far off each is."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.published_values import Published, as_printed, half_digit, load
from tests.validation_table import FUNCTIONS, MODELS, PAGE, computed, main, page

VALUES = load()
SCRIPT = Path(__file__).parent / "validation_table.py"


@pytest.mark.parametrize("value", VALUES, ids=[v.id for v in VALUES])
def test_what_is_printed_is_reproduced(value):
    """The printed digits come out, or what is written as the reason for another measure."""
    assert computed(value) == as_printed(value.printed, value.within, value.because)


def test_the_windings_have_enough_sources():
    """At least six values for the windings were read in print or in another's work, not remembered."""
    seen = [v for v in VALUES if v.model == "winding" and v.standing != "from memory"]
    assert len(seen) >= 6
    assert {v.inputs.get("metal") for v in seen} == {"copper", "aluminium"}
    assert {"resistance_at", "winding_temperature", "temperature_rise"} <= {v.function for v in seen}


def test_each_function_and_model_is_used():
    """No function stands in the list without a value that it is held to, and every model has a place on the page."""
    assert {v.function for v in VALUES} == set(FUNCTIONS)
    assert {v.model for v in VALUES} == set(MODELS)


def test_the_page_is_up_to_date():
    """docs/validation.md is what the values and our functions give."""
    assert main(["--check"]) == 0, "run: python tests/validation_table.py --write"
    assert PAGE.read_text(encoding="utf-8") == page(VALUES)


def test_the_table_runs_as_a_script():
    """`python tests/validation_table.py --check` works by itself and says yes."""
    done = subprocess.run([sys.executable, str(SCRIPT), "--check"], capture_output=True, text=True, timeout=60)
    assert (done.returncode, done.stderr) == (0, "")


def test_a_changed_page_is_found(monkeypatch, tmp_path, capsys):
    """One changed figure in the page fails the check and says what to do."""
    changed = tmp_path / "validation.md"
    changed.write_text(page(VALUES).replace("59.59", "59.58"), encoding="utf-8")
    monkeypatch.setattr("tests.validation_table.PAGE", changed)
    assert main(["--check"]) == 1
    assert "run python tests/validation_table.py --write" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("printed", "half"), [("15.9", 0.05), ("176", 0.5), ("59.590", 0.0005), ("3.93e-3", 5e-6), ("-25.98", 0.005)]
)
def test_half_a_digit(printed, half):
    """Half a unit of the last printed digit, zeros at the end included."""
    assert half_digit(printed) == pytest.approx(half, rel=1e-12)


def test_as_printed_is_no_wider_than_the_digits():
    """15.9 takes what rounds to it and refuses the next tenth."""
    assert as_printed("15.9") == 15.949
    assert as_printed("15.9") != 15.96
    assert as_printed("15.9") != 15.84


def test_another_measure_needs_a_reason():
    """A wider tolerance without its reason is refused."""
    with pytest.raises(ValueError, match=r"^15\.9 within 1: another measure than the printed digits needs a reason"):
        as_printed("15.9", within=1)


def _value(**changed) -> Published:
    fields = {
        "id": "x",
        "model": "winding",
        "function": "resistance_at",
        "what": "",
        "inputs": {},
        "printed": "1.0",
        "unit": "",
        "source": "a book",
        "standing": "published",
        "note": "",
    }
    return Published(**{**fields, **changed})


def test_a_value_without_a_source_is_refused():
    """No value without a source, and its standing is one of the four."""
    with pytest.raises(ValueError, match="x: no source"):
        _value(source=" ")
    with pytest.raises(ValueError, match="x: standing 'sure'; it must be one of published"):
        _value(standing="sure")


def test_an_id_is_used_once(tmp_path):
    """Two values of one id are refused."""
    entry = (
        '[[value]]\nid = "x"\nmodel = ""\nfunction = ""\nwhat = ""\ninputs = {}\nprinted = "1"\nunit = ""\n'
        'source = "s"\nstanding = "published"\nnote = ""\n'
    )
    (tmp_path / "a.toml").write_text(entry * 2, encoding="utf-8")
    with pytest.raises(ValueError, match="ids used twice: x"):
        load(tmp_path)
