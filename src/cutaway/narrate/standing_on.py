"""What rests on each paragraph of the books: parts and their systems, claims, sentences, and whatever else cites it."""

from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass

from cutaway.handbook.names import fold
from cutaway.handbook.records import Cite, Folder, Paragraph, Part, PartName, Script, Sentence
from cutaway.language.claims import ParsedClaims
from cutaway.language.syntax import Claim
from cutaway.narrate.compared import Compared

Key = tuple[str, str]


@dataclass(frozen=True, slots=True)
class SpokenOn:
    """A sentence that rests on a paragraph. how: it cites it; its claims use parts that do; or it was held against it
    and found stated."""

    script: str
    sentence: Sentence
    how: str


@dataclass(frozen=True, slots=True)
class Standing:
    """All that rests on one paragraph.

    parts: the parts that cite it, for themselves or for a figure; systems: theirs and those of lines. claims: those on
    a standard of the paragraph that name such a part. others: ('service', 'petrol to the engine') and the like.
    """

    paragraph: Paragraph
    systems: tuple[str, ...]
    parts: tuple[PartName, ...]
    claims: tuple[Claim, ...]
    sentences: tuple[SpokenOn, ...]
    others: tuple[tuple[str, str], ...]

    @property
    def nothing(self) -> bool:
        """Whether nothing rests on the paragraph."""
        return not (self.systems or self.claims or self.sentences or self.others)


def standing_on(
    folder: Folder, parsed: ParsedClaims, held: tuple[tuple[Script, Compared], ...] = ()
) -> tuple[Standing, ...]:
    """For each paragraph of the books, in their order, what rests on it.

    held: sentences that were held against the books alone; those found stated rest on their paragraph too.
    """
    parts_of = _parts_by_paragraph(folder)
    standard_of = {airframe.name: str(airframe.standard) for airframe in folder.type.airframes}
    named = _named(parsed, folder)
    direct = tuple((s.name, x, key_of(c)) for s in folder.scripts for x in s.sentences for c in x.cites)
    stated = tuple((s.name, c) for s, c in held if c.verdict == "stated")
    found: list[Standing] = []
    for source in folder.sources:
        for one in source.paragraphs:
            key = (str(one.source), one.number)
            parts = parts_of.get(key, ())
            names = {part.name for part in parts}
            claims = [
                (script, sentence, claim)
                for script, sentence, claim, said in named
                if said & names and _is_for(claim, one, standard_of)
            ]
            spoken = [SpokenOn(script, x, "cites it") for script, x, cited in direct if cited == key]
            spoken += [SpokenOn(script, x, "by its claims") for script, x, _ in claims]
            spoken += [
                SpokenOn(script, c.sentence, "held against it")
                for script, c in stated
                if c.against and (str(c.against.source), c.against.number) == key
            ]
            lines = [line.system for line in folder.lines if key in map(key_of, line.cites)]
            found.append(
                Standing(
                    one,
                    tuple(dict.fromkeys([*(part.system for part in parts), *lines])),
                    tuple(dict.fromkeys(part.name for part in parts)),
                    tuple(claim for _, _, claim in claims),
                    _once(spoken),
                    tuple(dict.fromkeys(_others(folder, key))),
                )
            )
    return tuple(found)


def _is_for(claim: Claim, one: Paragraph, standard_of: dict[str, str]) -> bool:
    """Whether a claim is on a standard that a paragraph is for; an airframe is of its standard."""
    on = claim.scope.on
    return on is None or bool({standard_of.get(name, name) for name in on.names} & one.on.names)


def _is_of(compared: Compared, key: Key) -> bool:
    against = compared.against
    return against is not None and (str(against.source), against.number) == key


def key_of(cite: Cite) -> Key:
    """A citation as the key of its paragraph."""
    return (str(cite.source), cite.number)


def _once(spoken: list[SpokenOn]) -> tuple[SpokenOn, ...]:
    """Each sentence once, with the first of its reasons."""
    first: dict[tuple[str, int], SpokenOn] = {}
    for one in spoken:
        first.setdefault((one.script, one.sentence.span.start), one)
    return tuple(first[key] for key in sorted(first))


def _parts_by_paragraph(folder: Folder) -> dict[Key, tuple[Part, ...]]:
    found: dict[Key, list[Part]] = {}
    for part in folder.parts:
        cites = [*part.cites, *(c for v in part.values for given in v.givens for c in given.cites)]
        for key in dict.fromkeys(map(key_of, cites)):
            found.setdefault(key, []).append(part)
    return {key: tuple(parts) for key, parts in found.items()}


def _named(parsed: ParsedClaims, folder: Folder) -> tuple[tuple[str, Sentence, Claim, frozenset[str]], ...]:
    """Each claim of the scripts with the parts that its statement and its scope name, services looked through."""
    known = {fold(part.name): str(part.name) for part in folder.parts}
    services = {
        fold(s.service.name): frozenset(_parts_in(s.statement, known))
        for s in parsed.services
        if s.statement is not None
    }
    return tuple(
        (one.script, one.sentence, claim, frozenset(_parts_in(claim, known, services)))
        for one in parsed.sentences
        for claim in one.claims
    )


def _parts_in(
    record: object, known: dict[str, str], services: dict[str, frozenset[str]] | None = None
) -> Iterator[str]:
    """The names of parts anywhere in a record of the language: records hold nothing but records, tuples and words."""
    if isinstance(record, str):
        name = fold(record)
        if name in known:
            yield known[name]
        yield from (services or {}).get(name, ())
    elif isinstance(record, tuple):
        for one in record:
            yield from _parts_in(one, known, services)
    elif is_dataclass(record) and not isinstance(record, type):
        for field in fields(record):
            if field.name != "span":
                yield from _parts_in(getattr(record, field.name), known, services)


def _others(folder: Folder, key: Key) -> Iterator[tuple[str, str]]:
    """Whatever else cites a paragraph."""
    for sort, name, cites in _citing(folder):
        if key in map(key_of, cites):
            yield sort, name


def _citing(folder: Folder) -> Iterator[tuple[str, str, tuple[Cite, ...]]]:
    yield from (("service", one.name, one.cites) for one in folder.services)
    for drill in folder.drills:
        yield "drill", drill.title, (*drill.cites, *(c for step in drill.steps for c in step.cites))
    yield from (("term", one.name, one.cites) for one in folder.glossary)
    yield from (("letter", one.name, one.cites) for one in folder.letters)
    yield from (("decision", f"{one.value} of {one.part}", (one.prefer,)) for one in folder.decided)
