"""Propose links from a script to the books, and write those that a person accepted."""

import hashlib
import os
import tempfile
from collections import Counter
from collections.abc import Collection
from dataclasses import dataclass, replace
from pathlib import Path

from cutaway.api.loading import load
from cutaway.handbook.records import Folder, Script
from cutaway.narrate.linking import Insertion, Proposal, proposals
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error

_SHORT, _LONG = 4, 8
"""The digits of a proposal's number; two that would have the same short one have long ones."""


@dataclass(frozen=True, slots=True)
class Linked:
    """The proposals for one script, and the folder that they were made from."""

    folder: Folder
    root: Path
    script: str
    proposals: tuple[Proposal, ...]


def link(folder: Path | str, script: str) -> tuple[Linked | None, Problems]:
    """The citations, parts and claims that could be written for a script; nothing is written."""
    loaded, problems = load(folder)
    if loaded is None:
        return None, problems
    name = Path(script).name.removesuffix(".md")
    one = next((s for s in loaded.folder.scripts if s.name == name), None)
    if one is None:
        names = ", ".join(s.name for s in loaded.folder.scripts) or "none yet"
        return None, (Diagnostic("C102", None, f"There is no script '{script}'.", f"There are: {names}."),)
    return Linked(loaded.folder, Path(folder), one.name, numbered(proposals(one, loaded.folder), one)), ()


def numbered(found: tuple[Proposal, ...], script: Script) -> tuple[Proposal, ...]:
    """The same proposals, each with a number made from what it writes and for which sentence: once it is written,
    nothing else answers to its number."""
    short = [_number(one, script, _SHORT) for one in found]
    taken = Counter(short)
    numbers = [
        number if taken[number] == 1 else _number(one, script, _LONG) for one, number in zip(found, short, strict=True)
    ]
    by_place = {one.number: number for one, number in zip(found, numbers, strict=True)}
    return tuple(
        replace(one, number=number, needs=by_place.get(one.needs, 0))
        for one, number in zip(found, numbers, strict=True)
    )


def _number(one: Proposal, script: Script, digits: int) -> int:
    """So many digits that depend on the content alone, the first of them no nought."""
    said = one.sentence
    # The same sentence said twice is told apart by how often it was said before.
    before = sum(1 for s in script.sentences if said and s.text == said.text and s.span.start < said.span.start)
    content = "\n".join((one.sort, one.insertion.path, said.text if said else "", str(before), one.words))
    least = int("1" + "0" * (digits - 1))
    return least + int(hashlib.sha256(content.encode()).hexdigest(), 16) % (9 * least)


def accept(linked: Linked, numbers: Collection[int]) -> tuple[tuple[Path, ...], Problems]:
    """Write the proposals of these numbers and nothing else: all of them or, where one cannot be, none.

    Text is only put in; what stands in the files keeps its order, its line ends and every letter. Each file is
    replaced in one step. The paths that were written.
    """
    wrong = _wrong_numbers(linked, numbers)
    if wrong:
        return (), wrong
    chosen = [one for one in linked.proposals if one.number in numbers]
    texts: dict[Path, bytes] = {}
    for path in dict.fromkeys(one.insertion.path for one in chosen):
        data, problems = _with_insertions(linked, path, [p.insertion for p in chosen if p.insertion.path == path])
        if data is None or has_error(problems):
            return (), problems
        texts[linked.root / path] = data
    try:
        for file, data in texts.items():
            _replace(file, data)
    except OSError as fault:
        words = f"'{file}' cannot be written: {(fault.strerror or 'the system refused').lower()}."
        return (), (Diagnostic("C105", None, words, "See that you may write there."),)
    return tuple(texts), ()


def _wrong_numbers(linked: Linked, numbers: Collection[int]) -> Problems:
    known = {one.number: one for one in linked.proposals}
    problems: list[Diagnostic] = []
    for number in sorted(set(numbers)):
        if number not in known:
            hint = f"Look at them anew: cutaway link {linked.script}" if known else "There is nothing to propose."
            words = f"There is no proposal {number} for {linked.script}; one that is written is proposed no longer."
            problems.append(Diagnostic("C111", None, words, hint))
        elif known[number].needs and known[number].needs not in numbers:
            needs = known[number].needs
            words = f"Proposal {number} is a claim about a part that is only proposed, as number {needs}."
            problems.append(Diagnostic("C114", None, words, f"Accept both: --accept {needs} --accept {number}"))
    return tuple(problems)


def _with_insertions(linked: Linked, path: str, insertions: list[Insertion]) -> tuple[bytes | None, Problems]:
    """A file's bytes with texts put in, the later places first so that offsets stay true."""
    known = next((file for file in linked.folder.files if file.path == path), None)
    file = linked.root / path
    if known is None:
        if file.exists():
            return None, (_changed(path),)
        return (insertions[0].begin + "".join(one.text for one in insertions)).encode(), ()
    raw = file.read_bytes() if file.exists() else b""
    mark = "\ufeff" if raw.startswith(b"\xef\xbb\xbf") else ""
    text = raw.decode("utf-8-sig", "replace")
    if text.replace("\r\n", "\n").replace("\r", "\n") != known.text:
        return None, (_changed(path),)
    ends = "\r\n" if "\r\n" in text else "\n"
    merged = _merged(insertions, known.text)
    for at, words in sorted(merged.items(), reverse=True):
        place = _raw_offset(text, at)
        text = text[:place] + words.replace("\n", ends) + text[place:]
    return (mark + text).encode(), ()


def _merged(insertions: list[Insertion], text: str) -> dict[int, str]:
    """What goes in at each offset; several claims under one sentence share a block, several parts follow each other."""
    found: dict[int, str] = {}
    for one in insertions:
        at = one.at if one.at >= 0 else len(text)
        words = one.text
        if one.at < 0:
            words = ("" if not text or text.endswith("\n") else "\n") + "\nparts:\n" * (at not in found) + words
        opening = "\n```claim\n"
        if at in found and opening in words and opening in found[at]:
            claim = words.split(opening, 1)[1].split("\n```", 1)[0]
            before, close, after = found[at].rpartition("\n```")
            found[at] = f"{before}\n{claim}{close}{after}"
        else:
            found[at] = found.get(at, "") + words
    return found


def _raw_offset(raw: str, at: int) -> int:
    """The place in a text with any line ends of an offset in the same text with \\n alone."""
    place = 0
    for _ in range(at):
        place += 2 if raw.startswith("\r\n", place) else 1
    return place


def _changed(path: str) -> Diagnostic:
    return Diagnostic(
        "C112",
        None,
        f"'{path}' has changed since its proposals were made, so nothing was written.",
        "Run cutaway link again and look at the proposals anew.",
    )


def _replace(file: Path, data: bytes) -> None:
    """Write a file beside its place and move it there: a reader sees the old one or the new one, never half."""
    file.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=file.parent, prefix=f".{file.name}.")
    try:
        with os.fdopen(handle, "wb") as new:
            new.write(data)
            new.flush()
            os.fsync(new.fileno())
        # A temporary file is for its owner alone; the user's file keeps the permissions that it had.
        Path(name).chmod(file.stat().st_mode & 0o777 if file.exists() else 0o644)
        Path(name).replace(file)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
