"""Marks in a heading or in the first words: written where they are plain, asked for where they are not."""

import re

import pytest

from cutaway.api.loading import load

TYPE = "name: Wren\nmarks: [Mk 1, Mk 2, Mk 3]\nmods: {mod 12: {fitted to: Mk 2}}\n"


def paragraphs(taken, key: str) -> dict[str, tuple[str, str, tuple[str, ...]]]:
    loaded, problems = load(taken.folder)
    assert [p for p in problems if "sources/" in (p.span.file.path if p.span else "")] == []
    source = next(s for s in loaded.folder.sources if s.key == key)
    return {p.number: (p.on.words, p.title, tuple(sorted(p.on.names))) for p in source.paragraphs}


@pytest.fixture
def wren(taken):
    (taken.folder / "type.yaml").write_text(TYPE, encoding="utf-8")
    for name in ("systems", "drills", "scripts"):
        for path in (taken.folder / name).glob("*"):
            path.unlink()
    for name in ("situations.yaml", "services.yaml", "decided.yaml", "letters.yaml", "glossary.yaml"):
        (taken.folder / name).unlink(missing_ok=True)
    return taken


SURE = {
    "Fuel lamp (Mk. II). The lamp lights at 3 lb/sq in.": "Mk 2",
    "Fuel lamp (Mk 2 only)": "Mk 2",
    "Fuel lamp. (Mk. II) The lamp lights at 3 lb/sq in.": "Mk 2",
    "Fuel lamp, Mark 2. The lamp lights.": "Mk 2",
    "Mk 2 only. The lamp lights at 3 lb/sq in.": "Mk 2",
    "Mk. III aircraft: the lamp lights.": "Mk 3",
    "Fuel lamp (Mks. I and II). The lamp lights.": "Mk 1 or Mk 2",
    "Fuel lamp (Mk 1 to Mk 3). The lamp lights.": "Mk 1 to Mk 3",
    "Mk. II.— The lamp lights.": "Mk 2",
}
UNSURE = {
    "Fuel lamp (Mk. IV). The lamp lights.": "",
    "On later Mk. II aeroplanes the lamp lights at 3 lb/sq in.": "Mk 2",
    "Fuel lamp (not on Mk. I). The lamp lights.": "Mk 1",
    "Fuel lamp, aeroplanes with Mod. 12. It dims.": "with mod 12",
    "Differences from Mk 1. They are few.": "Mk 1",
    "Except on Mk. II, the lamp lights.": "Mk 2",
}
NONE = (
    "Fuel lamp. The lamp lights at 3 lb/sq in.",
    "Fuel lamp. It is red and was taken over in 1938 from the one of the Mk. I.",
    "The second mark on the gauge is red.",
)


@pytest.mark.parametrize("text", SURE)
def test_a_plain_mark_is_written(text, wren, tmp_path) -> None:
    (tmp_path / "b.txt").write_text(f"21. Tanks. There are two.\n\n22. {text}\n", encoding="utf-8")
    outcome, codes = wren(tmp_path / "b.txt")
    assert codes == ["T213"] and outcome.standards == 0
    assert paragraphs(wren, "b")["§22"][0] == SURE[text]
    assert paragraphs(wren, "b")["§21"][0] == ""


@pytest.mark.parametrize("text", UNSURE)
def test_a_mark_that_is_not_plain_is_asked_for_and_not_written(text, wren, tmp_path) -> None:
    (tmp_path / "b.txt").write_text(f"21. Tanks. There are two.\n\n22. {text}\n", encoding="utf-8")
    outcome, codes = wren(tmp_path / "b.txt")
    assert codes == ["T214"] and outcome.standards == 1
    assert paragraphs(wren, "b")["§22"][0] == ""
    asked = (wren.folder / "taken" / "b" / "confirm.yaml").read_text(encoding="utf-8")
    assert "- id: on-22\n" in asked and f"proposed: '{UNSURE[text]}'" in asked
    assert "§22" in (wren.folder / "taken" / "b" / "confirm.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("text", NONE)
def test_what_is_said_by_the_way_is_no_mark(text, wren, tmp_path) -> None:
    (tmp_path / "b.txt").write_text(f"21. Tanks. There are two.\n\n22. {text}\n", encoding="utf-8")
    assert wren(tmp_path / "b.txt")[1] == []
    assert paragraphs(wren, "b")["§22"][0] == ""


@pytest.mark.parametrize("answer, on", [("yes", "Mk 2"), ("Mk 3", "Mk 3"), ("all", ""), ("no", "")])
def test_the_answer_is_written_and_stays(answer, on, wren, tmp_path) -> None:
    (tmp_path / "b.txt").write_text(
        "21. Tanks. There are two.\n\n22. On later Mk. II aeroplanes the lamp lights.\n", encoding="utf-8"
    )
    wren(tmp_path / "b.txt")
    list_of = wren.folder / "taken" / "b" / "confirm.yaml"
    for _ in range(2):
        text = list_of.read_text(encoding="utf-8")
        list_of.write_text(re.sub(r"  is: '.*'", f"  is: '{answer}'", text), encoding="utf-8")
        outcome, codes = wren(tmp_path / "b.txt")
        assert codes == [] and outcome.standards == 0
        assert paragraphs(wren, "b")["§22"][0] == on
        assert f"is: '{answer}'" in list_of.read_text(encoding="utf-8")


def test_what_a_person_wrote_under_the_heading_is_not_asked_again(wren, tmp_path) -> None:
    (tmp_path / "b.txt").write_text("21. Tanks. Two.\n\n22. Lamp (Mk. IV). It lights.\n", encoding="utf-8")
    assert wren(tmp_path / "b.txt")[1] == ["T214"]
    source = wren.folder / "sources" / "b.md"
    source.write_text(
        source.read_text(encoding="utf-8").replace("(Mk. IV)\n{", "(Mk. IV)\n{on: Mk 3, "), encoding="utf-8"
    )
    outcome, codes = wren(tmp_path / "b.txt")
    assert codes == ["T205"] and outcome.standards == 0
    assert paragraphs(wren, "b")["§22"][0] == "Mk 3"


def test_the_title_keeps_its_mark(wren, tmp_path) -> None:
    (tmp_path / "b.txt").write_text(
        "21. Tanks. Two.\n\n22. Fuel lamp (Mk. II). It lights at 3 lb/sq in.\n", encoding="utf-8"
    )
    wren(tmp_path / "b.txt")
    assert paragraphs(wren, "b")["§22"] == ("Mk 2", "Fuel lamp (Mk. II)", ("Mk 2",))


SECTIONS = """1. Tanks. There are two.

MK. II AEROPLANES ONLY
2. Pump. The pump is driven by the engine.

3. Lamp (Mk. III). The lamp lights.

4. Gauge. It reads the pressure.

OIL SYSTEM
5. Cooler. It cools the oil.
"""


def test_a_heading_for_some_marks_is_carried_down_its_section_and_asked_about(wren, tmp_path) -> None:
    (tmp_path / "b.txt").write_text(SECTIONS, encoding="utf-8")
    outcome, codes = wren(tmp_path / "b.txt")
    assert codes == ["T213", "T214"] and outcome.standards == 2
    confirm = wren.folder / "taken" / "b" / "confirm.yaml"
    asked = confirm.read_text(encoding="utf-8")
    assert re.findall(r"- id: (\S+)", asked) == ["on-2", "on-4"]
    assert asked.count("says: 'MK. II AEROPLANES ONLY'\n  proposed: 'Mk 2'") == 2
    assert "MK. II" not in (wren.folder / "sources" / "b.md").read_text(encoding="utf-8")
    confirm.write_text(asked.replace("  is: ''", "  is: 'yes'"), encoding="utf-8")
    wren(tmp_path / "b.txt")
    found = {number: on for number, (on, _, _) in paragraphs(wren, "b").items()}
    assert found == {"§1": "", "§2": "Mk 2", "§3": "Mk 3", "§4": "Mk 2", "§5": ""}
