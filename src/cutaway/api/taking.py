"""Take files in as a source of a type folder."""

import os
from collections.abc import Callable, Sequence
from pathlib import Path

from cutaway.api.places import cache_folder
from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Problems
from cutaway.taking.keeping import Shelf
from cutaway.taking.putting import Outcome, Source
from cutaway.taking.take import HowTaken, take
from cutaway.taking.wanted import read_wanted


def take_in(
    folder: Path | str,
    files: Sequence[Path | str],
    *,
    key: str = "",
    pages: str = "",
    read_again: bool = False,
    new_copy: bool = False,
    sure: bool = False,
    progress: Callable[[int], None] = lambda _: None,
) -> tuple[Outcome | None, Problems]:
    """Take files in as `sources/<key>.md`; None where nothing was written.

    sure: a file that does not look like a book is one. progress: told of each page as it is done.
    """
    wanted, problems = read_wanted(pages)
    if problems:
        return None, problems
    home = cache_folder()
    how = HowTaken(key, wanted, read_again, new_copy, sure, workers=max(1, min(8, os.cpu_count() or 1)))
    return take(Path(folder), tuple(map(Path, files)), how, Shelf(home / "pages" if home else None), progress)


def taken_record(outcome: Outcome | None, problems: Problems) -> dict[str, object]:
    """What was done, for a program."""
    told = [{"code": p.code, "severity": p.severity, "message": p.message, "hint": p.hint} for p in problems]
    if outcome is None:
        return {"sources": [], "problems": told}
    return {
        "sources": [
            {"key": s.key, "path": str(s.path), "paragraphs": s.paragraphs, **_became(s)} for s in outcome.sources
        ],
        "pages": outcome.pages,
        "read from pictures": outcome.read,
        "blank": outcome.blank,
        "to confirm": outcome.to_confirm,
        "marks to confirm": outcome.standards,
        "amendments to confirm": outcome.amendments,
        "confirmed": outcome.confirmed,
        "figures seen by two readers": outcome.figures_seen_twice,
        "of these agreed": outcome.second_agrees,
        "left out": list(outcome.left_out),
        "files left out": list(outcome.not_taken),
        "confirm": str(outcome.confirm) if outcome.confirm else None,
        "problems": told,
    }


def taken_text(outcome: Outcome) -> str:
    """What was done, for a person."""
    lines = [f"{s.path}: {counted(s.paragraphs, 'paragraph')}{_changes(s)}" for s in outcome.sources]
    read = f", {outcome.read} of them read from pictures" if outcome.read else ""
    if outcome.pages:
        lines.append(f"{counted(outcome.pages, 'page')}{read}.")
    if outcome.figures_seen_twice:
        lines.append(
            f"Two readers saw {counted(outcome.figures_seen_twice, 'figure')} and agree on "
            f"{outcome.second_agrees} of them."
        )
    if outcome.confirm is not None:
        done = f", {outcome.confirmed} of them confirmed" if outcome.confirmed else ""
        asked = [f"{counted(outcome.to_confirm, 'word')} to confirm{done}"] if outcome.to_confirm else []
        asked += [f"{counted(outcome.standards, 'paragraph')} to be given marks"] if outcome.standards else []
        asked += [f"{counted(outcome.amendments, 'paragraph')} perhaps of an amendment"] if outcome.amendments else []
        lines.append(f"{' and '.join(asked) or 'Nothing left to confirm'}: open {outcome.confirm}")
    if outcome.not_taken:
        lines.append(f"Left out: {', '.join(outcome.not_taken)} (told above). The rest was taken.")
    return "\n".join(lines)


def _became(source: Source) -> dict[str, list[str]]:
    merged = source.merged
    if merged is None:
        return {}
    return {
        "renewed": list(merged.renewed),
        "added": list(merged.added),
        "kept as corrected": list(merged.yours),
        "stayed out": list(merged.stayed_out),
        "dropped": list(merged.dropped),
    }


def _changes(source: Source) -> str:
    became = [f"{len(some)} {name}" for name, some in _became(source).items() if some]
    return f" ({', '.join(became)})" if became else ""
