"""What a part, a control or a term of the glossary knows of the books: the paragraphs it cites, those that name it."""

from dataclasses import dataclass
from typing import Literal

from cutaway.handbook.names import fold
from cutaway.handbook.records import Cite, Folder, Paragraph, paragraph
from cutaway.handbook.search import ParagraphIndex
from cutaway.parts.kind import Kind
from cutaway.parts.library import KINDS

Sort = Literal["part", "control", "term"]


@dataclass(frozen=True, slots=True)
class Known:
    """A name with its paragraphs. cited: those that the folder's files cite for it. speaking: others that name it."""

    name: str
    sort: Sort
    says: str
    cited: tuple[Paragraph, ...]
    speaking: tuple[Paragraph, ...]


def known_by(folder: Folder, words: str, index: ParagraphIndex) -> tuple[Known, ...]:
    """The part, control and term of this name, each with its paragraphs; () where there is none of that name."""
    name = fold(words)
    found = [one for one in (_part(folder, name), *_controls(folder, name), _term(folder, name)) if one is not None]
    return tuple(_with_paragraphs(one, folder, index) for one in found)


_Named = tuple[str, Sort, str, tuple[Cite, ...]]


def _part(folder: Folder, name: str) -> _Named | None:
    parts = [part for part in folder.parts if fold(part.name) == name]
    if not parts:
        return None
    cites = [*(c for p in parts for c in p.cites)]
    cites += [c for p in parts for v in p.values for given in v.givens for c in given.cites]
    return parts[0].name, "part", f"{parts[0].kind}, {parts[0].system}", tuple(cites)


def _controls(folder: Folder, name: str) -> tuple[_Named, ...]:
    """'engine.starter' or 'engine starter'; a part's only control goes by the part's name and is told with it."""
    found: dict[str, _Named] = {}
    for part in folder.parts:
        kind: Kind | None = KINDS.get(part.kind)
        for control in kind.controls if kind else ():
            own = (fold(f"{part.name}.{control.name}"), fold(f"{part.name} {control.name}"))
            if control.name and name in own:
                key = f"{part.name}.{control.name}"
                cites = (*(found[key][3] if key in found else ()), *part.cites)
                found[key] = (key, "control", f"of {part.name}", cites)
    return tuple(found.values())


def _term(folder: Folder, name: str) -> _Named | None:
    for term in folder.glossary:
        if name in map(fold, (term.name, *term.also)):
            return term.name, "term", term.meaning, term.cites
    return None


def _with_paragraphs(one: _Named, folder: Folder, index: ParagraphIndex) -> Known:
    name, sort, says, cites = one
    cited = tuple(dict.fromkeys(p for cite in cites if (p := paragraph(folder, cite)) is not None))
    spoken = index.speaks_of(name.partition(".")[2] or name)
    return Known(name, sort, says, cited, tuple(p for p in spoken if p not in cited))
