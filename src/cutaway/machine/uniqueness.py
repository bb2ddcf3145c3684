"""Whether a step of each connected component has one solution and no more, and by which argument."""

from cutaway.machine.network import Network
from cutaway.parts.laws.elements import family


def classes(network: Network) -> tuple[tuple[str, str], ...]:
    """The class of each connected component, under the name of its first node.

    M: every law rises with its first end and falls with its second, so that the matrix is column-dominant. S: every
    law keeps the matrix symmetric. mixed: neither argument covers it; then it is the stores that settle a short
    enough step.
    """
    free = {node.name: i for i, node in enumerate(network.nodes) if node.boundary is None}
    root = {name: name for name in free}

    def top(name: str) -> str:
        while root[name] != name:
            root[name] = root[root[name]]
            name = root[name]
        return name

    inner = [(e, [name for name in e.at if name in free]) for e in network.elements]
    for _, ends in inner:
        for other in ends[1:]:
            a, b = sorted((top(ends[0]), top(other)), key=free.__getitem__)
            root[b] = a
    allowed = {name: {"M", "S"} for name in free}
    for element, ends in inner:
        if len(set(ends)) > 1:  # between one free node and boundaries any law touches the diagonal alone
            allowed[top(ends[0])] &= set(family(element.family).uniqueness)
    return tuple(
        (name, "M" if "M" in allowed[name] else "S" if "S" in allowed[name] else "mixed")
        for name in free
        if top(name) == name
    )
