"""systems/*.yaml together: parts from all the files, tied to one another, and the lines between them."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from cutaway.handbook.couplings import tie
from cutaway.handbook.door import admit, block_of, head_span
from cutaway.handbook.head import NO_SOURCES, Head
from cutaway.handbook.lines import read_lines
from cutaway.handbook.lost import lost_from
from cutaway.handbook.media import one_medium
from cutaway.handbook.names import did_you_mean, fold, listed
from cutaway.handbook.nodes import Block, Faulty, Node, Words
from cutaway.handbook.parts import Draft, Surroundings, read_parts
from cutaway.handbook.ports import Kinds
from cutaway.handbook.reading import FolderText
from cutaway.handbook.records import Decided, Group, Line, Lost, Part, PartName, System
from cutaway.handbook.shapes import SystemShape
from cutaway.handbook.whereabouts import Index, index_of
from cutaway.problems.diagnostic import Diagnostic, Problems


@dataclass(frozen=True, slots=True)
class Built:
    """How the aircraft is built."""

    systems: tuple[System, ...]
    parts: tuple[Part, ...]
    lines: tuple[Line, ...]
    groups: tuple[Group, ...]
    index: Index
    lost: tuple[Lost, ...]


@dataclass(frozen=True, slots=True)
class _File:
    """One file of systems/, its head read."""

    system: System
    source: str
    block: Block


def read_systems(
    trees: Mapping[str, Node | None],
    texts: FolderText,
    head: Head,
    kinds: Kinds,
    decided: tuple[Decided, ...],
    broken: frozenset[str],
) -> tuple[Built, Problems]:
    """The systems of all files. broken: names that stand in files which could not be read."""
    files: list[_File] = []
    drafts: list[Draft] = []
    left_out = broken
    problems: Problems = ()
    for path, root in trees.items():
        file, more = _file(path, root, texts, head)
        problems += more
        if file is None:
            continue
        files.append(file)
        around = Surroundings(_without(file.source, head), kinds, decided, file.system.name, file.source)
        some, lost, more = read_parts(file.block.get("parts"), around)
        drafts.extend(some)
        left_out |= lost
        problems += more
    single, more = _each_once(tuple(drafts))
    problems += more
    left_out |= {fold(draft.part.name) for draft in drafts if draft not in single}
    parts, left_out, more = tie(single, kinds, left_out)
    problems += more
    index = index_of(parts, kinds, left_out)
    lines: tuple[Line, ...] = ()
    for file in files:
        some_lines, more = read_lines(
            file.block.get("lines"), file.system.name, file.source, _without(file.source, head), index
        )
        lines += some_lines
        problems += more
    lines, more = one_medium(lines, parts, index)
    problems += more
    groups, more = _groups(parts, index)
    lost_ones = lost_from(trees.values(), lines, kinds, index)
    return Built(tuple(file.system for file in files), parts, lines, groups, index, lost_ones), problems + more


def _file(path: str, root: Node | None, texts: FolderText, head: Head) -> tuple[_File | None, Problems]:
    file = texts.file(path)
    assert file is not None
    if root is None or isinstance(root, Faulty):
        return None, ()
    block, problems = block_of(root, path)
    if block is None:
        return None, problems
    shape, problems = admit(SystemShape, block, path)
    name = shape.system if shape else _text(block, "system") or path.removeprefix("systems/").removesuffix(".yaml")
    source = shape.source if shape else _text(block, "source")
    known = next((key for key in head.sources if fold(key) == fold(source)), "")
    if source and not known:
        if fold(source) not in head.unread:
            place = block.get("source")
            span = place.span if place else head_span(block)
            hint = did_you_mean(source, head.sources) or NO_SOURCES
            problems += (Diagnostic("H202", span, f"There is no source '{source}'.", hint),)
        known = source
    system = System(" ".join(name.split()), shape.says if shape else "", head_span(block))
    return _File(system, known, block), problems


def _without(source: str, head: Head) -> Head:
    """The head for a file whose source is not there: it is told once, not at each of its paragraphs."""
    missing = source and fold(source) not in {fold(key) for key in head.sources}
    return replace(head, unread=head.unread | {fold(source)}) if missing else head


def _text(block: Block, key: str) -> str:
    node = block.get(key)
    return node.text if isinstance(node, Words) else ""


def _each_once(drafts: tuple[Draft, ...]) -> tuple[tuple[Draft, ...], Problems]:
    """The drafts without those that stand for a standard which another of the same name has already."""
    kept: list[Draft] = []
    problems: Problems = ()
    by_name: dict[str, list[Draft]] = {}
    for draft in drafts:
        same = by_name.setdefault(fold(draft.part.name), [])
        other = next((one for one in same if one.part.on.names & draft.part.on.names), None)
        if other is None:
            same.append(draft)
            kept.append(draft)
            continue
        both = listed(sorted(other.part.on.names & draft.part.on.names))
        problems += (
            Diagnostic(
                "H306",
                draft.part.span,
                f"{draft.part.name} is written twice for {both}; the second is left out.",
                "Say with 'on' which is for which mark, or give one of them another name.",
                ((other.part.span, "it is written first here:"),),
            ),
        )
    return tuple(kept), problems


def _groups(parts: tuple[Part, ...], index: Index) -> tuple[tuple[Group, ...], Problems]:
    members: dict[str, list[PartName]] = {}
    names: dict[str, str] = {}
    problems: Problems = ()
    for part in parts:
        if not part.group:
            continue
        key = fold(part.group)
        names.setdefault(key, part.group)
        own = members.setdefault(key, [])
        if part.name not in own:
            own.append(part.name)
        if key in index.parts and not any(p.code == "H331" and part.group in p.message for p in problems):
            hint = f"Call the group {part.group}s, or otherwise than the part."
            message = f"'{part.group}' is the name of a group and of a part."
            problems += (Diagnostic("H331", part.span, message, hint),)
    return tuple(Group(names[key], tuple(own)) for key, own in members.items() if key not in index.parts), problems
