"""One sort of thing in a pack, as the table of contents knows it; what makes it stands in a file of its own."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from cutaway.narrate.checked import Checked
from cutaway.problems.diagnostic import Problems
from cutaway.publish.drawings import Desk, by_accident

Files = Mapping[str, bytes]


@dataclass(frozen=True, slots=True)
class Product:
    """What a pack has besides its page, its captions and its sheets.

    name: its heading in the pack, 'Panels'. says: one sentence about it for whoever opens the pack. stage: what is told
    while it is made, 'drawing the panels'. make: its files by their path in the pack and what is wrong; no files where
    the folder asks for none. first: the file that the page leads to, where one leads to the others; '' where they are
    listed.

    unread: how the paths of those files of the type folder begin on which nothing of it depends ('scripts/'): while all
    others are the same, so is it, and it is not made again. besides: what of those files it depends on nevertheless, of
    the scripts their claims, say. whole: False where it reads more than the texts of the
    type folder, a photograph say; then it is always made, and what is dear in it is kept by itself (`Desk.shelf`).
    checking: False where it takes nothing from what checking found; then it can be made before that is known. after:
    what is done with its files once that is known.
    """

    name: str
    says: str
    stage: str
    make: Callable[[Desk, Checked], tuple[Files, Problems]]
    first: str = ""
    unread: tuple[str, ...] = ()
    besides: Callable[[Desk], object] = lambda desk: ()
    whole: bool = True
    checking: bool = True
    after: Callable[[Files, Checked], Files] = lambda files, checked: files


def piece_of_product(
    product: Product,
    desk: Desk,
    checked: Checked,
    settled: bool = True,
    stage: Callable[[str], None] = lambda words: None,
) -> tuple[Files, Problems]:
    """The files of one product, from the shelf where nothing changed of what it is made from. settled: whether more
    time would change no verdict. stage: told if it has to be made."""

    def make() -> tuple[Files, Problems]:
        stage(product.stage)
        return product.make(desk, checked)

    def sound(made: tuple[Files, Problems]) -> bool:
        return (settled or not product.checking) and not by_accident(made[1])

    if not product.whole:
        return make()
    return desk.shelf.piece(product.name, depends_on(product, desk), make, sound)


def depends_on(product: Product, desk: Desk) -> object:
    """All that a product is made from."""
    return desk.rests, desk.read_but(product.unread), product.besides(desk)


def claims_said(desk: Desk) -> tuple[object, ...]:
    """The claims of the scripts in their own words, with where they stand: all that a quiz takes from a script."""
    return tuple(
        (one.script, one.sentence.chapter, tuple(claim.span for claim in one.claims))
        for one in desk.claims().sentences
        if one.claims
    )
