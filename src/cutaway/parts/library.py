"""All kinds of part, by name."""

from collections.abc import Mapping
from types import MappingProxyType

from cutaway.parts.kind import Kind
from cutaway.parts.kinds import (
    air,
    airscrew,
    boost,
    carburettors,
    circuits,
    cooling,
    electrics,
    emergency,
    engine,
    feeding,
    fire,
    fuel,
    generating,
    hydraulics,
    instruments,
    jacks,
    lamps,
    mixture,
    motors,
    oil_supply,
    oil_valves,
    powerplant,
    rams,
    remote,
    starting,
    superchargers,
    supplies,
    undercarriage,
    vacuum,
)

_GROUPS = (
    fuel,
    feeding,
    carburettors,
    engine,
    supplies,
    electrics,
    circuits,
    lamps,
    generating,
    motors,
    remote,
    fire,
    instruments,
    vacuum,
    hydraulics,
    oil_supply,
    oil_valves,
    jacks,
    emergency,
    undercarriage,
    air,
    rams,
    airscrew,
    boost,
    cooling,
    mixture,
    powerplant,
    starting,
    superchargers,
)

KINDS: Mapping[str, Kind] = MappingProxyType({kind.name: kind for group in _GROUPS for kind in group.KINDS})


def kind(name: str) -> Kind:
    """The kind of that name. KeyError for a name that the library does not have."""
    return KINDS[name]
