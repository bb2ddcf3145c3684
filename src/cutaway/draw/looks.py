"""One sheet in many states: what is the same in all of them once, and of everything else each look that it ever has.

A state is then no more than which look each place has. Put together again it is the drawing itself, shape for shape.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from cutaway.draw.shapes import Group, Picture, Shape
from cutaway.draw.svg import shapes_text, slug

PLACE, TITLE = "place", "titled"
"""Roles of the groups that a page looks for: one whose content is a look, and one whose title is."""


@dataclass(frozen=True, slots=True)
class Looks:
    """picture: the first state, with its places marked by role ('place p3', or 'titled p3' where the group's title is
    what changes). places: every look of each, as SVG or as a title's text. states: by state, which look each place
    has. descriptions: by state, the text alternative."""

    picture: Picture
    places: tuple[tuple[str, ...], ...]
    states: tuple[tuple[int, ...], ...]
    descriptions: tuple[tuple[str, ...], ...]


def looks_of(pictures: Sequence[Picture]) -> Looks:
    """The pictures of one sheet in several states, put together."""
    first = pictures[0]
    found = _Found(slug(first.name))
    shapes = found.merged([picture.shapes for picture in pictures])
    states = zip(*found.chosen, strict=True) if found.chosen else [() for _ in pictures]
    return Looks(
        replace(first, shapes=shapes), tuple(found.places), tuple(states), tuple(one.description for one in pictures)
    )


@dataclass(slots=True)
class _Found:
    """The places so far; grows. chosen: by place, which look each state has."""

    ident: str
    places: list[tuple[str, ...]] = field(default_factory=list)
    chosen: list[tuple[int, ...]] = field(default_factory=list)

    def merged(self, several: Sequence[tuple[Shape, ...]]) -> tuple[Shape, ...]:
        """The shapes of one group in every state as one list."""
        if len({len(one) for one in several}) > 1:
            return (self._place(several),)
        return tuple(self._one(alike) for alike in zip(*several, strict=True))

    def _one(self, alike: Sequence[Shape]) -> Shape:
        first = alike[0]
        if all(shape == first for shape in alike):
            return first
        groups = [shape for shape in alike if isinstance(shape, Group)]
        bare = {replace(group, shapes=(), title="") for group in groups}
        titled = {bool(group.title) for group in groups}
        if len(groups) < len(alike) or len(bare) > 1 or len(titled) > 1:
            return self._place([(shape,) for shape in alike])
        role = groups[0].role
        if len({group.title for group in groups}) > 1:
            role = f"{role} {TITLE} p{self._add([group.title for group in groups])}".strip()
        return replace(groups[0], role=role, shapes=self.merged([group.shapes for group in groups]))

    def _place(self, several: Sequence[tuple[Shape, ...]]) -> Group:
        number = self._add([shapes_text(shapes, self.ident) for shapes in several])
        return Group(several[0], f"{PLACE} p{number}")

    def _add(self, every: Sequence[str]) -> int:
        looks = {look: i for i, look in enumerate(dict.fromkeys(every))}
        self.places.append(tuple(looks))
        self.chosen.append(tuple(looks[look] for look in every))
        return len(self.places) - 1
