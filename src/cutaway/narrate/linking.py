"""Proposals that link a script to the books: citations, and skeletons of parts and claims. A person accepts each."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from cutaway.handbook.names import fold
from cutaway.handbook.records import Cite, Folder, Paragraph, Script, Sentence, paragraph
from cutaway.narrate.citing import cite_verdict
from cutaway.narrate.compared import Compared
from cutaway.narrate.likely import Heard, Ranking
from cutaway.narrate.sentence_first import Comparer
from cutaway.narrate.skeletons import PartSkeleton, claims_about, part_skeleton

Proposed = Literal["cite", "part", "claim"]
# Where a citation may stand: behind the sentence's own marks.
_MARKS = re.compile(r"(?:[ \t]*`[^`\n]*`)*")
_NESTED = re.compile(r"[ \t]*(?:>|[-*+][ \t]|\d+[.)][ \t])")


@dataclass(frozen=True, slots=True)
class Insertion:
    """A text to be put in at an offset of a file of the folder; a file that is not there yet is begun with `begin`."""

    path: str
    at: int
    text: str
    begin: str = ""


@dataclass(frozen=True, slots=True)
class Proposal:
    """One thing that could be written. number: from 1, as it is listed. sentence: that it is for, None for a part.

    words: what would be written, for a person. because: why it is proposed. wants: what would still have to be filled
    in. needs: the number of the part without which a claim says nothing, 0 for none.
    """

    number: int
    sort: Proposed
    sentence: Sentence | None
    words: str
    because: str
    insertion: Insertion
    wants: tuple[str, ...] = ()
    needs: int = 0


def proposals(script: Script, folder: Folder) -> tuple[Proposal, ...]:
    """What could be written for a script, parts before the claims that need them, else in the order of the script."""
    ranking = Ranking(folder)
    comparer = Comparer(ranking)
    found: list[Proposal] = []
    parts: dict[str, tuple[PartSkeleton, int]] = {}
    for heard in ranking.heard(script):
        sentence = heard.sentence
        if sentence.aside or sentence.claims:
            continue
        compared = comparer.sentence(heard)
        against = _against(compared, sentence, folder)
        if against is None:
            continue
        if not sentence.cites and _would_be_stated(sentence, against, folder):
            found.append(_cite(len(found) + 1, sentence, against, compared))
        skeleton, needs = parts.get(against.number, (None, 0))
        if against.number not in parts:
            skeleton = part_skeleton(against, ranking.index)
            # One entry a name: what a second paragraph says of the part is for a person to put beside the first.
            if skeleton is not None and skeleton.name in {one.name for one, _ in parts.values()}:
                skeleton = None
            if skeleton is not None and not _is_there(skeleton, folder):
                needs = len(found) + 1
                found.append(_part(needs, skeleton, script, folder))
            if skeleton is not None:
                parts[against.number] = (skeleton, needs)
        if skeleton is not None:
            said = {one.words for one in found if one.sort == "claim"}
            for one in _claims(heard, skeleton, needs, ranking):
                if one.words not in said:
                    found.append(replace(one, number=len(found) + 1))
    return tuple(found)


def _against(compared: Compared, sentence: Sentence, folder: Folder) -> Paragraph | None:
    """The paragraph that a sentence reports: the one that it cites, that states it, or that does but for some words of
    the speaker's own."""
    if sentence.cites:
        return paragraph(folder, sentence.cites[0])
    if compared.verdict == "stated" or (compared.nearly and not compared.differences):
        return compared.against
    return None


def _would_be_stated(sentence: Sentence, against: Paragraph, folder: Folder) -> bool:
    """Whether the citation would pass the stricter comparison that a cited sentence gets."""
    cite = Cite(against.source, against.number, sentence.span)
    return cite_verdict(replace(sentence, cites=(cite,)), folder)[0] is not None


def _cite(number: int, sentence: Sentence, against: Paragraph, compared: Compared) -> Proposal:
    mark = f"`cite: {against.source} {against.number}`"
    because = f"{against.number} {against.title} says it: '{' … '.join(compared.borne)}'"
    if not compared.borne:
        because = f"{against.number} {against.title} is nearest. {' '.join(compared.doubts)}"
    insertion = Insertion(sentence.span.file.path, sentence.span.end, f" {mark}")
    return Proposal(number, "cite", sentence, mark, because, insertion)


def _part(number: int, part: PartSkeleton, script: Script, folder: Folder) -> Proposal:
    words = "\n".join(part.lines())
    path = f"systems/{script.name}.yaml"
    begin = f"system: {_quoted(script.title)}\nsource: {part.paragraph.source}\n\nparts:\n"
    because = f"{part.paragraph.number} {part.paragraph.title} is about it"
    insertion = Insertion(path, _end_of_parts(path, folder), f"{words}\n", begin)
    return Proposal(number, "part", None, words, because, insertion, part.wants)


def _claims(heard: Heard, part: PartSkeleton, needs: int, ranking: Ranking) -> Iterator[Proposal]:
    """One proposal for each claim; the place is under the sentence, which a claim block has to follow."""
    sentence = heard.sentence
    text = sentence.span.file.text
    line = text.rfind("\n", 0, sentence.span.start) + 1
    if _NESTED.match(text, line):
        return
    names = heard.names or (part.paragraph.on.names if part.paragraph.on.words else None)
    on = part.paragraph.on.words if names == part.paragraph.on.names else _on(names, ranking)
    marks = _MARKS.match(text, sentence.span.end)
    at = marks.end() if marks else sentence.span.end
    for claim in claims_about(sentence.text, part, on):
        because = f"the sentence says so of the {part.name}"
        block = f"\n\n```claim\n{claim}\n```{_gap(text, at)}"
        insertion = Insertion(sentence.span.file.path, at, block)
        yield Proposal(0, "claim", sentence, claim, because, insertion, (), needs)


def _gap(text: str, at: int) -> str:
    """What a block needs behind it to stand alone: nothing before a blank line, a blank line before more text."""
    line, _, after = text[at:].partition("\n")
    if line.strip():
        return "\n\n"
    if at + len(line) == len(text):
        return "\n"
    return "\n" if after.partition("\n")[0].strip() else ""


def _on(names: frozenset[str] | None, ranking: Ranking) -> str:
    if names is None:
        return ""
    standards = ranking.folder.type.standards
    if names >= {one.name for one in standards}:
        return ""
    whole = [m for m in ranking.folder.type.marks if all(s.name in names for s in standards if s.mark == m)]
    rest = [str(s.name) for s in standards if s.name in names and s.mark not in whole]
    return " or ".join([*whole, *rest])


def _is_there(part: PartSkeleton, folder: Folder) -> bool:
    """Whether the folder has the part, or one that cites the paragraph, or had to leave one of that name out."""
    key = (part.paragraph.source, part.paragraph.number)
    cited = {(cite.source, cite.number) for one in folder.parts for cite in one.cites}
    return part.name in {fold(one.name) for one in folder.parts} | folder.left_out or key in cited


def _end_of_parts(path: str, folder: Folder) -> int:
    """Behind the last entry of `parts:` in a file of the folder; -1 where there is no such file or no such list."""
    file = next((one for one in folder.files if one.path == path), None)
    head = re.search(r"^parts:[ \t]*\n", file.text, re.MULTILINE) if file else None
    if file is None or head is None:
        return -1
    at = end = head.end()
    for line in file.text[head.end() :].splitlines(keepends=True):
        if line.strip() and not line.startswith((" ", "\t")):
            break
        at += len(line)
        end = at if line.strip() else end
    return end


def _quoted(title: str) -> str:
    return title if re.fullmatch(r"[A-Za-z][\w ,]*", title) else '"' + title.replace("\\", "").replace('"', "'") + '"'
