"""What the script desk found, as text for a person and as records for a program."""

from collections.abc import Iterator

from cutaway.narrate.clock import clock
from cutaway.narrate.desk import Desk, ScriptDesk, film_at
from cutaway.narrate.terms import Where
from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Problems
from cutaway.problems.printing import as_records


def desk_text(desk: Desk) -> str:
    """The report: scripts with chapters, terms, promises, what is covered."""
    lines = [line for script in desk.scripts for line in _script(script)]
    return "\n".join([*lines, *_terms(desk), *_promises(desk), *_covered(desk)])


def _script(script: ScriptDesk) -> Iterator[str]:
    unchecked = sum(1 for line in script.lines if line.checking == "unchecked")
    bare = f", {unchecked} of them unchecked" if unchecked else ""
    yield f"{script.name}  {script.title}"
    said = f"{counted(len(script.lines), 'sentence')}{bare}, {counted(script.words, 'word')} as spoken"
    yield f"    {clock(script.length)} to say: {said}."
    for chapter in script.chapters:
        yield f"    {clock(chapter.start):>7}  {chapter.title or script.title} ({clock(chapter.length)})"
    yield ""


def _terms(desk: Desk) -> Iterator[str]:
    used = [use for use in desk.terms if use.uses]
    if not desk.terms:
        return
    unused = [use.term.name for use in desk.terms if not use.uses]
    plain = sum(1 for use in desk.terms if use.term.simply)
    yield f"Terms: {len(desk.terms)}, {len(used)} of them spoken of, {plain} with a simple meaning as well."
    for use in used:
        if use.introduced is not None:
            by = " (marked)" if use.marked else ""
            yield f"    {use.term.name}: introduced in {_place(desk, use.introduced)}{by}"
    if unused:
        yield f"    Spoken of nowhere: {', '.join(unused)}."
    yield ""


def _promises(desk: Desk) -> Iterator[str]:
    if not desk.promises:
        return
    open_ones = sum(1 for promise in desk.promises if promise.settled is None)
    yield f"Promises: {len(desk.promises)}, {open_ones} open."
    for promise in desk.promises:
        where = f"settled in {_place(desk, promise.settled)}" if promise.settled else "open"
        yield f"    {promise.what}: made in {_place(desk, promise.made)}, {where}"
    yield ""


def _covered(desk: Desk) -> Iterator[str]:
    found = desk.covered
    for system in found.systems:
        count = len(system.spoken_of) + len(system.left_out)
        left = f"; left out: {', '.join(system.left_out)}" if system.left_out else ""
        yield f"{system.system}: {len(system.spoken_of)} of {counted(count, 'part')} spoken of{left}."
    still = [one.control for one in found.controls if not one.positions]
    if found.controls:
        moved = len(found.controls) - len(still)
        left = f"; never moved: {', '.join(still)}" if still else ""
        yield f"Controls: {moved} of {len(found.controls)} moved in a claim or a drill{left}."
    total = len(found.cited) + len(found.behind) + len(found.silent)
    if total:
        left = f"; the others: {', '.join(found.silent)}" if found.silent else ""
        yield f"Paragraphs: {len(found.cited)} cited, {len(found.behind)} behind a claim, of {total}{left}."


def _place(desk: Desk, where: Where) -> str:
    film, number = film_at(desk.folder, where)
    return f"{film}, sentence {number}"


def desk_record(desk: Desk | None, problems: Problems) -> dict[str, object]:
    """The same for a program."""
    record: dict[str, object] = {"problems": as_records(problems)}
    if desk is None:
        return record

    def place(where: Where | None) -> dict[str, object] | None:
        if where is None:
            return None
        film, number = film_at(desk.folder, where)
        return {"script": film, "sentence": number}

    return record | {
        "scripts": [_script_record(script) for script in desk.scripts],
        "terms": [
            {
                "term": use.term.name,
                "introduced": place(use.introduced),
                "marked": use.marked,
                "uses": [place(one) for one in use.uses],
            }
            for use in desk.terms
        ],
        "promises": [
            {"promise": one.what, "made": place(one.made), "settled": place(one.settled)} for one in desk.promises
        ],
        "covered": {
            "systems": [
                {"system": s.system, "spoken of": list(s.spoken_of), "left out": list(s.left_out)}
                for s in desk.covered.systems
            ],
            "controls": [
                {"control": c.control, "positions": list(c.positions), "spoken of": c.spoken_of}
                for c in desk.covered.controls
            ],
            "paragraphs": {
                "cited": list(desk.covered.cited),
                "behind a claim": list(desk.covered.behind),
                "others": list(desk.covered.silent),
            },
        },
    }


def _script_record(script: ScriptDesk) -> dict[str, object]:
    return {
        "script": script.name,
        "title": script.title,
        "length": round(script.length, 3),
        "words": script.words,
        "chapters": [
            {"title": c.title, "start": round(c.start, 3), "length": round(c.length, 3)} for c in script.chapters
        ],
        "sentences": [
            {
                "number": line.number,
                "start": round(line.start, 3),
                "stop": round(line.stop, 3),
                "text": line.text,
                "spoken": line.spoken,
                "checking": line.checking,
                "picture": shot.picture.words if shot.picture else None,
                "call-outs": list(shot.callouts),
            }
            for line, shot in zip(script.lines, script.shots, strict=True)
        ],
    }
