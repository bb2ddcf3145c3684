"""sheets/*.yaml: sheets of the author's own, each with what it shows and how it is laid out."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from cutaway.handbook.door import admit, several_of
from cutaway.handbook.head import Head, read_on
from cutaway.handbook.names import did_you_mean, fold, listed, missing_situation, one_line
from cutaway.handbook.nodes import Block, Faulty, Items, Node, Words
from cutaway.handbook.records import Drill, Group, LeftOut, PartName, Sheet, Situation, System
from cutaway.handbook.shapes import LeftOutShape, SheetShape
from cutaway.handbook.sheet_runs import RunsKnown, asks_for_run, read_run
from cutaway.handbook.whereabouts import Index
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span

LONGEST = 90
"""Letters of a name that fit in two lines above a sheet of any shape."""


@dataclass(frozen=True, slots=True)
class Known:
    """What a sheet can name."""

    head: Head
    index: Index
    groups: Mapping[str, Group]
    systems: Mapping[str, str]
    situations: Mapping[str, str]
    lost: frozenset[str]
    runs: RunsKnown


def read_sheets(
    trees: Iterable[Node | None],
    head: Head,
    index: Index,
    groups: Iterable[Group],
    systems: Iterable[System],
    situations: Iterable[Situation],
    lost: frozenset[str],
    drills: Iterable[Drill] = (),
) -> tuple[tuple[Sheet, ...], Problems]:
    """The sheets in the order of their files. One without anything to show is left out, and so is a second of a name.

    lost: names of situations and drills that could not be read, of which nobody is told again.
    """
    known = Known(
        head,
        index,
        {fold(one.name): one for one in groups},
        {fold(one.name): one.name for one in systems},
        {fold(one.name): one.name for one in situations},
        lost,
        RunsKnown({fold(name): one for one in drills for name in (one.title, one.name)}, lost),
    )
    found: dict[str, Sheet] = {}
    problems: Problems = ()
    for tree in trees:
        if tree is None or isinstance(tree, Faulty):
            continue
        sheet, more = _sheet(tree, known)
        problems += more
        if sheet is None:
            continue
        first = found.setdefault(fold(sheet.name), sheet)
        if first is not sheet:
            problems += (_second(first, sheet),)
    return tuple(found.values()), problems


def _second(first: Sheet, sheet: Sheet) -> Diagnostic:
    message = f"There are two sheets '{sheet.name}', so that only the first is drawn."
    return Diagnostic("H944", sheet.span, message, "Give one of them another name.", ((first.span, "the first:"),))


def _sheet(tree: Node, known: Known) -> tuple[Sheet | None, Problems]:
    shape, problems = admit(SheetShape, tree, "the sheet")
    if shape is None or not isinstance(tree, Block):
        return None, problems
    key = tree.get("sheet")
    assert isinstance(key, Words)
    name = one_line(shape.sheet)
    if len(name) > LONGEST:
        problems += (_too_long(name, key.span),)
    which, more = read_on(tree.get("on"), known.head, airframes=True)
    systems, some = _systems(tree.get("system"), known)
    problems += more + some
    parts, more = _parts(tree.get("parts"), name, known)
    left_out, some = _left_out(tree.get("leave out"), name, known)
    problems += more + some
    columns, more = _columns(tree.get("columns"), name, known)
    situations, some = _situations(tree.get("in"), known)
    problems += more + some
    run, more = read_run(tree, name, situations, known.runs)
    problems += more
    if which is None or (run is None and asks_for_run(tree)):
        return None, problems
    if not systems and not parts:
        if not problems:
            hint = "Write system: and the name of a system, or parts: and the names of parts."
            problems = (Diagnostic("H941", key.span, f"The sheet '{name}' names nothing that it shows.", hint),)
        return None, problems
    return (
        Sheet(
            name, one_line(shape.says), systems, parts, left_out, which, shape.shape, shape.folded == "yes",
            shape.stations == "yes", columns, situations if run is None else (run.situation,), key.span, run,
        ),
        problems,
    )  # fmt: skip


def _too_long(name: str, span: Span) -> Diagnostic:
    message = f"The name '{name}' has {len(name)} letters, too many for two lines above a sheet."
    return Diagnostic("H945", span, message, f"Write no more than {LONGEST} letters, and the rest under 'says'.")


def _systems(node: Node | None, known: Known) -> tuple[tuple[str, ...], Problems]:
    found: list[str] = []
    problems: Problems = ()
    for one in _each(node):
        system = known.systems.get(fold(one.text))
        if system is not None:
            found.append(system)
            continue
        message = f"A sheet names the system '{one_line(one.text)}', but there is no such system."
        problems += (Diagnostic("H942", one.span, message, did_you_mean(one.text, known.systems.values())),)
    return tuple(found), problems


def _situations(node: Node | None, known: Known) -> tuple[tuple[str, ...], Problems]:
    found: list[str] = []
    problems: Problems = ()
    for one in _each(node):
        situation = known.situations.get(fold(one.text))
        if situation is not None:
            found.append(situation)
        elif fold(one.text) not in known.lost:
            message = f"A sheet is to show '{one_line(one.text)}', but there is no such situation."
            hint = did_you_mean(one.text, known.situations.values()) or missing_situation(one_line(one.text))
            problems += (Diagnostic("H943", one.span, message, hint),)
    return tuple(found), problems


def _parts(node: Node | None, sheet: str, known: Known) -> tuple[tuple[PartName, ...], Problems]:
    found: list[PartName] = []
    problems: Problems = ()
    for one in _each(node):
        parts, more = _named(one, sheet, known)
        found += parts
        problems += more
    return tuple(dict.fromkeys(found)), problems


def _named(one: Words, sheet: str, known: Known) -> tuple[tuple[PartName, ...], Problems]:
    """The part of a name, or the members of a group."""
    part, group = known.index.parts.get(fold(one.text)), known.groups.get(fold(one.text))
    if part:
        return (part[0].name,), ()
    if group:
        return group.members, ()
    if fold(one.text) in known.index.left_out:
        return (), ()
    message = f"The sheet '{sheet}' names '{one_line(one.text)}', but there is no such part."
    names = [*known.index.names(), *(group.name for group in known.groups.values())]
    return (), (Diagnostic("H940", one.span, message, did_you_mean(one.text, names)),)


def _left_out(node: Node | None, sheet: str, known: Known) -> tuple[tuple[LeftOut, ...], Problems]:
    found: list[LeftOut] = []
    problems: Problems = ()
    for item in several_of(node):
        shape, more = admit(LeftOutShape, item, f"what the sheet {sheet} leaves out")
        problems += more
        words = item.get("part") if isinstance(item, Block) else None
        if shape is None or not isinstance(words, Words):
            continue
        parts, more = _named(words, sheet, known)
        problems += more
        found += [LeftOut(part, one_line(shape.because)) for part in parts]
    return tuple(found), problems


def _columns(node: Node | None, sheet: str, known: Known) -> tuple[tuple[tuple[PartName, ...], ...], Problems]:
    found: list[tuple[PartName, ...]] = []
    problems: Problems = ()
    seen: set[PartName] = set()
    for column in node.items if isinstance(node, Items) else ():
        parts, more = _parts(column, sheet, known)
        problems += more
        twice = [part for part in parts if part in seen]
        if twice:
            message = f"The sheet '{sheet}' has {listed(twice)} in two columns."
            problems += (Diagnostic("H946", column.span, message, "Name each part once."),)
        found.append(tuple(part for part in parts if part not in seen))
        seen |= set(parts)
    return tuple(column for column in found if column), problems


def _each(node: Node | None) -> Sequence[Words]:
    return [one for one in several_of(node) if isinstance(one, Words) and not one.empty]
