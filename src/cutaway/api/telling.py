"""What was found, as text for a person and as records for a program."""

from collections import Counter
from collections.abc import Iterator

from cutaway.api.checking import found_wrong
from cutaway.api.making import Made
from cutaway.api.telling_books import compared_counts, compared_lines, compared_record
from cutaway.api.telling_settings import idle_settings
from cutaway.api.telling_unjudged import unjudged, unjudged_lines, unjudged_record, waits
from cutaway.handbook.search import Hit
from cutaway.narrate.checked import Checked, CheckedSentence, JudgedClaim, is_wrong
from cutaway.narrate.obsolete import Obsolete
from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Problems
from cutaway.problems.printing import as_records
from cutaway.problems.span import Span, place
from cutaway.wording.corrections import corrected_text, correction_sentence, overtaken_sentence
from cutaway.wording.verdicts import grouped, heading, kind_of, verdict_sentence

_ORDER = ("Holds", "Stated", "Rests on", "Fails", "Empty", "Not modelled", "Undecided")


def checked_text(checked: Checked, everything: bool = False, wrong: bool = False) -> str:
    """What `check` says: each claim that is not plainly so (or each, with `everything`), then the counts.

    wrong: whether the folder has errors, so that the verdicts are of less than what was written.
    """
    return "\n".join(_checked_lines(checked, everything, wrong))


def _checked_lines(checked: Checked, everything: bool, wrong: bool) -> Iterator[str]:
    for one in checked.sentences:
        told = [c for c in one.claims if everything or _worth_telling(c)]
        if told or one.overtaken:
            yield f"{_place(one.sentence.span)}  {one.sentence.text}"
            for claim in told:
                yield from _claim_lines(claim, checked, everything)
            yield from (f"    {words}" for words in _overtaken(one, checked))
            yield ""
    for step in checked.steps:
        told = [c for c in step.claims if everything or _worth_telling(c)]
        if told:
            yield f"{_place(step.step.span)}  {step.drill.title}, step {step.step.number}"
            for claim in told:
                yield from _claim_lines(claim, checked, everything)
            yield ""
    if everything:
        yield from compared_lines(checked)
    yield from _counts(checked, wrong, everything)
    yield from _idle(checked, everything)


def _idle(checked: Checked, everything: bool) -> Iterator[str]:
    """The settings of situations that are not for every standard; how many, where not everything is told."""
    found = tuple(idle_settings(checked.folder))
    if everything:
        yield from found
    elif found:
        are = "is of a control that not every standard has" if len(found) == 1 else "are of controls that not all have"
        yield f"{counted(len(found), 'setting')} of situations {are} (see with --all)."


def _overtaken(one: CheckedSentence, checked: Checked) -> tuple[str, ...]:
    """What later amendments made of a sentence."""
    return tuple(overtaken_sentence(o.said, o.old, o.new, o.standards, checked.folder) for o in one.overtaken)


def _worth_telling(claim: JudgedClaim) -> bool:
    return any(kind_of(j.verdict) not in ("holds", "stated") for j in claim.judged)


def _claim_lines(claim: JudgedClaim, checked: Checked, everything: bool) -> Iterator[str]:
    yield f"    {claim.claim.span.words}"
    verdicts = tuple((j.subject.name, j.verdict) for j in claim.judged)
    for group in grouped(claim.claim, verdicts, checked.folder):
        if everything or group.kind not in ("holds", "stated"):
            yield f"      {group.sentence}"
    yield from (f"      {one}" for one in _mended(claim, checked))


def _mended(claim: JudgedClaim, checked: Checked) -> Iterator[str]:
    """What the claim would have to say to be true."""
    judged = tuple(j.subject.name for j in claim.judged)
    for one in claim.corrections:
        yield correction_sentence(one, claim.claim.statement, judged, checked.folder)


def _place(span: Span) -> str:
    return f"{span.file.path}:{place(span).line}"


def _counts(checked: Checked, wrong: bool, everything: bool = False) -> Iterator[str]:
    found = Counter(heading(v) for v in checked.verdicts())
    claims = sum(1 for claim in checked.claims() if claim.judged)
    verdicts = ", ".join(f"{found[name]} {name.lower()}" for name in _ORDER if found[name])
    if claims:
        yield f"{counted(claims, 'claim')}, {counted(sum(found.values()), 'verdict')}: {verdicts}."
    yield from unjudged_lines(checked)
    total = len(checked.sentences)
    if total:
        aside = sum(1 for s in checked.sentences if s.sentence.aside)
        checks = sum(1 for s in checked.sentences if not s.sentence.aside and (s.claims or s.sentence.cites))
        waiting = sum(1 for s in checked.sentences if waits(s))
        bare = total - aside - checks - waiting
        waiting_words = f"{waiting} whose claims have no verdict, " if waiting else ""
        yield (
            f"{counted(total, 'sentence')}: {checks} checked, {waiting_words}{counted(aside, 'aside')}, "
            f"{bare} that nothing checks" + (" (see them with --all)." if bare and not everything else ".")
        )
    yield from compared_counts(checked)
    if checked.alone:
        names = ", ".join(f"{name} ({', '.join(standards)})" for name, standards in checked.alone)
        yield f"Joined to nothing by any line: {names}."
    if claims and (wrong or checked.folder.left_out):
        yield "What is wrong in the folder is left out of the model, so verdicts may change once it is mended."
    if checked.not_yet:
        yield (
            f"Of {counted(checked.not_yet, 'verdict')} the assumed values are still to be tried; what was found is "
            "remembered, and the same command goes on from there. --no-rests leaves them out."
        )
    yield _run_words(checked, bool(found.keys() - {"Stated"})) if claims else _why_no_claims(checked)


def _run_words(checked: Checked, behaviour: bool) -> str:
    """How many runs it took, or why none was needed. behaviour: whether any verdict is of what a run shows."""
    if checked.runs:
        return f"{counted(checked.runs, 'run')}."
    return "Nothing had to be run: " + ("all was remembered." if behaviour else "the records say it.")


def _why_no_claims(checked: Checked) -> str:
    """Why there is no verdict at all."""
    if checked.claims():
        return "No claim is for the standards that were asked for."
    if unjudged(checked):
        return "Nothing was judged."
    return "There are no claims here yet. A claim stands under its sentence in scripts/, in a block headed ```claim."


def checked_record(checked: Checked | None, problems: Problems) -> dict[str, object]:
    """The same for a program."""
    if checked is None:
        return {
            "wrong": True,
            "runs": 0,
            "not yet": 0,
            "alone": [],
            "problems": as_records(problems),
            "claims": [],
            "unjudged": [],
            "unchecked": [],
            "compared": [],
            "overtaken": [],
        }
    claims = [
        *((one.script.name, one.sentence.text, c) for one in checked.sentences for c in one.claims),
        *((s.drill.name, s.step.text, c) for s in checked.steps for c in s.claims),
    ]
    return {
        "wrong": found_wrong(checked, problems),
        "runs": checked.runs,
        "not yet": checked.not_yet,
        "alone": [{"part": name, "standards": list(standards)} for name, standards in checked.alone],
        "problems": as_records(problems),
        "claims": [_claim_record(where, sentence, claim, checked) for where, sentence, claim in claims],
        "unjudged": unjudged_record(checked),
        "unchecked": [
            {
                "place": _place(s.sentence.span),
                "sentence": s.sentence.text,
                "likely": [f"{p.source} {p.number}" for p in s.likely],
            }
            for s in checked.sentences
            if s.unchecked
        ],
        "compared": [compared_record(s) for s in checked.sentences if s.compared is not None],
        "overtaken": [_overtaken_record(s, o, checked) for s in checked.sentences for o in s.overtaken],
    }


def _overtaken_record(one: CheckedSentence, what: Obsolete, checked: Checked) -> dict[str, object]:
    return {
        "place": _place(one.sentence.span),
        "sentence": one.sentence.text,
        "said": what.said,
        "old": f"{what.old.source} {what.old.number}",
        "new": f"{what.new.source} {what.new.number}",
        "amendment": what.new.amended_by,
        "standards": [str(name) for name in what.standards],
        "words": overtaken_sentence(what.said, what.old, what.new, what.standards, checked.folder),
    }


def _claim_record(where: str, sentence: str, claim: JudgedClaim, checked: Checked) -> dict[str, object]:
    return {
        "in": where,
        "place": _place(claim.claim.span),
        "sentence": sentence,
        "claim": claim.claim.span.words,
        "verdicts": [
            {
                "standard": j.subject.name,
                "verdict": kind_of(j.verdict),
                "wrong": is_wrong(j.verdict),
                "sentence": verdict_sentence(claim.claim, j.verdict, checked.folder),
            }
            for j in claim.judged
        ],
        "corrections": [
            {"words": words, "claim": corrected_text(one), "standards": [str(name) for name in one.standards]}
            for one, words in zip(claim.corrections, _mended(claim, checked), strict=True)
        ],
    }


NO_HANDOUTS = (
    "No handouts: the typesetter typst is not installed. For them, in the clone of Cutaway: "
    "pip install -c constraints.txt -e '.[handout]'"
)


def made_text(made: Made, unset: bool = False) -> str:
    """What `make` says. unset: whether handouts were wanted that cannot be set here."""
    sheets = sum(1 for name in made.files if name.startswith("sheets/"))
    paper = sum(1 for name in made.files if name.startswith("handouts/"))
    captions = sum(1 for name in made.files if name.endswith(".vtt"))
    handouts = f"{counted(paper, 'handout')}, " if paper else ""
    lines = [
        *_counts(made.checked, made.errors),
        f"The pack is in {made.folder}: {counted(sheets, 'sheet')}, {handouts}{counted(captions, 'caption file')}, "
        "one page.",
    ]
    if unset and not paper:
        lines.append(NO_HANDOUTS)
    if made.as_before:
        lines.append(f"{counted(made.again, 'piece')} made again, {made.as_before} as before.")
    lines.extend(made.touched)
    if made.wrong:
        lines.append("Something in it is wrong; it says so where it stands. `cutaway check` tells it in short.")
    lines.append(f"Open {made.folder / 'index.html'} in a browser.")
    return "\n".join(lines)


def made_record(made: Made | None, problems: Problems) -> dict[str, object]:
    """The same for a program."""
    return {
        "folder": str(made.folder) if made is not None else None,
        "files": list(made.files) if made is not None else [],
        "wrong": made.wrong if made is not None else True,
        "touched": list(made.touched) if made is not None else [],
        "again": made.again if made is not None else 0,
        "as before": made.as_before if made is not None else 0,
        "problems": as_records(problems),
    }


def hit_text(hit: Hit) -> str:
    """A paragraph that was found, in three lines at most."""
    p = hit.paragraph
    body = " ".join(p.text.split())
    on = f"  ({p.on.words})" if p.on.words else ""
    instead = "".join(f"  ['{asked}' is not in the books; '{used}' is]" for asked, used in hit.instead)
    return f"{p.source} {p.number}  {p.title}{on}{instead}\n    {body[:300]}{'…' if len(body) > 300 else ''}"


def hit_record(hit: Hit) -> dict[str, object]:
    """The same for a program."""
    p = hit.paragraph
    return {
        "source": p.source,
        "number": p.number,
        "title": p.title,
        "on": sorted(p.on.names),
        "text": p.text,
        "score": hit.score,
        "instead": [list(pair) for pair in hit.instead],
    }
