"""Repairs of captions that a machine made, and their comparison with the script."""

from dataclasses import dataclass
from pathlib import Path

from cutaway.api.loading import load
from cutaway.api.recording import in_the_way, script_named
from cutaway.handbook.reading import decoded
from cutaway.handbook.records import Folder, Script
from cutaway.narrate.alignment import Departure
from cutaway.narrate.caption_reading import ReadCue, read_captions
from cutaway.narrate.comparing import Compared, compare
from cutaway.narrate.recogniser import dictionary, missing
from cutaway.narrate.repair import Repair, applied, numbered, repairs
from cutaway.narrate.trade_words import trade_words
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error, in_order
from cutaway.problems.span import TextFile
from cutaway.publish.single_file import write_file

# Captions of a day's talk; more is no caption file.
_LARGEST = 20_000_000


@dataclass(frozen=True, slots=True)
class Repaired:
    """What can be repaired in captions. departures: where they say otherwise than the script, if one was named.
    written: the file with the repairs that were asked for, None where none was."""

    cues: tuple[ReadCue, ...]
    script: Script | None
    repairs: tuple[Repair, ...]
    departures: tuple[Departure, ...]
    applied: tuple[int, ...]
    written: Path | None


def repair_captions(
    folder: Path | str,
    captions: Path,
    script: str = "",
    apply: tuple[int, ...] = (),
    out: Path | None = None,
    replace: bool = False,
) -> tuple[Repaired | None, Problems]:
    """Repairs for a file of captions, by the type's words and, if a script is named, by that script.

    apply: the numbers of those to make, in a new file; the captions that were given are never changed.
    """
    loaded, problems = load(folder)
    if loaded is None:
        return None, problems
    problems = missing()
    found = None
    if script:
        found, more = script_named(loaded.folder, script)
        problems += more
    data, file, more = read_text(captions)
    problems += more
    if has_error(problems) or file is None:
        return None, problems
    cues, problems = read_captions(file)
    if not cues:
        return None, in_order(problems)
    proposed, compared = propose(cues, loaded.folder, found)
    departures = compared.departures if compared is not None else ()
    if not apply:
        return Repaired(cues, found, proposed, departures, (), None), in_order(problems)
    unknown = [number for number in apply if not 0 < number <= len(proposed)]
    if unknown:
        return None, in_order((*problems, _no_such_repair(unknown, len(proposed))))
    target = out if out is not None else captions.with_name(f"{captions.stem}.repaired{captions.suffix}")
    refused = _given_file(target, captions) or in_the_way((target,), replace)
    if refused:
        return None, refused
    text = applied(file.text, (one for one in proposed if one.number in apply))
    if b"\r\n" in data:
        text = text.replace("\n", "\r\n")
    mark = b"\xef\xbb\xbf" if data.startswith(b"\xef\xbb\xbf") else b""
    written, more = write_file(target, mark + text.encode(), replace=True)
    if written is None:
        return None, more
    return Repaired(cues, found, proposed, departures, tuple(sorted(set(apply))), written), in_order(problems)


def propose(
    cues: tuple[ReadCue, ...], folder: Folder, script: Script | None
) -> tuple[tuple[Repair, ...], Compared | None]:
    """Repairs by the script first, then by the type's words where captions and script do not agree already."""
    sounds = dictionary()
    by_words = repairs(cues, trade_words(folder), sounds)
    if script is None:
        return by_words, None
    compared = compare(cues, script, folder.glossary, sounds)
    rest = [
        one
        for one in by_words
        if not any(one.start < other.end and other.start < one.end for other in compared.repairs)
        and not _agreed(one, compared)
    ]
    return numbered((*compared.repairs, *rest)), compared


def _agreed(one: Repair, compared: Compared) -> bool:
    """Whether captions and script say the same in all the words of a repair."""
    inside = [(max(start, one.start), min(end, one.end)) for start, end in compared.agreed]
    covered = {at for start, end in inside for at in range(start, end)}
    return all(at in covered for at, letter in enumerate(one.said, one.start) if letter.isalnum())


def read_text(path: Path) -> tuple[bytes, TextFile | None, Problems]:
    """The bytes and the text of a file that was named."""
    try:
        if path.stat().st_size > _LARGEST:
            words = f"'{path}' is larger than any caption file or manuscript."
            return b"", None, (Diagnostic("N601", None, words, "Give the text alone."),)
        data = path.read_bytes()
    except OSError as fault:
        words = f"'{path}' could not be read: {(fault.strerror or str(fault)).lower()}."
        return b"", None, (Diagnostic("N606", None, words, "See that it is there and that you may read it."),)
    file, problems = decoded(data, path.name)
    return data, file, problems


def _no_such_repair(unknown: list[int], count: int) -> Diagnostic:
    numbers = ", ".join(map(str, unknown))
    there = f"There are {count}, numbered from 1." if count else "There are none."
    return Diagnostic("N605", None, f"There is no repair {numbers}; nothing was written.", there)


def _given_file(target: Path, captions: Path) -> Problems:
    """A problem if the repaired captions were to take the place of those that were given."""
    if not target.exists() or not target.samefile(captions):
        return ()
    words = f"'{target}' is the file of captions that was given, and is never written over."
    return (Diagnostic("N604", None, words, "Name another file with --out."),)
