"""Where heads and dots stand."""

from cutaway.draw.extent import extent_of
from cutaway.draw.heads import CLEAR, head_shapes
from cutaway.draw.stretches import segments, ways_on

TRUNK = ((0.0, 0.0), (400.0, 0.0))
CROSSING = ((200.0, -50.0), (200.0, 50.0))


def test_a_head_keeps_off_what_crosses() -> None:
    every = [*segments(TRUNK), *segments(CROSSING)]
    (head,) = head_shapes({"a": 1}, {"a": TRUNK}, every, "oil")
    box = extent_of((head,))
    assert min(abs(x - 200.0) for x in (box.left, box.right)) >= CLEAR - 9.0
    assert not box.left <= 200.0 <= box.right
    (alone,) = head_shapes({"a": 1}, {"a": TRUNK}, segments(TRUNK), "oil")
    assert abs((extent_of((alone,)).left + extent_of((alone,)).right) / 2 - 200.0) < 1.0


def test_every_long_stretch_has_a_head_and_a_shared_one_has_one() -> None:
    routes = {"a": ((0.0, 0.0), (200.0, 0.0), (200.0, 200.0)), "b": ((0.0, 0.0), (200.0, 0.0), (200.0, -30.0))}
    every = [s for route in routes.values() for s in segments(route)]
    assert len(head_shapes({"a": 1, "b": 1}, routes, every, "oil")) == 3
    assert len(head_shapes({"a": 1, "b": 0}, routes, every, "oil")) == 2
    assert head_shapes({"a": 0, "b": 0}, routes, every, "oil") == ()


def test_what_is_shared_has_no_head_where_two_disagree() -> None:
    routes = {"a": ((0.0, 0.0), (200.0, 0.0)), "b": ((0.0, 0.0), (200.0, 0.0))}
    assert head_shapes({"a": 1, "b": -1}, routes, segments(routes["a"]), "oil") == ()


def test_ways_on_a_joint() -> None:
    assert ways_on((200.0, 0.0), [*segments(TRUNK), *segments(CROSSING)]) == {"north", "south", "east", "west"}
    assert ways_on((100.0, 0.0), segments(TRUNK)) == {"east", "west"}
