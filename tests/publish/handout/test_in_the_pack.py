"""Handouts in the pack: which there are, that the pack leads to them, that only what is another is set again."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

import cutaway.publish.handout.product as product
from cutaway.api.making import Made, make
from cutaway.api.telling import made_text
from cutaway.publish.handout import pdf
from tests.conftest import SAMPLE
from tests.publish.demo import content
from tests.publish.handout import reading_back

ASKED = """handouts:
  the cock: {kind: [visitor, large], paper: Letter, on: [Mk 1, Mk 2], in: running}
  the whole story: {kind: booklet}
"""
SAYS = """# The cock

Good morning. `aside`
Behind the fuel cock the petrol waits.

```claim
in running: fuel cock is on
```
"""


class Maker:
    """Makes the pack of one folder with pieces and verdicts of its own."""

    def __init__(self, base: Path) -> None:
        self.base, self.folder = base, base / "sparrow"
        shutil.copytree(SAMPLE, self.folder)
        (self.folder / "scripts" / "01-fuel.md").write_text(SAYS, encoding="utf-8")

    def made(self, name: str = "pack", remembered: str = "kept", handouts: bool = True) -> tuple[Made, list[str]]:
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr("cutaway.api.making.memory_file", lambda: self.base / remembered / "verdicts.sqlite")
            patch.setattr("cutaway.api.making.layouts_folder", lambda: self.base / "layouts")
            made, problems = make(self.folder, self.base / name, rests=False, handouts=handouts)
        assert made is not None
        return made, [problem.code for problem in problems]

    def paper(self, name: str = "pack") -> dict[str, bytes]:
        found = content(self.base / name)
        return {path: found[path] for path in sorted(found) if path.startswith("handouts/")}


@pytest.fixture(scope="module")
def maker(tmp_path_factory: pytest.TempPathFactory) -> Maker:
    maker = Maker(tmp_path_factory.mktemp("paper"))
    maker.made()
    return maker


@pytest.fixture
def asked(maker: Maker) -> Iterator[Path]:
    """A file that asks for handouts, for one test."""
    file = maker.folder / "handouts.yaml"
    file.write_text(ASKED, encoding="utf-8")
    yield file
    file.unlink()


def test_unasked_there_are_a_page_and_its_large_print(maker: Maker) -> None:
    found = maker.paper()
    assert list(found) == ["handouts/large-fuel-mk-1-a4.pdf", "handouts/visitor-fuel-mk-1-a4.pdf"]
    for path, said in (("large", "large-print sheet"), ("visitor", "visitor sheet")):
        one = found[f"handouts/{path}-fuel-mk-1-a4.pdf"]
        assert reading_back.about(one)["Title"] == f"Sparrow: {said}, Fuel, Mk 1"
        words = " ".join(reading_back.texts(one))
        assert "Behind the fuel cock the petrol waits." in words and "Good morning" not in words
        assert "Running" in words  # as the script shows it
        assert words.startswith("Sparrow A very small type")
    assert reading_back.sizes(found["handouts/visitor-fuel-mk-1-a4.pdf"]) == [pytest.approx((595.28, 841.89), abs=0.1)]


def test_the_pack_leads_to_them_by_their_names(maker: Maker) -> None:
    for page in ("contents.html", "index.html"):
        text = (maker.base / "pack" / page).read_text(encoding="utf-8")
        assert '<a href="handouts/visitor-fuel-mk-1-a4.pdf">Sparrow: visitor sheet, Fuel, Mk 1</a>' in text


def test_they_can_be_left_out(maker: Maker) -> None:
    made, codes = maker.made("bare", handouts=False)
    assert codes == [] and maker.paper("bare") == {}
    assert {path for path in maker.made("pack")[0].files if path not in made.files} == set(maker.paper())


def test_what_is_asked_for_is_made_and_nothing_else(maker: Maker, asked: Path) -> None:
    _, codes = maker.made("asked")
    found = maker.paper("asked")
    assert codes == []
    assert list(found) == [
        "handouts/the-cock-mk-1-large-letter.pdf",
        "handouts/the-cock-mk-1-visitor-letter.pdf",
        "handouts/the-cock-mk-2-large-letter.pdf",
        "handouts/the-cock-mk-2-visitor-letter.pdf",
        "handouts/the-whole-story-booklet-a4.pdf",
    ]
    assert all(
        sorted(size) == pytest.approx((612.0, 792.0), abs=0.1)
        for path, one in found.items()
        if "letter" in path
        for size in reading_back.sizes(one)
    )
    assert "Good morning." in " ".join(reading_back.texts(found["handouts/the-whole-story-booklet-a4.pdf"]))
    # Two makes, the second with nothing known from before.
    maker.made("again", "nothing")
    assert content(maker.base / "again") == content(maker.base / "asked")


def test_only_what_is_another_is_set_again(maker: Maker, asked: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    maker.made("asked")
    before = maker.paper("asked")
    set_again: list[str] = []
    whole = pdf.pdf_of
    monkeypatch.setattr(pdf, "pdf_of", lambda one: (set_again.append(one.kind), whole(one))[1])
    maker.made("asked")
    assert set_again == []
    script = maker.folder / "scripts" / "01-fuel.md"
    script.write_text(SAYS.replace("Good morning", "Good evening"), encoding="utf-8")
    maker.made("asked")
    script.write_text(SAYS, encoding="utf-8")
    assert set_again == ["booklet"]
    after = maker.paper("asked")
    assert [path for path in after if after[path] != before[path]] == ["handouts/the-whole-story-booklet-a4.pdf"]


def test_k513_a_system_that_a_standard_has_not(maker: Maker, asked: Path) -> None:
    air = "system: Air\nparts:\n  bottle: {kind: air bottle, on: Mk 2}\n"
    (maker.folder / "systems" / "air.yaml").write_text(air, encoding="utf-8")
    asked.write_text("handouts:\n  air: {system: Air}\n", encoding="utf-8")
    _, codes = maker.made("asked")
    (maker.folder / "systems" / "air.yaml").unlink()
    assert "K513" in codes and maker.paper("asked") == {}


def test_k512_without_the_typesetter(maker: Maker, asked: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(product, "can_be_set", lambda: False)
    made, codes = maker.made("asked", "nothing to set with")
    assert codes == ["K512"] and maker.paper("asked") == {} and not made.wrong
    asked.write_text("paper: Letter\n", encoding="utf-8")
    _, codes = maker.made("asked", "nothing to set with")
    assert codes == [] and maker.paper("asked") == {}
    assert product.left_out(made.checked.folder) is False, "the folder of before asked for some"
    made, _ = maker.made("asked", "nothing to set with")
    assert product.left_out(made.checked.folder) and "-e '.[handout]'" in made_text(made, True)
    monkeypatch.undo()
    maker.made("asked", "nothing to set with")
    assert maker.paper("asked") != {}, "once it is there, they are made"
