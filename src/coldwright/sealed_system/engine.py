"""The functions that work out one refrigerant's systems: plain Python as they stand, or machine code with the extra."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

from coldwright.errors import InputError
from coldwright.refrigerants.kernels import Tables, compiled
from coldwright.refrigerants.table_cache import tables_of
from coldwright.sealed_system.balance import Balance, at_once, steady
from coldwright.sealed_system.plant import Around, Moment, Plant, State
from coldwright.sealed_system.transient import advance


@dataclass(frozen=True)
class Engine:
    """Tables of one refrigerant and the functions that take them.

    Parameters
    ----------
    tables : Tables
        Lists for plain Python, arrays for machine code [-]
    at_once : Callable
        As `balance.at_once` [-]
    steady : Callable
        As `balance.steady` [-]
    advance : Callable
        As `transient.advance` [-]
    """

    tables: Tables
    at_once: Callable[[Tables, Plant, Around, State], Moment]
    steady: Callable[[Tables, Plant, Around, State], Balance]
    advance: Callable[[Tables, Plant, Around, State, float, float], tuple[State, float]]


@cache
def engine_of(refrigerant: str, *, fast: bool = False) -> Engine:
    """The functions for one refrigerant.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    fast : bool
        True for machine code, which takes some ten seconds to be made in each process [-]

    Returns
    -------
    Engine
        Plain and fast give the same but for the last digits [-]

    Raises
    ------
    InputError
        If it is to be fast and the extra is not installed.
    """
    tables = tables_of(refrigerant)
    if not fast:
        return Engine(tables, at_once, steady, advance)
    return Engine(as_arrays(tables), *_machine_code())


def as_arrays(tables: Tables) -> Tables:
    """Tables with arrays in place of lists, as machine code wants them.

    Parameters
    ----------
    tables : Tables
        In lists [-]

    Returns
    -------
    Tables
        The same numbers [-]
    """
    import numpy as np

    return Tables(*(np.array(each) if isinstance(each, list) else each for each in tables))  # type: ignore[arg-type]


@cache
def _machine_code() -> tuple[
    Callable[[Tables, Plant, Around, State], Moment],
    Callable[[Tables, Plant, Around, State], Balance],
    Callable[[Tables, Plant, Around, State, float, float], tuple[State, float]],
]:
    try:
        return compiled(at_once), compiled(steady), compiled(advance)
    except ImportError as error:
        raise InputError("machine code needs the extra 'fast': pip install coldwright[fast]") from error
