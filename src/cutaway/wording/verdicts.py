"""Verdicts as plain sentences that read aloud. The verdict was found elsewhere; here it is only put into words."""

import re
from dataclasses import dataclass, replace
from typing import Literal, assert_never

from cutaway.handbook.records import Folder
from cutaway.inquiry.verdicts import (
    TOO_MANY,
    Empty,
    Fails,
    Holds,
    Influence,
    NotModelled,
    RestsOn,
    Seen,
    Setup,
    Stated,
    Undecided,
    Verdict,
)
from cutaway.language.syntax import Claim, Compare
from cutaway.quantities.which import StandardName
from cutaway.wording.asking import action_words, are, scope_words, statement_words, the
from cutaway.wording.citing import cited
from cutaway.wording.figures import duration, shown, shown_apart

Kind = Literal["holds", "fails", "rests-on", "stated", "not-modelled", "empty", "undecided"]
StandardVerdicts = tuple[tuple[StandardName, Verdict], ...]

_HEADINGS: dict[Kind, str] = {
    "holds": "Holds",
    "fails": "Fails",
    "rests-on": "Rests on",
    "stated": "Stated",
    "not-modelled": "Not modelled",
    "empty": "Empty",
    "undecided": "Undecided",
}


@dataclass(frozen=True, slots=True)
class Grouped:
    """One answer and the standards that give it. sentence: the answer with its standards named."""

    standards: tuple[StandardName, ...]
    kind: Kind
    sentence: str


def kind_of(verdict: Verdict) -> Kind:
    """Which of the seven kinds a verdict is, as a short word for programs and style sheets."""
    match verdict:
        case Holds():
            return "holds"
        case Fails():
            return "fails"
        case RestsOn():
            return "rests-on"
        case Stated():
            return "stated"
        case NotModelled():
            return "not-modelled"
        case Empty():
            return "empty"
        case Undecided():
            return "undecided"
        case _:
            assert_never(verdict)


def heading(verdict: Verdict) -> str:
    """The verdict in a word or two: 'Holds', 'Rests on', 'Not modelled'."""
    return _HEADINGS[kind_of(verdict)]


def verdict_sentence(claim: Claim, verdict: Verdict, folder: Folder, standards: str = "") -> str:
    """The verdict as a sentence with its evidence and paragraphs.

    standards: for which standards it is the verdict ('Mk 2', 'every standard'), named in the heading; '' to leave that
    out, where the place on the page says so already.
    """
    body = _body(claim, verdict, folder, standards)
    match verdict:
        case RestsOn():
            start = f"On {standards}, rests on" if standards else "Rests on"
        case _:
            start = f"{heading(verdict)} on {standards}:" if standards else f"{heading(verdict)}:"
    return _finished(f"{start} {body}")


def grouped(claim: Claim, verdicts: StandardVerdicts, folder: Folder) -> tuple[Grouped, ...]:
    """The answers over all standards: those that read the same are told once, 'on every standard' or with a list."""
    groups: dict[str, list[tuple[StandardName, Verdict]]] = {}
    for standard, verdict in verdicts:
        # 'Mk 1 has no hand pump' differs from mark to mark in its mark alone, and is still one answer.
        same = f"{kind_of(verdict)}: {_body(claim, verdict, folder, '')}"
        groups.setdefault(same, []).append((standard, verdict))
    found: list[Grouped] = []
    for members in groups.values():
        names = tuple(standard for standard, _ in members)
        words = "every standard" if len(members) == len(verdicts) > 1 else listed(names)
        verdict = members[0][1]
        found.append(Grouped(names, kind_of(verdict), verdict_sentence(claim, verdict, folder, words)))
    return tuple(found)


def listed(words: tuple[str, ...]) -> str:
    """A list as it is said.

    >>> listed(("Mk 1",)), listed(("Mk 1", "Mk 2")), listed(("Mk 1", "Mk 2", "Mk 4"))
    ('Mk 1', 'Mk 1 and Mk 2', 'Mk 1, Mk 2 and Mk 4')
    """
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " and " + words[-1] if words else ""


# --- the sentence after its heading --------------------------------------------------------------------------------


def _body(claim: Claim, verdict: Verdict, folder: Folder, standards: str) -> str:
    match verdict:
        case Holds():
            return f"{_held(claim, verdict, folder)} {cited(verdict.cites, folder)}"
        case Fails():
            return f"{_failed(claim, verdict, folder)} {cited(verdict.cites, folder)}"
        case RestsOn():
            return _rests(claim, verdict, folder)
        case Stated():
            return f"{statement_words(claim, folder)} {cited(verdict.cites, folder)}"
        case NotModelled():
            return _missing(verdict, folder, standards)
        case Empty():
            tried = "the one case" if verdict.tried == 1 else f"the {verdict.tried} cases"
            return f"'{verdict.condition.rstrip('. ')}' never comes about in {tried} tried, so nothing was tested"
        case Undecided():
            return verdict.because.rstrip(". ")
        case _:
            assert_never(verdict)


def _held(claim: Claim, holds: Holds, folder: Folder) -> str:
    """What holds, with the moment where the claim speaks of one."""
    scope, when = claim.scope, claim.scope.when
    says = statement_words(claim, folder)
    done = action_words(scope.actions)
    match when.kind:
        case "within":
            # Nothing comes about at the very instant of an action: what is so then was so before.
            already = "; it was so already" if holds.at == 0.0 else ""
            told = f"{_before_time(says)} {_after(duration(holds.at), done)}{already}"
        case "takes":
            told = f"it takes {duration(holds.at)} until {says}{_once(done, ',')}"
        case "throughout":
            told = f"{_before_time(says)} throughout the {duration(when.first)}{_from(done)}"
        case "at":
            told = f"{_before_time(says)} {_after(duration(when.first), done)}"
        case "never":
            told = f"it is never so that {says}{_once(done)}"
        case "settled":
            told = f"{says}{_once(done)}"
        case _:
            assert_never(when.kind)
    sentence = _join(scope_words(scope), told, _over(claim, holds.tried, holds.witness))
    return "; ".join(words for words in (sentence, _assumed(holds.assumed)) if words)


def _failed(claim: Claim, fails: Fails, folder: Folder) -> str:
    """What was claimed and is not so, why, and what was seen instead."""
    scope = claim.scope
    says = statement_words(claim, folder)
    done = action_words(scope.actions)
    told = _reason(claim, fails, says, done)
    seen = _seen(fails.seen, folder, _bounds(claim))
    found = fails.found.strip().rstrip(".")
    with_case = f"with {_setup(fails.counterexample)}" if fails.counterexample else ""
    evidence = [words for words in (found, seen, _assumed(fails.assumed)) if words]
    sentence = _join(scope_words(scope), with_case, told)
    return "; ".join((sentence, *evidence))


def _reason(claim: Claim, fails: Fails, says: str, done: str) -> str:
    at = duration(fails.at)
    when = claim.scope.when
    match fails.why:
        case "never came":
            if when.kind == "within":
                return f"it does not come about that {_before_time(says)} within {duration(when.first)}{_from(done)}"
            return f"it does not come about that {says}{_once(done)}"
        case "too late":
            allowed = when.second if when.kind == "takes" else when.first
            return f"it takes {at} until {says}{_once(done, ',')}, and the claim allows {duration(allowed)}"
        case "too early":
            return (
                f"it takes only {at} until {says}{_once(done, ',')}, and the claim says {duration(when.first)} at least"
            )
        case "stopped being so":
            return f"it stops being so that {says}, {_after(at, done)}"
        case "was so":
            return f"it is so that {says}, {_after(at, done)}, and the claim says never"
        case "not so":
            return f"it is not so that {says}{_once(done)}"
        case "refused":
            return f"a movement is refused, and the claim says that {says}{_once(done)}"
        case "moved":
            return f"nothing prevents the movement, and the claim says that {says}{_once(done)}"
        case "depends":
            return f"the claim says that {says}, and the runs say otherwise"
        case "order":
            return f"the order is not that {says}{_once(done)}"
        case "trend":
            return f"the trend is not that {says}{_once(done)}"
        case "built otherwise":
            return f"the claim says that {says}, and the records say otherwise"
        case "not lower" | "not higher" | "not the same":
            return f"it is {fails.why}, and the claim says that {says}{_once(done)}"
        case "no case":
            return f"in none of the {fails.tried} cases tried is it so that {says}{_once(done)}"
        case _:
            assert_never(fails.why)


def _rests(claim: Claim, rests: RestsOn, folder: Folder) -> str:
    """On what it rests, and what is so with the values as they are assumed."""
    # That assumed values were tried without a change is true of others than these, and would read as a contradiction.
    nominal = replace(rests.nominal, assumed=-1)
    word = "it holds" if isinstance(nominal, Holds) else "it fails"
    values = "the assumed value" if len(rests.influences) == 1 else "the assumed values"
    return f"{_resting(rests)}. With {values} {word}: {_body(claim, nominal, folder, '')}"


def _resting(rests: RestsOn) -> str:
    """The values that turn the answer over, one by one or only together."""
    if len(rests.influences) == 1:
        (one,) = rests.influences
        return f"{_influence(one)}: {one.flips.rstrip('. ')} the answer is the other"
    ends = tuple(f"{_influence(one)} {one.flips.rstrip('. ')}" for one in rests.influences)
    if rests.together:
        return f"{len(ends)} assumed values together: the answer is the other with {listed(ends)}, all at once"
    return f"each of {len(ends)} assumed values: the answer is the other with {', or with '.join(ends)}"


def _influence(influence: Influence) -> str:
    name = influence.value if " " not in influence.value else f"value '{influence.value}'"
    owner = f" of {the(influence.part)}" if influence.part else ""
    limits = f", between {' and '.join(influence.between.split(' to ', 1))}" if influence.between else ""
    return f"the {name}{owner} (assumed {influence.stated}{limits})"


def _missing(verdict: NotModelled, folder: Folder, standards: str) -> str:
    """What the standard lacks: parts that other standards have, and what the records do not say."""
    names = {part.name.lower() for part in folder.parts}
    parts = tuple(name for name in verdict.missing if name.lower() in names)
    others = tuple(name.rstrip(". ") for name in verdict.missing if name.lower() not in names)
    who = standards or "this standard"
    verb = "have" if " and " in who else "has"
    lacks = f"{who} {verb} no {' and no '.join(parts)}" if parts else ""
    unsaid = f"there is no record of {listed(others)}" if others else ""
    return "; ".join(words for words in (lacks, unsaid) if words) or "what is missing was not named"


# --- evidence ------------------------------------------------------------------------------------------------------


def _bounds(claim: Claim) -> tuple[float, ...]:
    """The limits of the claimed value in SI, so that what was seen is not rounded to look like one of them."""
    statement = claim.statement
    if not isinstance(statement, Compare):
        return ()
    quantity = statement.quantity
    return tuple(value * quantity.unit.size + quantity.unit.zero for value in (quantity.low, quantity.high))


def _seen(seen: tuple[Seen, ...], folder: Folder, bounds: tuple[float, ...]) -> str:
    """What was seen, the moment told once for all that was seen together."""
    if not seen:
        return ""
    together: dict[float, list[str]] = {}
    for one in seen:
        together.setdefault(one.time, []).append(_one_seen(one, folder, bounds))
    return "; ".join(
        f"{f'at {duration(time)} ' if time > 0.0 else ''}{listed(tuple(dict.fromkeys(words)))}"
        for time, words in together.items()
    )


def _one_seen(one: Seen, folder: Folder, bounds: tuple[float, ...]) -> str:
    if one.value is None:
        return f"{the(one.what)} {are(one.what)} {one.state}"
    house = folder.type.house_units
    near = min(bounds, key=lambda bound: abs(bound - (one.value or 0.0)), default=None)
    value = (
        shown(one.value, one.dimension, one.datum, house)
        if near is None or near == one.value
        else shown_apart(one.value, near, one.dimension, one.datum, house)
    )
    return f"{the(one.what)} {are(one.what)} at {value}"


def _assumed(count: int) -> str:
    """What was done with the assumed values, where it was asked and there are any."""
    if count == TOO_MANY:
        return "the assumed values were not tried, since that would take too many runs"
    if count <= 0:
        return ""
    if count == 1:
        return "the one assumed value was taken to both ends of its range without changing that"
    return f"{count} assumed values were taken to both ends of their ranges without changing that"


def _setup(setup: Setup) -> str:
    return listed(tuple(f"{the(what)} at {where}" for what, where in setup.chosen))


def _over(claim: Claim, tried: int, witness: Setup | None) -> str:
    """Over what an 'always' or 'sometimes' was tried."""
    match claim.scope.modality:
        case "":
            return ""
        case "always":
            return "in the one case tried" if tried == 1 else f"in each of the {tried} cases tried"
        case "sometimes":
            return f"for instance with {_setup(witness)}" if witness and witness.chosen else ""
        case _:
            assert_never(claim.scope.modality)


# --- putting together ----------------------------------------------------------------------------------------------


def _once(done: str, mark: str = "") -> str:
    return f"{mark} once {done}" if done else ""


def _before_time(says: str) -> str:
    """The statement as it stands before a time: with a comma where the time could be taken for a part of it."""
    joined = any(word in says for word in (" and ", " or ", " before ", " if ", " only if ", " exactly when "))
    return f"{says}," if joined or says[-1:].isdigit() else says


def _from(done: str) -> str:
    return f" after {done}" if done else ""


def _after(time: str, done: str) -> str:
    """When, counted from the beginning of the last action, as the clock of a claim is."""
    if not done:
        return f"after {time}"
    return f"{time} after the last of these: {done}" if ", then " in done else f"{time} after {done}"


def _join(*words: str) -> str:
    return ", ".join(part for part in words if part)


def _finished(sentence: str) -> str:
    """One line, single blanks, one full stop."""
    line = re.sub(r"\s+([,;:.])", r"\1", " ".join(sentence.split()))
    return re.sub(r"\.{2,}$", ".", line.rstrip(" ;,") + ".")
