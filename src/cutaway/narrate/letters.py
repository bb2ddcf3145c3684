"""Letters of readers and viewers: the sentence that each is about, what is known of it today, and a draft reply."""

from collections.abc import Iterator
from dataclasses import dataclass

from cutaway.handbook.names import fold
from cutaway.handbook.records import Cite, Folder, Letter, Paragraph, paragraph
from cutaway.narrate.checked import Checked, CheckedSentence
from cutaway.narrate.clock import clock
from cutaway.narrate.held_words import held_words
from cutaway.narrate.rewording import paired
from cutaway.narrate.spoken import spoken_terms
from cutaway.narrate.timing import Slot, timeline
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error
from cutaway.wording.verdicts import grouped

# How far the moment that somebody noted may be from the sentence, s. A choice of ours.
_NEAR = 5.0


@dataclass(frozen=True, slots=True)
class SaidOnce:
    """A sentence as it was published. day: of the publication. number: in its script, from 0. start: s."""

    day: str
    script: str
    number: int
    text: str
    start: float | None


@dataclass(frozen=True, slots=True)
class AnsweredClaim:
    """A claim of the sentence with the verdicts of today, as sentences."""

    text: str
    verdicts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Answer:
    """A letter with all that is known of it. sentence: that of today, '' where it is said no longer or nowhere. script,
    start: where it is spoken. published: the day on which it went out, '' where it did not.
    """

    letter: Letter
    script: str
    start: float | None
    sentence: str
    published: str
    verdict: tuple[AnsweredClaim, ...]
    favour: tuple[Paragraph, ...]
    against: tuple[Paragraph, ...]


def answers(
    folder: Folder, checked: Checked, published: tuple[SaidOnce, ...] = ()
) -> tuple[tuple[Answer, ...], Problems]:
    """Every letter with the sentence that it is about and the verdict of today. published: all that ever went out."""
    said = tuple(_today(folder, checked))
    found: list[Answer] = []
    problems: Problems = ()
    for letter in folder.letters:
        answer, more = _answer(letter, folder, said, published)
        found.append(answer)
        problems += more
    return tuple(found), problems


@dataclass(frozen=True, slots=True)
class _Said:
    checked: CheckedSentence
    slot: Slot


def _today(folder: Folder, checked: Checked) -> Iterator[_Said]:
    terms = spoken_terms(folder)
    for script in folder.scripts:
        mine = [one for one in checked.sentences if one.script.name == script.name]
        if mine:
            yield from (_Said(one, slot) for one, slot in zip(mine, timeline(script, terms), strict=True))


def _answer(
    letter: Letter, folder: Folder, said: tuple[_Said, ...], published: tuple[SaidOnce, ...]
) -> tuple[Answer, Problems]:
    then = next((one for one in published if _is(one.text, one.script, letter)), None)
    now = next((one for one in said if _is(one.checked.sentence.text, one.checked.script.name, letter)), None)
    if now is None and then is not None:
        now = _reworded(then, said, published)
    start = then.start if then is not None else now.slot.start if now is not None else None
    answer = Answer(
        letter,
        then.script if then is not None else now.checked.script.name if now is not None else letter.film,
        start,
        now.checked.sentence.text if now is not None else "",
        then.day if then is not None else "",
        tuple(_claims(now.checked, folder)) if now is not None else (),
        _paragraphs(letter.favour, folder),
        _paragraphs(letter.against, folder),
    )
    return answer, tuple(_doubts(answer, then is None and now is None, now))


def _is(text: str, script: str, letter: Letter) -> bool:
    return fold(text) == fold(letter.objects_to) and letter.film in ("", script)


def _reworded(then: SaidOnce, said: tuple[_Said, ...], published: tuple[SaidOnce, ...]) -> _Said | None:
    """The sentence of today that stands for one that was published in other words."""
    old = [one for one in published if (one.day, one.script) == (then.day, then.script)]
    mine = [one for one in said if one.checked.script.name == then.script]
    pairs = paired(tuple(one.text for one in old), tuple(one.checked.sentence.text for one in mine))
    at = next((pair.now for pair in pairs if pair.then is not None and old[pair.then] == then), None)
    return mine[at] if at is not None else None


def _claims(one: CheckedSentence, folder: Folder) -> Iterator[AnsweredClaim]:
    for claim in one.claims:
        verdicts = tuple((j.subject.name, j.verdict) for j in claim.judged)
        sentences = tuple(group.sentence for group in grouped(claim.claim, verdicts, folder))
        yield AnsweredClaim(claim.claim.span.words, sentences)
    if one.sentence.cites and not one.claims:
        books = ", ".join(cite.key for cite in one.sentence.cites)
        certain = has_error(one.at_odds)
        otherwise = (
            f"Not as {books} prints it." if certain or one.compared is None else f"Marked as coming from {books}."
        )
        # A word that the books do not use is no answer to a letter about a sentence that a paragraph states.
        more = one.compared is not None and any(d.sort != "term" for d in one.compared.differences) and not certain
        words = f"Stated in {books}." if one.stated else otherwise
        yield AnsweredClaim("", (words, held_words(one.compared)) if one.compared and more else (words,))
    elif one.compared is not None:
        yield AnsweredClaim("", (held_words(one.compared),))
    odds = tuple(problem.message for problem in one.at_odds if problem.code == "N807")
    if odds:
        yield AnsweredClaim("", odds)


def _paragraphs(cites: tuple[Cite, ...], folder: Folder) -> tuple[Paragraph, ...]:
    return tuple(found for cite in cites if (found := paragraph(folder, cite)) is not None)


def _doubts(answer: Answer, nowhere: bool, now: _Said | None) -> Iterator[Diagnostic]:
    letter = answer.letter
    if nowhere and not (letter.page or letter.panel):
        message = f"The letter {letter.name} objects to a sentence that is in no script: '{letter.objects_to}'"
        hint = "Copy the sentence from the script, or say which page: or panel: it stands on."
        yield Diagnostic("N701", letter.span, message, hint)
    if letter.at is not None and answer.start is not None:
        stop = answer.start + (now.slot.next - now.slot.start if now is not None else 0.0)
        if not answer.start - _NEAR <= letter.at <= stop + _NEAR:
            message = (
                f"The letter {letter.name} names the moment {clock(letter.at)}, and its sentence is spoken at "
                f"{clock(answer.start)}."
            )
            yield Diagnostic(
                "N702", letter.span, message, f"Write at: '{clock(answer.start)}', or look which is meant."
            )
    if not letter.decision:
        message = f"Nothing is decided on the letter {letter.name} yet."
        yield Diagnostic("N703", letter.span, message, "Write decision: … and because: …")


def draft_reply(answer: Answer, folder: Folder) -> str:
    """A reply to look through and send: the author's own where the letter has one, else one made from what is known."""
    if answer.letter.reply:
        return answer.letter.reply
    return "\n\n".join(_reply(answer, folder)) + "\n"


def _reply(answer: Answer, folder: Folder) -> Iterator[str]:
    letter = answer.letter
    if letter.who:
        yield f"Dear {letter.who},"
    when = f" of {letter.date}" if letter.date else ""
    yield f"Thank you for your letter{when} about {_where(answer, folder)}."
    if letter.says:
        yield f"We understood it so: {letter.says}"
    yield f"The words in question are: '{letter.objects_to}'"
    verdicts = [f"- {one}" for claim in answer.verdict for one in claim.verdicts]
    if verdicts:
        yield "\n".join(("We have put this to the handbooks again:", *verdicts))
    for heading, found in (("For it", answer.favour), ("Against it", answer.against)):
        if found:
            yield "\n".join((f"{heading} the books say:", *(_quoted(one, folder) for one in found)))
    yield from _decided(answer)


def _decided(answer: Answer) -> Iterator[str]:
    letter = answer.letter
    if not letter.decision:
        yield "We have not decided yet, and shall write again."
        return
    yield f"What we decided: {' '.join(word for word in (letter.decision, letter.because) if word)}"
    if answer.sentence and fold(answer.sentence) != fold(letter.objects_to):
        out = " The correction is on our errata page." if answer.published else ""
        yield f"It now reads: '{answer.sentence}'{out}"


def _where(answer: Answer, folder: Folder) -> str:
    """What the letter is about: the film with its moment, the page, the panel."""
    letter = answer.letter
    title = next((script.title for script in folder.scripts if script.name == answer.script), answer.script)
    moment = letter.at if letter.at is not None else answer.start
    words = [f"our film '{title}'" + (f", at {clock(moment)}" if moment is not None else "")] if title else []
    words += [f"page {letter.page}"] if letter.page else []
    words += [f"the panel {letter.panel}"] if letter.panel else []
    return ", ".join(words) or "our work"


def _quoted(one: Paragraph, folder: Folder) -> str:
    book = next((source.title for source in folder.sources if source.key == one.source), str(one.source))
    return f"- {book}, {one.number} {one.title}: '{' '.join(one.text.split())}'"
