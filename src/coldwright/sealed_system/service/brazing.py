"""What brazing needs: which filler joins which metals, and whether a flame may be lit.

Knowledge, not a licence to braze; common practice, no source. The maker's instructions come first, and hands learn this
from a person at a real bench.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from coldwright.refrigerants.catalogue import refrigerant_named
from coldwright.sealed_system.service.access_valves import Ruling, TubeMetal


@dataclass(frozen=True)
class Join:
    """How two tubes are joined: filler and flux, and a word on it."""

    method: str
    flux: bool
    note: str


COPPER_COPPER = Join(
    "copper-phosphorus filler",
    False,
    "the phosphorus cleans the copper: no flux; never on steel, where it goes brittle",
)
WITH_STEEL = Join(
    "silver filler, free of cadmium",
    True,
    "flux on the outside only and little of it; wash it off, for it eats the tube",
)
WITH_ALUMINIUM = Join(
    "crimped connector with its sealing liquid", False, "no flame; the tube clean, round and free of scratches along it"
)


def join_of(first: TubeMetal, second: TubeMetal) -> Join:
    """How two tubes are joined in the field.

    Parameters
    ----------
    first, second : TubeMetal
        What the tubes are made of [-]

    Returns
    -------
    Join
        Filler and flux, or a connector without a flame
    """
    metals = {first, second}
    if TubeMetal.ALUMINIUM in metals:
        return WITH_ALUMINIUM
    return WITH_STEEL if TubeMetal.STEEL in metals else COPPER_COPPER


class Readiness(Enum):
    """What stands ready before a flame is lit; the value is what is wrong where it is missing."""

    RECOVERED = "refrigerant is still in the system: in a flame it becomes poisonous gas, or it burns"
    OPEN_TO_AIR = "the system is closed: heated gas has nowhere to go and blows the joint out"
    NITROGEN_FLOWS = "no nitrogen flows through: the inside of the tube scales, and the scale blocks the capillary"
    VENTILATED = "the room is not aired: flux and fumes harm"
    EXTINGUISHER = "no fire extinguisher within reach"
    SHIELDED = "wires, insulation and the cabinet are not shielded from the flame"
    PURGED = "a flammable refrigerant was in it and it is not purged with nitrogen: oil still gives it off"
    AIR_TESTED = "the air was not tested with a detector for the flammable refrigerant"


ONLY_FLAMMABLE = frozenset({Readiness.PURGED, Readiness.AIR_TESTED})


def may_light(ready: frozenset[Readiness], refrigerant: str) -> Ruling:
    """Whether a flame may be lit, with all that still stands against it.

    Parameters
    ----------
    ready : frozenset of Readiness
        What stands ready [-]
    refrigerant : str
        What was in the system: name as on a nameplate [-]

    Returns
    -------
    Ruling
        Allowed or not, with reasons
    """
    flammable = refrigerant_named(refrigerant).is_flammable
    needed = [each for each in Readiness if flammable or each not in ONLY_FLAMMABLE]
    missing = tuple(each.value for each in needed if each not in ready)
    if missing:
        return Ruling(False, missing)
    hint = "a crimped connector needs no flame and is first choice here" if flammable else "nitrogen at a whisper only"
    return Ruling(True, (hint,))
