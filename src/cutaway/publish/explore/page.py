"""The explorable page as one HTML file that needs no network and no other file. Same record, same bytes."""

from cutaway.draw.looks import PLACE, TITLE
from cutaway.draw.svg import write_inner_svg
from cutaway.draw.theme import stylesheet
from cutaway.publish.document import document, own, way_back
from cutaway.publish.explore.data import data_of
from cutaway.publish.explore.records import ControlView, ExploreView, MoveView, PartView
from cutaway.publish.html import Html, anchor, drawing, el, join
from cutaway.publish.page_script import paragraph_quoted
from cutaway.wording.verdicts import listed

LATER = "let go after"
"""What stands before the buttons of movements that pass, of a control that springs back."""
PASSING = "For a moment, then back"
"""What they are folded under of a control that stays where it is put."""


def explore_page(view: ExploreView, root: str = "") -> str:
    """The page as the text of one HTML file. root: the way to the pack's, '' where it is in none."""
    body = (
        el("a", "To the controls", href="#controls", class_="skip"),
        way_back(root),
        _header(view),
        el("main", _hands(view), _sheet(view), el("div", _answers(view), _walk(), class_="after"), id="main"),
        _about(view),
        el("footer", el("p", view.notice)),
        _data(view),
    )
    style = f"{own('explore', 'explore.css')}\n{stylesheet('both')}"
    script = own("explore", "explore.js").replace("{PLACE}", PLACE).replace("{TITLE}", TITLE)
    return document(f"{view.title}, to explore", style, body, view.language, script=script)


def _data(view: ExploreView) -> Html:
    """The data, in which no tag can end before its time since it holds no '<'."""
    return Html(f'<script type="application/json" id="data">{data_of(view)}</script>')


def _header(view: ExploreView) -> Html:
    return el(
        "header",
        el("p", view.maker, class_="maker") if view.maker else "",
        el("h1", view.title),
        el("p", view.says, class_="says") if view.says else "",
        el("p", "Move a control: what comes of it is told under it and shown in the drawing; below stands why.",
           class_="says"),
        el("p", view.begins[0]),
        el("noscript", el("p", "Controls can be moved here only where scripts are allowed. What stands below is the "
                               "beginning.", class_="caution")),
    )  # fmt: skip


def _sheet(view: ExploreView) -> Html:
    words = [el("li", line) for line in view.looks.descriptions[0]]
    return el(
        "section",
        el("h2", "The sheet", id="sheet-title", class_="unseen"),
        el(
            "div",
            drawing(write_inner_svg(view.looks.picture)),
            class_="drawn",
            tabindex="0",
            role="region",
            aria_label="Drawing, can be moved sideways",
        ),
        el("details", el("summary", "The drawing in words"), el("ul", *words, id="words")),
        _fixed(view),
        *(el("p", el("strong", "Caution: "), text, class_="caution") for text in view.cautions),
        id="sheet",
        aria_labelledby="sheet-title",
    )


# --- controls ----------------------------------------------------------------------------------------------------


def _hands(view: ExploreView) -> Html:
    sets = [_control(view, number, control) for number, control in enumerate(view.controls)]
    wait = [el("p", _button(number, move, move.place)) for number, move in enumerate(view.moves) if move.control < 0]
    heading = el("h2", "Controls", id="controls", class_="unseen")
    moved = el("div", *sets, el("div", *wait, class_="wait") if wait else "", id="sets")
    hands = el("section", heading, moved, id="hands", aria_labelledby="controls")
    return el("div", hands, _came(), class_="dock")


def _came() -> Html:
    """What came of the last movement: with the controls it stays in sight."""
    status = el("div", el("p", "Nothing has been moved yet."), id="came", role="status", aria_live="polite")
    return el(
        "section",
        el("h2", "What came of it", id="came-title"),
        el("div", status, class_="seen", tabindex="0"),
        id="told",
        aria_labelledby="came-title",
    )


def _fixed(view: ExploreView) -> Html | str:
    if not view.fixed:
        return ""
    return el(
        "details",
        el("summary", f"Not moved here: {len(view.fixed)} more"),
        el("p", "These reach the sheet too, and are held as they stand."),
        el("ul", *(el("li", one) for one in view.fixed)),
    )


def _control(view: ExploreView, number: int, control: ControlView) -> Html:
    mine = [(n, move) for n, move in enumerate(view.moves) if move.control == number]
    rows = []
    for back in dict.fromkeys(move.back for _, move in mine):
        buttons = [_button(n, move, move.place, number, view) for n, move in mine if move.back == back]
        if back and control.stays:
            row = el("div", el("span", f"{back} at:", class_="lead"), *buttons, class_="row")
            rows.append(el("details", el("summary", PASSING), row))
            continue
        lead = el("span", f"{LATER} {back}:", class_="lead") if back else ""
        rows.append(el("div", lead, *buttons, class_="row"))
    about = el("p", control.about, class_="about") if control.about else ""
    now = el("span", "now: ", el("b", view.stops[0].places[number], id=f"now-{number}"), class_="now")
    slide = _slide(view, number, control) if control.slide else ""
    return el("fieldset", el("legend", control.name, " ", now), about, slide, *rows)


def _slide(view: ExploreView, number: int, control: ControlView) -> Html:
    """A range to be slid along, which stops only where a movement leads; its buttons below are the scale."""
    first = view.stops[0]
    told = f"slide-{number}-bound"
    slide = el(
        "input",
        type="range",
        min="0",
        max=str(len(control.slide) - 1),
        step="1",
        value=str(first.nearest[number]),
        data_control=str(number),
        data_moves=" ".join(map(str, control.slide)),
        aria_label=control.name,
        aria_valuetext=first.places[number],
        aria_describedby=told,
    )
    places = listed(tuple(view.moves[n].place for n in control.slide))
    bound = f"It stops at {places}. What lies between is not worked out here."
    return el("div", slide, el("p", bound, class_="about", id=told), class_="slide")


def _button(number: int, move: MoveView, words: str, control: int = -1, view: ExploreView | None = None) -> Html:
    there = view is not None and not move.back and view.stops[0].places[control] == move.place
    state = {"aria_pressed": "true" if there else "false"} if control >= 0 and not move.back else {}
    return el("button", words, type="button", data_move=str(number), aria_label=move.told, **state)


# --- answers -----------------------------------------------------------------------------------------------------


def _answers(view: ExploreView) -> Html:
    rows = [_part(name, part) for name, part in zip(view.parts, view.stops[0].parts, strict=True)]
    return el(
        "section",
        el("h2", "What it shows, and because of what", id="parts-title"),
        el("div", *rows, id="parts"),
        id="answers",
        aria_labelledby="parts-title",
    )


def _part(name: str, part: PartView) -> Html:
    lines = [el("li", line) for line in part.because]
    return el(
        "details",
        el("summary", el("span", name, class_="name"), " ", el("b", part.words, class_="words")),
        el("ul", *lines) if lines else el("p", "Nothing more can be said of it."),
    )


def _walk() -> Html:
    return el(
        "section",
        el("h2", "Your walk", id="walk-title"),
        el("p", el("button", "One back", type="button", id="back"), " ",
           el("button", "Begin again", type="button", id="again")),
        el("ol", id="walk"),
        id="steps",
        aria_labelledby="walk-title",
    )  # fmt: skip


def _about(view: ExploreView) -> Html:
    quoted = [paragraph_quoted_here(one) for one in view.paragraphs]
    return el(
        "section",
        el("h2", "How far this goes", id="bound"),
        *(el("p", line) for line in (" ".join(view.begins[1:]), *view.bound) if line),
        el("details", el("summary", f"The paragraphs behind it: {len(quoted)}"), *quoted) if quoted else "",
        class_="far",
        aria_labelledby="bound",
    )


def paragraph_quoted_here(one: object) -> Html:
    """A paragraph as the pack's page quotes it, with a place of its own for its label to lead to."""
    quoted = paragraph_quoted(one)  # type: ignore[arg-type]
    key = getattr(one, "key", "")
    return el("div", join((quoted,)), id=anchor("p", key))
