"""Tying parts to one another: each coupling gets its other part, and its port where it has one."""

from dataclasses import replace

from cutaway.handbook.names import a, did_you_mean, fold, listed
from cutaway.handbook.parts import Draft, Pending
from cutaway.handbook.ports import Kinds, default_port, port_named, ports_of
from cutaway.handbook.records import Link, Part, PortRef
from cutaway.handbook.whereabouts import Found, Index, find, index_of
from cutaway.parts.offering import signals_offered, signals_taken
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span
from cutaway.quantities.which import StandardName, Which

# How many parts or kinds a hint names.
_FEW = 6


def tie(
    drafts: tuple[Draft, ...], kinds: Kinds, left_out: frozenset[str]
) -> tuple[tuple[Part, ...], frozenset[str], Problems]:
    """The parts with their couplings resolved, the names left out by now, and what is wrong.

    A part that is tied to one left out is left out itself, without a word, and so on until nothing more falls.
    """
    problems: dict[Diagnostic, None] = {}
    while True:
        index = index_of((draft.part for draft in drafts), kinds, left_out)
        tied: list[tuple[Draft, Part]] = []
        fallen: list[Draft] = []
        for draft in drafts:
            part, more = _tied(draft, index)
            problems.update(dict.fromkeys(more))
            if part is None:
                fallen.append(draft)
            else:
                tied.append((draft, part))
        if not fallen:
            fallen, more = _second_hands(tied, index)
            problems.update(dict.fromkeys(more))
        if not fallen:
            return tuple(part for _, part in tied), left_out, tuple(problems)
        left_out |= {fold(name) for draft in fallen for name in (draft.part.name, draft.part.group) if name}
        drafts = tuple(draft for draft in drafts if draft not in fallen)


def _tied(draft: Draft, index: Index) -> tuple[Part | None, Problems]:
    links: list[Link] = []
    problems: Problems = ()
    failed = False
    for pending in draft.pending:
        some, more = _links(draft, pending, index)
        problems += more
        failed = failed or some is None
        links.extend(some or ())
    for coupling in draft.kind.couplings:
        own = [link for link in links if link.name == coupling.name]
        if coupling.required and not failed:
            covered = frozenset().union(*(link.on.names for link in own)) if own else frozenset()
            rest = draft.part.on.names - covered
            if rest:
                problems += (_missing(draft, coupling.name, frozenset(rest), index),)
                failed = True
        twice = _twice(own)
        if twice is not None:
            problems += (_two_ends(draft, twice),)
            failed = True
    return (None if failed else replace(draft.part, links=tuple(links))), problems


def _second_hands(tied: list[tuple[Draft, Part]], index: Index) -> tuple[list[Draft], Problems]:
    """The parts tied to one that can serve only one, where another of the same sort is already: a carburettor sees
    the one engine that it feeds, a supercharger is built into one."""
    taken: dict[tuple[str, str, StandardName], Link] = {}
    owners: dict[Link, str] = {}
    fallen: list[Draft] = []
    problems: Problems = ()
    for draft, part in tied:
        own = {coupling.name: coupling for coupling in draft.kind.couplings if coupling.back or coupling.alone}
        for link in (link for link in part.links if link.name in own):
            alone, sees = own[link.name].alone, own[link.name].back or link.name
            parts = index.parts[fold(link.target.part)]
            there = [one for one in parts if alone or signals_taken(index.kind(one), sees)]
            names = frozenset(name for one in there for name in one.on.names) & link.on.names
            before = next((taken[k] for name in sorted(names) if (k := (link.target.part, sees, name)) in taken), None)
            if before is None:
                taken.update({(link.target.part, sees, name): link for name in names})
                owners[link] = part.name
                continue
            fallen.append(draft)
            both = f"both {owners[before]} and {part.name}"
            message = f"{link.target.part} is '{link.name}' of {both}; it can serve only one."
            hint = f"Give {part.name} {a(there[0].kind)} of its own, or say with 'on' which is on which mark."
            also = ((before.span, "it is named first here:"),) if before.span != link.span else ()
            problems += (Diagnostic("H333", link.span, message, hint, also),)
    return fallen, problems


def _links(draft: Draft, pending: Pending, index: Index) -> tuple[tuple[Link, ...] | None, Problems]:
    """One coupling as written: a link for each port that its other part has on its several marks. None: failed."""
    name = pending.coupling.name
    what = f"'{name}' of {draft.part.name}"
    found, problems = find(pending.target.text, pending.target.span, index, f"{what[0].upper()}{what[1:]}")
    if found is None:
        return None, problems
    said = pending.on.names if pending.on else None
    wanted = draft.part.on.names if said is None else said & draft.part.on.names
    by_inner: dict[str, frozenset[StandardName]] = {}
    for part in found.parts:
        both = wanted & part.on.names
        if not both:
            continue
        inner, more = _inner(draft, pending, found, part, index)
        problems += more
        if inner is None:
            return None, problems
        by_inner[inner] = by_inner.get(inner, frozenset()) | both
    words = pending.on.words if pending.on else draft.part.on.words
    at = pending.target.span
    links = tuple(
        Link(name, PortRef(found.name, inner, at), pending.condition, Which(words, names), at)
        for inner, names in by_inner.items()
    )
    rest = wanted - frozenset().union(*(link.on.names for link in links))
    if rest and fold(found.name) not in index.left_out and not pending.coupling.required:
        where = found.parts[0].on.words or listed(sorted(wanted - rest), "or")
        message = f"{draft.part.name} is on {listed(sorted(rest))} too, but {found.name} is not."
        problems += (Diagnostic("H315", at, message, f"Write {name}: {{is: {found.name}, on: {where}}}"),)
    return links, problems


def _inner(draft: Draft, pending: Pending, found: Found, part: Part, index: Index) -> tuple[str | None, Problems]:
    """The port of the other part; '' where the coupling goes to the part as such."""
    coupling = pending.coupling
    if coupling.to == "signals":
        if not found.inner:
            unfit = _unfit(draft, pending, found, part, index)
            return (None, (unfit,)) if unfit else ("", ())
        hint = f"Write {coupling.name}: {found.name}"
        message = f"'{coupling.name}' of {draft.part.name} wants a part, not '{found.inner}' of {found.name}."
        return None, (Diagnostic("H311", found.inner_span, message, hint),)
    ports = ports_of(part, index.kind(part))
    if found.inner:
        port = port_named(found.inner, ports)
        if port is None:
            return None, (no_port(found, part, tuple(port.name for port in ports)),)
    else:
        port = default_port(ports, "out")
        if port is None:
            return None, (which_port(found, part, tuple(port.name for port in ports), pending.target.span),)
    if coupling.media and port.medium and port.medium not in coupling.media:
        media = listed(coupling.media, "or")
        message = f"{draft.part.name} is for {media}, but {found.name}.{port.name} carries {port.medium}."
        hint = f"Name a port that carries {media}."
        return None, (Diagnostic("H314", pending.target.span, message, hint),)
    own = port_named(coupling.port, ports_of(draft.part, draft.kind)) if coupling.to == "port" else None
    if own and own.medium and port.medium and own.medium != port.medium:
        return None, (
            Diagnostic(
                "H314",
                pending.target.span,
                f"{draft.part.name} takes {own.medium}, but {found.name}.{port.name} carries {port.medium}.",
                f"Name a part that carries {own.medium}.",
            ),
        )
    return port.name, ()


def _unfit(draft: Draft, pending: Pending, found: Found, part: Part, index: Index) -> Diagnostic | None:
    """The diagnostic for a part of a kind that does not have what the coupling takes of it."""
    coupling = pending.coupling
    lacking = [need for need in coupling.needs if need not in signals_offered(index.kind(part))]
    if not lacking:
        return None
    partly = "" if len({one.kind for one in found.parts}) == 1 else f" (as it is on {part.on.words})"
    says = coupling.says.rstrip(".").split(":")[0]
    message = (
        f"'{found.name}' cannot be '{coupling.name}' of {draft.part.name} ({says[:1].lower()}{says[1:]}): "
        f"{a(part.kind)}{partly} has no {listed(lacking, 'or')}."
    )
    return Diagnostic("H332", pending.target.span, message, _able(draft, pending, index))


def _able(draft: Draft, pending: Pending, index: Index) -> str:
    """What could stand there instead: parts of this folder, or the kinds of which one would have to be added."""
    needs = set(pending.coupling.needs)
    kinds = [name for name, kind in index.kinds.items() if needs <= signals_offered(kind)]
    parts = [
        some[0].name
        for some in index.parts.values()
        if some[0].name != draft.part.name and all(one.kind in kinds for one in some)
    ]
    key = pending.coupling.name
    if parts:
        others = f" Others here that can: {listed(parts[1:_FEW])}." if len(parts) > 1 else ""
        return f"Write {key}: {parts[0]}, if that is meant.{others}"
    return f"It can be {listed([a(name) for name in kinds[:_FEW]], 'or')}; none stands in systems/ yet."


def no_port(found: Found, part: Part, names: tuple[str, ...]) -> Diagnostic:
    """The diagnostic for a port that the part does not have."""
    hint = did_you_mean(found.inner, names)
    has = f"It has {listed(names)}." if names else "It has no ports."
    return Diagnostic(
        "H311",
        found.inner_span,
        f"{found.name} has no port '{found.inner}'; it is {a(part.kind)}.",
        f"{hint} {has}" if names and hint.startswith("Did") else has,
    )


def which_port(found: Found, part: Part, names: tuple[str, ...], span: Span) -> Diagnostic:
    """The diagnostic for a part named without a port where several could be meant, or where it has none."""
    if names:
        hint = f"Write {listed([f'{found.name}.{name}' for name in names], 'or')}."
    else:
        what = a(part.kind).capitalize()
        hint = f"{what} is tied by what its entry says (driven by, senses and the like), not by lines."
    several = f"It is not plain which port of {found.name} is meant."
    return Diagnostic("H312", span, several if names else f"{found.name} has no port that could be joined.", hint)


def _missing(draft: Draft, name: str, rest: frozenset[str], index: Index) -> Diagnostic:
    coupling = next(coupling for coupling in draft.kind.couplings if coupling.name == name)
    partly = "" if rest == draft.part.on.names else f" on {listed(sorted(rest))}"
    says = coupling.says.rstrip(".")
    return Diagnostic(
        "H313",
        draft.part.span,
        f"{draft.part.name} does not say what it is {name}{partly}."
        if name.endswith((" by", "from"))
        else f"{draft.part.name} has no '{name}'{partly}.",
        f"Add {name}: {_example(draft, name, index)} ({says[:1].lower()}{says[1:]})",
    )


def _example(draft: Draft, name: str, index: Index) -> str:
    """A part to which another of this kind is tied in the same way, or else a dot to fill in."""
    for parts in index.parts.values():
        for part in parts:
            for link in part.links:
                if part.kind == draft.part.kind and link.name == name:
                    return f"{link.target.part}.{link.target.inner}" if link.target.inner else link.target.part
    return "…"


def _twice(links: list[Link]) -> tuple[Link, Link] | None:
    for place, link in enumerate(links):
        for other in links[:place]:
            if link.on.names & other.on.names and not link.condition and not other.condition:
                return other, link
    return None


def _two_ends(draft: Draft, both: tuple[Link, Link]) -> Diagnostic:
    first, second = both
    return Diagnostic(
        "H305",
        second.span,
        f"'{first.name}' of {draft.part.name} names both {first.target.part} and {second.target.part} for "
        f"{listed(sorted(first.on.names & second.on.names))}.",
        f"Name one, or say which mark: {first.name}: [{{is: {first.target.part}, on: …}}, "
        f"{{is: {second.target.part}, on: …}}]",
        ((first.span, "it is named first here:"),),
    )
