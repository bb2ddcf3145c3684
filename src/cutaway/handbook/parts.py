"""The parts of one file of systems/: each block read against its kind. What they are tied to is resolved afterwards."""

import re
from dataclasses import dataclass, replace

from cutaway.handbook.door import block_of, form, has_faulty, several_of, words_of, wrong_form
from cutaway.handbook.doubts import Owner, likely_paragraphs
from cutaway.handbook.either import both_given
from cutaway.handbook.head import Head, read_cites, read_on
from cutaway.handbook.names import a, did_you_mean, fold, listed, nearest
from cutaway.handbook.nodes import Block, Entry, Faulty, Items, Node, Words
from cutaway.handbook.orders import out_of_order
from cutaway.handbook.part_tables import read_table
from cutaway.handbook.ports import Kinds
from cutaway.handbook.records import Decided, Part, PartName, TableValue, Value
from cutaway.handbook.repeats import repeats
from cutaway.handbook.rules import read_rules
from cutaway.handbook.values import CITATION_CODES, read_value
from cutaway.parts.kind import Coupling, Kind
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span
from cutaway.quantities.which import Which

COMMON_KEYS: tuple[tuple[str, str], ...] = (
    ("kind", "What sort of part it is, from the library of kinds."),
    ("on", "The standards that have it."),
    ("cite", "The paragraphs that describe it."),
    ("caution", "What must be said whenever it is shown."),
    ("says", "A sentence about it."),
    ("at", "Where it is in the aircraft."),
    ("marked", "What is painted on it or beside it."),
    ("worked by", "Who works it."),
    ("group", "A name for this part and others of its sort together."),
    ("rules", "Which movements are barred, and what a movement brings with it."),
    ("for each", "A word and the items that stand in its place: the block is repeated for each."),
)
_TEXT_KEYS = ("caution", "says", "at", "marked", "group")
_NAME = re.compile(r"^[\w(][\w '’.&()/+-]*$")


@dataclass(frozen=True, slots=True)
class Pending:
    """A coupling as written, not yet resolved. on None: nothing was said."""

    coupling: Coupling
    target: Words
    condition: str
    on: Which | None


@dataclass(frozen=True, slots=True)
class Draft:
    """A part whose couplings are not yet resolved."""

    part: Part
    kind: Kind
    pending: tuple[Pending, ...]


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What the parts of one file are read with: the type and books, the kinds, what was decided, system and source."""

    head: Head
    kinds: Kinds
    decided: tuple[Decided, ...]
    system: str
    source: str


def read_parts(node: Node | None, around: Surroundings) -> tuple[tuple[Draft, ...], frozenset[str], Problems]:
    """The parts of a file, the names of those left out (in lower case), and what is wrong."""
    block, problems = block_of(node, "'parts'")
    drafts: list[Draft] = []
    lost: set[str] = set()
    for entry in block.entries if block else ():
        for one in _blocks(entry.value):
            made, names, more = _repeated(entry.key, one, around)
            drafts.extend(made)
            lost |= names
            problems += more
    return tuple(drafts), frozenset(lost), problems


def _blocks(node: Node) -> tuple[Node, ...]:
    return node.items if isinstance(node, Items) and node.items else (node,)


def _repeated(key: Words, node: Node, around: Surroundings) -> tuple[tuple[Draft, ...], set[str], Problems]:
    if not isinstance(node, Block):
        return (), {fold(key.text)}, () if isinstance(node, Faulty) else (_not_a_block(key, node, around),)
    turns, problems = repeats(key, node)
    drafts: list[Draft] = []
    lost: set[str] = set() if turns else {fold(key.text)}
    told: set[tuple[str, Span | None]] = set()
    for place, turn in enumerate(turns):
        draft, more = _read_part(turn.name, turn.block, around)
        if draft is None:
            lost |= {fold(turn.name.text), *_group(turn.block)}
        else:
            drafts.append(draft)
        # A mistake in a repeated block is told for its first turn, not once a turn.
        problems += more if not place else tuple(p for p in more if (p.code, p.span) not in told)
        told |= {(p.code, p.span) for p in more}
    return tuple(drafts), lost, problems


def _group(block: Block) -> set[str]:
    """The group of a part that is left out: it may have had no other member."""
    said = block.get("group")
    return {fold(said.text)} if isinstance(said, Words) else set()


def _read_part(key: Words, block: Block, around: Surroundings) -> tuple[Draft | None, Problems]:
    name = " ".join(key.text.split())
    kind, problems = _kind(name, key, block, around.kinds)
    if not _NAME.match(name):
        problems += (_bad_name(key, name),)
    if kind is None:
        return None, problems
    on, more = read_on(block.get("on"), around.head)
    problems += more
    if on is None:
        return None, problems
    cites, more = read_cites(block.get("cite"), around.head, around.source)
    problems += more
    owner = Owner(name, kind.name, on, cites, around.source)
    reading = _Reading(block, kind, owner, around)
    values, more = reading.values(key)
    problems += more + out_of_order(values, kind, owner) + both_given(values, kind, owner)
    lists, more = reading.lists(key)
    problems += more
    tables, more = reading.tables()
    problems += more
    pending, more = reading.couplings()
    problems += more
    texts, more = reading.texts()
    problems += more + reading.unknown_keys()
    part = Part(
        PartName(name), kind.name, around.system, on, values, lists, (), (), texts["at"], texts["marked"],
        texts["worked by"], texts["says"], texts["caution"] or kind.caution, texts["group"], cites, key.span, tables,
    )  # fmt: skip
    rules, more = read_rules(block.get("rules"), part, kind)
    problems += more
    if any(p.severity == "error" and p.code not in CITATION_CODES for p in problems) or _spoilt(block):
        return None, problems
    return Draft(replace(part, rules=rules), kind, pending), problems


def _spoilt(block: Block) -> bool:
    """Whether something in the block was told already; a faulty citation spoils nothing."""
    return any(has_faulty(entry.value) for entry in block.entries if fold(entry.key.text) != "cite")


def _kind(name: str, key: Words, block: Block, kinds: Kinds) -> tuple[Kind | None, Problems]:
    words, problems = words_of(block.get("kind"), f"'kind' of {name}")
    if words is None or words.empty:
        if problems or isinstance(block.get("kind"), Faulty):
            return None, problems
        inside = sorted((k for k in kinds if fold(k) in fold(name)), key=len)
        near = inside[-1] if inside else nearest(name, kinds, 60.0)
        hint = f"Add kind: {near}" if near else f"Add kind: … ({listed(list(kinds)[:6], 'or')}, among others)"
        return None, (Diagnostic("H309", key.span, f"'{name}' does not say of which kind it is.", hint),)
    kind = next((kind for known, kind in kinds.items() if fold(known) == fold(words.text)), None)
    if kind is not None:
        return kind, ()
    hint = _kind_hint(words.text, kinds)
    return None, (Diagnostic("H301", words.span, f"There is no kind '{words.text}'.", hint),)


def _kind_hint(text: str, kinds: Kinds) -> str:
    near = nearest(text, kinds, 80.0)
    if near:
        return f"Did you mean {near}?"
    # A 'stop cock' is most likely some cock: what a thing is stands in its last word.
    last = fold(text).split()[-1] if text.split() else ""
    like = sorted((known for known in kinds if last and last in fold(known)), key=lambda known: fold(known) != last)
    if like:
        return f"Did you mean {listed(like[:5], 'or')}?"
    return did_you_mean(text, kinds)


class _Reading:
    """The parts of one block, read one after another. It lives for one block."""

    def __init__(self, block: Block, kind: Kind, owner: Owner, around: Surroundings) -> None:
        self.block, self.kind, self.owner, self.around = block, kind, owner, around

    def values(self, key: Words) -> tuple[tuple[Value, ...], Problems]:
        values: list[Value] = []
        problems: Problems = ()
        for want in self.kind.wants:
            entry = self.block.entry(want.name)
            if entry is None:
                if not want.default:
                    problems += (self._missing(want.name, key, self.owner.on),)
                continue
            if isinstance(entry.value, Faulty):
                continue
            value, more = read_value(want, entry, self.owner, self.around.head, self.around.decided)
            problems += more
            if value is None:
                continue
            values.append(value)
            given = frozenset().union(*(one.on.names for one in value.givens)) if value.givens else frozenset()
            rest = self.owner.on.names - given
            if rest and not want.default:
                problems += (self._missing(want.name, entry.key, Which("", frozenset(rest))),)
        return tuple(values), problems

    def _missing(self, name: str, key: Words, on: Which) -> Diagnostic:
        want = next(want for want in self.kind.wants if want.name == name)
        partly = "" if on.names == self.owner.on.names else f" for {listed(sorted(on.names))}"
        likely = likely_paragraphs(self.around.head, self.owner.name, want)
        look = f" Look in {listed(likely, 'or')}." if likely else ""
        return Diagnostic(
            "H303",
            key.span,
            f"{self.owner.name} has no '{name}'{partly}: {want.says[:1].lower()}{want.says[1:].rstrip('.')}.",
            f"Add {name}: with the figure and its unit ({want.dimension}).{look}",
        )

    def lists(self, key: Words) -> tuple[tuple[tuple[str, tuple[str, ...]], ...], Problems]:
        lists: list[tuple[str, tuple[str, ...]]] = []
        problems: Problems = ()
        for name in self.kind.lists:
            items: dict[str, str] = {}
            node = self.block.get(name)
            for item in several_of(node):
                if isinstance(item, Words) and not item.empty:
                    if fold(item.text) in items:
                        problems += (_listed_twice(item, name, self.owner.name),)
                    items.setdefault(fold(item.text), " ".join(item.text.split()))
                elif not isinstance(item, Faulty):
                    problems += (wrong_form(item, f"'{name}' of {self.owner.name}", "a list of names"),)
            if not items and not isinstance(node, Faulty) and not problems:
                message = f"{self.owner.name} does not say what its {name} are."
                hint = f"Add {name}: [first, second]"
                problems += (Diagnostic("H320", key.span, message, hint),)
            lists.append((name, tuple(items.values())))
        return tuple(lists), problems

    def tables(self) -> tuple[tuple[TableValue, ...], Problems]:
        tables: list[TableValue] = []
        problems: Problems = ()
        for want in self.kind.tables:
            entry = self.block.entry(want.name)
            if entry is not None and not isinstance(entry.value, Faulty):
                table, more = read_table(want, entry, self.owner, self.around.head)
                tables += (table,) if table is not None else ()
                problems += more
        return tuple(tables), problems

    def couplings(self) -> tuple[tuple[Pending, ...], Problems]:
        pending: list[Pending] = []
        problems: Problems = ()
        for coupling in self.kind.couplings:
            for node in several_of(self.block.get(coupling.name)):
                some, more = self._coupling(coupling, node)
                pending.extend(some)
                problems += more
        return tuple(pending), problems

    def _coupling(self, coupling: Coupling, node: Node) -> tuple[tuple[Pending, ...], Problems]:
        """Short: a name. Long: {is: name, on: Mk 1}. With a condition: {throttle: below 30 %}."""
        what = f"'{coupling.name}' of {self.owner.name}"
        if isinstance(node, Words):
            return (Pending(coupling, node, "", None),), ()
        if isinstance(node, Faulty):
            return (), ()
        if not isinstance(node, Block) or not node.entries:
            return (), (wrong_form(node, what, "the name of a part"),)
        target = node.get("is")
        if target is not None:
            wrong = tuple(e for e in node.entries if fold(e.key.text) not in ("is", "on", "cite"))
            if not isinstance(target, Words) or wrong:
                key = wrong[0].key.text if wrong else form(target)
                message = f"{what[0].upper()}{what[1:]} has '{key}', which is not understood here."
                return (), (Diagnostic("H110", node.span, message, f"Write {coupling.name}: {{is: part, on: Mk 1}}"),)
            on, problems = read_on(node.get("on"), self.around.head)
            if on is None:
                return (), problems
            return (Pending(coupling, target, "", on if node.get("on") else None),), problems
        pending: list[Pending] = []
        for entry in node.entries:
            if not isinstance(entry.value, Words):
                more = (
                    () if isinstance(entry.value, Faulty) else (wrong_form(entry.value, what, "a condition in words"),)
                )
                return (), more
            pending.append(Pending(coupling, entry.key, entry.value.text, None))
        return tuple(pending), ()

    def texts(self) -> tuple[dict[str, str], Problems]:
        texts: dict[str, str] = {}
        problems: Problems = ()
        own = {fold(coupling.name) for coupling in self.kind.couplings}
        for key in (*_TEXT_KEYS, "worked by"):
            words, more = (
                words_of(self.block.get(key), f"'{key}' of {self.owner.name}") if key not in own else (None, ())
            )
            texts[key] = " ".join(words.text.split()) if words else ""
            problems += more
        return texts, problems

    def unknown_keys(self) -> Problems:
        known = own_keys(self.kind)
        folded = {fold(key) for key in (*known, *(key for key, _ in COMMON_KEYS))}
        strange = (entry for entry in self.block.entries if fold(entry.key.text) not in folded)
        return tuple(self._unknown_key(entry, known) for entry in strange)

    def _unknown_key(self, entry: Entry, known: tuple[str, ...]) -> Diagnostic:
        near = nearest(entry.key.text, (*known, *(key for key, _ in COMMON_KEYS)))
        one = a(self.kind.name).capitalize()
        has = f"{one} has {listed(known)}." if known else f"{one} has no figures of its own."
        return Diagnostic(
            "H302",
            entry.key.span,
            f"'{entry.key.text}' is not an entry of {self.owner.name}, which is {a(self.kind.name)}.",
            f"Did you mean {near}? {has}" if near else has,
        )


def own_keys(kind: Kind) -> tuple[str, ...]:
    """The keys that a part of this kind has besides the common ones."""
    couplings = (coupling.name for coupling in kind.couplings)
    return (*(want.name for want in kind.wants), *kind.lists, *(table.name for table in kind.tables), *couplings)


def _not_a_block(key: Words, node: Node, around: Surroundings) -> Diagnostic:
    if isinstance(node, Words) and not node.empty:
        near = nearest(node.text, around.kinds)
        hint = f"Write {key.text}: {{kind: {near or node.text}}}"
    else:
        hint = f"Write {key.text}: {{kind: …}}"
    return Diagnostic("H309", key.span, f"'{key.text}' does not say of which kind it is.", hint)


def _bad_name(key: Words, name: str) -> Diagnostic:
    if re.search(r"<[^<>]+>", name):
        hint = "Say what stands for the words in < >: for each: {side: [port, starboard]}"
    else:
        hint = "Write " + (" ".join(re.sub(r"[^\w .&()/+-]+", " ", name).split()) or "fuel cock")
    return Diagnostic("H307", key.span, f"'{name}' cannot be the name of a part.", hint)


def _listed_twice(item: Words, name: str, part: str) -> Diagnostic:
    return Diagnostic("H320", item.span, f"'{item.text}' stands twice among the {name} of {part}.", "Take one out.")
