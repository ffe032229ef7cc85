"""After a burn-out: what the acid test says, how far the clean-up goes, and which oil the new compressor takes.

Common practice, no source, where nothing else is said. The compressor's maker decides, also on guarantee. Burnt oil and
refrigerant hurt skin, eyes and lungs: gloves, goggles, fresh air.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from coldwright.errors import InputError
from coldwright.refrigerants.catalogue import refrigerant_named

MOST_ACID = 5.0  # far above what an oil shows that can still be measured [mg KOH/g]


class Oil(Enum):
    """Kind of oil: its name, acid number up to which it is clean, and above which it is burnt [mg KOH/g].

    Ester oil starts higher than mineral oil, since it holds a little acid of its own. Figures: common practice, no
    source.
    """

    MINERAL = ("mineral", 0.05, 0.15)
    ALKYLBENZENE = ("alkylbenzene", 0.05, 0.15)
    POE = ("POE", 0.10, 0.30)

    @property
    def clean_below(self) -> float:
        """Acid number up to which the oil is clean [mg KOH/g]."""
        return self.value[1]

    @property
    def burnt_above(self) -> float:
        """Acid number above which the oil is burnt [mg KOH/g]."""
        return self.value[2]


class AcidFinding(Enum):
    """What an acid test says."""

    CLEAN = "clean: no acid to speak of"
    DOUBTFUL = "doubtful: within the limits of the test, or between clean and burnt; test again with fresh oil"
    BURNT = "acid: clean up before a new compressor goes in, or it fails as the old one did"


def acid_finding(acid_number: float, limit: float, oil: Oil) -> AcidFinding:
    """What the acid number of an oil sample says, given what the test can be off by.

    Parameters
    ----------
    acid_number : float
        Total acid number [mg KOH/g]
    limit : float
        What the test kit can be off by [mg KOH/g]
    oil : Oil
        Kind of oil [-]

    Returns
    -------
    AcidFinding
        Clean or burnt only where the limit leaves no doubt
    """
    if not 0.0 <= acid_number <= MOST_ACID:
        raise InputError(
            f"the acid number is {acid_number:g} mg KOH/g; it must be from 0 to {MOST_ACID:g}. Was it a pH, which "
            "is another measure?"
        )
    if not limit >= 0.0:
        raise InputError(f"the limit of the acid test is {limit:g} mg KOH/g; it must be zero or more")
    if acid_number + limit <= oil.clean_below:
        return AcidFinding.CLEAN
    return AcidFinding.BURNT if acid_number - limit > oil.burnt_above else AcidFinding.DOUBTFUL


class OilLook(Enum):
    """How the oil looks and smells."""

    CLEAR = "clear, no smell"
    DARK = "dark or with a sharp smell"
    BLACK = "black, burnt, with sludge"


@dataclass(frozen=True)
class CleanUp:
    """How far the clean-up goes: its steps in order, and whether repair is worth it at all."""

    steps: tuple[str, ...]
    worth_repair: bool


_ALWAYS = (
    "recover into a cylinder marked as burnt, never into clean refrigerant",
    "take an oil sample, and prove why the old compressor failed: start parts, voltage, fan, condenser, leak",
    "fit a new drier of the size that the maker names",
    "test with nitrogen, evacuate, weigh in the charge",
)
_FLUSH = (
    "cut out the capillary and its drier; soot in the capillary does not come out",
    "flush both heat exchangers part by part with the agent that the maker names, blow dry with nitrogen",
    "fit a drier with activated alumina for the acid",
    "run, test the oil for acid again, and change the drier once more where it is not clean",
)


def clean_up(finding: AcidFinding, look: OilLook) -> CleanUp:
    """How far the clean-up goes after a compressor failed.

    Parameters
    ----------
    finding : AcidFinding
        From the acid test [-]
    look : OilLook
        How the oil looks [-]

    Returns
    -------
    CleanUp
        Steps in order, and whether repair is worth it

    Notes
    -----
    Looks and test may disagree: the worse of the two counts. With sludge all through a household unit, repair seldom
    is worth it, and that is told to its owner first.
    """
    if finding is AcidFinding.CLEAN and look is OilLook.CLEAR:
        return CleanUp(_ALWAYS, True)
    return CleanUp((*_ALWAYS[:2], *_FLUSH[:3], *_ALWAYS[2:], _FLUSH[3]), look is not OilLook.BLACK)


def oil_fits(oil: Oil, refrigerant: str) -> bool:
    """Whether an oil mixes with the refrigerant so that it comes back to the compressor.

    Parameters
    ----------
    oil : Oil
        Oil in the new compressor, as its label says [-]
    refrigerant : str
        Name as on a nameplate [-]

    Returns
    -------
    bool
        By the refrigerant's entry in the catalogue

    Notes
    -----
    A new compressor comes with its oil: never add or mix. An ester oil draws water from the air: keep it closed.
    """
    return oil.value[0] in refrigerant_named(refrigerant).oils
