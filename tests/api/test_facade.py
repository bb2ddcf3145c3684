"""`import cutaway as cw`: quick to import, one call a question, answers that show themselves."""

import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path

import pytest

import cutaway as cw

WHINCHAT = Path(__file__).parents[2] / "demo" / "whinchat"


@pytest.fixture(scope="module")
def folder() -> cw.TypeFolder:
    return cw.load(WHINCHAT)


class _Balance(HTMLParser):
    """Counts what is opened and closed."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.seen: list[str] = []

    def handle_starttag(self, tag: str, attrs: object) -> None:
        self.seen.append(tag)
        self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: object) -> None:
        self.seen.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


def _tags(html: str) -> list[str]:
    reader = _Balance()
    reader.feed(html)
    assert reader.open == []
    return reader.seen


def test_importing_it_imports_no_room() -> None:
    code = "import sys, cutaway; print(sorted(m for m in sys.modules if m.startswith(('cutaway.', 'numba', 'numpy'))))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_every_name_of_the_facade_is_there() -> None:
    assert set(cw.__all__) <= set(dir(cw))
    for name in cw.__all__:
        assert getattr(cw, name).__doc__
    with pytest.raises(AttributeError, match="no attribute 'wye'"):
        cw.wye  # noqa: B018


def test_a_run_shows_its_traces(folder: cw.TypeFolder) -> None:
    ran = cw.run(folder, "cruising", do="tank selector to off", length="40 s", show=["fuel lamp"])
    assert ran and "fuel lamp: out at first, lit at last" in str(ran)
    tags = _tags(ran._repr_html_())
    assert tags.count("polyline") == 1 and tags.count("tr") == 2
    assert ran.record["subject"] == "Mk 1"


def test_a_chart_is_a_drawing_with_words(folder: cw.TypeFolder) -> None:
    chart = cw.chart(folder, "cruising", ["fuel lamp"], do="tank selector to off", length="10 s")
    assert chart and "fuel lamp: out at first, lit from 1.7 s." in str(chart)
    html = chart._repr_html_()
    assert html.startswith('<img src="data:image/svg+xml;base64,') and "lit from 1.7 s" in html
    assert not cw.chart(folder, "cruising", ["fule lamp"])


def test_answers_are_text_data_and_html(folder: cw.TypeFolder) -> None:
    for answer in (
        cw.why(folder, "fuel lamp is lit", "cruising", do="tank selector to off", size=1),
        cw.failures(folder, "fuel lamp is out", "cruising", size=1),
        cw.suspects(folder, ["fuel lamp is lit"], "cruising", size=1),
        cw.reach(folder, "fuel lamp is lit", "cruising", size=1),
        cw.drill(folder, "changing-tanks", on="Mk 1"),
        cw.compare(folder, "Mk 2", "Mk 2 with mod 12", "cruising"),
    ):
        assert answer and str(answer) and answer.record["question"] == answer.title
        assert "p" in _tags(answer._repr_html_())


def test_what_cannot_be_asked_is_told_and_not_raised(folder: cw.TypeFolder) -> None:
    slip = cw.why(folder, "fule lamp is lit", "cruising")
    assert not slip and "Did you mean fuel lamp?" in str(slip) and "fule lamp" in slip._repr_html_()
    nowhere = cw.load("no such folder")
    assert nowhere.opened is None and "There is no type folder" in str(nowhere)
    for answer in (cw.check(nowhere), cw.rests(nowhere), cw.make(nowhere), cw.reach(nowhere, "lamp is lit")):
        assert not answer and [p.code for p in answer.problems] == ["H001"]


def test_html_is_escaped() -> None:
    from cutaway.api.displays import answer_html

    html = answer_html("<b>", "Hallam & Reeve\n  - a < b", ())
    assert "&lt;b&gt;" in html and "Hallam &amp; Reeve" in html and "<li>a &lt; b</li>" in html
