"""The shortest ways to a thing, in sentences that read aloud: what is done, what it comes to, why no other way."""

from dataclasses import replace

from cutaway.handbook.records import Folder
from cutaway.inquiry.questions.detour import Detour, Dial, Stays
from cutaway.inquiry.questions.reach import AlreadyThere, NothingToMove, Reached, Refused, Tries, Way
from cutaway.inquiry.search.movements import Hand
from cutaway.language.print_back import printed_actions
from cutaway.language.syntax import Action, Move
from cutaway.problems.counting import counted
from cutaway.wording.asking import action_words, are, the
from cutaway.wording.figures import duration
from cutaway.wording.otherwise import asks_words
from cutaway.wording.shown import cites_words, inner, listed_with, seen_words, sentence, value_words

# How many movements that rules hold back are told of. A choice of ours.
MOST_REFUSED = 3
# What comes sooner after a movement comes at once, s: no moment is known better.
SOON = 0.05
_LENGTHS = {1: "One movement does", 2: "Two movements do", 3: "Three movements do", 4: "Four movements do"}


def there_words(already: AlreadyThere, asked: str, folder: Folder) -> str:
    """That a thing is so to begin with."""
    seen = listed_with(seen_words(one, folder) for one in already.seen)
    return sentence(f"Nothing need be done: {asked} already" + (f", since {seen}" if seen and seen != asked else ""))


def nothing_words(nothing: NothingToMove, asked: str, folder: Folder) -> str:
    """That no control has to do with a thing."""
    seen = listed_with(seen_words(one, folder) for one in nothing.seen)
    return sentence(f"No control that can be moved has anything to do with whether {asked}; as it stands, {seen}")


def reach_lines(answer: Reached, asked: str, folder: Folder) -> tuple[str, ...]:
    """The answer, a line each. asked: what is to be so, as a clause."""
    out = [sentence(f"As it stands, {listed_with(seen_words(one, folder) for one in answer.seen)}")]
    if answer.ways:
        length = len(answer.ways[0].moves)
        many = sum(way.ways for way in answer.ways) + answer.more
        ways = "" if many == 1 else f", in {many} ways"
        out.append(f"{_LENGTHS.get(length, f'{length} movements do')} it{ways}:")
        out += [f"  {number}. {way_words(way, asked, folder)}" for number, way in enumerate(answer.ways, 1)]
        if answer.more:
            out.append(sentence(f"{answer.more} more {'is' if answer.more == 1 else 'are'} not told here; say --most"))
    if answer.detour is not None:
        out += detour_words(answer.detour, answer.ways[0], asked, folder)
    out += [_refused_words(one, folder) for one in answer.refused[:MOST_REFUSED]]
    return (*out, *map(sentence, tries_words(answer, asked)))


def way_words(way: Way, asked: str, folder: Folder) -> str:
    """One sequence, when it comes to what is asked, how to write it."""
    done = sentence(action_words(_with_choices(way)))
    took = duration(way.at)
    if way.slowest and duration(way.slowest) != took:
        took = f"at most {duration(way.slowest)}"
    last = f"{took} after the last of these" if len(way.actions) > 1 else f"{took} later"
    comes = sentence(f"{last} {asked}" if way.at >= SOON else f"at once {asked}")
    if way.orders > 1:
        comes += " Either order will do." if way.orders == 2 else f" Any of {way.orders} orders will do."
    first = ", for the first of these" if way.ways > 1 else ""
    written = f"In a claim{first}: after {printed_actions(way.actions)}."
    return f"{done} {comes} {cites_words(way.cites, folder)}".rstrip() + f" {written}"


def _with_choices(way: Way) -> tuple[Action, ...]:
    """The actions, each movement to any of the places where it may put its control: 'left, right or both'."""
    choices = iter(way.choices)
    return tuple(
        replace(one, position=listed_with(places, "or"), level=None)
        if isinstance(one, Move) and len(places := next(choices, ())) > 1
        else one
        for one in way.actions
    )


def detour_words(detour: Detour, way: Way, asked: str, folder: Folder) -> list[str]:
    """Why the direct way does not do: what stays as it is, what a dial reads then, and what it takes."""
    seen = listed_with(seen_words(one, folder) for one in detour.seen)
    if detour.to:
        begin = f"To move {listed_with(f'{_control(h)} to {h.words}' for h in detour.to)} and no more does not do"
    else:
        last = way.moves[-1]
        begin = f"{the(_name(last))} stands at {last.words} already, and to leave it there does not do"
    out = [sentence(f"Why not directly: {inner(begin)}, because {_because(detour, folder) or f'then {seen}'}")]
    if detour.stays:
        out.append(sentence(f"So {seen}, for as long as it was looked at"))
        out += [_turning(detour, folder)]
    return out


def _because(detour: Detour, folder: Folder) -> str:
    """What keeps still, with what it is set at, and what a dial shows."""
    still = [f"{the(one.part)} stays {one.state}" for one in detour.stays]
    reads = [seen_words(dial.direct, folder) for dial in detour.dials[:1]]
    set_at = [words for one in detour.stays for words in [_set_at(one, folder)] if words]
    return "; ".join(words for words in (listed_with([*still, *reads]), *set_at) if words)


def _set_at(one: Stays, folder: Folder) -> str:
    if not one.figures:
        return ""
    figures = listed_with(f"{name} {words}" for name, words in one.figures)
    return f"{the(one.part)} is set at {figures} {cites_words(one.cites, folder)}".rstrip()


def _turning(detour: Detour, folder: Folder) -> str:
    """What the way round does to what stayed, and what the thing asked of then needed."""
    first = detour.stays[0]
    begins = f"the way round brings {the(first.part)} to be {first.instead}, {duration(first.at)} after it begins"
    if not detour.dials:
        return sentence(begins)
    dial = detour.dials[0]
    turning = f"{begins}, when {seen_words(dial.turning, folder)}"
    stuck = next((one for one in detour.seen if one.value is not None), None)
    if dial.passing is None or stuck is None:
        return sentence(turning)
    on = f"{the(stuck.what)} {'go' if are(stuck.what) == 'are' else 'goes'} on from {value_words(stuck, folder)}"
    passing = f"{on} only once it reads {value_words(dial.passing, folder)}"
    return " ".join((sentence(f"{turning}; {passing}"), _between(first, dial, the(stuck.what)))).strip()


def _between(first: Stays, dial: Dial, what: str) -> str:
    """That a reading is on the wrong side of both, where the runs show it so."""
    here, turning, passing = dial.direct.value, dial.turning.value, dial.passing.value if dial.passing else None
    if here is None or turning is None or passing is None or not (turning < here < passing or turning > here > passing):
        return ""
    much, little = ("much", "little") if turning < here else ("little", "much")
    return sentence(
        f"So left as it is the reading is too {much} for {the(first.part)} to be {first.instead}, and too {little} to "
        f"move {what} on"
    )


def _refused_words(one: Refused, folder: Folder) -> str:
    if one.does:
        itself = f"{_control(one.hand)} put to {one.hand.words} would do it by itself"
        return sentence(f"{itself}, but it goes there only when {asks_words(one.asks, folder)}")
    goes = f"{_control(one.hand)} goes to {one.hand.words} only when {asks_words(one.asks, folder)}"
    return sentence(f"Not tried, since a rule holds it back: {goes}")


def tries_words(answer: Reached, asked: str) -> tuple[str, ...]:
    """How far it was looked, and what was not."""
    tries = answer.tries
    out: list[str] = []
    if tries.ended == "found":
        if tries.done > 1:
            out.append(f"No shorter one does it: {_all_of(tries.done - 1)}")
    elif tries.ended == "complete":
        out.append(f"No sequence of movements brings it about that {asked}: every state to be had was looked at")
    elif tries.ended == "length":
        out.append(
            f"No {_up_to(tries.asked)} brings it about that {asked}; longer sequences were not looked at "
            "(--size looks at longer ones)"
        )
    else:
        out.append(_early(tries, bool(answer.ways)))
    part = "alone they change nothing" if tries.asked == 1 else "a part of them changes nothing"
    over = f", {tries.passed_over:,} more passed over, since {part}" if tries.passed_over else ""
    out.append(
        f"{counted(tries.controls, 'control')} could matter here, with {counted(tries.movements, 'movement')} to begin "
        f"with; {counted(tries.tried, 'sequence')} tried{over}"
        + (f". {_between_words(tries)}" if tries.asked > 1 else "")
    )
    if tries.undecided:
        out.append(f"Of {counted(tries.undecided, 'sequence')} the model could not say what comes")
    return tuple(out)


def _between_words(tries: Tries) -> str:
    """What was tried between two movements."""
    held = "; a control that springs back is also held while another is moved" if tries.holds else ""
    return f"Between two movements either a moment passes, or all is let come to rest{held}"


def _early(tries: Tries, found: bool) -> str:
    why = {"tries": "the most that is tried", "time": "the time limit"}.get(tries.ended, "you stopped it")
    done = f"no {_up_to(tries.done)} does it. " if tries.done else ""
    more = "there may be more of the same length" if found else "there may be one"
    return (
        f"The search ended early ({why}): {done}Of longer ones {more}. To narrow it, begin from a nearer situation, "
        "ask on another standard, or say a longer --limit"
    )


def _up_to(length: int) -> str:
    return "single movement" if length == 1 else f"sequence of up to {length} movements"


def _all_of(length: int) -> str:
    return f"every {_up_to(length)} was looked at"


def _name(hand: Hand) -> str:
    return f"{hand.part} {hand.control}".strip()


def _control(hand: Hand) -> str:
    return the(_name(hand))
