"""How a computed value is compared with a printed one: within half a unit of the last printed digit."""

from decimal import Decimal


def half_step(printed: str) -> float:
    """Half a unit of the last printed digit: 0.005 for '20.58', 50 for '3.0e3', which says which digits count."""
    exponent = Decimal(printed).as_tuple().exponent
    assert isinstance(exponent, int)
    return 0.5 * 10.0**exponent


def agrees(value: float, printed: str) -> bool:
    """Whether a value rounds to the printed one. A hair is added for the binary form of the printed figure."""
    return abs(value - float(printed)) <= half_step(printed) * (1 + 1e-9)
