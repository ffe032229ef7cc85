"""What can be wrong with a unit's cold side: each fault as a change of numbers, of a size between 0 and 1.

The words are the trade's. Sizes are illustrative, chosen so that a fault can be read at the bench.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import Enum

from coldwright.appliance.cold_parts import ColdSide
from coldwright.sealed_system.plant import Plant


class ColdFaultName(Enum):
    """One fault of the cold side; the value is its name for a person."""

    NONE = "no fault"
    UNDERCHARGED = "undercharged"
    OVERCHARGED = "overcharged"
    CONDENSER_FOULED = "fouled condenser"
    EVAPORATOR_ICED = "iced evaporator"
    RESTRICTED = "restricted capillary or drier"
    VALVES_LEAK = "leaking valves"
    AIR_IN_SYSTEM = "air in the system"
    GASKET_DAMAGED = "damaged door gasket"


@dataclass(frozen=True)
class ColdFault:
    """A fault and its size.

    Parameters
    ----------
    name : ColdFaultName
        Which [-]
    size : float
        0 for the mildest that counts as this fault, 1 for the worst [-]
    """

    name: ColdFaultName = ColdFaultName.NONE
    size: float = 0.5

    def between(self, mild: float, worst: float) -> float:
        """A number by the fault's size.

        Parameters
        ----------
        mild, worst : float
            Ends of the span [any]
        """
        return mild + (worst - mild) * self.size


CHARGES = {ColdFaultName.UNDERCHARGED: (0.75, 0.55), ColdFaultName.OVERCHARGED: (1.25, 1.45)}


def charge_share(fault: ColdFault) -> float:
    """Charge over that of the plate.

    Parameters
    ----------
    fault : ColdFault
        The fault [-]
    """
    return fault.between(*CHARGES[fault.name]) if fault.name in CHARGES else 1.0


def with_cold_fault(cold: ColdSide, fault: ColdFault) -> ColdSide:
    """The cold side with a fault; a wrong charge is in `charge_share`.

    Parameters
    ----------
    cold : ColdSide
        The healthy one [-]
    fault : ColdFault
        The fault [-]
    """
    change = _CHANGES.get(fault.name)
    return change(cold, fault) if change is not None else cold


def _fouled(cold: ColdSide, fault: ColdFault) -> ColdSide:
    left = fault.between(0.6, 0.4)
    plant = cold.plant
    return _with(
        cold,
        plant._replace(
            condenser_w_per_k=plant.condenser_w_per_k * left,
            condenser_vapour_w_per_k=plant.condenser_vapour_w_per_k * left,
            condenser_liquid_w_per_k=plant.condenser_liquid_w_per_k * left,
        ),
    )


def _iced(cold: ColdSide, fault: ColdFault) -> ColdSide:
    left = fault.between(0.45, 0.25)
    plant = cold.plant
    return _with(
        cold,
        plant._replace(
            evaporator_w_per_k=plant.evaporator_w_per_k * left,
            evaporator_vapour_w_per_k=plant.evaporator_vapour_w_per_k * left,
        ),
    )


def _restricted(cold: ColdSide, fault: ColdFault) -> ColdSide:
    return _with(cold, cold.plant._replace(bore_m=cold.plant.bore_m * fault.between(0.85, 0.72)))


def _leaking(cold: ColdSide, fault: ColdFault) -> ColdSide:
    hole = fault.between(5e-8, 9e-8) * cold.plant.displacement_m3 / 5e-6
    return _with(cold, cold.plant._replace(leak_m2=hole))


def _air(cold: ColdSide, fault: ColdFault) -> ColdSide:
    return _with(cold, cold.plant._replace(air_mol=fault.between(100.0, 180.0) * cold.plant.condenser_m3))


def _gasket(cold: ColdSide, fault: ColdFault) -> ColdSide:
    more = fault.between(1.5, 2.5)
    cabinet = cold.cabinet
    return replace(
        cold, cabinet=cabinet._replace(walls_w_per_k=cabinet.walls_w_per_k * more, latent_w=cabinet.latent_w * 3.0)
    )


def _with(cold: ColdSide, plant: Plant) -> ColdSide:
    return replace(cold, plant=plant)


_CHANGES: dict[ColdFaultName, Callable[[ColdSide, ColdFault], ColdSide]] = {
    ColdFaultName.CONDENSER_FOULED: _fouled,
    ColdFaultName.EVAPORATOR_ICED: _iced,
    ColdFaultName.RESTRICTED: _restricted,
    ColdFaultName.VALVES_LEAK: _leaking,
    ColdFaultName.AIR_IN_SYSTEM: _air,
    ColdFaultName.GASKET_DAMAGED: _gasket,
}
