"""What an explorable page shows, as records: everything in words, nothing left to be worked out."""

from dataclasses import dataclass

from cutaway.draw.looks import Looks
from cutaway.publish.view import ParagraphView


@dataclass(frozen=True, slots=True)
class MoveView:
    """One movement that the page offers. control: which of the page's controls, -1 for waiting. place: what its button
    says. back: for how long it is held, '' where it is left there. told: the movement in words."""

    control: int
    place: str
    back: str
    told: str


@dataclass(frozen=True, slots=True)
class ControlView:
    """A control that can be moved. about: where it is, what is painted on it, who works it; '' where nobody says.
    slide: of one that moves through a range the movements that put it somewhere, from one end to the other. stays:
    whether it stays where it is put, and does not spring back."""

    name: str
    about: str
    slide: tuple[int, ...] = ()
    stays: bool = True


@dataclass(frozen=True, slots=True)
class ArcView:
    """What comes of a movement. to: the number of the stop, -1 where it does not get there; then `reason` says why.
    happened: on the way, a sentence each."""

    to: int
    reason: str
    happened: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PartView:
    """A part as it is told at a stop. words: what it shows. because: a sentence a link."""

    words: str
    because: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class StopView:
    """One settled state. places: where each control stands, by its name for the place. parts: in the order of the
    page's. arcs: by movement, None where there is nothing to move. nearest: of each control with a slide the place on
    it that is nearest to where it stands, -1 of others."""

    places: tuple[str, ...]
    parts: tuple[PartView, ...]
    arcs: tuple[ArcView | None, ...]
    nearest: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class ExploreView:
    """The whole page. begins: where it begins, in sentences. bound: how far it was worked out, in sentences. fixed:
    each control that is not moved, with where it is held. looks: the sheet in every stop."""

    title: str
    maker: str
    says: str
    begins: tuple[str, ...]
    bound: tuple[str, ...]
    settle: str
    controls: tuple[ControlView, ...]
    moves: tuple[MoveView, ...]
    fixed: tuple[str, ...]
    parts: tuple[str, ...]
    stops: tuple[StopView, ...]
    looks: Looks
    cautions: tuple[str, ...]
    paragraphs: tuple[ParagraphView, ...]
    notice: str
    language: str = "en-GB"
