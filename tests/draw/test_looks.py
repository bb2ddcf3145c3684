"""A sheet in many states, put together: what is the same stands once, and each state can be had again."""

import re

from cutaway.draw.looks import Looks, looks_of
from cutaway.draw.shapes import Circle, Group, Picture, Shape, Text
from cutaway.draw.svg import write_inner_svg


def picture(*shapes: Shape, words: str = "") -> Picture:
    return Picture((100.0, 50.0), shapes, "small", "A small sheet", (words,))


def lamp(role: str, note: str, title: str) -> Group:
    shapes = (Circle((5.0, 5.0), 3.0, role), Text((5.0, 12.0), note, "note", 10.0))
    return Group(shapes, "part", name="lamp", part="lamp", title=title)


FIXED = Text((1.0, 1.0), "Fuel & oil", "title", 12.0)
STATES = (
    picture(FIXED, lamp("glass out", "out", "lamp: out"), words="The lamp is out."),
    picture(FIXED, lamp("glass lit", "lit", "lamp: <lit>"), words="The lamp is lit."),
    picture(FIXED, lamp("glass lit", "lit", "lamp: <lit>"), words="The lamp is lit."),
    picture(FIXED, Group((), "part", name="lamp", part="lamp"), words="There is no lamp."),
)


def again(looks: Looks, state: int) -> str:
    """The drawing of a state from the first one and its looks, as a page puts it together."""
    svg = write_inner_svg(looks.picture)
    for number, look in enumerate(looks.states[state]):
        words = looks.places[number][look]
        before = looks.places[number][0]  # that of the first state
        mark = re.compile(rf'<g class="place p{number}">\n{re.escape(before)}\n</g>')
        if mark.search(svg):
            svg = mark.sub(lambda _, words=words: words, svg)
        else:
            escaped = words.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
            svg = svg.replace(f"<title>{before}</title>", f"<title>{escaped}</title>")
            svg = svg.replace(f" titled p{number}", "")
    return svg


def test_each_state_can_be_had_again() -> None:
    two = looks_of(STATES[:3])
    assert [again(two, n) for n in range(3)] == [write_inner_svg(one) for one in STATES[:3]]
    assert two.descriptions == tuple(one.description for one in STATES[:3])


def test_what_is_the_same_stands_once() -> None:
    looks = looks_of(STATES[:3])
    assert looks.states[1] == looks.states[2] != looks.states[0]
    assert len(looks.places) == 3  # the title, the glass, the note
    assert all(len(place) == 2 for place in looks.places)
    assert write_inner_svg(looks.picture).count("Fuel &amp; oil") == 1


def test_what_is_built_otherwise_is_one_place() -> None:
    looks = looks_of((STATES[0], STATES[3]))
    assert len(looks.places) == 1
    assert looks.places[0][0].startswith('<g id="small-lamp" class="part"')


def test_one_state_has_no_places() -> None:
    looks = looks_of(STATES[:1])
    assert looks.places == () and looks.states == ((),)
    assert looks.picture.shapes == STATES[0].shapes
