"""What systems/ says and the model lacks for a mistake: parts and lines left out, and what they would have acted on."""

from collections.abc import Iterable, Iterator
from itertools import pairwise

from cutaway.handbook.names import fold
from cutaway.handbook.nodes import Block, Items, Node, Words
from cutaway.handbook.ports import Kinds
from cutaway.handbook.records import Line, Lost, PartName
from cutaway.handbook.repeats import Repeat, repeats
from cutaway.handbook.whereabouts import Index, find
from cutaway.parts.kind import Kind
from cutaway.problems.span import Span, TextFile

_NOWHERE = Span(TextFile("", ""), 0, 0)


def lost_from(trees: Iterable[Node | None], lines: tuple[Line, ...], kinds: Kinds, index: Index) -> tuple[Lost, ...]:
    """The parts and lines left out of the files that could be read, each once."""
    blocks = [root for root in trees if isinstance(root, Block)]
    pairs = [pair for block in blocks for pair in _pairs(block.get("lines"))]
    by_name: dict[str, Lost] = {}
    for block in blocks:
        for turn in _turns(block.get("parts")):
            if fold(turn.name.text) in index.left_out:
                one = _part(turn, pairs, kinds, index)
                before = by_name.get(fold(one.name))
                joins = dict.fromkeys((*(before.joins if before else ()), *one.joins))
                by_name[fold(one.name)] = Lost(one.name, one.kind, tuple(joins))
    made = {(line.start.part, line.end.part) for line in lines}
    for near, far in pairs:
        both = _named(near, index), _named(far, index)
        ends = tuple(end for end in both if end)
        if ends and both not in made and not any(_left_out(words, index) for words in (near, far)):
            name = f"line {near} > {far}"
            by_name.setdefault(fold(name), Lost(name, "", ends))
    return tuple(by_name.values())


def _part(turn: Repeat, pairs: list[tuple[str, str]], kinds: Kinds, index: Index) -> Lost:
    name = " ".join(turn.name.text.split())
    said = _text(turn.block.get("kind"))
    kind = next((one for known, one in kinds.items() if fold(known) == fold(said)), None)
    beside = [there for pair in pairs for here, there in (pair, pair[::-1]) if _is_of(here, name)]
    tied = [words for entry, words in _told(turn.block) if kind is None or entry in _acting(kind)]
    joins = (_named(words, index) for words in (*beside, *tied))
    return Lost(name, kind.name if kind else "", tuple(dict.fromkeys(one for one in joins if one)))


def _acting(kind: Kind) -> set[str]:
    """The couplings by which such a part acts on the other, and does not only take something from it."""
    return {one.name for one in kind.couplings if one.to == "port" or one.back or one.alone}


def _told(block: Block) -> Iterator[tuple[str, str]]:
    """What a part's entry says in words, entry by entry."""
    for entry in block.entries:
        for node in entry.value.items if isinstance(entry.value, Items) else (entry.value,):
            said = _text(node.get("is") if isinstance(node, Block) else node)
            if said:
                yield fold(entry.key.text), said


def _turns(node: Node | None) -> Iterator[Repeat]:
    """Every part's block, those of `for each` with the items put in; an entry that is no block has nothing in it."""
    for entry in node.entries if isinstance(node, Block) else ():
        for one in entry.value.items if isinstance(entry.value, Items) else (entry.value,):
            if isinstance(one, Block):
                turns, _ = repeats(entry.key, one)
                yield from turns
            else:
                yield Repeat(entry.key, Block((), entry.key.span))


def _pairs(node: Node | None) -> Iterator[tuple[str, str]]:
    """The two ends of every line as they are written."""
    for item in node.items if isinstance(node, Items) else ():
        words = item.get("run") if isinstance(item, Block) else item
        if not isinstance(words, Words):
            continue
        turns = repeats(words, item)[0] if isinstance(item, Block) else (Repeat(words, Block((), words.span)),)
        for turn in turns:
            yield from pairwise(" ".join(piece.split()) for piece in turn.name.text.split(">"))


def _named(words: str, index: Index) -> PartName | None:
    """The part, kept, that words name with or without a port."""
    found, _ = find(words, _NOWHERE, index, "") if words else (None, ())
    return found.name if found else None


def _left_out(words: str, index: Index) -> bool:
    """Whether words name a part that is left out, which is told in the line's place."""
    found, problems = find(words, _NOWHERE, index, "")
    return found is None and not problems


def _is_of(words: str, name: str) -> bool:
    return fold(words) == fold(name) or fold(words).startswith(f"{fold(name)}.")


def _text(node: Node | None) -> str:
    return node.text if isinstance(node, Words) else ""
