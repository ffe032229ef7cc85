"""Constants of nature and agreed ones, each in this one place."""

ICE_POINT_K = 273.15  # 0 °C
GAS_CONSTANT = 8.314462618  # J/(mol K)
SEA_LEVEL_PA = 101_325.0  # standard atmosphere
