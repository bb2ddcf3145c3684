"""From what checking found to what the page shows: records to records, no new fact."""

from collections.abc import Mapping
from itertools import groupby

from cutaway.handbook.records import Cite, Folder, Sentence
from cutaway.machine.fitting import Assumption
from cutaway.narrate.checked import Checked, CheckedSentence, JudgedClaim
from cutaway.narrate.spoken import spoken_terms
from cutaway.narrate.timing import Slot, timeline
from cutaway.parts.kind import Kind
from cutaway.problems.diagnostic import Problems
from cutaway.publish.view import (
    AssumptionView,
    CautionView,
    ClaimView,
    PackView,
    ParagraphView,
    ScriptView,
    SentenceView,
    SheetView,
    TermView,
    VerdictView,
)
from cutaway.wording.asking import text_of
from cutaway.wording.verdicts import heading, kind_of, verdict_sentence


def pack_view(
    folder: Folder,
    checked: Checked,
    assumptions: tuple[Assumption, ...],
    sheets: tuple[SheetView, ...],
    kinds: Mapping[str, Kind],
    problems: Problems,
) -> PackView:
    """All that the page shows of a checked folder."""
    head = folder.type
    return PackView(
        head.name,
        head.maker,
        head.says,
        head.notice,
        tuple(str(s.name) for s in head.standards) + tuple(a.name for a in head.airframes),
        _scripts(folder, checked),
        sheets,
        _paragraphs(folder),
        tuple(TermView(t.name, t.meaning, t.said_as, t.also, tuple(map(_key, t.cites))) for t in folder.glossary),
        cautions(folder, kinds),
        tuple(AssumptionView(a.part, a.value, a.stated, a.between, a.because) for a in assumptions),
        problems,
    )


def _scripts(folder: Folder, checked: Checked) -> tuple[ScriptView, ...]:
    out = []
    for script, group in groupby(checked.sentences, key=lambda s: s.script):
        slots = timeline(script, spoken_terms(folder))
        views = tuple(_sentence(one, slot, folder) for one, slot in zip(group, slots, strict=True))
        length = _clock(slots[-1].stop) if slots else ""
        out.append(ScriptView(script.name, script.title, views, f"captions/{script.name}.vtt", length))
    return tuple(out)


def _sentence(one: CheckedSentence, slot: Slot, folder: Folder) -> SentenceView:
    sentence = one.sentence
    return SentenceView(
        sentence.text,
        sentence.chapter,
        sentence.paragraph,
        _sort(sentence),
        _clock(slot.start),
        tuple(_claim(claim, folder) for claim in one.claims),
        tuple(map(_key, sentence.cites)),
        ("stated" if one.stated else "fails") if sentence.cites else "",
        likely=tuple(f"{p.source} {p.number}" for p in one.likely),
    )


def _sort(sentence: Sentence):  # type: ignore[no-untyped-def]
    if sentence.claims:
        return "claimed"
    if sentence.cites:
        return "cited"
    return "aside" if sentence.aside else "unchecked"


def _claim(one: JudgedClaim, folder: Folder) -> ClaimView:
    verdicts = tuple(
        VerdictView(
            str(j.subject.name), kind_of(j.verdict), heading(j.verdict), verdict_sentence(one.claim, j.verdict, folder)
        )
        for j in one.judged
    )
    cites = tuple(dict.fromkeys(_key(c) for j in one.judged for c in getattr(j.verdict, "cites", ())))
    return ClaimView(text_of(one.claim.span), verdicts, cites)


def _key(cite: Cite) -> str:
    return f"{cite.source} {cite.number}"


def _clock(seconds: float) -> str:
    whole = round(seconds)
    return f"{whole // 60}:{whole % 60:02d}"


def _paragraphs(folder: Folder) -> tuple[ParagraphView, ...]:
    return tuple(
        ParagraphView(f"{p.source} {p.number}", p.number, p.title, p.text, source.title, p.on.words, p.cautions)
        for source in folder.sources
        for p in source.paragraphs
    )


def cautions(folder: Folder, kinds: Mapping[str, Kind]) -> tuple[CautionView, ...]:
    """The cautions of the folder's parts and steps and those that their kinds carry, each told once."""
    found: dict[str, tuple[list[str], list[str]]] = {}
    for part in folder.parts:
        for text in (part.caution, kinds[part.kind].caution):
            if text:
                about, cites = found.setdefault(text, ([], []))
                about.append(str(part.name))
                cites.extend(map(_key, part.cites))
    for drill in folder.drills:
        for step in drill.steps:
            if step.caution:
                about, cites = found.setdefault(step.caution, ([], []))
                about.append(f"{drill.title}, step {step.number}")
                cites.extend(map(_key, step.cites))
    return tuple(
        CautionView(text, ", ".join(dict.fromkeys(about)), tuple(dict.fromkeys(cites)))
        for text, (about, cites) in found.items()
    )
