"""Loading a type folder: text to records, with every mistake told and everything usable kept.

Read in the order of what depends on what: type, books, decisions, parts, couplings, lines, situations and the rest.
Each file is parsed once. What a stage left out is known to the next by name, so that it is not complained of again.
"""

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from cutaway.handbook.airframes import check_airframes, lost_airframes
from cutaway.handbook.charts import read_charts
from cutaway.handbook.decided import checked, read_decided
from cutaway.handbook.drills import read_drill
from cutaway.handbook.explorables import read_explorables
from cutaway.handbook.glossary import read_glossary, read_pronounced
from cutaway.handbook.handouts import read_handouts
from cutaway.handbook.head import Head
from cutaway.handbook.letters import read_letters
from cutaway.handbook.names import fold
from cutaway.handbook.nodes import Node
from cutaway.handbook.photographs import read_photographs
from cutaway.handbook.ports import Kinds
from cutaway.handbook.reading import FolderText, read_folder
from cutaway.handbook.records import AircraftType, Drill, Folder, Script, Situation, Source
from cutaway.handbook.scripts import read_script
from cutaway.handbook.services import read_services
from cutaway.handbook.sheets import read_sheets
from cutaway.handbook.situations import read_situations
from cutaway.handbook.sources import read_source
from cutaway.handbook.systems import read_systems
from cutaway.handbook.type_file import read_type
from cutaway.handbook.yaml_tree import names_in, read_tree
from cutaway.parts.library import KINDS
from cutaway.problems.diagnostic import Diagnostic, Problems, in_order
from cutaway.problems.span import Span, TextFile

Reader = Callable[[TextFile], tuple[Node | None, Problems]]
"""Reads the tree of a YAML file; another may be given that remembers those it read before."""


def load_folder(
    path: Path | str, kinds: Kinds | None = None, reader: Reader = read_tree
) -> tuple[Folder | None, Problems]:
    """The type folder at `path` and what is wrong with it; None where it has no type.yaml that can be used.

    kinds: the library of kinds, ours where none is given. reader: reads each YAML file. Nothing that a user wrote makes
    this raise.
    """
    texts, problems = read_folder(path)
    if texts is None:
        return None, in_order(problems)
    trees, broken, more = _trees(texts, reader)
    problems += more
    about, more = _type(texts, trees, problems)
    problems += more
    if about is None:
        return None, in_order(problems)
    folder, more = _folder(texts, trees, about, KINDS if kinds is None else kinds, broken)
    return folder, in_order(told_once(problems + more))


def _trees(texts: FolderText, reader: Reader) -> tuple[dict[str, Node | None], frozenset[str], Problems]:
    """The tree of each YAML file, the names in those that could not be read, and what is wrong with them."""
    trees: dict[str, Node | None] = {}
    broken: frozenset[str] = frozenset()
    problems: Problems = ()
    for file in texts.files:
        if not file.path.endswith(".yaml"):
            continue
        tree, more = reader(file)
        trees[file.path] = tree
        problems += more
        if tree is None and more:
            broken |= names_in(file.text)
    return trees, broken, problems


def _type(texts: FolderText, trees: dict[str, Node | None], told: Problems) -> tuple[AircraftType | None, Problems]:
    file = texts.file("type.yaml")
    if file is None:
        if "type.yaml" in texts.unread:
            return None, ()
        hint = f"Write one that begins: name: {texts.name.capitalize()}"
        return None, (
            Diagnostic("H006", None, "The folder has no type.yaml, which says what aircraft it is about.", hint),
        )
    tree = trees["type.yaml"]
    if tree is None:
        if any(problem.span is not None and problem.span.file == file for problem in told):
            return None, ()
        message = "type.yaml says nothing: at least the name of the type is needed."
        return None, (Diagnostic("H006", None, message, f"Write name: {texts.name.capitalize()}"),)
    return read_type(tree, texts.name)


def _folder(
    texts: FolderText, trees: dict[str, Node | None], about: AircraftType, kinds: Kinds, broken: frozenset[str]
) -> tuple[Folder, Problems]:
    sources, head, problems = _sources(texts, about)
    decided, more = read_decided(trees.get("decided.yaml"), head)
    problems += more
    files = {file.path: trees[file.path] for file in texts.under("systems")}
    built, more = read_systems(files, texts, head, kinds, decided, broken)
    problems += more
    index = built.index
    about, more = check_airframes(about, trees.get("type.yaml"), index)
    problems += more
    decided, more = checked(decided, trees.get("decided.yaml"), index)
    problems += more
    situations, lost, more = read_situations(trees.get("situations.yaml"), index)
    left_out = index.left_out | lost | lost_airframes(about, trees.get("type.yaml"))
    problems += more
    services, lost, more = read_services(trees.get("services.yaml"), head)
    left_out |= lost
    problems += more
    scripts, drills, lost, more = _texts(texts, head, situations, left_out | _unread(texts, "situations.yaml", trees))
    left_out |= lost
    problems += more
    unread = frozenset(Path(name).stem for name in texts.unread if name.startswith("scripts/"))
    glossary, more = read_glossary(trees.get("glossary.yaml"), head, scripts, unread)
    problems += more
    letters, more = read_letters(trees.get("letters.yaml"), head, scripts, unread)
    problems += more
    photographs, more = read_photographs(trees.get("photographs.yaml"), texts.root, head, index, built.groups)
    problems += more
    charts, more = read_charts(trees.get("charts.yaml"), head)
    problems += more
    explorables, more = read_explorables(trees.get("explore.yaml"))
    trees_of_sheets = (trees[file.path] for file in texts.under("sheets"))
    sheets, again = read_sheets(trees_of_sheets, head, index, built.groups, built.systems, situations, left_out, drills)
    problems += more + again
    handouts, more = read_handouts(trees.get("handouts.yaml"), head, built.systems, situations, left_out)
    folder = Folder(
        texts.root, about, sources, decided, built.systems, built.parts, built.lines, built.groups, situations,
        services, drills, scripts, glossary, letters, texts.files, left_out,
        read_pronounced(trees.get("glossary.yaml")), photographs, charts, sheets, explorables,
        handouts, built.lost, tuple(path for path in files if _is_unread(path, trees, texts)),
    )  # fmt: skip
    return folder, problems + more


def _sources(texts: FolderText, about: AircraftType) -> tuple[tuple[Source, ...], Head, Problems]:
    sources: list[Source] = []
    problems: Problems = ()
    for file in texts.under("sources"):
        source, more = read_source(file, about)
        sources.append(source)
        problems += more
    paragraphs = {(source.key, one.number): one for source in sources for one in source.paragraphs}
    unread = frozenset(fold(Path(name).stem) for name in texts.unread if name.startswith("sources/"))
    return tuple(sources), Head(about, paragraphs, tuple(source.key for source in sources), unread), problems


def _texts(
    texts: FolderText, head: Head, situations: tuple[Situation, ...], left_out: frozenset[str]
) -> tuple[tuple[Script, ...], tuple[Drill, ...], frozenset[str], Problems]:
    scripts: list[Script] = []
    drills: list[Drill] = []
    lost: set[str] = set()
    problems: Problems = ()
    for file in texts.under("drills"):
        drill, more = read_drill(file, head, situations, left_out)
        problems += more
        if drill is None:
            lost.add(fold(Path(file.path).stem))
        else:
            drills.append(drill)
    for file in texts.under("scripts"):
        script, more = read_script(file, head)
        scripts.append(script)
        problems += more
    return tuple(scripts), tuple(drills), frozenset(lost), problems


def _is_unread(path: str, trees: dict[str, Node | None], texts: FolderText) -> bool:
    """Whether a file has something in it and no tree: nothing that it says is known."""
    file = texts.file(path)
    return trees[path] is None and file is not None and bool(names_in(file.text))


def _unread(texts: FolderText, path: str, trees: dict[str, Node | None]) -> frozenset[str]:
    """Names that a broken file would have given."""
    file = texts.file(path)
    return names_in(file.text) if file is not None and trees.get(path) is None else frozenset()


# A mistake in a block `for each` is the same for each of its parts: told for the first.
_ONCE_A_PLACE = frozenset({"H332", "H333"})

# Mistakes that one misspelt word makes wherever it stands: told at the first place, with the others beside it.
_MERGED = frozenset({"H201", "H202", "H310"})


def told_once(problems: Problems) -> Problems:
    """The problems, with the same complaint about several places made into one."""
    first: dict[tuple[str, str], Diagnostic] = {}
    kept: list[Diagnostic] = []
    told: set[tuple[str, Span | None]] = set()
    for problem in in_order(problems):
        if problem.code in _ONCE_A_PLACE and (problem.code, problem.span) in told:
            continue
        told.add((problem.code, problem.span))
        key = (problem.code, _about(problem))
        if problem.code not in _MERGED or key not in first:
            first.setdefault(key, problem)
            kept.append(problem)
            continue
        before = first[key]
        if problem.span is not None and len(before.also) < 3:
            more = replace(before, also=(*before.also, (problem.span, "and here:")))
            kept[kept.index(before)] = first[key] = more
    return tuple(kept)


def _about(problem: Diagnostic) -> str:
    """What a complaint is about: the first quoted word of the message where there is one."""
    quoted = re.search(r"'([^']+)'", problem.message) if problem.code == "H310" else None
    return fold(quoted[1]) if quoted else problem.message
