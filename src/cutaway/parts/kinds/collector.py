"""The box under several tanks in which their petrol comes together."""

from cutaway.parts.kind import Example, Failure, Fit, Kind, Port, Want
from cutaway.parts.kinds.common import JUDGEMENT, port
from cutaway.parts.kinds.fuel import OUTLET, POUND, RATED_FLOW, VAPOUR
from cutaway.parts.kinds.liquids import PETROL, one_way, pump, way
from cutaway.parts.laws.sizing import static_head
from cutaway.parts.recipe import Node, Recipe, failed, unless


def _collector(fit: Fit) -> Recipe:
    ways, flow = fit.lists["ways"], fit.si["flow"]
    flaps = tuple(
        element
        for name in ways
        for element in (
            one_way(PETROL, f"flap {name}", (name, "box"), flow, POUND, unless("flaps stuck open")),
            way(PETROL, f"gap {name}", (name, "box"), flow, POUND, failed("flaps stuck open")),
        )
    )
    # A column of petrol pushes as a pump does that needs no drive, and no more than the petrol that comes to it.
    fall = pump(PETROL, "fall", ("box", "outlet"), flow, static_head(PETROL.density, fit.si["head"]), 1.0,
                unless("airlock"))  # fmt: skip
    nodes = (*(port(name, "petrol") for name in (*ways, "outlet")), Node("box", "petrol"))
    return Recipe(nodes, (*flaps, fall))


COLLECTOR_BOX = Kind(
    "collector box",
    "A box under several tanks: each runs into it through a flap of its own, so that none runs into another, and what "
    "comes together stands over the outlet with the height of the box's pipe.",
    ports=(Port("way", "petrol", "west", each="ways"), OUTLET),
    build=_collector,
    wants=(
        Want(
            "head",
            "length",
            "Height of its flaps above its outlet.",
            default="0.5 m",
            between="0.1 to 1 m",
            because=f"{JUDGEMENT} From the tank bay to the pump below it.",
        ),
        RATED_FLOW,
    ),
    failures=(
        Failure("airlock", "Air has collected in it: nothing passes."),
        Failure("flaps stuck open", "Petrol passes the flaps both ways: a full tank runs into an empty one."),
    ),
    lists=("ways",),
    families=("ONEWAY", "ROOT", "PDPUMP"),
    caution=VAPOUR,
    example=Example(
        "port tank: {kind: tank, capacity: 20 gal}\n"
        "starboard tank: {kind: tank, capacity: 20 gal}\n"
        "box: {kind: collector box, ways: [port tank, starboard tank]}\n"
        "spout: {kind: jettison valve, flow: 200 gal/h}",
        (
            "after spout to open, at 2 min: port tank reads below 19 gal and starboard tank reads below 19 gal",
            "with port tank at 2 gal, throughout 30 min: port tank reads below 2.1 gal",
            "with port tank at 0 gal, after spout to open, at 2 min: spout reads above 50 gal/h",
            "with box flaps stuck open, with port tank at 2 gal, within 30 min: port tank reads above 5 gal",
            "with box airlock, after spout to open, at 2 min: spout reads below 0.1 gal/h",
        ),
        "port tank > box.port tank\nstarboard tank > box.starboard tank\nbox > spout",
    ),
)

KINDS = (COLLECTOR_BOX,)
