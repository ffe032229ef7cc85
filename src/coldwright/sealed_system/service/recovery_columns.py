"""Saturation of a refrigerant in columns against temperature, read off quickly by a model that takes many steps."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from coldwright.quantities.constants import GAS_CONSTANT
from coldwright.refrigerants.catalogue import refrigerant_named
from coldwright.refrigerants.saturation import dew_pressure, latent_heat, saturated_vapour

COLUMN_LEAST_K, COLUMN_MOST_K, COLUMN_STEP_K = 213.15, 338.15, 2.5


@dataclass(frozen=True)
class Saturation:
    """Columns of dry saturated vapour: temperature, logarithm of pressure and of density, latent heat. SI."""

    temperature_k: NDArray[np.float64]
    ln_pressure: NDArray[np.float64]
    ln_density: NDArray[np.float64]
    latent: NDArray[np.float64]
    molar_mass: float

    def pressure(self, temperature_k: float) -> float:
        """Vapour pressure.

        Parameters
        ----------
        temperature_k : float
            Temperature, held within the columns [K]

        Returns
        -------
        float
            Absolute pressure [Pa]
        """
        return float(np.exp(np.interp(temperature_k, self.temperature_k, self.ln_pressure)))

    def density(self, temperature_k: float) -> float:
        """Density of dry saturated vapour.

        Parameters
        ----------
        temperature_k : float
            Temperature, held within the columns [K]

        Returns
        -------
        float
            Density [kg/m³]
        """
        return float(np.exp(np.interp(temperature_k, self.temperature_k, self.ln_density)))

    def _beyond_ideal(self, temperature_k: float) -> float:
        """Z - 1 of dry saturated vapour."""
        ideal = self.density(temperature_k) * GAS_CONSTANT * temperature_k / self.molar_mass
        return self.pressure(temperature_k) / ideal - 1.0

    def vapour_pressure_of(self, density: float, temperature_k: float) -> float:
        """Pressure of vapour of a density; that of saturation where liquid stands with it.

        Parameters
        ----------
        density : float
            Mass over volume [kg/m³]
        temperature_k : float
            Temperature, held within the columns [K]

        Returns
        -------
        float
            Absolute pressure; Z goes in a straight line with pressure from 1 to its value at saturation [Pa]
        """
        saturated = self.pressure(temperature_k)
        ideal = density * GAS_CONSTANT * temperature_k / self.molar_mass / saturated
        if density >= self.density(temperature_k):
            return saturated
        return saturated * ideal / (1.0 - ideal * self._beyond_ideal(temperature_k))

    def vapour_density_at(self, pressure_pa: float, temperature_k: float) -> float:
        """Density of vapour at a pressure up to that of saturation.

        Parameters
        ----------
        pressure_pa : float
            Absolute pressure [Pa]
        temperature_k : float
            Temperature, held within the columns [K]

        Returns
        -------
        float
            Density [kg/m³]
        """
        share = min(1.0, pressure_pa / self.pressure(temperature_k))
        ideal = pressure_pa * self.molar_mass / (GAS_CONSTANT * temperature_k)
        if share == 1.0:
            return self.density(temperature_k)
        return ideal / (1.0 + share * self._beyond_ideal(temperature_k))

    def latent_heat(self, temperature_k: float) -> float:
        """Heat that boils a kilogram.

        Parameters
        ----------
        temperature_k : float
            Temperature, held within the columns [K]

        Returns
        -------
        float
            Latent heat [J/kg]
        """
        return float(np.interp(temperature_k, self.temperature_k, self.latent))


@lru_cache(maxsize=16)
def saturation_columns(refrigerant: str) -> Saturation:
    """Columns of a refrigerant from -60 °C to 65 °C.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]

    Returns
    -------
    Saturation
        Columns every 2.5 K; pressure between them within 0.05 %
    """
    temperatures = np.arange(COLUMN_LEAST_K, COLUMN_MOST_K + COLUMN_STEP_K / 2.0, COLUMN_STEP_K)
    pressures = [dew_pressure(refrigerant, float(t)) for t in temperatures]
    return Saturation(
        temperatures,
        np.log(pressures),
        np.log([saturated_vapour(refrigerant, p).density_kg_per_m3 for p in pressures]),
        np.array([latent_heat(refrigerant, p) for p in pressures]),
        refrigerant_named(refrigerant).molar_mass_kg_per_mol,
    )
