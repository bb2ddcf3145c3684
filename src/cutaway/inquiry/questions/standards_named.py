"""A set of standards in the shortest words that an `on:` expression has for it."""

from cutaway.problems.diagnostic import has_error
from cutaway.problems.span import TextFile, whole
from cutaway.quantities.which import Standard, StandardName, read_which


def named_shortly(standards: tuple[Standard, ...], names: frozenset[StandardName]) -> str:
    """Words that mean just these of the type's standards: 'Mk 2', 'Mk 1 or Mk 2 without mod 12', 'Mk 2 to Mk 4'."""
    marks = tuple(dict.fromkeys(standard.mark for standard in standards))
    mods = tuple(dict.fromkeys(mod for standard in standards for mod in standard.mods))
    ranges = [f"{a} to {b}" for i, a in enumerate(marks) for b in marks[i + 2 :]]
    parts: list[str] = []
    left = set(names)
    for words in (*ranges, *marks):
        here = _meant(words, standards, marks, mods)
        if here and here <= left:
            parts.append(words)
            left -= here
    for standard in standards:
        if standard.name in left:
            words = _alone(standard, standards, marks, mods)
            here = _meant(words, standards, marks, mods)
            parts.append(words)
            left -= here
    return " or ".join(parts)


def _alone(standard: Standard, standards: tuple[Standard, ...], marks: tuple[str, ...], mods: tuple[str, ...]) -> str:
    """One standard by itself: a mark without a mod that others of the mark have says so."""
    others = tuple(mod for mod in mods if mod not in standard.mods)
    for barred in (others, *((mod,) for mod in others)):
        words = f"{standard.name} without {' and '.join(barred)}" if barred else str(standard.name)
        if _meant(words, standards, marks, mods) == {standard.name}:
            return words
    return str(standard.name)


def _meant(
    words: str, standards: tuple[Standard, ...], marks: tuple[str, ...], mods: tuple[str, ...]
) -> frozenset[StandardName]:
    which, problems = read_which(words, whole(TextFile("", words)), marks, mods, standards)
    return frozenset() if which is None or has_error(problems) else which.names
