"""Pages to be explored: whether the system, the situation, the standard and the controls that they name are there."""

from collections.abc import Iterable, Iterator

from cutaway.handbook.names import did_you_mean, fold, listed
from cutaway.handbook.records import AskedExplorable, Folder
from cutaway.language.name_index import key
from cutaway.language.words import Words
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span

_STANDARD = "standard or airframe"


def known_explorables(folder: Folder, words: Words) -> tuple[tuple[AskedExplorable, ...], Problems]:
    """The folder's pages to be explored; one that names what there is not is left out and told."""
    told = {one: tuple(_problems(one, folder, words)) for one in folder.explorables}
    kept = tuple(one for one in folder.explorables if not told[one] and not _lost(one, words))
    return kept, tuple(problem for one in folder.explorables for problem in told[one])


def _problems(one: AskedExplorable, folder: Folder, words: Words) -> Iterator[Diagnostic]:
    systems = [system.name for system in folder.systems]
    yield from _unknown("L220", "system", one.system, one.system_at, systems, words)
    situations = list(words.situations.values())
    yield from _unknown("L203", "situation", one.situation, one.situation_at, situations, words)
    standards = [str(standard.name) for standard in folder.type.standards]
    airframes = [str(airframe.name) for airframe in folder.type.airframes]
    yield from _unknown("L220", _STANDARD, one.on, one.on_at, [*standards, *airframes], words)
    for control, span in zip(one.controls, one.controls_at, strict=True):
        yield from _control(control, span, words)


def _unknown(
    code: str, sort: str, written: str, span: Span | None, known: Iterable[str], words: Words
) -> Iterator[Diagnostic]:
    names = list(known)
    if written and fold(written) not in map(fold, names) and key(written) not in words.left_out:
        message = f"There is no {sort} called '{written}'."
        hint = did_you_mean(written, names) or f"The folder has no {sort} yet."
        # Marks are as like as two peas: the nearest would be a guess.
        yield Diagnostic(code, span, message, f"Write {listed(names, 'or')}." if sort == _STANDARD else hint)


def _control(written: str, span: Span, words: Words) -> Iterator[Diagnostic]:
    if key(written) in words.controls or key(written) in words.left_out:
        return
    spoken = {f"{c.ref.part} {c.ref.control}".strip(): c for c in words.controls.values()}
    own = [name for name, c in spoken.items() if key(c.ref.part) == key(written)]
    if own:
        message = f"'{written}' has several controls."
    elif key(written) in words.parts:
        message = f"'{written}' has no control, so that nobody can move it."
    else:
        message = f"There is no control called '{written}'."
    yield Diagnostic("L220", span, message, f"Write {listed(own, 'or')}." if own else did_you_mean(written, spoken))


def _lost(one: AskedExplorable, words: Words) -> bool:
    """Whether it names what was written wrongly elsewhere, of which that has been told."""
    return any(key(name) in words.left_out for name in (one.system, one.situation, *one.controls))
