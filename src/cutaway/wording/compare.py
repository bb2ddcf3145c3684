"""What differs between two standards, in sentences that read aloud."""

import re
from collections.abc import Iterator, Sequence

from cutaway.handbook.records import Folder
from cutaway.inquiry.questions.compare import Comparison, ControlDifference, IndicationDifference
from cutaway.inquiry.questions.compare_moves import Moved
from cutaway.inquiry.questions.compare_records import Behaviour, Moment
from cutaway.inquiry.questions.differing_records import RecordDifference
from cutaway.inquiry.verdicts import Seen
from cutaway.problems.counting import counted
from cutaway.wording.asking import are, situation_words, the
from cutaway.wording.compare_lines import line_words
from cutaway.wording.how_far import a_kind
from cutaway.wording.shown import listed_with, seen_words, sentence, value_words

_SIDE = re.compile(r"\b(?:port|starboard)\b")
_OTHER_SIDE = {"port": "starboard", "starboard": "port"}


def compared_lines(found: Comparison, folder: Folder) -> tuple[str, ...]:
    """The answer, a line each: what the crew would notice, then what differs underneath."""
    one, other = str(found.one.name), str(found.other.name)
    crew = crew_lines(found, folder)
    lone = {r.part for r in found.underneath if r.what == "part"}
    told = [r for r in found.underneath if r.what != "line" or not _leads_to(r, lone)]
    left = len(found.underneath) - len(told)
    under = both_sides(tuple(record_words(r, one, other, found.underneath) for r in told))
    off = tuple(_disconnected(found))
    return (
        "What the crew would notice:" if crew else no_difference(found),
        *(f"  - {line}" for line in crew),
        *_bound_lines(found),
        "Underneath:" if under or off else "Underneath the records are the same.",
        *(f"  - {line}" for line in (*off, *under)),
        *([_left_words(left)] if left else []),
    )


def no_difference(found: Comparison) -> str:
    """That the crew would notice nothing, with how far that was looked."""
    noticed = f"the crew would notice no difference between {found.one.name} and {found.other.name}"
    return sentence(f"{_where_looked(found)}{noticed}")


def _disconnected(found: Comparison) -> Iterator[str]:
    """The parts that are there on both, and on one of them off their pipes and wires."""
    for here, there in ((found.one, found.other), (found.other, found.one)):
        off = sorted(here.cut - there.cut - there.missing)
        if off:
            are_off = "is off its lines" if len(off) == 1 and are(off[0]) == "is" else "are off their lines"
            yield sentence(f"on {here.name} {listed_with(map(the, off))} {are_off} (pipes, wires, what drives them)")


def _left_words(left: int) -> str:
    return f"And {counted(left, 'line')} (pipes and wires) to or from parts that only one of them has; see --table."


def _where_looked(found: Comparison) -> str:
    """Where and after how much it was looked, as the beginning of a sentence."""
    words = [situation_words(found.situation)] if found.situation else []
    if found.moments and not found.situation:
        words.append(f"at the {counted(found.moments, 'moment')} that were compared")
    if found.moved.possible:
        all_of = "all" if found.moved.tried == found.moved.possible else f"{found.moved.tried:,} of"
        tried = f"after {all_of} {counted(found.moved.possible, 'single movement')} of a control"
        words.append(f"as things stand and {tried}" if found.situation else tried)
    return f"{', '.join(words)}, " if words else ""


def crew_lines(found: Comparison, folder: Folder) -> tuple[str, ...]:
    """What the crew would notice between the two, a line each."""
    one, other = str(found.one.name), str(found.other.name)
    return (
        *both_sides(tuple(control_words(c, one, other) for c in found.controls)),
        *indication_lines(found.indications, one, other),
        *_everywhere_lines(found, folder),
        *behaviour_lines(everywhere(found, folder)[1], one, other, folder),
        *moved_lines(found.moved.behaviours, one, other, folder),
    )


def _leads_to(line: RecordDifference, parts: set[str]) -> bool:
    """Whether a line has an end at one of some parts."""
    return any(end == part or end.startswith(f"{part}.") for end in line.part.split(" > ") for part in parts)


def both_sides(lines: tuple[str, ...]) -> tuple[str, ...]:
    """The lines, those that are the same for port and starboard told once."""
    left = dict.fromkeys(lines)
    out = []
    for line in lines:
        if line not in left:
            continue
        del left[line]
        twin = _SIDE.sub(lambda found: _OTHER_SIDE[found[0]], line)
        if twin != line and twin in left:
            del left[twin]
            side = "starboard" if "port " in line else "port"
            at = line.rfind(" (") if line.endswith(")") else len(line)
            line = f"{line[:at]} Likewise to {side}.{line[at:]}"
        out.append(line)
    return tuple(out)


def control_words(one: ControlDifference, here: str, there: str) -> str:
    """A control that only one has, or that has other positions."""
    name = the(one.name)
    has = "have" if are(one.name) == "are" else "has"
    if one.one and one.other:
        return sentence(f"{name} {has} {_places(one.one)} on {here}, and {_places(one.other)} on {there}")
    where, lacks, places = (here, there, one.one) if one.one else (there, here, one.other)
    return sentence(f"{where} has {name}{f' ({_places(places)})' if places else ''}, and {lacks} has not")


def positions_briefly(positions: tuple[str, ...], ranged: bool) -> str:
    """The positions of a control in a cell of a table: 'off / on', 'closed to open', '–' where it has none."""
    return " / ".join(positions) or "–" if not ranged or not positions else " to ".join((positions[0], positions[-1]))


def _places(positions: tuple[str, ...]) -> str:
    return listed_with(positions) if positions else ""


def indication_lines(found: tuple[IndicationDifference, ...], one: str, other: str) -> tuple[str, ...]:
    """What tells the crew something on only one of the two."""
    sides = {side: {i.part: i.kind for i in found if i.has == side} for side in ("one", "other")}
    both = [part for part in sides["one"] if part in sides["other"]]
    kinds = [(sides["one"][part], sides["other"][part]) for part in both]
    alike = tuple(
        sentence(f"{the(part)} {are(part)} {a_kind(here)} on {one}, and {a_kind(there)} on {other}")
        for part, (here, there) in zip(both, kinds, strict=True)
    )
    out = list(both_sides(alike))
    alone = [i for i in found if i.part not in both]
    for side, name in (("one", one), ("other", other)):
        here = [f"{the(i.part)} ({i.kind})" if i.kind not in i.part else the(i.part) for i in alone if i.has == side]
        if here:
            out.append(sentence(f"Only {name} has {listed_with(here)}"))
    return tuple(out)


def everywhere(found: Comparison, folder: Folder) -> tuple[tuple[Behaviour, ...], tuple[Behaviour, ...]]:
    """What is seen otherwise in just the same way in every situation there is, each once; and all the rest. Of one
    situation there is nothing of the first sort."""
    lost = {one.at.situation for one in found.unanswered if not one.at.drill}
    situations = {one.name for one in folder.situations} - lost
    if found.situation or len(situations) < 2:
        return (), found.behaviours
    seen: dict[tuple[str, str, str], list[Behaviour]] = {}
    for one in found.behaviours:
        if not one.at.drill and one.at.move is None:
            sight = (one.one.what, value_words(one.one, folder), value_words(one.other, folder))
            seen.setdefault(sight, []).append(one)
    always = [several for several in seen.values() if {one.at.situation for one in several} >= situations]
    told = {id(one) for several in always for one in several}
    return tuple(several[0] for several in always), tuple(one for one in found.behaviours if id(one) not in told)


def _everywhere_lines(found: Comparison, folder: Folder) -> tuple[str, ...]:
    one, other = str(found.one.name), str(found.other.name)
    words = _told_together([_differs(b, one, other, folder) for b in everywhere(found, folder)[0]])
    return (sentence(f"in every situation, {words}"),) if words else ()


def sights(found: Comparison, folder: Folder) -> Iterator[tuple[str, Behaviour]]:
    """What is seen otherwise, one by one, each with its moments in words: for rows of a table."""
    always, others = everywhere(found, folder)
    yield from (("in every situation", one) for one in always)
    yield from ((moment_words(one.at), one) for one in others)


def behaviour_lines(found: tuple[Behaviour, ...], one: str, other: str, folder: Folder) -> tuple[str, ...]:
    """What is seen otherwise, moment by moment; moments at which just the same is seen are told together."""
    by_moment: dict[Moment, list[Behaviour]] = {}
    for behaviour in found:
        by_moment.setdefault(behaviour.at, []).append(behaviour)
    alike: dict[str, list[Moment]] = {}
    for at, several in by_moment.items():
        alike.setdefault(_told_together([_differs(b, one, other, folder) for b in several]), []).append(at)
    return tuple(sentence(f"{listed_with(map(moment_words, ats))}, {words}") for words, ats in alike.items())


def _told_together(clauses: Sequence[str]) -> str:
    """Clauses of one moment, those of port and starboard that go alike as one."""
    seen = both_sides(tuple(map(sentence, clauses)))
    told = (f"{words[:1].lower()}{words[1:]}".removesuffix(".").replace(". Likewise", ", likewise") for words in seen)
    return "; ".join(told)


def moved_lines(found: tuple[Behaviour, ...], one: str, other: str, folder: Folder) -> tuple[str, ...]:
    """What is seen otherwise after a movement; the same movement with the same sights in several situations once."""
    by_moment: dict[Moment, list[Behaviour]] = {}
    for behaviour in found:
        by_moment.setdefault(behaviour.at, []).append(behaviour)
    alike: dict[object, list[Moment]] = {}
    for at, several in by_moment.items():
        sights = tuple((b.one.what, b.one.state, b.other.state) for b in several)
        alike.setdefault((at.move, sights), []).append(at)
    out: list[str] = []
    for first, *others in alike.values():
        (line,) = behaviour_lines(tuple(by_moment[first]), one, other, folder)
        where = listed_with(situation_words(at.situation) for at in others)
        out.append(f"{line} {sentence(f'likewise {where}')}" if others else line)
    return tuple(out)


def moment_words(at: Moment) -> str:
    """When: 'in cruising', 'after step 3 of Starting the engine'."""
    if at.move is not None:
        control, place = at.move
        return f"{situation_words(at.situation)}, with {the(control)} put to {place}"
    return f"after step {at.step} of '{at.title or at.drill}'" if at.drill else situation_words(at.situation)


def _differs(one: Behaviour, here: str, there: str, folder: Folder) -> str:
    return f"{seen_words(one.one, folder)} on {here}, and {_brief(one.other, folder)} on {there}"


def _brief(seen: Seen, folder: Folder) -> str:
    return f"{are(seen.what)} {seen.state}" if seen.value is None else value_words(seen, folder)


def _bound_lines(found: Comparison) -> Iterator[str]:
    both = f"on {found.one.name} and {found.other.name}"
    if found.moments:
        when = situation_words(found.situation) if found.moments == 1 and found.situation else ""
        when = when or f"at {counted(found.moments, 'moment')}"
        same = "" if found.behaviours else ": they show the same"
        yield sentence(f"Compared were the lamps, gauges and horns that both have, {when}, {both}{same}")
    yield from _moved_lines(found.moved)
    together: dict[tuple[Moment, str], list[str]] = {}
    for one in found.unanswered:
        together.setdefault((one.at, one.because), []).append(one.on)
    yield from dict.fromkeys(_not_compared(at, on, because) for (at, because), on in together.items())


def _moved_lines(moved: Moved) -> Iterator[str]:
    """After how many movements it was looked, and what that leaves out."""
    if not moved.possible:
        return
    all_of = f"all {moved.tried:,}" if moved.tried == moved.possible else f"{moved.tried:,} of {moved.possible:,}"
    more = "" if moved.tried == moved.possible else f"; --moves {moved.possible} tries all"
    came = "" if moved.behaviours else ": nothing besides came to be otherwise on one than on the other"
    yield sentence(f"Then one control at a time was put elsewhere, {all_of} such movements{came}{more}")
    if moved.nothing:
        yield sentence(f"Of {counted(moved.nothing, 'such movement')} the model could not say what comes")


def _not_compared(at: Moment, on: list[str], because: str) -> str:
    what = f"The drill '{at.title or at.drill}'" if at.drill else f"'{at.situation}'"
    where = f" for {listed_with(filter(None, on))}" if any(on) else ""
    return sentence(f"{what} was not compared{where}: {because}")


def record_words(one: RecordDifference, here: str, there: str, every: tuple[RecordDifference, ...] = ()) -> str:
    """A difference in the records, with where it is written and what brought it. every: all of them."""
    books: dict[str, list[str]] = {}
    for cite in one.cites:
        numbers = books.setdefault(str(cite.source), [])
        numbers += [cite.number] if cite.number not in numbers else []
    written = [f"{key} {', '.join(numbers)}" for key, numbers in books.items()]
    since = since_words(one)
    told = "; ".join((*written, *([f"since {since}"] if since else [])))
    words = line_words(one, every, here, there) if one.what == "line" else _record(one, here, there)
    return f"{words}{f' ({told})' if told else ''}"


def since_words(one: RecordDifference) -> str:
    """The mods and amendments that brought a difference, '' where none is known."""
    return listed_with((*one.mods, *one.amendments))


def _record(one: RecordDifference, here: str, there: str) -> str:
    name = the(one.part)
    has, who, lacks = one.one or one.other, here if one.one else there, there if one.one else here
    match one.what:
        case "part":
            kind = "" if one.part.endswith(has) else f", {a_kind(has)}"
            return sentence(f"only {who} has {name}{kind}")
        case "kind":
            return sentence(f"{name} {are(one.part)} {a_kind(one.one)} on {here}, and {a_kind(one.other)} on {there}")
        case "coupling" if one.one and one.other and one.name.endswith((" by", " with")):
            ends = [the(end) for end in (one.one, one.other)]
            word = one.name.rsplit(" ", 1)[1]
            return sentence(f"{name} {are(one.part)} {one.name} {ends[0]} on {here}, and {word} {ends[1]} on {there}")
        case "rule":
            return sentence(
                f"{name} moves by other rules: {one.one or 'none'} on {here}; {one.other or 'none'} on {there}"
            )
    label = {"place": "place", "marking": "marking", "worked by": "hand"}.get(one.what, one.name)
    subject = f"'{label}' of {name}"
    if one.one and one.other:
        return sentence(f"{subject} is {one.one} on {here}, and {one.other} on {there}")
    return sentence(f"{subject} is {has} on {who}; {lacks} has none")
