"""A drawing that lies on a film and not on paper: what is thin is edged, so that it can be seen on anything."""

from dataclasses import replace

from cutaway.draw.shapes import Group, Picture, Polyline, Shape


def over_film(picture: Picture) -> Picture:
    """The picture with an edge of paper along each coupling; pipes and wires have theirs already, words get it too."""
    return replace(picture, shapes=tuple(_edged(shape) for shape in picture.shapes))


def _edged(shape: Shape) -> Shape:
    if not isinstance(shape, Group):
        return shape
    if shape.role == "coupling":
        edges = tuple(
            replace(one, role="halo") for one in shape.shapes if isinstance(one, Polyline) and one.role == "link"
        )
        return replace(shape, shapes=(*edges, *shape.shapes))
    return replace(shape, shapes=tuple(_edged(one) for one in shape.shapes))
