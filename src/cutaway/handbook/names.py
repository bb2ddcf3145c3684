"""How names of the folder are compared, and what to offer for one that is not known."""

from collections.abc import Iterable

from rapidfuzz import fuzz, process


def fold(name: str) -> str:
    """A name as it is compared: without regard to case and to the width of its spaces."""
    return " ".join(name.split()).lower()


def nearest(word: str, choices: Iterable[str], least: float = 72.0) -> str:
    """The choice that the word was most likely meant to be, '' if none is near."""
    known = list(dict.fromkeys(choices))
    found = process.extractOne(fold(word), [fold(choice) for choice in known], scorer=fuzz.ratio, score_cutoff=least)
    return known[found[2]] if found else ""


def did_you_mean(word: str, choices: Iterable[str]) -> str:
    """A hint for a word that is not known: the near miss, or else what there is to choose from."""
    known = list(dict.fromkeys(choices))
    near = nearest(word, known)
    if near:
        return f"Did you mean {near}?"
    if not known:
        return ""
    if len(known) > 12:
        return f"Write one of {listed(known[:12])}, or another that is there."
    return f"Write {listed(known, 'or')}."


def missing_situation(name: str) -> str:
    """A hint for a folder that has no situation to choose from."""
    return f"Write it into situations.yaml: situations: {{{name}: {{says: …}}}}"


def a(noun: str) -> str:
    """A noun with its article: 'a tank', 'an engine', 'a one-way restrictor'."""
    begins = noun.lower()
    return f"an {noun}" if begins[:1] in {*"aeiou"} and not begins.startswith("one") else f"a {noun}"


def listed(words: Iterable[str], last: str = "and") -> str:
    """Words as a sentence lists them: 'inlet, outlet and drain'."""
    many = list(words)
    if len(many) < 2:
        return "".join(many)
    return f"{', '.join(many[:-1])} {last} {many[-1]}"


def one_line(words: str) -> str:
    """Words as they read on one line, with single blanks."""
    return " ".join(words.split())
