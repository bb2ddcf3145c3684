"""Load a type folder as far as it can be understood: files, names, claims, and the machines of every standard."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from cutaway.api.read_before import sentence_reader, tree_reader
from cutaway.handbook.load import load_folder
from cutaway.handbook.records import Folder
from cutaway.handbook.unread import without_unknown
from cutaway.inquiry.told import Told, told_from
from cutaway.inquiry.workshop import Workshop
from cutaway.language.charts import ParsedChart, parse_charts
from cutaway.language.claims import ParsedClaims, read_claims
from cutaway.language.explorables import known_explorables
from cutaway.language.sheet_runs import parse_runs
from cutaway.language.words import Words, words_of
from cutaway.parts.kind import Kind
from cutaway.parts.library import KINDS
from cutaway.problems.diagnostic import Problems, in_order
from cutaway.publish.shelf import Shelf


@dataclass(frozen=True, slots=True, eq=False)
class Loaded:
    """A type folder ready to be asked. path: where it is. parsed: its claims, services and steps, names resolved.

    told: the same as runs need them. problems: all that is wrong with the folder so far as loading can tell. charts:
    those that the folder asks for.
    """

    path: Path
    folder: Folder
    words: Words
    parsed: ParsedClaims
    told: Told
    kinds: Mapping[str, Kind]
    problems: Problems
    charts: tuple[ParsedChart, ...] = ()


def load(
    path: Path | str, kinds: Mapping[str, Kind] = KINDS, shelf: Shelf | None = None
) -> tuple[Loaded | None, Problems]:
    """Load a type folder and every claim in it. None only where there is no type folder at all; a folder with
    mistakes is loaded without the items at fault. shelf: where what was read of files that are the same is kept."""
    shelf = Shelf(None) if shelf is None else shelf
    folder, problems = load_folder(path, kinds, tree_reader(shelf))
    if folder is None:
        return None, in_order(problems)
    words = words_of(folder, kinds)
    parsed, more = read_claims(folder, words, sentence_reader(folder, shelf))
    told = told_from(parsed)
    charts, again = parse_charts(folder, words)
    _, unrun = parse_runs(folder, words)
    explorables, unknown = known_explorables(folder, words)
    folder = replace(folder, explorables=explorables)
    everything = without_unknown(in_order(problems + more + again + unrun + unknown), folder.unread)
    return Loaded(Path(path), folder, words, parsed, told, kinds, everything, charts), everything


def workshop_for(
    loaded: Loaded, threads: int | None = None, progress: Callable[[int], None] | None = None
) -> tuple[Workshop, Problems]:
    """A workshop for the folder, and what only binding and compiling can tell: signals that need each other, say."""
    workshop = Workshop(loaded.folder, loaded.kinds, threads, progress)
    return workshop, workshop.problems()
