"""What handouts are made from, and their drawings, each brought to paper once."""

import math
from dataclasses import dataclass, field

from cutaway.draw.pages import SHAPE
from cutaway.draw.seen import Values
from cutaway.draw.shapes import Picture
from cutaway.draw.sheet import sheet_picture
from cutaway.machine.subjects import Subject, subjects
from cutaway.narrate.checked import Checked
from cutaway.problems.diagnostic import Problems
from cutaway.publish.drawings import NOT_ON_SHEETS, Desk, by_accident
from cutaway.publish.handout import filling
from cutaway.publish.handout.plates import Space, least_pages, plate
from cutaway.publish.handout.records import MARGIN, SHEET_MARGIN, Kind, Paper, Plate
from cutaway.publish.handout.shown import Shown
from cutaway.publish.shown_on import ShownOn
from cutaway.publish.states import states
from cutaway.publish.view import PackView

SMALLEST = {"visitor": 7.05, "large": 18.0, "booklet": 7.05}
"""No word of a drawing is smaller, pt."""
MOST_PAGES = {"visitor": 1, "large": 9, "booklet": 12}
SLACK = 1.3
"""How much less paper another layout may need than the usual one: a drawing that needs more is not tried in others."""

Drawn = tuple[Plate | None, Problems]
Told = tuple[tuple[str, ...], Problems]


@dataclass(frozen=True, eq=False)
class Ground:
    """What handouts are made from. view: the scripts and cautions as the pack shows them."""

    desk: Desk
    checked: Checked
    view: PackView
    _shown_on: dict[str, ShownOn] = field(default_factory=dict)

    def plate(self, kind: Kind, paper: Paper, shown: Shown) -> Drawn:
        """One sheet on one paper, in the layout that suits it best; None where it needs more pages than it may have.

        From the shelf where no file that drawings are made from is another, or where all that it shows is as before.
        """
        cautions = filling.cautions_on(self.view, self.checked.folder, shown.system, shown.standard)
        depends = (kind, paper, SMALLEST[kind], MOST_PAGES[kind], cautions, shown)
        texts = self.desk.read_but(NOT_ON_SHEETS)
        return self.desk.shelf.piece(
            "plate of a file", (depends, texts), lambda: self._plate(kind, paper, shown, cautions, depends), _sound
        )

    def in_words(self, shown: Shown) -> Told:
        """What a sheet shows, in words."""
        texts = self.desk.read_but(NOT_ON_SHEETS)
        return self.desk.shelf.piece("sheet in words", (shown, texts), lambda: self._in_words(shown), _sound)

    def _plate(self, kind: Kind, paper: Paper, shown: Shown, cautions: tuple[str, ...], depends: object) -> Drawn:
        subject, values, says, problems = self._state(shown)

        def draw(seen: Values | None) -> Drawn:
            return self._drawn(kind, paper, shown, cautions, subject, seen, says)

        name = str(subject.name)
        if name not in self._shown_on:
            self._shown_on[name] = ShownOn(self.checked.folder, subject)
        whole = (depends, says, self._shown_on[name].system(shown.system))
        shelf = self.desk.shelf
        if values is None:
            made, more = shelf.piece("plate", whole, lambda: draw(None), _sound)
        else:
            made, more = shelf.piece_of("plate", whole, values, draw, _sound)
        return made, problems + more

    def _drawn(
        self,
        kind: Kind,
        paper: Paper,
        shown: Shown,
        cautions: tuple[str, ...],
        subject: Subject,
        values: Values | None,
        says: str,
    ) -> Drawn:
        """Drawn as the pack has it and for one room after another, until one takes it on one page: a lying page is for
        what no other takes."""
        smallest, most, rooms = SMALLEST[kind], MOST_PAGES[kind], rooms_on(kind, paper, cautions)
        usual, problems = self._picture(subject, shown, values, says, SHAPE)
        if usual is None or least_pages(usual, (*rooms[0], *rooms[1]), smallest) > most * SLACK:
            return None, problems
        ways: list[tuple[Picture, Space]] = []
        made: Plate | None = None
        for spaces in rooms:
            ways += [(usual, space) for space in spaces]
            for space in spaces:
                picture, more = self._picture(subject, shown, values, says, space.shape)
                problems += more
                ways += [(picture, space)] if picture is not None else []
            made = plate(ways, smallest, says, cautions if kind == "booklet" else (), most)
            if made is not None and len(made.tiles) == 1:
                break
        return made, problems

    def _picture(
        self, subject: Subject, shown: Shown, values: Values | None, says: str, shape: float
    ) -> tuple[Picture | None, Problems]:
        desk, name = self.desk, f"{shown.system} {shown.standard} {shown.situation}"
        return sheet_picture(
            self.checked.folder, subject.name, shown.system, values, desk.kinds, says, desk.layouts, name, shape
        )

    def _in_words(self, shown: Shown) -> Told:
        subject, values, says, problems = self._state(shown)
        picture, more = self._picture(subject, shown, values, says, SHAPE)
        return (picture.description if picture is not None else ()), problems + more

    def _state(self, shown: Shown) -> tuple[Subject, Values | None, str, Problems]:
        """The subject, what its situation comes to, and that in words."""
        folder = self.checked.folder
        subject = next(one for one in subjects(folder) if one.name == shown.standard)
        situation = next((one for one in folder.situations if one.name == shown.situation), None)
        if situation is None:
            return subject, None, "", ()
        desk = self.desk
        ((values, problems),) = states(desk.workshop, desk.told, desk.shelf, [(subject, situation)])
        name = f"{situation.name[:1].upper()}{situation.name[1:]}"
        words = f"{name}: {situation.says}" if situation.says else name
        if values is None:
            words += " No solution was found, so no state is shown."
        return subject, values, words, problems


def _sound(made: Drawn | Told) -> bool:
    return not by_accident(made[1])


def rooms_on(kind: Kind, paper: Paper, cautions: tuple[str, ...]) -> tuple[tuple[Space, ...], tuple[Space, ...]]:
    """The rooms that a drawing may have on a paper, upright and lying; what stands round it is allowed for."""
    edge = SHEET_MARGIN if kind == "visitor" else MARGIN
    inner, tall = paper.width - 2 * edge, paper.height - 2 * edge
    if kind == "visitor":
        upright = tuple(Space(inner, tall * height) for height in (0.48, 0.64))
        return upright, tuple(Space(tall, inner * height, True) for height in (0.46, 0.66))
    if kind == "large":
        return (Space(inner, tall - 150.0),), (Space(tall, inner - 130.0, flipped=True),)
    lines = sum(math.ceil((len(words) + 9) / 95) for words in cautions)
    around = 72.0 + 13.0 * lines
    return (Space(inner, tall - around),), (Space(tall, inner - around, flipped=True),)
