"""What a wrong use of a gauge set, a vacuum gauge, a scale or a contact thermometer does."""

from __future__ import annotations

from enum import Enum
from typing import Protocol


class Ports(Protocol):
    """All that a gauge can see of a refrigerant side: absolute pressure at what it can be joined to."""

    def ports(self) -> tuple[str, ...]:
        """Names of the ports that a hose fits."""

    def pressure_pa(self, port: str) -> float:
        """Absolute pressure at a port [Pa].

        Parameters
        ----------
        port : str
            A port [-]
        """


class ServiceEvent(Enum):
    """What a reading or an act did besides showing something."""

    GAUGE_OVER_RANGE = "pressure above the gauge's scale"
    GAUGE_BENT = "gauge strained by too much pressure"
    ZEROED_UNDER_PRESSURE = "gauge zeroed with pressure on it"
    VACUUM_SENSOR_RUINED = "vacuum gauge joined to a system under pressure"
    VACUUM_SENSOR_OILED = "oil got into the vacuum gauge"
    SCALE_STRAINED = "scale loaded beyond its limit"
    HOSE_PULLS = "hose pulls on the cylinder"
    PROBE_NOT_SETTLED = "probe read before it stood still"
    AIR_PUSHED_IN = "air from a hose pushed into the system"


CONSEQUENCES = {
    ServiceEvent.GAUGE_OVER_RANGE: "The needle stands at its stop, the digits say OL. Use the high side.",
    ServiceEvent.GAUGE_BENT: "From now on it reads too high, at zero too. Take another.",
    ServiceEvent.ZEROED_UNDER_PRESSURE: "From now on it reads too low. Open it to the air and zero again.",
    ServiceEvent.VACUUM_SENSOR_RUINED: "Dashes from now on; take another. Shut its valve before pressure comes.",
    ServiceEvent.VACUUM_SENSOR_OILED: "It reads too high and lags. Clean it as its maker says, mount it upright.",
    ServiceEvent.SCALE_STRAINED: "Its zero has moved and it cannot be trusted. Take another.",
    ServiceEvent.HOSE_PULLS: "The scale shows grams that are none. Lay the hose slack and let it rest.",
    ServiceEvent.PROBE_NOT_SETTLED: "The number is still on its way. Wait until it stands still.",
    ServiceEvent.AIR_PUSHED_IN: "Air stays in the condenser and raises the pressure. Purge the hose first.",
}
