"""From what checking found to what the page shows: records to records, no new fact."""

from collections.abc import Mapping
from functools import partial
from itertools import groupby
from typing import Literal, assert_never

from cutaway.handbook.records import Cite, Folder, Paragraph, Script, paragraph
from cutaway.inquiry.verdicts import Empty, Fails, Holds, NotModelled, RestsOn, Stated, Undecided, Verdict
from cutaway.language.syntax import Claim
from cutaway.machine.fitting import Assumption
from cutaway.narrate.checked import (
    Checked,
    CheckedSentence,
    CheckedStep,
    JudgedClaim,
    Keep,
    found_here,
    is_wrong,
)
from cutaway.narrate.citing import figures_told
from cutaway.narrate.clock import clock
from cutaway.narrate.coverage import checking
from cutaway.narrate.held_words import behind, both_values, held_words
from cutaway.narrate.naming import parts_named
from cutaway.narrate.spoken import spoken_terms
from cutaway.narrate.timing import Slot, timeline
from cutaway.parts.kind import Kind
from cutaway.problems.diagnostic import Problems, has_error
from cutaway.publish.spoken_of import pictures, systems_in_order
from cutaway.publish.view import (
    AssumptionView,
    CautionView,
    ClaimView,
    HeldView,
    PackView,
    ParagraphView,
    ScriptView,
    SentenceView,
    SheetView,
    TermView,
    VerdictView,
)
from cutaway.wording.verdicts import heading, kind_of, listed, verdict_sentence

_WORDS_AND_CLAIMS = "N807"


def pack_view(
    checked: Checked,
    assumptions: tuple[Assumption, ...],
    sheets: tuple[SheetView, ...],
    kinds: Mapping[str, Kind],
    problems: Problems,
    keep: Keep = found_here,
) -> PackView:
    """All that the page shows of a checked folder. keep: where the views of scripts may be kept between sessions."""
    folder = checked.folder
    head = folder.type
    return PackView(
        head.name,
        head.maker,
        head.says,
        head.notice,
        tuple(str(s.name) for s in head.standards),
        tuple(a.name for a in head.airframes),
        _scripts(folder, kinds, checked, keep),
        keep("drills view", "", partial(_drills, folder, kinds, checked)),
        _in_order_of_scripts(sheets, checked),
        _paragraphs(folder),
        tuple(TermView(t.name, t.meaning, t.said_as, t.also, tuple(map(key_of, t.cites))) for t in folder.glossary),
        cautions(folder, kinds),
        tuple(AssumptionView(a.part, a.value, a.stated, a.between, a.because) for a in assumptions),
        problems,
    )


def _in_order_of_scripts(sheets: tuple[SheetView, ...], checked: Checked) -> tuple[SheetView, ...]:
    """The sheets of each standard in the order in which the scripts come to the systems, what is no system's last."""
    if not sheets:
        return ()
    systems = systems_in_order(checked.folder, pictures(checked))
    rank = {name: number for number, name in enumerate(systems)}
    standards = {name: number for number, name in enumerate(dict.fromkeys(one.standard for one in sheets))}
    return tuple(sorted(sheets, key=lambda one: (standards[one.standard], rank.get(one.system, len(rank)))))


def _scripts(folder: Folder, kinds: Mapping[str, Kind], checked: Checked, keep: Keep) -> tuple[ScriptView, ...]:
    return tuple(
        keep("script view", script.name, partial(_script, script, tuple(group), folder, kinds))
        for script, group in groupby(checked.sentences, key=lambda s: s.script)
    )


def _script(script: Script, said: tuple[CheckedSentence, ...], folder: Folder, kinds: Mapping[str, Kind]) -> ScriptView:
    slots = timeline(script, spoken_terms(folder))
    views = tuple(_sentence(one, slot, folder, kinds) for one, slot in zip(said, slots, strict=True))
    length = clock(slots[-1].stop) if slots else ""
    return ScriptView(script.name, script.title, views, f"captions/{script.name}.vtt", length)


def _sentence(one: CheckedSentence, slot: Slot, folder: Folder, kinds: Mapping[str, Kind]) -> SentenceView:
    sentence = one.sentence
    verdict, words = _reported(one)
    return SentenceView(
        sentence.text,
        sentence.chapter,
        sentence.paragraph,
        checking(sentence),
        clock(slot.start),
        tuple(_claim(claim, folder) for claim in one.claims),
        tuple(map(key_of, sentence.cites)),
        verdict,
        words,
        () if one.compared is not None else tuple(key_of(paragraph) for paragraph in one.likely),
        carried=carried(tuple(claim.claim for claim in one.claims), sentence.cites, folder, kinds),
        held=_held(one),
        at_odds=tuple(problem.message for problem in one.at_odds if problem.code == _WORDS_AND_CLAIMS),
    )


def _held(one: CheckedSentence) -> HeldView | None:
    """What the books alone say: always of a sentence that nothing checks, of one that cites where it is otherwise."""
    compared = one.compared
    if compared is None or (one.sentence.cites and (compared.verdict != "differs" or _not_as_cited(one))):
        return None
    keys = tuple(map(key_of, behind(compared)))
    return HeldView(compared.verdict, held_words(compared), keys, tuple(map(both_values, compared.differences)))


def carried(
    claims: tuple[Claim, ...], cites: tuple[Cite, ...], folder: Folder, kinds: Mapping[str, Kind]
) -> tuple[str, ...]:
    """The cautions of the parts that some claims speak of or move and of the paragraphs that are cited, each once."""
    names = frozenset(str(part.name) for part in folder.parts)
    spoken = {name for claim in claims for name in parts_named(claim, names)}
    found = [
        text
        for part in folder.parts
        if part.name in spoken
        for text in (part.caution, kinds[part.kind].caution)
        if text
    ]
    books = (paragraph(folder, cite) for cite in cites)
    return tuple(dict.fromkeys((*found, *(text for book in books if book is not None for text in book.cautions))))


def _not_as_cited(one: CheckedSentence) -> Problems:
    """What the paragraphs that a sentence cites certainly do not say."""
    return tuple(problem for problem in one.at_odds if has_error((problem,)))


def _reported(one: CheckedSentence) -> tuple[Literal["", "stated", "reported", "fails"], str]:
    """Whether a sentence says what the paragraphs say that it is marked with, and that in words. A difference is a
    doubt, and told by `_held`."""
    if not one.sentence.cites:
        return "", ""
    numbers = listed(tuple(cite.number for cite in one.sentence.cites))
    if odds := _not_as_cited(one):
        return "fails", " ".join(problem.message for problem in odds)
    if one.compared is not None and one.compared.differences:
        return "reported", f"It is marked as coming from {numbers}."
    if not one.stated:
        return "fails", f"It cites {numbers}, which is not in the books of this folder."
    told = tuple(dict.fromkeys(quantity.text.rstrip(".") for quantity in figures_told(one.sentence.text)))
    if told:
        return "stated", f"Its figures ({', '.join(told)}) stand in {numbers}."
    if one.compared is not None and one.compared.verdict == "stated":
        return "stated", held_words(one.compared)
    return "reported", f"It is marked as coming from {numbers}. It has no figure that could be compared."


def _drills(folder: Folder, kinds: Mapping[str, Kind], checked: Checked) -> tuple[ScriptView, ...]:
    out = []
    for drill, group in groupby(checked.steps, key=lambda s: s.drill):
        steps = tuple(_step(one, folder, kinds) for one in group)
        on = f" On {drill.on.words}." if drill.on.words else ""
        out.append(ScriptView(drill.name, drill.title, steps, says=f"Begins from: {drill.situation}.{on}"))
    return tuple(out)


def _step(one: CheckedStep, folder: Folder, kinds: Mapping[str, Kind]) -> SentenceView:
    step = one.step
    return SentenceView(
        step.text,
        "",
        0,
        "claimed" if one.claims else "step",
        f"{step.number}.",
        tuple(_claim(claim, folder) for claim in one.claims),
        tuple(map(key_of, step.cites)),
        caution=step.caution,
        carried=carried(tuple(claim.claim for claim in one.claims), step.cites, folder, kinds),
    )


def _claim(one: JudgedClaim, folder: Folder) -> ClaimView:
    verdicts = tuple(
        VerdictView(
            str(j.subject.name),
            kind_of(j.verdict),
            heading(j.verdict),
            verdict_sentence(one.claim, j.verdict, folder),
            is_wrong(j.verdict),
        )
        for j in one.judged
    )
    return ClaimView(one.claim.span.words, verdicts, cites_of(one))


def cites_of(one: JudgedClaim) -> tuple[str, ...]:
    """The keys of the paragraphs behind a claim's verdicts."""
    return tuple(dict.fromkeys(key_of(c) for j in one.judged for c in _cites(j.verdict)))


def _cites(verdict: Verdict) -> tuple[Cite, ...]:
    match verdict:
        case Holds() | Fails() | Stated():
            return verdict.cites
        case RestsOn():
            return _cites(verdict.nominal)
        case NotModelled() | Empty() | Undecided():
            return ()
        case _:
            assert_never(verdict)


def key_of(place: Cite | Paragraph) -> str:
    """What a paragraph is called in the pack: 'hb §21'."""
    return f"{place.source} {place.number}"


def _paragraphs(folder: Folder) -> tuple[ParagraphView, ...]:
    return tuple(
        ParagraphView(key_of(p), p.number, p.title, p.text, source.title, p.on.words, p.cautions)
        for source in folder.sources
        for p in source.paragraphs
    )


def cautions(folder: Folder, kinds: Mapping[str, Kind]) -> tuple[CautionView, ...]:
    """The cautions of the folder's parts, steps and paragraphs and those that their kinds carry, each told once."""
    found: dict[str, tuple[list[str], list[str]]] = {}
    for part in folder.parts:
        for text in (part.caution, kinds[part.kind].caution):
            if text:
                about, cites = found.setdefault(text, ([], []))
                about.append(str(part.name))
                cites.extend(map(key_of, part.cites))
    for drill in folder.drills:
        for step in drill.steps:
            if step.caution:
                about, cites = found.setdefault(step.caution, ([], []))
                about.append(f"{drill.title}, step {step.number}")
                cites.extend(map(key_of, step.cites))
    for source in folder.sources:
        for one in source.paragraphs:
            for text in one.cautions:
                about, cites = found.setdefault(text, ([], []))
                about += [] if about else [one.title or one.number]
                cites.append(key_of(one))
    return tuple(
        CautionView(text, ", ".join(dict.fromkeys(about)), tuple(dict.fromkeys(cites)))
        for text, (about, cites) in found.items()
    )
