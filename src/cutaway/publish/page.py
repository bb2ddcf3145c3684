"""The page of the pack: one file that needs no network, no script and no other file. Same view, same bytes."""

from cutaway.draw.theme import stylesheet
from cutaway.publish import page_parts as parts
from cutaway.publish.document import document, own
from cutaway.publish.html import Html, anchor, el, join
from cutaway.publish.page_choice import choice, choice_rules
from cutaway.publish.page_script import drill_section, script_section
from cutaway.publish.page_sheets import sheets, situation_rules, situations_of, systems_of
from cutaway.publish.view import PackView

# The browser itself is told to fetch nothing, so that the page cannot come to depend on anything; but the pack's own
# drawings where they are too many for one file.
_IMAGES = "data:"
_WITH_FILES = f"{_IMAGES} 'self' file:"


def page(view: PackView) -> str:
    """The page as the text of one HTML file; sheets without a drawing of their own are shown from their files."""
    body = (
        el("a", "To the script", href="#scripts", class_="skip"),
        _header(view),
        _contents(view),
        _bar(view),
        el("main", *_sections(view), id="scripts"),
        _footer(view),
    )
    images = _IMAGES if all(one.svg for one in view.sheets) else _WITH_FILES
    return document(view.title, _style(view), body, view.language, images=images)


def _style(view: PackView) -> str:
    return "\n".join(
        (
            own("page.css"),
            stylesheet("both"),
            choice_rules("standard", "only", len(view.subjects)),
            choice_rules("system", "system", len(systems_of(view))),
            situation_rules(len(situations_of(view))),
        )
    )


def _header(view: PackView) -> Html:
    notice = el("div", el("p", view.notice), class_="notice", role="note", aria_label="Notice")
    return el(
        "header",
        el("p", view.maker, class_="maker") if view.maker else "",
        el("h1", view.title),
        el("p", view.says, class_="says") if view.says else "",
        notice if view.notice else "",
        parts.failing(view),
        parts.doubtful(view),
        parts.verdict_table(view),
    )


def _contents(view: PackView) -> Html:
    """Where to go, by what is there."""
    rows = (
        ("Scripts", [(anchor("script", script.name), script.title or script.name) for script in view.scripts]),
        ("Drills", [(anchor("drill", drill.name), drill.title or drill.name) for drill in view.drills]),
        ("To look up", [(name, title) for name, title, there in _PLACES if getattr(view, there)]),
    )
    lists = [
        el("li", el("span", title, class_="label"), el("ul", *(el("li", el("a", w, href=f"#{to}")) for to, w in links)))
        for title, links in rows
        if links
    ]
    return el("nav", el("ul", *lists), id="contents", aria_label="Contents") if lists else Html("")


def _bar(view: PackView) -> Html:
    """For which standard the page is read, at hand all along; nothing where there is one standard only."""
    chosen = choice("Standard", "standard", view.subjects)
    back = el("a", "Contents", href="#contents")
    inside = el("div", chosen, back)
    return el("div", inside, class_="bar", role="region", aria_label="For which standard") if chosen else chosen


_PLACES = (
    ("sheets", "Sheets", "sheets"),
    ("cautions", "Cautions", "cautions"),
    ("glossary", "Glossary", "glossary"),
    ("assumptions", "Assumptions", "assumptions"),
    ("problems", "Problems", "problems"),
    ("paragraphs", "Paragraphs", "paragraphs"),
    ("more", "In the pack", "products"),
)


def _sections(view: PackView) -> tuple[Html, ...]:
    return (
        *(script_section(script, view) for script in view.scripts),
        *(drill_section(drill, view) for drill in view.drills),
        parts.section("Sheets", "sheets", *sheets(view)),
        parts.cautions(view),
        parts.glossary(view),
        parts.assumptions(view),
        parts.problems(view),
        parts.books(view),
        parts.products(view),
    )


def _footer(view: PackView) -> Html:
    made = (
        f"Made on {view.made} from the type folder by Cutaway."
        if view.made
        else "Made from the type folder by Cutaway."
    )
    return el("footer", el("p", made), el("p", join((view.notice,))) if view.notice else "")
