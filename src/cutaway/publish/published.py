"""What was published and when: one file a publication in the type folder's `published/`, never written over.

A publication says the date, a digest of the pack that went out, and what that pack said.
"""

import hashlib
import json
import re
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from cutaway.handbook.names import listed
from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.publish.faults import faults_of
from cutaway.publish.film_captions import with_captions_of_films
from cutaway.publish.films import film_report, with_film_times
from cutaway.publish.pack import MARKER, changed_by_hand
from cutaway.publish.photographs import without_rights
from cutaway.publish.single_file import write_file
from cutaway.publish.snapshot import Snapshot

FOLDER = "published"
RECORD = "record.json"
MOST_TOLD = 8
"""How many faults are told before the rest is counted."""
_NAME = re.compile(r"(\d{4}-\d{2}-\d{2})(?:-(\d+))?")
# What tells of corrections is no part of what the pack says, and comes and goes with publishing itself; nor is the list
# of what is in the pack, which leads to them.
_OUR_OWN = re.compile(r"record\.json|contents\.html|errata\.(?:html|json)|captions/.*\.corrected\.(?:vtt|srt)")


@dataclass(frozen=True, slots=True)
class Publication:
    """A pack that went out. number: of that day, from 1. note: a few words of whoever published it. faults: what was
    wrong in it and was published nevertheless, a sentence each."""

    date: date
    number: int
    digest: str
    note: str
    says: Snapshot
    faults: tuple[str, ...] = ()


_SNAPSHOT = TypeAdapter(Snapshot)
_PUBLICATION = TypeAdapter(Publication)


def record_of(says: Snapshot) -> bytes:
    """What a pack says, as a file in the pack."""
    return _SNAPSHOT.dump_json(says, indent=1) + b"\n"


def pack_record(pack: Path) -> Snapshot | None:
    """What a pack on the disk says of itself; None where there is none."""
    try:
        return _SNAPSHOT.validate_json((pack / RECORD).read_bytes())
    except (OSError, ValueError, RecursionError):
        return None


def publications(folder: Path) -> tuple[tuple[Publication, ...], Problems]:
    """Everything that was published of a type folder, the earliest first."""
    found: list[Publication] = []
    problems: list[Diagnostic] = []
    try:
        paths = sorted(path for path in (folder / FOLDER).glob("*.json") if _NAME.fullmatch(path.stem))
    except OSError:
        paths = []
    for path in paths:
        try:
            found.append(_PUBLICATION.validate_json(path.read_bytes()))
        except (OSError, ValidationError, RecursionError):
            message = f"'{FOLDER}/{path.name}' cannot be read, so it is not known what was published then."
            problems.append(Diagnostic("K305", None, message, "Put back the file as `cutaway publish` wrote it."))
    return tuple(sorted(found, key=lambda one: (one.date, one.number))), tuple(problems)


def mark_published(
    folder: Path, pack: Path, on: date, note: str = "", same_films: bool = False, as_it_is: bool = False
) -> tuple[Publication | None, Problems]:
    """Mark the pack as published on a date; what was marked, or why nothing was.

    same_films: the films that are out stay as they are, and only captions and pages were corrected. as_it_is: whether
    it goes out with what is wrong in it, which the record then says.
    """
    says, digest, problems = _pack(pack, folder)
    if says is None:
        return None, problems
    refused = without_rights(pack, folder)
    if refused:
        return None, refused
    earlier, problems = publications(folder)
    if problems:
        return None, problems
    last = earlier[-1] if earlier else None
    if last is not None and last.digest == digest:
        message = f"This pack is marked as published on {last.date.isoformat()} already; nothing was changed since."
        hint = "Run cutaway make after an edit, and then mark the new pack."
        return last, (Diagnostic("K303", None, message, hint),)
    if last is not None and on < last.date:
        message = f"The last publication was on {last.date.isoformat()}, which is after {on.isoformat()}."
        return None, (Diagnostic("K304", None, message, f"Write --on {last.date.isoformat()}, or a later date."),)
    faults = faults_of(pack)
    if faults and not as_it_is:
        return None, (_with_faults(faults),)
    number = 1 + sum(1 for one in earlier if one.date == on)
    told: Problems = ()
    if same_films:
        out = _with_films(says)
    else:
        out, told = with_captions_of_films(_with_new_films(says), folder)
        told += _made_again(says, last) if last is not None else ()
    new = Publication(on, number, digest, note, out, faults)
    name = on.isoformat() + (f"-{number}" if number > 1 else "")
    written, more = write_file(folder / FOLDER / f"{name}.json", _PUBLICATION.dump_json(new, indent=1) + b"\n")
    if written is None:
        return None, tuple(Diagnostic("K306", None, one.message, one.hint) for one in more)
    return new, told


def _with_faults(faults: tuple[str, ...]) -> Diagnostic:
    """That a pack is not published, with what is wrong in it."""
    shown = " ".join(faults[:MOST_TOLD])
    more = f" And {len(faults) - MOST_TOLD} more." if len(faults) > MOST_TOLD else ""
    message = f"{counted(len(faults), 'thing')} in this pack must be mended, so that it is not published. {shown}{more}"
    hint = "Mend the folder, say `cutaway make`, then publish; or say --as-it-is, and the record tells what is wrong."
    return Diagnostic("K313", None, message, hint)


def _made_again(says: Snapshot, last: Publication) -> Problems:
    """A word on films that are held to be made again, for those who forgot that theirs stay as they are."""
    names = [script.name for script in says.scripts if film_report(script) is not None]
    if not names:
        return ()
    message = (
        f"Held to be made again since {last.date.isoformat()}: the film{'' if len(names) == 1 else 's'} of "
        f"{listed(names)}. Their times are those of this pack from now on."
    )
    hint = "If what is out stays as it is, remove this record from published/ and say `cutaway publish --same-films`."
    return (Diagnostic("K307", None, message, hint),)


def _with_films(says: Snapshot) -> Snapshot:
    """What is out when the films stay: the corrected captions, the times of the films."""
    return replace(says, scripts=tuple(with_film_times(script) for script in says.scripts))


def _with_new_films(says: Snapshot) -> Snapshot:
    """What is out when the films were made again: those that were out before are out no longer."""
    return replace(says, scripts=tuple(replace(script, film=None) for script in says.scripts))


def _pack(pack: Path, folder: Path) -> tuple[Snapshot | None, str, Problems]:
    """What a pack on the disk says, and its digest; None if it is none, or not as it was made."""
    try:
        marker = json.loads((pack / MARKER).read_bytes())
        files = {str(name): str(digest) for name, digest in marker["files"].items()}
        says = _SNAPSHOT.validate_json((pack / RECORD).read_bytes())
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        message = f"There is no pack in '{pack}' that could be published."
        where = f"cutaway make {folder}" + (f" --out {pack}" if pack != folder / "pack" else "")
        return None, "", (Diagnostic("K301", None, message, f"Say `{where}` first."),)
    touched = changed_by_hand(pack) + tuple(name for name in files if not (pack / name).exists())
    if touched:
        names = ", ".join(f"'{name}'" for name in touched[:4]) + (" and more" if len(touched) > 4 else "")
        message = f"The pack is not as it was made: {names}."
        hint = "Make the change in the type folder, say `cutaway make`, then publish."
        return None, "", (Diagnostic("K302", None, message, hint),)
    lines = "".join(f"{name} {files[name]}\n" for name in sorted(files) if not _OUR_OWN.fullmatch(name))
    return says, hashlib.sha256(lines.encode()).hexdigest(), ()
