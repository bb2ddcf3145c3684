"""Twins: sets that are the same but for the item of a `for each:`, so that port and starboard read as one answer."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import permutations

from cutaway.handbook.records import Part
from cutaway.inquiry.search.changes import Alteration, ChangeSet, in_words

Token = tuple[str, str]  # what all of a family share of their names, and the item that is this one's own


@dataclass(frozen=True, slots=True)
class Folded:
    """A set, and the sets that are the same but for their items."""

    first: ChangeSet
    twins: tuple[ChangeSet, ...]


def folded(sets: Iterable[ChangeSet], parts: Mapping[str, Part]) -> tuple[Folded, ...]:
    """The sets in their order, each with its twins; parts that one block made by `for each:` are a family."""
    tokens = tokens_of(parts)
    groups: dict[tuple[tuple[str, ...], ...], list[ChangeSet]] = {}
    for one in sets:
        groups.setdefault(_pattern(one, tokens), []).append(one)
    return tuple(Folded(group[0], tuple(group[1:])) for group in groups.values())


def tokens_of(parts: Mapping[str, Part]) -> dict[str, Token]:
    """For every part of a family its name in two: 'port tank' of the tanks is ('<> tank', 'port')."""
    families: dict[object, list[str]] = {}
    for name, part in parts.items():
        families.setdefault(part.span, []).append(str(name))
    return {name: token for family in families.values() if len(family) > 1 for name, token in _split(family).items()}


def _split(family: Sequence[str]) -> dict[str, Token]:
    """Names in what they share at both ends and what is their own between."""
    words = [name.split() for name in family]
    shortest = min(len(one) for one in words)
    head = next((i for i in range(shortest) if len({one[i] for one in words}) > 1), shortest)
    tail = next((i for i in range(shortest - head) if len({one[-1 - i] for one in words}) > 1), shortest - head)
    found = {}
    for name, one in zip(family, words, strict=True):
        end = len(one) - tail
        found[name] = (" ".join((*one[:head], "<>", *one[end:])), " ".join(one[head:end]))
    return found


def _pattern(one: ChangeSet, tokens: Mapping[str, Token]) -> tuple[tuple[str, ...], ...]:
    """A set with its items numbered, the same for all twins: the least over every numbering of the items."""
    items = sorted({tokens[a.part][1] for a in one if a.part in tokens})
    return min(
        tuple(sorted(_line(a, tokens, dict(zip(items, numbers, strict=True))) for a in one))
        for numbers in permutations(range(len(items)))
    )


def _line(one: Alteration, tokens: Mapping[str, Token], numbers: Mapping[str, int]) -> tuple[str, ...]:
    if one.part not in tokens:
        return ("", "", in_words(one))
    shared, item = tokens[one.part]
    return (shared, str(numbers[item]), in_words(one).replace(one.part, "", 1))
