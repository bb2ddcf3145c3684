"""The scripts on the page: each sentence with its verdicts beside it, and what is behind them when it is opened."""

from cutaway.problems.counting import counted
from cutaway.publish.html import Html, anchor, el, join
from cutaway.publish.view import ClaimView, HeldView, PackView, ParagraphView, ScriptView, SentenceView, VerdictView
from cutaway.wording.verdicts import Kind, listed

# The answer that is shown for a sentence is the one that its reader must know first.
WORST_FIRST: tuple[Kind, ...] = ("fails", "undecided", "not-modelled", "empty", "rests-on", "holds", "stated")
SIGNS: dict[Kind, str] = {
    "holds": "✓",
    "stated": "§",
    "rests-on": "≈",
    "fails": "✗",
    "not-modelled": "○",
    "empty": "∅",
    "undecided": "?",
}


def script_section(script: ScriptView, view: PackView) -> Html:
    """One script: how much of it is checked, then its chapters."""
    return el(
        "section",
        el("h2", script.title or script.name, id=anchor("script", script.name)),
        _coverage(script),
        *_chapters(script, view),
        class_="script",
        aria_labelledby=anchor("script", script.name),
    )


def drill_section(drill: ScriptView, view: PackView) -> Html:
    """One drill: where it begins, then its steps."""
    ident = anchor("drill", drill.name)
    told: set[str] = set()
    rows = [_sentence(step, sentence_id(drill, number), view, told) for number, step in enumerate(drill.sentences, 1)]
    return el(
        "section",
        el("h2", drill.title or drill.name, id=ident),
        el("p", drill.says, class_="facts"),
        el("ol", *rows, class_="sentences"),
        class_="script",
        aria_labelledby=ident,
    )


def worst(sentence: SentenceView, standard: str) -> VerdictView | None:
    """Of a sentence's verdicts for one standard, the one to be known first."""
    found = [v for claim in sentence.claims for v in claim.verdicts if v.standard == standard]
    return min(found, key=lambda v: (not v.wrong, WORST_FIRST.index(v.kind)), default=None)


def sentence_id(script: ScriptView, number: int) -> str:
    """The id of a sentence on the page, counted from 1."""
    return anchor("s", script.name, str(number))


# --- how much is checked -----------------------------------------------------------------------------------------


def _coverage(script: ScriptView) -> Html:
    shares = [_share(sentence) for sentence in script.sentences]
    words = {
        "claimed": "checked by claims",
        "cited": "checked against a paragraph",
        "held": "stated by the books",
        "differs": "that differ from the books" if shares.count("differs") > 1 else "that differs from the books",
        "open": "open",
        "aside": "aside" if shares.count("aside") == 1 else "asides",
        "unchecked": "unchecked",
    }
    counts = {kind: shares.count(kind) for kind in words}
    told = listed(tuple(f"{count} {words[kind]}" for kind, count in counts.items() if count))
    length = f" It takes about {script.length} to say." if script.length else ""
    captions = el("a", "Captions", href=script.captions) if script.captions else ""
    facts = el(
        "p",
        f"{counted(len(script.sentences), 'sentence')}{': ' if told else ''}{told}.{length} ",
        captions,
        class_="facts",
    )
    bar = el(
        "div",
        *(el("span", class_=kind, style=f"flex-grow: {count}") for kind, count in counts.items() if count),
        class_="share",
        aria_hidden="true",
    )
    return join((facts, bar))


def _share(sentence: SentenceView) -> str:
    """Among which of the counted a sentence is."""
    if sentence.kind != "unchecked" or sentence.held is None:
        return sentence.kind
    return "held" if sentence.held.verdict == "stated" else sentence.held.verdict


# --- sentences ---------------------------------------------------------------------------------------------------


def _chapters(script: ScriptView, view: PackView) -> list[Html]:
    found: list[Html] = []
    rows: list[Html] = []
    told: set[str] = set()
    chapter = ""
    for number, sentence in enumerate(script.sentences, 1):
        if sentence.chapter != chapter:
            found.extend(_chapter(chapter, rows))
            chapter, rows = sentence.chapter, []
        rows.append(_sentence(sentence, sentence_id(script, number), view, told))
    found.extend(_chapter(chapter, rows))
    return found


def _chapter(title: str, rows: list[Html]) -> list[Html]:
    if not rows:
        return []
    heading = [el("h3", title)] if title else []
    return [*heading, el("ol", *rows, class_="sentences")]


def _sentence(sentence: SentenceView, ident: str, view: PackView, told: set[str]) -> Html:
    """One row. told: the cautions that stand in full above it; its own join them."""
    behind = _behind(sentence, view)
    full, again = _cautions(sentence, view, told)
    # A link inside what opens the row could be reached neither by keyboard nor by a screen reader.
    beside = _again(again, view, linked=not behind)
    row = (
        el("span", sentence.time, class_="time"),
        el("span", sentence.text, *full, beside, class_="said"),
        _chips(sentence, view),
    )
    classes = f"is-{sentence.kind}" + (" is-wrong" if sentence.wrong else "")
    if not behind:
        return el("li", el("div", *row, class_="row"), id=ident, class_=classes)
    # What is wrong or differs is open from the start, so that nobody passes over it.
    opened = el(
        "details",
        el("summary", *row, class_="row"),
        el("div", _again(again, view, linked=True), *behind, class_="behind"),
        open=sentence.wrong or sentence.differs,
    )
    return el("li", opened, id=ident, class_=classes)


def _cautions(sentence: SentenceView, view: PackView, told: set[str]) -> tuple[list[Html], list[str]]:
    """The cautions of a row: those not told yet, in full, then the texts of the others."""
    texts = tuple(dict.fromkeys(text for text in (sentence.caution, *sentence.carried) if text))
    fresh = [text for text in texts if text not in told]
    told.update(fresh)
    full = [el("span", el("strong", "Caution: "), text, class_="caution") for text in fresh]
    known = {one.text for one in view.cautions}
    return full, [text for text in texts if text not in fresh and text in known]


def _again(texts: list[str], view: PackView, linked: bool) -> Html:
    """Where cautions stand that were told before, with links there or without."""
    if not texts:
        return Html("")
    place = {one.text: number for number, one in enumerate(view.cautions, 1)}
    named = [
        el("a", f"Caution {place[text]}", href=f"#{caution_id(place[text])}", title=text)
        if linked
        else el("span", f"Caution {place[text]}", title=text)
        for text in texts
    ]
    return el("span", *_spaced(named), class_="caution-again")


def _spaced(links: list[Html]) -> list[Html | str]:
    return [piece for i, link in enumerate(links) for piece in ((", ", link) if i else (link,))]


def caution_id(number: int) -> str:
    """The id of a caution in the page's list of them, counted from 1."""
    return anchor("caution", str(number))


def _chips(sentence: SentenceView, view: PackView) -> Html:
    """The verdicts in a word or two: once for every standard where they agree, else one for each."""
    if sentence.kind == "aside":
        return el("span", el("span", "aside", class_="chip"), class_="chips")
    if sentence.kind == "unchecked":
        return el("span", _held_chip(sentence.held, view), class_="chips")
    if sentence.kind == "step":
        return el("span", class_="chips")
    at_odds: tuple[Html, ...] = ()
    at_odds += (_chip("fails", "not what it cites", ""),) if sentence.cite_verdict == "fails" else ()
    at_odds += (_differs("from its claims"),) if sentence.at_odds else ()
    if not sentence.claims:
        verb = "stated in" if sentence.cite_verdict == "stated" else "from"
        said = f"{verb} {', '.join(_labels(sentence.cites, view))}"
        held = (_held_chip(sentence.held, view),) if sentence.held is not None and not at_odds else ()
        return el("span", *(at_odds or held or (_chip("stated", said, ""),)), class_="chips")
    found = [(standard, verdict) for standard in view.subjects if (verdict := worst(sentence, standard)) is not None]
    kinds = {verdict.kind for _, verdict in found}
    if len(kinds) == 1 and len(view.standards) > 1 and _is_every(tuple(standard for standard, _ in found), view):
        return el("span", *at_odds, _chip(found[0][1].kind, found[0][1].heading, "on every standard"), class_="chips")
    chips = (_chip(verdict.kind, verdict.heading, standard, view.subjects) for standard, verdict in found)
    return el("span", join((*at_odds, *chips), " "), class_="chips")


def _held_chip(held: HeldView | None, view: PackView) -> Html:
    """What the books alone say of a sentence, in a word or two with both values."""
    if held is None:
        return el("span", el("b", "unchecked"), class_="chip unchecked-mark")
    if held.verdict == "stated":
        return _chip("stated", f"stated in {', '.join(_labels(held.keys, view))} by the books", "")
    if held.verdict == "differs":
        return _differs("; ".join(held.said))
    return el("span", el("b", el("span", "?", aria_hidden="true"), " open"), class_="chip open-mark")


def _differs(said: str) -> Html:
    sign = el("span", "≠", aria_hidden="true")
    return el("span", el("b", sign, " differs"), ": " if said.startswith("'") else " ", said, class_="chip differs")


def _chip(kind: Kind, said: str, where: str, subjects: tuple[str, ...] = ()) -> Html:
    only = f" only-{subjects.index(where)}" if where in subjects else ""
    place = (" ", el("span", where, class_="on")) if where else ()
    sign = el("span", SIGNS[kind], aria_hidden="true")
    return el("span", el("b", sign, f" {said.lower()}"), *place, class_=f"chip {kind}{only}")


# --- what is behind a sentence -------------------------------------------------------------------------------------


def _behind(sentence: SentenceView, view: PackView) -> tuple[Html, ...]:
    claims = tuple(_claim(claim, view) for claim in sentence.claims)
    words = tuple(el("p", text) for text in (sentence.cite_words,) if text)
    words += (el("p", sentence.held.words),) if sentence.held is not None else ()
    beside = sentence.held.keys if sentence.held is not None else ()
    behind = (*sentence.cites, *(cite for claim in sentence.claims for cite in claim.cites), *beside)
    cites = tuple(dict.fromkeys(behind))
    quoted = tuple(paragraph_quoted(one) for key in cites if (one := _paragraph(key, view)) is not None)
    likely = tuple(one for key in sentence.likely if (one := _paragraph(key, view)) is not None)
    asked = (el("p", "Nothing says where this comes from. The likeliest paragraphs:"),) if likely else ()
    odds = tuple(el("p", text) for text in sentence.at_odds)
    return (*odds, *claims, *words, *quoted, *asked, *(paragraph_quoted(one) for one in likely))


def _claim(claim: ClaimView, view: PackView) -> Html:
    """The claim as written, then each answer with the standards that give it."""
    answers: dict[tuple[Kind, str], list[str]] = {}
    for verdict in claim.verdicts:
        answers.setdefault((verdict.kind, verdict.sentence), []).append(verdict.standard)
    lines = [
        el(
            "li",
            el("b", el("span", SIGNS[kind], aria_hidden="true"), f" {_where(tuple(standards), view)}", class_=kind),
            f": {sentence}",
            class_=_shown_for(tuple(standards), view),
        )
        for (kind, sentence), standards in answers.items()
    ]
    return join((el("p", claim.text, class_="claim"), el("ul", *lines, class_="answers")))


def _where(standards: tuple[str, ...], view: PackView) -> str:
    if len(view.standards) > 1 and _is_every(standards, view):
        return "Every standard"
    return listed(standards)


def _is_every(standards: tuple[str, ...], view: PackView) -> bool:
    """Whether these are all the standards and no single airframe besides."""
    return set(standards) == set(view.standards)


def _shown_for(standards: tuple[str, ...], view: PackView) -> str:
    """The class by which the choice of one standard hides what is for one other only."""
    if len(standards) == 1 and standards[0] in view.subjects:
        return f"only-{view.subjects.index(standards[0])}"
    return ""


def paragraph_quoted(one: ParagraphView) -> Html:
    """A paragraph of a book as a quotation that names it and leads to it."""
    source = el("a", f"{one.book}, {one.label}", href=f"#{anchor('p', one.key)}", class_="label")
    title = el("p", el("strong", one.title)) if one.title else ""
    cautions = tuple(el("p", el("strong", "Caution: "), caution) for caution in one.cautions)
    return el("blockquote", source, title, el("p", one.text, class_="text"), *cautions)


def _paragraph(key: str, view: PackView) -> ParagraphView | None:
    return next((one for one in view.paragraphs if one.key == key), None)


def _labels(keys: tuple[str, ...], view: PackView) -> tuple[str, ...]:
    return tuple(one.label if (one := _paragraph(key, view)) is not None else key for key in keys)
