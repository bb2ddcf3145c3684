"""The lines of one file of systems/: pipes and wires, each between two ports that really are there."""

import re
from dataclasses import dataclass
from itertools import pairwise

from cutaway.handbook.couplings import no_port, which_port
from cutaway.handbook.door import admit, has_faulty, several_of, wrong_form
from cutaway.handbook.head import Head, read_cites, read_on
from cutaway.handbook.names import listed
from cutaway.handbook.nodes import Block, Faulty, Items, Node, Words
from cutaway.handbook.ports import OwnPort, default_port, port_named, ports_of
from cutaway.handbook.records import Cite, Line, Part, PortRef
from cutaway.handbook.repeats import repeats
from cutaway.handbook.shapes import RunShape
from cutaway.handbook.whereabouts import Found, Index, find
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span
from cutaway.quantities.which import StandardName, Which

_ARROW = re.compile(r"[-=–—]+>|[→⇒➔»]")


@dataclass(frozen=True, slots=True)
class _Run:
    """A line as written. on None: nothing was said, so it is where its parts are."""

    words: Words
    on: Which | None
    cites: tuple[Cite, ...]


def read_lines(
    node: Node | None, system: str, source: str, head: Head, index: Index
) -> tuple[tuple[Line, ...], Problems]:
    """The lines of a file; one that leads nowhere is told and left out, one to a part left out is left out silently."""
    if node is not None and not isinstance(node, Items | Faulty) and not (isinstance(node, Words) and node.empty):
        return (), (wrong_form(node, "'lines'", "a list"),)
    lines: list[Line] = []
    problems: Problems = ()
    for item in several_of(node):
        runs, more = _runs(item, head, source)
        problems += more
        for place, run in enumerate(runs):
            some, more = _lines(run, system, index)
            lines.extend(some)
            told = {(p.code, p.span) for p in problems} if place else set()
            problems += tuple(p for p in more if (p.code, p.span) not in told)
    return tuple(lines), problems


def _runs(node: Node, head: Head, source: str) -> tuple[tuple[_Run, ...], Problems]:
    if isinstance(node, Words):
        return (_Run(node, None, ()),), ()
    if has_faulty(node):
        return (), ()
    shape, problems = admit(RunShape, node, "this line")
    if shape is None or not isinstance(node, Block):
        return (), problems
    words = node.get("run")
    assert isinstance(words, Words)
    turns, more = repeats(words, node)
    problems += more
    runs: list[_Run] = []
    for turn in turns:
        said = turn.block.get("on")
        on, some = read_on(said, head)
        cites, others = read_cites(turn.block.get("cite"), head, source)
        problems += some + others
        if on is not None:
            runs.append(_Run(turn.name, on if said is not None else None, cites))
    return tuple(runs), tuple(dict.fromkeys(problems))


def _lines(run: _Run, system: str, index: Index) -> tuple[tuple[Line, ...], Problems]:
    """The lines of `a > b > c`."""
    if _ARROW.search(run.words.text):
        return (), (_arrow(run.words),)
    pieces = _pieces(run.words)
    if len(pieces) < 2 or any(not piece.text for piece in pieces):
        return (), (_not_a_line(run.words, pieces),)
    found: list[Found | None] = []
    problems: Problems = ()
    for piece in pieces:
        one, more = find(piece.text, piece.span, index, "This line")
        found.append(one)
        problems += more
    lines: list[Line] = []
    for place, (start, end) in enumerate(pairwise(found)):
        if start is None or end is None:
            continue
        some, more = _between((start, pieces[place].span), (end, pieces[place + 1].span), run, system, index)
        lines.extend(some)
        problems += more
    return tuple(lines), problems


def _arrow(words: Words) -> Diagnostic:
    """For a line that is written with another arrow than >."""
    arrow = _ARROW.search(words.text)
    assert arrow is not None
    named = " > ".join(" ".join(piece.split()) for piece in _ARROW.sub(">", words.text).split(">"))
    return Diagnostic("H316", words.span, f"The parts of a line are joined by >, not by {arrow[0]}.", f"Write {named}")


def _pieces(words: Words) -> tuple[Words, ...]:
    """The parts of a run with their places."""
    exact = words.span.end - words.span.start == len(words.text)
    pieces: list[Words] = []
    at = 0
    for piece in words.text.split(">"):
        begin = at + len(piece) - len(piece.lstrip())
        name = piece.strip()
        start = words.span.start + begin
        pieces.append(Words(name, Span(words.span.file, start, start + len(name)) if exact else words.span))
        at += len(piece) + 1
    return tuple(pieces)


def _between(
    start: tuple[Found, Span], end: tuple[Found, Span], run: _Run, system: str, index: Index
) -> tuple[tuple[Line, ...], Problems]:
    """A line between two parts: one record for each pair of ports that they have on their several marks."""
    (one, one_span), (other, other_span) = start, end
    by_ports: dict[tuple[str, str], frozenset[StandardName]] = {}
    problems: Problems = ()
    for first in one.parts:
        for second in other.parts:
            names = first.on.names & second.on.names
            names = names & run.on.names if run.on else names
            if not names:
                continue
            port, more = _port(one, first, "out", one_span, index)
            problems += more
            far, more = _port(other, second, "in", other_span, index)
            problems += more
            if port is None or far is None:
                return (), tuple(dict.fromkeys(problems))
            if port.medium and far.medium and port.medium != far.medium:
                if {one.name.lower(), other.name.lower()} & index.left_out:  # one of that name was meant, another kept
                    return (), ()
                return (), (_two_media(one, port, other, far, Span(one_span.file, one_span.start, other_span.end)),)
            key = (port.name, far.name)
            by_ports[key] = by_ports.get(key, frozenset()) | names
    covered = frozenset[StandardName]().union(*by_ports.values())
    problems += _not_there(one, other, run, covered, index)
    words = run.on.words if run.on else ""
    lines: list[Line] = []
    for (near, away), names in by_ports.items():
        begin, finish = PortRef(one.name, near, one_span), PortRef(other.name, away, other_span)
        lines.append(Line(begin, finish, system, Which(words, names), run.cites, run.words.span))
    return tuple(lines), problems


def _port(found: Found, part: Part, way: str, span: Span, index: Index) -> tuple[OwnPort | None, Problems]:
    ports = ports_of(part, index.kind(part))
    names = tuple(port.name for port in ports)
    if found.inner:
        port = port_named(found.inner, ports)
        return port, () if port else (no_port(found, part, names),)
    port = default_port(ports, way)
    return port, () if port else (which_port(found, part, names, span),)


def _not_there(one: Found, other: Found, run: _Run, covered: frozenset[StandardName], index: Index) -> Problems:
    """A line that is said to be on a mark which lacks one of its parts, or that is on no mark at all."""
    if {one.name.lower(), other.name.lower()} & index.left_out:
        return ()
    if run.on is None:
        if covered:
            return ()
        message = f"{one.name} and {other.name} are never on the same standard, so no line joins them."
        hint = f"{one.name} is on {_on(one)}; {other.name} is on {_on(other)}."
        return (Diagnostic("H315", run.words.span, message, hint),)
    rest = run.on.names - covered
    if not rest:
        return ()
    lacking = one if rest - frozenset().union(*(part.on.names for part in one.parts)) else other
    message = f"This line is said to be on {listed(sorted(rest))} too, where there is no {lacking.name}."
    return (Diagnostic("H315", run.words.span, message, f"{lacking.name} is on {_on(lacking)}."),)


def _on(found: Found) -> str:
    return listed(sorted(frozenset[StandardName]().union(*(part.on.names for part in found.parts)))) or "no standard"


def _two_media(one: Found, port: OwnPort, other: Found, far: OwnPort, span: Span) -> Diagnostic:
    return Diagnostic(
        "H314",
        span,
        f"{one.name}.{port.name} carries {port.medium}, but {other.name}.{far.name} carries {far.medium}.",
        "A line joins two ports of one medium; what works across media is said in a part's entry (driven by, fed by).",
    )


def _not_a_line(words: Words, pieces: tuple[Words, ...]) -> Diagnostic:
    named = [piece.text for piece in pieces if piece.text]
    if len(named) > 1:
        hint = f"Write {' > '.join(named)}, or name the part that is missing beside the >."
    elif named:
        before = f"… > {named[0]}" if not pieces[0].text else f"{named[0]} > …"
        hint = f"Name the part at its other end: {before}"
    else:
        hint = "Write the parts in order with > between them: port tank > fuel cock > carburettor"
    return Diagnostic("H316", words.span, f"'{words.text}' is not a line from one part to another.", hint)
