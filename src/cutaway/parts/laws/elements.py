"""The numeric families: the one table of what an element can be, with its terminals and parameters in order.

The `code` of a family is its place in the table; the kernel's chain follows it, and a test holds the two together.
"""

from dataclasses import dataclass
from typing import Literal

from cutaway.parts.recipe import Family as FamilyName

Uniqueness = Literal["M", "S", "MS"]
Positive = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Family:
    """One family of elements.

    terminals: how many. parameters: names in the order of `Element.parameters`, SI. uniqueness: M where the law keeps
    the network's matrix column-dominant (flow rises with its first end and falls with its second), S where it keeps
    it symmetric (a law of the drop alone), MS both. above: the parameters that must be above 0; all others but
    settings, loads and limits must not be negative.
    """

    name: FamilyName
    terminals: int
    parameters: tuple[str, ...]
    uniqueness: Uniqueness
    above: Positive = ()


JACK_ENDS = ("friction", "damping", "spring", "spring_from", "load", "low", "high", "stiffness")

FAMILIES = (
    Family("LIN", 2, ("conductance",), "MS"),
    Family("ROOT", 2, ("k", "core"), "MS", ("core",)),
    Family("GASROOT", 2, ("c", "core"), "M", ("core",)),
    Family("ONEWAY", 2, ("k", "core", "crack", "creep"), "MS", ("core",)),
    Family("GASWAY", 2, ("c", "core", "crack"), "M", ("core",)),
    Family("RELIEF", 2, ("k", "core", "setting", "band"), "MS", ("core", "band")),
    Family("REDUCE", 2, ("k", "core", "setting", "band"), "M", ("core", "band")),
    Family("MAINTAIN", 2, ("k", "core", "setting", "band"), "M", ("core", "band")),
    Family("SOURCE", 2, ("rise", "slope", "low", "high", "corner"), "MS", ("corner",)),
    Family("PDPUMP", 2, ("stall", "slip", "most", "starved", "band", "corner"), "M", ("band", "corner")),
    Family("DRAW", 2, ("most", "low", "band"), "MS", ("band",)),
    Family("STORE", 1, ("capacity",), "MS", ("capacity",)),
    Family("ACCUM", 1, ("volume", "precharge", "corner", "wall"), "MS", ("volume", "precharge", "corner", "wall")),
    Family("TANK", 1, ("capacity", "corner", "wall"), "MS", ("capacity", "corner", "wall")),
    Family("JACK", 2, ("cap_area", "rod_area", *JACK_ENDS), "S", ("cap_area", "damping", "stiffness")),
    Family("RAM", 1, ("area", *JACK_ENDS, "dead"), "MS", ("area", "damping", "stiffness", "dead")),
    Family("RATIO", 3, ("constant", "resistance"), "S", ("resistance",)),
    Family("DRAG", 2, ("dry", "corner", "viscous"), "MS", ("corner",)),
    Family("ADVECT", 2, ("capacity",), "M"),
)

CODES: dict[str, int] = {family.name: code for code, family in enumerate(FAMILIES)}


def family(name: str) -> Family:
    """The family of that name.

    >>> family("ROOT").parameters
    ('k', 'core')
    """
    return FAMILIES[CODES[name]]
