"""The standard atmosphere by geopotential height, up to the top of its second layer."""

import math


def isa_temperature(height: float) -> float:
    """Temperature of the standard atmosphere, K.

        temperature = 288.15 − 0.0065 · height, from 11 000 m on 216.65

    height: geopotential, m.
    Range: −1 000 to 20 000 m. Source: ICAO Doc 7488, 3rd edition.

    At 10 000 ft:
    >>> round(isa_temperature(3048.0), 3)
    268.338
    """
    return 288.15 - 0.0065 * min(height, 11_000.0)


def isa_pressure(height: float) -> float:
    """Pressure of the standard atmosphere, Pa absolute.

        pressure = 101 325 · (temperature / 288.15)^(g / (0.0065 · R)) up to 11 000 m,
        above that the pressure there · exp(−g · (height − 11 000) / (R · 216.65))

    height: geopotential, m.
    Range: −1 000 to 20 000 m. Source: ICAO Doc 7488, 3rd edition; R 287.05287 J/(kg·K), g 9.80665 m/s².

    At 10 000 ft, in hPa:
    >>> round(isa_pressure(3048.0) / 100.0, 2)
    696.82
    """
    below = min(height, 11_000.0)
    pressure = 101_325.0 * math.pow((288.15 - 0.0065 * below) / 288.15, 9.80665 / (0.0065 * 287.05287))
    return pressure * math.exp(-9.80665 * (height - below) / (287.05287 * 216.65))


def isa_density(height: float) -> float:
    """Density of the standard atmosphere, kg/m³.

        density = pressure / (R · temperature)

    height: geopotential, m.
    Range: −1 000 to 20 000 m. Source: perfect gas, R 287.05287 J/(kg·K) as in ICAO Doc 7488.

    At 10 000 ft:
    >>> round(isa_density(3048.0), 4)
    0.9046
    """
    below = min(height, 11_000.0)
    temperature = 288.15 - 0.0065 * below
    pressure = 101_325.0 * math.pow(temperature / 288.15, 9.80665 / (0.0065 * 287.05287))
    return pressure * math.exp(-9.80665 * (height - below) / (287.05287 * 216.65)) / (287.05287 * temperature)
