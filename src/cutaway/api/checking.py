"""Check a type folder: its files, its citations, every claim and every sight of its drills."""

from collections.abc import Callable, Mapping
from pathlib import Path

from cutaway.api.keeping import keeping, machine_problems, shelf_beside
from cutaway.api.loading import Loaded, load, workshop_for
from cutaway.api.places import memory_file
from cutaway.handbook.records import Folder
from cutaway.inquiry.check import Judged, subjects_of
from cutaway.inquiry.cluster import spread
from cutaway.inquiry.many import UNHURRIED, Pace
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.questions.sweep import Put, claim_chunks, judged
from cutaway.inquiry.workshop import Workshop
from cutaway.language.syntax import Claim
from cutaway.machine.subjects import subjects
from cutaway.narrate.checked import Asking, Checked, is_wrong
from cutaway.narrate.checking import check_words, claims_asked
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error, in_order
from cutaway.problems.span import TextFile, whole
from cutaway.quantities.which import Standard, StandardName, read_which


def check(
    folder: Path | str | Loaded,
    on: str = "",
    script: str = "",
    rests: bool = True,
    progress: Callable[[int], None] | None = None,
    mending: bool = True,
    workshop: Workshop | None = None,
    cluster: str = "",
    pace: Pace = UNHURRIED,
) -> tuple[Checked | None, Problems]:
    """Every claim of the scripts and every sight of the drills, one verdict for each standard.

    folder: its place, or what was loaded from there. on: only these standards, in the words of `on:`. script: only that
    script. rests: whether assumed values are taken to both ends of their ranges. progress: told how many runs are
    begun. mending: whether corrections of what fails are looked for. workshop: where to run, a new one if None.
    cluster: the address of a Dask scheduler whose workers judge the claims, '' to do it here. What was judged here in
    an earlier session, of the same content, is remembered. pace: how long it may take; where the time is up, verdicts
    are told as stated, and the next call goes on from there.
    """
    remembered = memory_file()
    shelf = shelf_beside(remembered, folder.kinds) if isinstance(folder, Loaded) else shelf_beside(remembered)
    loaded, problems = (folder, folder.problems) if isinstance(folder, Loaded) else load(folder, shelf=shelf)
    if loaded is None:
        return None, problems
    asking, more = asking_for(loaded, on, script, rests, mending)
    problems += more
    if asking is None:
        return None, in_order(problems)
    if workshop is None:
        workshop = Workshop(loaded.folder, loaded.kinds, progress=progress)
    problems += machine_problems(loaded, workshop, shelf)
    elsewhere: Mapping[Claim, tuple[Judged, ...]] | None = {}
    if cluster:
        elsewhere, more = _judged_on(cluster, loaded, asking, progress)
        problems += more
    if elsewhere is None:
        return None, in_order(problems)
    memory, judging = Memory(remembered), lambda claim: elsewhere.get(claim, ())
    keep = keeping(loaded, asking, shelf)
    checked, more = check_words(workshop, loaded.parsed, loaded.told, memory, asking, judging, keep, pace)
    return checked, in_order(problems + more)


def _judged_on(
    cluster: str, loaded: Loaded, asking: Asking, progress: Callable[[int], None] | None
) -> tuple[Mapping[Claim, tuple[Judged, ...]] | None, Problems]:
    """The verdicts of a cluster's workers on every claim that is asked for, merged in the order of the claims."""
    everyone = subjects(loaded.folder)
    claims = claims_asked(loaded.folder, loaded.parsed, asking)
    pairs = [(claim, subject) for claim in claims for subject in subjects_of(claim, everyone)]
    put = [Put(claim, subject.name) for claim, subject in pairs]
    found, problems = spread(judged, claim_chunks(loaded.folder.files, put, asking.rests), cluster, progress)
    if found is None:
        return None, problems
    by_claim: dict[Claim, tuple[Judged, ...]] = {}
    verdicts = (verdict for chunk in found for verdict in chunk)
    for (claim, subject), verdict in zip(pairs, verdicts, strict=True):
        by_claim[claim] = (*by_claim.get(claim, ()), Judged(subject, verdict))
    return by_claim, problems


def asking_for(loaded: Loaded, on: str, script: str, rests: bool, mending: bool) -> tuple[Asking | None, Problems]:
    """What is to be checked, in the words of the command line; None where they mean nothing."""
    only, problems = standards_named(loaded.folder, on)
    if has_error(problems):
        return None, problems
    if script and script not in {s.name for s in loaded.folder.scripts}:
        names = ", ".join(s.name for s in loaded.folder.scripts)
        return None, (*problems, Diagnostic("C102", None, f"There is no script '{script}'.", f"There are: {names}."))
    return Asking(only, script, rests, mending), problems


def check_problems(folder: Path | str) -> Problems:
    """Only what is wrong with the files of a folder and the networks that they make; nothing is run."""
    loaded, problems = load(folder)
    if loaded is None:
        return problems
    _, more = workshop_for(loaded)
    return in_order(problems + more)


def standards_named(folder: Folder, words: str) -> tuple[frozenset[StandardName] | None, Problems]:
    """The standards and airframes that words on the command line mean; None where nothing was said.

    An airframe is meant only where it is named: `Mk 2` means what the works built, not what a museum has left of it.
    """
    if not words.strip():
        return None, ()
    everyone = tuple(Standard(s.name, str(s.name)) for s in subjects(folder) if s.name != s.standard)
    marks = folder.type.marks
    mods = tuple(mod.name for mod in folder.type.mods)
    span = whole(TextFile("--on", words))
    which, problems = read_which(words, span, marks, mods, (*folder.type.standards, *everyone))
    if which is None or has_error(problems):
        return None, problems
    said = " ".join(words.split()).casefold()
    unnamed = {one.name for one in everyone if one.name.casefold() not in said}
    return which.names - unnamed, problems


# What the words of a sentence say otherwise than the books or than the claims under them.
_WORDS = frozenset(f"N80{number}" for number in range(1, 8))


def found_wrong(checked: Checked | None, problems: Problems, strict: bool = False) -> bool:
    """Whether a check should end with 1: an error, or a claim that fails (strict: or one that is not settled,
    or a sentence that differs from the books)."""
    if checked is None or has_error(problems):
        return True
    if strict and any(problem.code in _WORDS for problem in problems):
        return True
    return any(is_wrong(verdict, strict) for verdict in checked.verdicts())
