"""Make the pack: check, draw, caption, write, all or nothing."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from cutaway.api.corrections import written_side
from cutaway.api.keeping import keeping, machine_problems, shelf_beside
from cutaway.api.loading import load
from cutaway.api.places import layouts_folder, memory_file, pack_folder
from cutaway.inquiry.many import UNHURRIED, Pace
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.workshop import Workshop
from cutaway.narrate.checked import Asking, Checked, is_wrong
from cutaway.narrate.checking import check_words
from cutaway.problems.diagnostic import Problems, has_error, in_order
from cutaway.publish.ahead import working_ahead
from cutaway.publish.contents import PRODUCTS, pack_files
from cutaway.publish.contents_page import contents_page
from cutaway.publish.drawings import Desk
from cutaway.publish.handout.product import HANDOUTS, left_out
from cutaway.publish.pack import refused_folder, unwritable, write_pack

RANGES = "checking the claims, with each assumed value at both ends of its range"


@dataclass(frozen=True, slots=True)
class Made:
    """A pack that was written. wrong: whether a claim in it fails or an item of the folder was left out. again: how
    many pieces of it were made; as_before: how many were taken from those of an earlier session. errors: whether an
    item of the folder was left out."""

    folder: Path
    files: tuple[str, ...]
    checked: Checked
    wrong: bool
    touched: tuple[str, ...] = ()
    again: int = 0
    as_before: int = 0
    errors: bool = False


def make(
    folder: Path | str,
    out: Path | None = None,
    rests: bool = True,
    progress: Callable[[int], None] | None = None,
    stage: Callable[[str], None] = lambda words: None,
    pace: Pace = UNHURRIED,
    handouts: bool = True,
) -> tuple[Made | None, Problems]:
    """Make the pack of a type folder. The last pack stays whole until the new one is complete.

    Only what a change of the folder can reach is made again; the rest is taken from the user's cache. stage: told in a
    few words what is done next. pace: told how many verdicts have been tried with assumed values. handouts:
    whether it has what is to be printed too, where the typesetter is at hand.
    """
    remembered = memory_file()
    loaded, problems = load(folder, shelf=shelf_beside(remembered))
    if loaded is None:
        return None, problems
    target = out if out is not None else pack_folder(loaded.path)
    # Its own pack is replaced even where the type was given another name since.
    of = loaded.folder.type.name
    refused = refused_folder(target, of if out is not None else "") or unwritable(target)
    if refused:
        return None, in_order(problems + refused)
    shelf = shelf_beside(remembered)  # another than that for reading, since the pieces of the pack are counted
    workshop = Workshop(loaded.folder, loaded.kinds, progress=progress)
    problems += machine_problems(loaded, workshop, shelf)
    asking = Asking(rests=rests)
    stage(RANGES if rests else "checking the claims")
    keep = keeping(loaded, asking, shelf)
    desk = Desk(workshop, loaded.told, loaded.kinds, layouts_folder(), shelf, rests, parsed=loaded.parsed)
    paper = handouts and not left_out(loaded.folder)
    wanted = PRODUCTS if paper else tuple(one for one in PRODUCTS if one is not HANDOUTS)
    with working_ahead(desk, wanted, stage) as await_others:
        memory = Memory(remembered)
        checked, more = check_words(workshop, loaded.parsed, loaded.told, memory, asking, keep=keep, pace=pace)
        await_others()
    contents, problems = pack_files(checked, desk, problems + more, stage, keep, wanted)
    side, more = written_side(loaded, checked, contents.files, rests, shelf)
    problems += more
    files = {**contents.files, **side.files}
    files["contents.html"] = contents_page(of, loaded.folder.type.notice, files, contents.products).encode()
    stage("putting the pack on the disk")
    written, more = write_pack(target, files, of)
    problems = in_order(problems + more)
    if written is None:
        return None, problems
    errors = has_error(problems)
    wrong = errors or any(is_wrong(verdict) for verdict in checked.verdicts())
    shelf.tidied()
    return Made(written, tuple(sorted(files)), checked, wrong, side.touched, shelf.made, shelf.taken, errors), problems
