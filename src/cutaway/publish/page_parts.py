"""The rest of the page: verdicts counted, cautions, glossary, assumptions, problems, paragraphs."""

from itertools import groupby

from cutaway.problems.counting import counted
from cutaway.problems.printing import as_records
from cutaway.publish.html import Html, anchor, el, join
from cutaway.publish.page_script import SIGNS, WORST_FIRST, caution_id, sentence_id, worst
from cutaway.publish.view import PackView, ParagraphView, SentenceView
from cutaway.wording.verdicts import Kind, listed

_WORDS: dict[Kind, str] = {
    "holds": "holds",
    "stated": "stated",
    "rests-on": "rests on an assumption",
    "fails": "fails",
    "not-modelled": "not modelled",
    "empty": "empty",
    "undecided": "undecided",
}


def section(title: str, name: str, *children: str) -> Html:
    """A section with its heading; nothing at all if it has nothing in it."""
    if not any(children):
        return Html("")
    return el("section", el("h2", title, id=name), *children, aria_labelledby=name)


# --- verdicts counted --------------------------------------------------------------------------------------------


def verdict_table(view: PackView) -> Html:
    """How many sentences of all scripts have which verdict, for each standard, by the verdict to be known first."""
    counts = {
        standard: [v.kind for script in view.scripts for s in script.sentences if (v := worst(s, standard)) is not None]
        for standard in view.subjects
    }
    kinds = [kind for kind in WORST_FIRST if any(kind in found for found in counts.values())]
    if not kinds:
        return Html("")
    head = el(
        "tr",
        el("th", "Standard", scope="col"),
        *(el("th", el("b", f"{SIGNS[kind]} {_WORDS[kind]}", class_=kind), scope="col") for kind in kinds),
    )
    rows = [
        el("tr", el("th", standard, scope="row"), *(_count(found.count(kind)) for kind in kinds))
        for standard, found in counts.items()
        if found or standard in view.standards
    ]
    caption = el("caption", "How many sentences have which verdict")
    table = el("table", caption, el("thead", head), el("tbody", *rows), class_="tally")
    wide = el("div", table, class_="wide", tabindex="0", role="region", aria_label="Verdicts by standard")
    return join((el("p", _HOW, class_="how"), wide, _meanings(kinds)))


_HOW = (
    "Below, every sentence that is said of the aeroplane has been put to the books and to a model made from them, on "
    "each standard. What came of it stands beside the sentence. Open a sentence to see why, and what the book says."
)
_MEANINGS: dict[Kind, str] = {
    "holds": "worked out from what the books give, it is so",
    "stated": "the books say so; there was nothing to work out",
    "rests-on": "it is so with a value that no book gives, and would not be with another that is as likely",
    "fails": "worked out from what the books give, it is not so",
    "not-modelled": "it speaks of what this standard has not, or of what is not described",
    "empty": "what it supposes never comes about, so that nothing was tried",
    "undecided": "there were more cases than could be tried",
}


def _meanings(kinds: list[Kind]) -> Html:
    """What each word in the heads of the table means."""
    rows = [el("li", el("b", f"{SIGNS[kind]} {_WORDS[kind]}", class_=kind), f": {_MEANINGS[kind]}.") for kind in kinds]
    return el("details", el("summary", "What the verdicts mean"), el("ul", *rows), class_="meanings")


def _count(number: int) -> Html:
    return el("td", str(number), class_="" if number else "none")


def failing(view: PackView) -> Html:
    """What must be mended: the sentences that are wrong on some standard, each with a way to it, and problems."""
    links = [
        el("li", el("a", sentence.text, href=f"#{sentence_id(script, number)}"), _where_wrong(sentence))
        for script in (*view.scripts, *view.drills)
        for number, sentence in enumerate(script.sentences, 1)
        if sentence.wrong
    ]
    words: list[Html] = []
    if links:
        told = f"{counted(len(links), 'sentence')} {'is' if len(links) == 1 else 'are'} wrong:"
        words = [el("h2", told, id="wrong"), el("ul", *links)]
    errors = sum(problem.severity == "error" for problem in view.problems)
    if errors:  # of notes alone `check` ends with 0
        told = counted(errors, "problem")
        words.append(el("p", el("a", f"The type folder has {told}", href="#problems"), "."))
    return el("div", *words, class_="wrong", role="region", aria_label="What is wrong") if words else Html("")


def doubtful(view: PackView) -> Html:
    """The sentences whose words say otherwise than the books or their claims. The comparison goes by likeness, so that
    each is a doubt to be looked at, as `check` has it, and nothing that is found wrong."""
    links = [
        el("li", el("a", sentence.text, href=f"#{sentence_id(script, number)}"))
        for script in view.scripts
        for number, sentence in enumerate(script.sentences, 1)
        if sentence.differs and not sentence.wrong
    ]
    if not links:
        return Html("")
    told = f"{counted(len(links), 'sentence')} {'differs' if len(links) == 1 else 'differ'} from the books or from"
    told += " its own claims:" if len(links) == 1 else " their own claims:"
    box = (el("h2", told, id="differing"), el("p", "Told by likeness of words: look at each."), el("ul", *links))
    return el("div", *box, class_="doubt", role="region", aria_label="What to look at again")


def _where_wrong(sentence: SentenceView) -> str:
    """' on Mk 1 and Mk 2', or what it cites."""
    found = tuple(dict.fromkeys(v.standard for claim in sentence.claims for v in claim.verdicts if v.wrong))
    return f" (on {listed(found)})" if found else " (not what it cites)"


# --- lists -------------------------------------------------------------------------------------------------------


def cautions(view: PackView) -> Html:
    """Every caution, with what it is about."""
    rows = [
        el("li", el("span", _with_cites(one.about, one.cites), class_="label"), el("p", one.text), id=caution_id(n))
        for n, one in enumerate(view.cautions, 1)
    ]
    return section("Cautions", "cautions", el("ul", *rows, class_="cautions") if rows else "")


def glossary(view: PackView) -> Html:
    """The terms in alphabetical order."""
    rows: list[Html] = []
    for term in sorted(view.glossary, key=lambda term: term.name.lower()):
        said = (" ", el("span", f"(said: {term.said_as})", class_="spoken")) if term.said_as else ()
        also = f" Also: {', '.join(term.also)}." if term.also else ""
        rows += [el("dt", term.name, *said), el("dd", term.meaning, also)]
    return section("Glossary", "glossary", el("dl", *rows) if rows else "")


def assumptions(view: PackView) -> Html:
    """What no book gives: the value, its range, the reason."""
    head = el("tr", *(el("th", word, scope="col") for word in ("Part and value", *_OF_ASSUMED)))
    rows = [
        el("tr", el("th", f"{one.part}: {one.value}", scope="row"), *_assumed(one.stated, one.between, one.because))
        for one in view.assumptions
    ]
    table = el("table", el("thead", head), el("tbody", *rows), class_="tally words stacked")
    words = el("p", "No book gives these figures. They are assumed, within the range that is told.")
    return section("Assumptions", "assumptions", *((words, table) if rows else ()))


_OF_ASSUMED = ("Assumed", "Between", "Because")


def _assumed(*cells: str) -> tuple[Html, ...]:
    return tuple(el("td", words, data_label=label) for words, label in zip(cells, _OF_ASSUMED, strict=True))


def problems(view: PackView) -> Html:
    """What is wrong in the type folder, in the same words and order as everywhere else."""
    rows: list[Html] = []
    for record in as_records(view.problems):
        place = record["place"]
        where = f"{place['file']}, line {place['line']}" if isinstance(place, dict) else ""
        code = el("code", f"{where} [{record['code']}]".strip())
        hint = el("span", f" {record['hint']}") if record["hint"] else ""
        rows.append(el("li", str(record["message"]), hint, el("br"), code))
    return section("Problems", "problems", el("ul", *rows, class_="problems") if rows else "")


def books(view: PackView) -> Html:
    """The paragraphs, book by book."""
    found: list[Html] = []
    for book, members in groupby(view.paragraphs, key=lambda one: one.book):
        found.append(el("p", book, class_="label"))
        found.extend(_in_book(one) for one in members)
    return section("Paragraphs", "paragraphs", *found)


def _in_book(one: ParagraphView) -> Html:
    heading = el("h3", f"{one.label} {one.title}".strip())
    on = el("p", f"On {one.on}", class_="label") if one.on else ""
    warned = tuple(el("p", el("strong", "Caution: "), caution) for caution in one.cautions)
    return el("article", heading, on, el("p", one.text, class_="text"), *warned, class_="book", id=anchor("p", one.key))


def products(view: PackView) -> Html:
    """What else is in the pack, and the way to the list of all its files."""
    rows: list[Html] = []
    for one in view.products:
        links = [el("li", el("a", title, href=path)) for path, title in one.links]
        rows += [el("h3", one.name), el("p", one.says), el("ul", *links)]
    all_files = el("p", el("a", "All files of the pack", href="contents.html")) if rows else ""
    return section("In the pack", "more", *rows, all_files)


def _with_cites(words: str, cites: tuple[str, ...]) -> str:
    return f"{words} ({', '.join(cites)})" if cites else words
