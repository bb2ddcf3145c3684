"""Scripts and drills: sentences, claims, marks and steps, each with its place."""

from cutaway.handbook.load import load_folder
from tests.handbook.folders import WHINCHAT, codes, load_sample

SCRIPT = """\
---
title: The cock
---

# Another title

## On the *left*

The cock, marked `OFF / ON`, holds at 2 lb. per sq. in. of **pressure**.
It was moved on the Mk. 2. `cite: hb §2a` They say it is [better](https://example.org). `aside`

```claim
# a remark
fuel cock is fitted

on Mk 1: fuel cock is at x
```

<!-- Not read. `cite: §99` -->
- A point in a list. `cite: §1, §2`

> A quotation that is read aloud.

```claim
fuel cock is on
```
"""


def script(tmp_path, text):
    folder, problems = load_sample(tmp_path, {"scripts/01-fuel.md": text, "glossary.yaml": ""})
    return folder.scripts[0], problems


def words(span):
    return span.file.text[span.start : span.end]


def test_a_script_is_cut_into_sentences_with_what_stands_behind_them(tmp_path):
    read, problems = script(tmp_path, SCRIPT)
    assert problems == ()
    assert (read.name, read.title) == ("01-fuel", "The cock")
    assert [(s.text, s.chapter, s.paragraph) for s in read.sentences] == [
        ("The cock, marked OFF / ON, holds at 2 lb. per sq. in. of pressure.", "On the left", 1),
        ("It was moved on the Mk. 2.", "On the left", 1),
        ("They say it is better.", "On the left", 1),
        ("A point in a list.", "On the left", 2),
        ("A quotation that is read aloud.", "On the left", 3),
    ]
    assert [[c.number for c in s.cites] for s in read.sentences] == [[], ["§2a"], [], ["§1", "§2"], []]
    assert [s.aside for s in read.sentences] == [False, False, True, False, False]
    assert [[words(c) for c in s.claims] for s in read.sentences] == [
        [], [], ["fuel cock is fitted", "on Mk 1: fuel cock is at x"], [], ["fuel cock is on"],
    ]  # fmt: skip


def test_a_sentence_s_place_is_its_own_text(tmp_path):
    read, _ = script(tmp_path, SCRIPT)
    assert words(read.sentences[0].span).startswith("The cock, marked `OFF")
    assert words(read.sentences[0].span).endswith("**pressure**.")
    assert words(read.sentences[1].span) == "It was moved on the Mk. 2."
    assert [words(c.span) for c in read.sentences[1].cites] == ["hb §2a"]


def test_an_aside_by_itself_marks_nothing(tmp_path):
    read, problems = script(tmp_path, "One sentence.\n\n`aside`\n\nAnother one.\n")
    assert problems == ()
    assert [(s.text, s.aside) for s in read.sentences] == [("One sentence.", False), ("Another one.", False)]


def test_several_marks_behind_one_sentence(tmp_path):
    read, _ = script(tmp_path, "It is so. `cite: §1` `cite: §2`\nAnd so on. `aside`\n")
    assert [[c.number for c in s.cites] for s in read.sentences] == [["§1", "§2"], []]
    assert [s.aside for s in read.sentences] == [False, True]


def test_a_wrong_citation_is_told_and_the_sentence_kept(tmp_path):
    read, problems = script(tmp_path, "It is so. `cite: §99`\n")
    assert codes(problems) == ["H201"]
    assert len(read.sentences) == 1 and read.sentences[0].cites == ()


def test_a_mark_without_a_paragraph(tmp_path):
    assert codes(script(tmp_path, "It is so. `cite:`\n")[1]) == ["H203"]


def test_a_block_that_is_not_closed_is_told_and_hides_what_follows(tmp_path):
    read, problems = script(tmp_path, "One.\n\n```claim\nfuel cock is on\n\nTwo.\n")
    assert codes(problems) == ["H602"]
    assert [s.text for s in read.sentences] == ["One."]
    assert read.sentences[0].claims == ()


def test_every_sentence_of_the_demo_stands_in_its_file_once():
    folder, _ = load_folder(WHINCHAT)
    assert folder is not None
    for one in folder.scripts:
        ends = 0
        for sentence in one.sentences:
            assert sentence.span.start >= ends
            ends = sentence.span.end
            assert "`" not in sentence.text and sentence.text[-1] in ".?!"
            assert words(sentence.span).split()[0].strip("*") == sentence.text.split()[0]


def test_a_drill_has_steps_with_marks_and_cautions(tmp_path):
    text = """\
---
from: Parked
on: Mk 2
cite: hb §2
---

Some words before the list.

1. Petrol on: `fuel cock to on`. `cite: §2`
   It is on: `fuel cock is on`.

   > Caution: No *flame*
   > anywhere.
2. Then wait.
   - a bullet inside: `wait 3 s`
"""
    folder, problems = load_sample(tmp_path, {"drills/starting.md": text})
    assert problems == ()
    (drill,) = folder.drills
    assert (drill.name, drill.situation, drill.on.names) == ("starting", "parked", {"Mk 2"})
    first, second = drill.steps
    assert first.text == "Petrol on: fuel cock to on. It is on: fuel cock is on."
    assert [words(mark) for mark in first.marks] == ["fuel cock to on", "fuel cock is on"]
    assert first.caution == "No flame anywhere."
    assert [cite.number for cite in first.cites] == ["§2"]
    assert [words(mark) for mark in second.marks] == ["wait 3 s"]


def test_a_drill_from_a_situation_left_out_is_left_out_in_silence(tmp_path):
    files = {"situations.yaml": "situations:\n  parked: {settle: 3 weeks}\n"}
    folder, problems = load_sample(tmp_path, files)
    assert codes(problems) == ["Q104"]
    assert folder.drills == () and "starting" in folder.left_out


def test_a_drill_from_nowhere(tmp_path):
    files = {"drills/starting.md": "---\nfrom: parkd\n---\n\n1. Petrol on.\n"}
    _, problems = load_sample(tmp_path, files)
    assert codes(problems) == ["H402"]
    assert problems[0].hint == "Did you mean parked?"
