"""YAML as a tree with places, and the mistakes that everybody makes."""

import pytest

from cutaway.handbook.nodes import Block, Faulty, Items, Node, Words
from cutaway.handbook.yaml_tree import read_tree
from cutaway.problems.diagnostic import Diagnostic
from cutaway.problems.span import Span, TextFile


def tree(text: str) -> tuple[Node | None, tuple[Diagnostic, ...]]:
    return read_tree(TextFile("x.yaml", text))


def marked(span: Span | None) -> str:
    assert span is not None
    return span.file.text[span.start : span.end]


def one(text: str) -> Diagnostic:
    (problem,) = tree(text)[1]
    return problem


def test_every_text_knows_its_place():
    text = """\
parts:
  fuel cock: {kind: cock, at: 'left wall', says: "it's \\"open\\""}   # a remark
  tank:
    ways: [one, two words]
    says: |
      First line.
      Second line.
  last: 7 ± 0.5
"""
    root, problems = tree(text)
    assert problems == () and isinstance(root, Block)
    found: list[tuple[str, str]] = []

    def walk(node: Node) -> None:
        match node:
            case Words():
                found.append((node.text, marked(node.span)))
            case Items():
                for item in node.items:
                    walk(item)
            case Block():
                for entry in node.entries:
                    walk(entry.key)
                    walk(entry.value)

    walk(root)
    exact = [text for text, place in found if text == place]
    assert exact == [
        *("parts", "fuel cock", "kind", "cock", "at", "left wall", "says"),
        *("tank", "ways", "one", "two words", "says", "last", "7 ± 0.5"),
    ]
    others = [pair for pair in found if pair[0] != pair[1]]
    assert others == [
        ('it\'s "open"', 'it\'s \\"open\\"'),
        ("First line.\nSecond line.", "First line.\n      Second line."),
    ]


def test_nothing_becomes_a_number_or_a_truth_value():
    root, _ = tree("on: yes\noff: 1.50\nday: 2020-01-01\nempty:\nnil: ~\n")
    assert isinstance(root, Block)
    values = {entry.key.text: entry.value.text for entry in root.entries if isinstance(entry.value, Words)}
    assert values == {"on": "yes", "off": "1.50", "day": "2020-01-01", "empty": "", "nil": ""}


def test_a_key_twice_shows_both_places():
    root, problems = tree("a: 1\nb: 2\nA: 3\n")
    (problem,) = problems
    assert problem.code == "H102"
    assert problem.span is not None and (problem.span.start, problem.also[0][0].start) == (10, 0)
    assert isinstance(root, Block) and [entry.key.text for entry in root.entries] == ["a", "b"]


@pytest.mark.parametrize("figure", ["1,800 rpm", "1,800", "12,500 ft"])
def test_a_comma_in_a_figure_inside_braces(figure):
    problem = one("engine: {kind: engine, rated speed: " + figure + "}\n")
    assert problem.code == "H106"
    assert figure in problem.message
    assert figure.replace(",", "") in problem.hint


def test_a_comma_in_words_inside_braces():
    root, (problem,) = tree("lamp: {kind: lamp, at: cockpit, left wall, says: x}\n")
    assert problem.code == "H106"
    assert marked(problem.span) == "left wall"
    assert '"cockpit, left wall"' in problem.hint
    assert isinstance(root, Block)
    lamp = root.get("lamp")
    assert isinstance(lamp, Block)
    assert [type(entry.value) for entry in lamp.entries] == [Words, Faulty, Words]


def test_an_empty_value_inside_braces_is_no_mistake():
    assert tree("mods: {mod 12: , mod 13: }\n")[1] == ()


@pytest.mark.parametrize(
    "text, code, place",
    [
        ("a:\n\tb: 1\n", "H103", "\t"),
        ("a:\n  b: 1\n \tc: 2\n", "H103", "\t"),
        ("a: 'x\nb: 2\n", "H104", "'x"),
        ('a: "x\n', "H104", '"x'),
        ('a: "\\q"\n', "H104", '"\\q"'),
        ('a: "\\UFFFFFFFF"\n', "H101", None),
        ("a: {kind:tank}\n", "H105", "kind:tank"),
        ("a:\n  kind:tank\n  b: 1\n", "H105", ":t"),
        ("says: Note: text\n", "H105", ":"),
        ("a: 1\nb\nc: 2\n", "H105", None),
        ("a: {b: 1\nc: 2\n", "H101", "{b: 1"),
        ("a: [1, 2\n", "H101", "[1, 2"),
        ("a: *x\n", "H107", "*x"),
        ("a: &x 1\n", "H107", None),
        ("a: !x 1\n", "H107", None),
        ("a: @x\n", "H107", "@x"),
        ("a: `x`\n", "H107", "`x`"),
        ("a: 1\n---\nb: 2\n", "H101", "---"),
        ("? [a]\n: b\n", "H108", "[a]"),
        ("a:\n b: 1\n   c: 2\n", "H101", None),
        ("a: 1\n  b: 2\n", "H101", None),
        ("a:\n    b: 1\n  c: 2\n", "H101", None),
        ("a: x\x07y\n", "H101", "\x07"),
    ],
)
def test_what_is_not_yaml_is_told_once_with_its_place(text, code, place):
    problem = one(text)
    assert problem.code == code
    assert problem.hint
    if place is not None:
        assert marked(problem.span) == place


def test_our_messages_have_no_words_of_the_parser():
    for text in ("a: {b: 1\nc: 2\n", "a: 'x\n", "a: @x\n", "a: b: c\n", "a:\n b: 1\n   c: 2\n", "- a\nb: 1\n"):
        said = one(text).message.lower()
        assert not any(word in said for word in ("token", "scalar", "mapping", "sequence", "stream", "expected"))


def test_anchors_cannot_grow_into_a_mountain():
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 12)]
    root, problems = tree("\n".join(lines) + "\n")
    assert {problem.code for problem in problems} == {"H107"}
    assert isinstance(root, Block) and all(isinstance(entry.value, Faulty) for entry in root.entries)


def test_a_deep_nest_is_refused_and_does_not_overflow():
    assert [p.code for p in tree("[" * 20_000)[1]] == ["H109"]
    assert [p.code for p in tree("a: " + "{b: " * 3_000 + "1" + "}" * 3_000)[1]] == ["H109"]


def test_a_stretch_of_a_file_keeps_the_file_s_offsets():
    file = TextFile("hb.md", "## 2 Cock\n{on: Mk 2}\nText.")
    root, problems = read_tree(file, 10, 20)
    assert problems == () and isinstance(root, Block)
    assert marked(root.entries[0].value.span) == "Mk 2"
