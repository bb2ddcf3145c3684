"""situations.yaml: what is set, given and started from, with every control and position looked up."""

from collections.abc import Callable
from dataclasses import replace

from cutaway.handbook.door import admit, block_of
from cutaway.handbook.limits import over_full
from cutaway.handbook.names import a, did_you_mean, fold, listed
from cutaway.handbook.nodes import Block, Entry, Faulty, Node, Words
from cutaway.handbook.ports import control_named, positions_of
from cutaway.handbook.records import Part, Setting, Situation
from cutaway.handbook.shapes import SituationShape, SituationsShape
from cutaway.handbook.whereabouts import Index, find
from cutaway.handbook.world import CONDITIONS, out_of_this_world
from cutaway.parts.kind import Control
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error
from cutaway.problems.span import Span
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import to_si
from cutaway.quantities.units import unit_named

# The conditions of the world that a run knows, and what each is measured in.
# How long a model is left alone where the situation does not say, and the longest that can be asked for, s.
SETTLE = 120.0
LONGEST = 86_400.0

_Read = Callable[[Entry, Index], tuple[Setting | None, Problems]]


def read_situations(root: Node | None, index: Index) -> tuple[tuple[Situation, ...], frozenset[str], Problems]:
    """The situations in order, and the names of those left out."""
    if root is None or isinstance(root, Faulty):
        return (), frozenset(), ()
    shape, problems = admit(SituationsShape, root, "situations.yaml")
    node = root.get("situations") if isinstance(root, Block) else None
    if shape is None and not isinstance(node, Block):
        return (), frozenset(), problems
    block, more = block_of(node, "'situations'")
    problems += more
    read: list[Situation] = []
    lost: set[str] = set()
    for entry in block.entries if block else ():
        situation, more = _situation(entry, index)
        problems += more
        if situation is None:
            lost.add(fold(entry.key.text))
        else:
            read.append(situation)
    kept, fallen, more = _with_bases(tuple(read), block, frozenset(lost))
    return kept, fallen, problems + more


def _situation(entry: Entry, index: Index) -> tuple[Situation | None, Problems]:
    name = " ".join(entry.key.text.split())
    if isinstance(entry.value, Words) and entry.value.empty:
        return Situation(name, "", "", (), (), (), SETTLE, entry.key.span), ()
    shape, problems = admit(SituationShape, entry.value, f"the situation {name}")
    if shape is None or not isinstance(entry.value, Block):
        return None, problems
    groups: list[tuple[Setting, ...]] = []
    failed = False
    for key, read in (("set", _set), ("given", _given), ("start", _start)):
        settings, bad, more = _settings(entry.value.get(key), read, index)
        groups.append(settings)
        problems += more
        failed = failed or bad
    settle, more = _settle(entry.value.get("settle"), name)
    problems += more
    if failed or settle is None:
        return None, problems
    base = " ".join(shape.from_.split())
    says = " ".join(shape.says.split())
    return Situation(name, says, base, groups[0], groups[1], groups[2], settle, entry.key.span), problems


def _settings(node: Node | None, read: _Read, index: Index) -> tuple[tuple[Setting, ...], bool, Problems]:
    """The settings of one heading, whether any was wrong, and what is wrong."""
    settings: list[Setting] = []
    problems: Problems = ()
    failed = False
    for entry in node.entries if isinstance(node, Block) else ():
        if isinstance(entry.value, Faulty):
            failed = True
            continue
        setting, more = read(entry, index)
        problems += more
        failed = failed or has_error(more)
        if setting is not None:
            settings.append(setting)
    return tuple(settings), failed, problems


def _set(entry: Entry, index: Index) -> tuple[Setting | None, Problems]:
    """`tank selector: port tank`, `throttle: 60 %`, `engine starter: pressed`."""
    assert isinstance(entry.value, Words)
    where, problems = _control(entry.key, index)
    if where is None:
        return None, problems
    name, control, parts = where
    words = entry.value
    positions = tuple(dict.fromkeys(p for part in parts for p in positions_of(control, part)))
    position = next((p for p in positions if fold(p) == fold(words.text)), "")
    if position:
        return Setting(name, entry.key.span, position, words.span, None), ()
    if control.ranged and words.text.strip()[:1].isdigit():
        quantity, problems = read_quantity(words.text, words.span, "fraction")
        if quantity is None:
            return None, problems
        if not 0.0 <= to_si(quantity) <= 1.0:
            message = f"{name} moves from 0 % to 100 %, so not to {words.text}."
            return None, (Diagnostic("H404", words.span, message, "Write a figure between the two, such as 60 %."),)
        return Setting(name, entry.key.span, words.text, words.span, quantity), problems
    ranged = "or any figure from 0 % to 100 %" if control.ranged else ""
    hint = did_you_mean(words.text, positions) if not ranged else f"Write {listed(positions, 'or')}, {ranged}."
    return None, (Diagnostic("H404", words.span, f"{name} has no position '{words.text}'.", hint),)


def _control(key: Words, index: Index) -> tuple[tuple[str, Control, tuple[Part, ...]] | None, Problems]:
    """The control that a key names: a part with one control, `part.control` or `part control`."""
    text = " ".join(key.text.split())
    if fold(text) not in index.parts:
        for at in (i for i, letter in enumerate(text) if letter == " "):
            parts = index.parts.get(fold(text[:at]), ())
            control = next((c for p in parts if (c := control_named(text[at + 1 :], index.kind(p)))), None)
            if control is not None and control.name:
                return (f"{parts[0].name}.{control.name}", control, parts), ()
            if fold(text[:at]) in index.left_out:
                return None, ()
    found, problems = find(text, key.span, index, "'set'")
    if found is None:
        return None, tuple(_as_control(problem, key, index) for problem in problems)
    control = next((c for part in found.parts if (c := control_named(found.inner, index.kind(part)))), None)
    if control is None:
        return None, (_no_control(found.name, found.inner, found.parts, key, index),)
    name = f"{found.name}.{control.name}" if control.name else found.name
    return (name, control, found.parts), ()


def _as_control(problem: Diagnostic, key: Words, index: Index) -> Diagnostic:
    """For a name that is not known: the nearest thing that can be moved."""
    names = [
        f"{part.name} {control.name}".strip()
        for parts in index.parts.values()
        for part in parts[:1]
        for control in index.kind(part).controls
    ]
    return Diagnostic("H403", problem.span, f"There is no control '{key.text}'.", did_you_mean(key.text, names))


def _no_control(name: str, inner: str, parts: tuple[Part, ...], key: Words, index: Index) -> Diagnostic:
    controls = [control for part in parts for control in index.kind(part).controls]
    own = list(dict.fromkeys(f"{name} {control.name}".strip() for control in controls))
    if not own:
        movable = listed([p[0].name for p in index.parts.values() if index.kind(p[0]).controls][:8], "or")
        message = f"{name} is {a(parts[0].kind)}: it has nothing that can be set."
        return Diagnostic("H403", key.span, message, f"Set what works it: {movable}." if movable else "Take it out.")
    said = f"no control '{inner}'" if inner else "several controls"
    return Diagnostic("H403", key.span, f"{name} has {said}.", f"Write {listed(own, 'or')}.")


def _given(entry: Entry, index: Index) -> tuple[Setting | None, Problems]:
    """`height: 3000 ft`."""
    assert isinstance(entry.value, Words)
    known = next((one for one in CONDITIONS if one.name == fold(entry.key.text)), None)
    if known is None:
        hint = did_you_mean(entry.key.text, [one.name for one in CONDITIONS])
        if fold(entry.key.text) in index.parts:
            hint = "What the crew moves stands under set:, what a part holds under start:."
        return None, (Diagnostic("H405", entry.key.span, f"'{entry.key.text}' is not a condition of the world.", hint),)
    quantity, problems = read_quantity(entry.value.text, entry.value.span, known.dimension)
    if quantity is None:
        return None, problems
    if out_of_this_world(known, quantity):
        message = f"There is no {known.name} of {quantity.text}."
        return None, (Diagnostic("H408", entry.value.span, message, f"Write a figure from {known.words}."),)
    return Setting(known.name, entry.key.span, entry.value.text, entry.value.span, quantity), problems


def _start(entry: Entry, index: Index) -> tuple[Setting | None, Problems]:
    """`port tank: 18 gal`."""
    assert isinstance(entry.value, Words)
    found, problems = find(entry.key.text, entry.key.span, index, "'start'")
    if found is None:
        return None, problems
    content = next((c for part in found.parts for c in index.kind(part).contents), None)
    if content is None or found.inner:
        holders = [p[0].name for p in index.parts.values() if index.kind(p[0]).contents]
        message = f"{entry.key.text} is {a(found.parts[0].kind)}: it holds nothing that could be given a start."
        if found.inner:
            return None, (Diagnostic("H406", entry.key.span, message, f"Write {found.name}: {entry.value.text}"),)
        hint = f"Give a start to {listed(holders[:8], 'or')}." if holders else "Take it out."
        return None, (Diagnostic("H406", entry.key.span, message, hint),)
    own = [r.unit for part in found.parts for r in index.kind(part).readings if r.dimension == content.dimension]
    like = unit_named(own[0]) if own else None
    quantity, problems = read_quantity(entry.value.text, entry.value.span, content.dimension, like)
    if quantity is None:
        return None, problems
    problems += tuple(one for part in found.parts for one in over_full(part, index.kind(part), quantity, entry.value))[
        :1
    ]
    return Setting(found.name, entry.key.span, entry.value.text, entry.value.span, quantity), problems


def _settle(node: Node | None, name: str) -> tuple[float | None, Problems]:
    if not isinstance(node, Words) or node.empty:
        return SETTLE, ()
    quantity, problems = read_quantity(node.text, node.span, "time")
    if quantity is None:
        return None, problems
    if not 0.0 <= to_si(quantity) <= LONGEST:
        message = f"The situation {name} cannot settle for {node.text}."
        return None, (Diagnostic("H407", node.span, message, "Write a time of up to 24 hours, such as 2 min."),)
    return to_si(quantity), problems


def _with_bases(
    read: tuple[Situation, ...], block: Block | None, lost: frozenset[str]
) -> tuple[tuple[Situation, ...], frozenset[str], Problems]:
    """The situations whose `from` leads to a beginning; the others are told once, at their own mistake."""
    by_name = {fold(situation.name): situation for situation in read}
    problems: Problems = ()
    fallen = set(lost)
    for situation in read:
        base = fold(situation.base)
        if base and base not in by_name and base not in fallen:
            names = [other.name for other in read if other is not situation]
            message = f"The situation {situation.name} goes on from '{situation.base}', which is not there."
            hint = did_you_mean(situation.base, names)
            problems += (Diagnostic("H402", _from(block, situation), message, hint),)
            fallen.add(fold(situation.name))
    for circle in _circles(by_name):
        first = circle[0]
        path = " from ".join([situation.name for situation in circle] + [first.name])
        also = tuple((_from(block, situation), f"{situation.name} goes on from:") for situation in circle[1:])
        message = f"These situations go on from one another in a circle: {path}."
        hint = f"One must begin by itself: take 'from: {first.base}' out of {first.name}."
        problems += (Diagnostic("H401", _from(block, first), message, hint, also),)
        fallen |= {fold(situation.name) for situation in circle}
    while True:
        more = {n for n, s in by_name.items() if n not in fallen and s.base and fold(s.base) in fallen}
        if not more:
            break
        fallen |= more
    kept = tuple(_spelled(s, by_name) for s in read if fold(s.name) not in fallen)
    return kept, frozenset(fallen), problems


def _circles(by_name: dict[str, Situation]) -> tuple[tuple[Situation, ...], ...]:
    circles: list[tuple[Situation, ...]] = []
    done: set[str] = set()
    for start in by_name:
        path: list[str] = []
        at = start
        while at in by_name and at not in done and at not in path:
            path.append(at)
            at = fold(by_name[at].base)
        if at in path:
            circles.append(tuple(by_name[name] for name in path[path.index(at) :]))
        done |= set(path)
    return tuple(circles)


def _spelled(situation: Situation, by_name: dict[str, Situation]) -> Situation:
    base = by_name.get(fold(situation.base))
    if base is None or base.name == situation.base:
        return situation
    return replace(situation, base=base.name)


def _from(block: Block | None, situation: Situation) -> Span:
    entry = block.entry(situation.name) if block else None
    value = entry.value.get("from") if entry and isinstance(entry.value, Block) else None
    return value.span if value is not None else situation.span
