"""YAML text as a small tree of frozen nodes, each knowing its place; nothing is turned into numbers or dates.

Read from the parser's events rather than composed: that is faster, and a doubled key, an alias or a too deep nest
is met where it stands. What the parser itself refuses is told by `yaml_faults`.
"""

import re

from ruamel.yaml import YAML
from ruamel.yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)

from cutaway.handbook.names import fold
from cutaway.handbook.nodes import Block, Entry, Faulty, Items, Node, Words
from cutaway.handbook.yaml_faults import comma_hint, fault
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span, TextFile

DEEPEST = 24


class _Stop(Exception):  # noqa: N818 - not an error: leaves the loop over events with what was found so far
    def __init__(self, problem: Diagnostic) -> None:
        super().__init__(problem.message)
        self.problem = problem


def read_tree(file: TextFile, start: int = 0, end: int | None = None) -> tuple[Node | None, Problems]:
    """The tree of a YAML file, or of a stretch of one; None where it is not YAML or holds nothing."""
    text = file.text[start : len(file.text) if end is None else end]
    builder = _Builder(file, start, text)
    if "\t" in text:
        tab = _leading_tab(text)
        if tab is not None:
            return None, (fault(file, start, text, None, tab),)
    try:
        parser = YAML(typ="safe", pure=True)
        for event in parser.parse(text):
            builder.take(event)
    except _Stop as stop:
        return None, (*builder.problems, stop.problem)
    # The parser raises its own errors for what is not YAML, and others (OverflowError, ValueError) for odd escapes.
    except Exception as error:
        # An alias in the middle of a text stops the parser too; it has been told.
        if any(problem.code == "H107" for problem in builder.problems):
            return None, tuple(builder.problems)
        return None, (*builder.problems, fault(file, start, text, error, None))
    return builder.root, tuple(builder.problems)


def _leading_tab(text: str) -> int | None:
    """A tab that indents, or that stands between a key and its value's line."""
    at = 0
    for line in text.split("\n"):
        lead = line[: len(line) - len(line.lstrip(" \t"))]
        if "\t" in lead and line.strip() and not line.lstrip().startswith("#"):
            return at + lead.index("\t")
        at += len(line) + 1
    return None


class _Open:
    """A list or block that is being read."""

    __slots__ = ("children", "end", "faulty", "flow", "is_block", "key", "keys", "start")

    def __init__(self, is_block: bool, start: int, flow: bool) -> None:
        self.is_block, self.start, self.flow = is_block, start, flow
        self.end, self.faulty = start, False
        self.children: list[Node | Entry] = []
        self.keys: dict[str, Words] = {}
        self.key: Words | None = None


class _Builder:
    """Makes nodes of events. It lives for one file."""

    def __init__(self, file: TextFile, offset: int, text: str) -> None:
        self.file, self.offset, self.text = file, offset, text
        self.stack: list[_Open] = []
        self.root: Node | None = None
        self.problems: list[Diagnostic] = []
        self.documents = 0

    def take(self, event: object) -> None:
        match event:
            case ScalarEvent():
                words = self._words(event)
                self._add(Faulty(words.span) if self._has_marks(event) else words)
            case MappingStartEvent() | SequenceStartEvent():
                self._open(event)
            case MappingEndEvent() | SequenceEndEvent():
                self._close(event)
            case AliasEvent():
                self._add(self._alias(event.start_mark.index, event.end_mark.index))
            case DocumentStartEvent():
                self.documents += 1
                if self.documents > 1:
                    raise _Stop(
                        self._problem(
                            "H101",
                            event.start_mark.index,
                            event.end_mark.index,
                            "A line '---' begins a second text in this file; only one is read.",
                            "Take the line out, or make two files.",
                        )
                    )
            case _:
                pass

    def _span(self, start: int, end: int) -> Span:
        return Span(self.file, self.offset + start, self.offset + max(start, end))

    def _problem(self, code: str, start: int, end: int, message: str, hint: str) -> Diagnostic:
        return Diagnostic(code, self._span(start, end), message, hint)

    def _alias(self, start: int, end: int) -> Faulty:
        line_end = self.text.find("\n", start)
        written = self.text[start : max(end, line_end)].strip() if line_end >= 0 else self.text[start:].strip()
        self.problems.append(
            self._problem(
                "H107",
                start,
                end,
                f"'{self.text[start:end].strip()}' begins with a sign that has a meaning of its own in YAML.",
                f'Put the text in quotes: "{written}"',
            )
        )
        return Faulty(self._span(start, end))

    def _has_marks(self, event: ScalarEvent | MappingStartEvent | SequenceStartEvent) -> bool:
        if not event.anchor and not event.tag:
            return False
        self._alias(event.start_mark.index, event.end_mark.index)
        return True

    def _words(self, event: ScalarEvent) -> Words:
        start, end = event.start_mark.index, event.end_mark.index
        text = str(event.value)
        if event.style in ("'", '"'):
            start, end = start + 1, end - 1
        elif event.style in ("|", ">"):
            header = self.text.find("\n", start)
            start = header + 1 if 0 <= header < end else start
            body = self.text[start:end]
            start, end = start + len(body) - len(body.lstrip()), start + len(body.rstrip())
            text = text.strip()
        elif text in ("~", "null", "Null", "NULL"):
            text = ""
        return Words(text, self._span(start, end))

    def _open(self, event: MappingStartEvent | SequenceStartEvent) -> None:
        start, end = event.start_mark.index, event.end_mark.index
        if len(self.stack) >= DEEPEST:
            raise _Stop(
                self._problem(
                    "H109",
                    start,
                    end,
                    f"Here braces or lists stand more than {DEEPEST} deep in one another.",
                    "Close what is open: look for a brace or bracket too many.",
                )
            )
        opened = _Open(isinstance(event, MappingStartEvent), start, bool(event.flow_style))
        opened.faulty = self._has_marks(event)
        self.stack.append(opened)

    def _close(self, event: MappingEndEvent | SequenceEndEvent) -> None:
        top = self.stack.pop()
        end = event.end_mark.index if top.flow else top.end
        span = self._span(top.start, end)
        node: Node
        if top.faulty:
            node = Faulty(span)
        elif top.is_block:
            entries = tuple(c for c in top.children if isinstance(c, Entry))
            node = Block(self._without_stray(entries) if top.flow else entries, span)
        else:
            node = Items(tuple(c for c in top.children if not isinstance(c, Entry)), span)
        self._add(node)

    def _add(self, node: Node) -> None:
        if not self.stack:
            self.root = None if isinstance(node, Words) and node.empty else node
            return
        top = self.stack[-1]
        top.end = max(top.end, node.span.end - self.offset)
        if not top.is_block:
            top.children.append(node)
        elif top.key is None:
            top.key = self._as_key(node)
        else:
            self._add_entry(top, top.key, node)
            top.key = None

    def _as_key(self, node: Node) -> Words:
        if isinstance(node, Words):
            return node
        if isinstance(node, Faulty):
            return Words("", node.span)
        raise _Stop(
            self._problem(
                "H108",
                node.span.start - self.offset,
                node.span.end - self.offset,
                "A name is wanted here, before the colon, not a list or a block.",
                "A name that begins with [ or { stands in quotes.",
            )
        )

    def _add_entry(self, top: _Open, key: Words, node: Node) -> None:
        first = top.keys.get(fold(key.text))
        if first is None:
            top.keys[fold(key.text)] = key
            top.children.append(Entry(key, node))
            return
        self.problems.append(
            Diagnostic(
                "H102",
                key.span,
                f"'{key.text}' stands twice; the second is left out.",
                "Make one entry of the two, or give the second another name.",
                ((first.span, "it stands first here:"),),
            )
        )

    def _without_stray(self, entries: tuple[Entry, ...]) -> tuple[Entry, ...]:
        """The entries inside braces; words that only a comma made into a key are told and taken out."""
        kept: list[Entry] = []
        for entry in entries:
            if not isinstance(entry.value, Words) or not entry.value.empty or self._has_colon(entry):
                kept.append(entry)
            elif re.search(r":\S", entry.key.text):
                name, _, rest = entry.key.text.partition(":")
                message = f"There is no space after the colon in '{entry.key.text}'."
                self.problems.append(Diagnostic("H105", entry.key.span, message, f"Write {name}: {rest}"))
                kept.append(Entry(Words(name.strip(), entry.key.span), Faulty(entry.key.span)))
            else:
                before = kept.pop() if kept else None
                said = before.value.text if before and isinstance(before.value, Words) else ""
                self.problems.append(Diagnostic("H106", entry.key.span, *comma_hint(said, entry.key.text)))
                if before:
                    kept.append(Entry(before.key, Faulty(before.value.span)))
        return tuple(kept)

    def _has_colon(self, entry: Entry) -> bool:
        after = self.file.text[entry.key.span.end : entry.key.span.end + 40]
        return after.lstrip(" \"'\n").startswith(":")


def names_in(text: str) -> frozenset[str]:
    """What looks like a name in a text that could not be read, so that it is not called unknown elsewhere: the keys
    that stand as far out as any below the one that heads them. What stands further in is said of them."""
    names: set[str] = set()
    first = 0
    for line in text.split("\n"):
        inwards = len(line) - len(line.lstrip(" "))
        if ":" not in line or line.lstrip().startswith("#"):
            continue
        first = 0 if not inwards else first or inwards
        if inwards <= first:
            names.add(fold(line.partition(":")[0].strip(" -'\"{")))
    return frozenset(name for name in names if 0 < len(name) < 60)
