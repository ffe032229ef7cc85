"""Tables kept from one run to the next: in the user's cache folder, told apart by everything that they follow from.

A file is written whole and put in place in one move, so two processes never see half of one. A file that cannot be
read, is damaged or belongs to other versions is worked out again; where nothing can be written, the tables are worked
out each time.
"""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
from functools import cache
from importlib.metadata import version
from pathlib import Path

from coldwright.refrigerants import tables as building
from coldwright.refrigerants.catalogue import refrigerant_named
from coldwright.refrigerants.kernels import Tables

FOLDER_NAME = "coldwright"
PLACE = "COLDWRIGHT_CACHE"  # environment variable: another folder


def cache_folder() -> Path:
    """Where tables are kept.

    Returns
    -------
    Path
        The user's cache folder for this course; it may not exist yet [-]
    """
    from platformdirs import user_cache_path

    return Path(os.environ[PLACE]) if os.environ.get(PLACE) else user_cache_path(FOLDER_NAME, appauthor=False)


@cache
def tables_of(refrigerant: str) -> Tables:
    """Tables of a refrigerant: from this process, from the cache, or worked out now.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]

    Returns
    -------
    Tables
        In lists, for plain Python [-]
    """
    name = refrigerant_named(refrigerant).name
    return tables_of(name) if name != refrigerant else _kept_or_built(name)


def _kept_or_built(name: str) -> Tables:
    path = cache_folder() / f"{name}-{_follows_from()}.json"
    kept = _read(path)
    if kept is not None:
        return kept
    made = building.build_tables(name)
    _write(path, made)
    return made


@cache
def _follows_from() -> str:
    """What the numbers follow from: CoolProp's version and the modules that work them out."""
    digest = hashlib.sha256(version("CoolProp").encode())
    here = Path(building.__file__).parent
    for module in ("tables.py", "coolprop.py", "kernels.py", "data/refrigerants.toml"):
        digest.update((here / module).read_bytes())
    return digest.hexdigest()[:16]


def _read(path: Path) -> Tables | None:
    """Tables from a file; None where it is not there, is damaged, or is not what was written."""
    try:
        text = path.read_text(encoding="ascii")
        head, body = text.split("\n", 1)
        if hashlib.sha256(body.encode("ascii")).hexdigest() != head:
            return None
        return Tables(*json.loads(body))
    except (OSError, ValueError, TypeError):
        return None


def _write(path: Path, tables: Tables) -> None:
    """Puts tables into the cache in one move; a folder that cannot be written is left alone."""
    body = json.dumps(list(tables))
    text = f"{hashlib.sha256(body.encode('ascii')).hexdigest()}\n{body}"
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=path.parent, suffix=".part")
        try:
            with os.fdopen(handle, "w", encoding="ascii") as file:
                file.write(text)
            os.replace(name, path)
            _forget_others(path)
        except OSError:
            os.unlink(name)
    except OSError:
        return


def _forget_others(path: Path) -> None:
    """Takes away what was kept for the same refrigerant under other versions."""
    name = path.stem.rpartition("-")[0]
    for old in path.parent.glob(f"{name}-*.json"):
        if old != path and old.stem.rpartition("-")[0] == name:
            old.unlink(missing_ok=True)
