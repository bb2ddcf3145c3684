"""Whatever a user writes, loading gives a folder or diagnostics whose places lie in their files; it never raises."""

import random
import tempfile
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from cutaway.handbook.load import load_folder
from cutaway.handbook.reading import read_folder
from cutaway.problems.catalogue import CATALOGUE
from cutaway.problems.diagnostic import Problems
from cutaway.problems.printing import as_records, as_text
from tests.handbook.folders import SAMPLE, WHINCHAT, write

TEXTS = {}
for name, folder in (("sample", SAMPLE), ("whinchat", WHINCHAT)):
    read, _ = read_folder(folder)
    assert read is not None
    TEXTS[name] = {file.path: file.text for file in read.files}

# Signs that mean something to YAML, to Markdown or to us.
SIGNS = [
    "\t",
    "\n",
    "  ",
    ":",
    ": ",
    ",",
    "{",
    "}",
    "[",
    "]",
    "'",
    '"',
    "*",
    "&",
    "!",
    "#",
    "> ",
    "§",
    "<",
    "`",
    "```claim\n",
    "---\n",
    "- ",
    "|",
    "?",
    "@",
    "%",
    "0",
    "1e999 gal",
    "-",
    "\\",
    "\x07",
    "\u2028",
    "𝄞",
    "<<: *x",
    "for each: {a: []}",
]


def load_all(files: dict[str, str]) -> Problems:
    with tempfile.TemporaryDirectory() as place:
        folder, problems = load_folder(write(Path(place), files))
    assert folder is not None or problems
    for problem in problems:
        assert problem.code in CATALOGUE
        assert problem.message.strip()
        for span in (problem.span, *(span for span, _ in problem.also)):
            if span is not None:
                assert 0 <= span.start <= span.end <= len(span.file.text)
    as_text(problems)
    as_records(problems)
    hash(folder)
    return problems


def edited(text: str, chance: random.Random) -> str:
    """The text with a few random slips of the pen."""
    for _ in range(chance.randint(1, 4)):
        at = chance.randint(0, len(text))
        what = chance.randrange(6)
        if what == 0:
            text = text[:at] + chance.choice(SIGNS) + text[at:]
        elif what == 1:
            text = text[:at] + text[at + chance.randint(1, 30) :]
        elif what == 2:
            end = at + chance.randint(1, 60)
            text = text[:end] + text[at:end] + text[end:]
        elif what == 3 and at < len(text):
            text = text[:at] + chance.choice(SIGNS) + text[at + 1 :]
        elif what == 4:
            lines = text.split("\n")
            place = chance.randrange(len(lines))
            other = chance.randrange(len(lines))
            lines[place], lines[other] = lines[other], lines[place]
            text = "\n".join(lines)
        else:
            lines = text.split("\n")
            place = chance.randrange(len(lines))
            lines[place] = " " * chance.randint(1, 3) + lines[place]
            text = "\n".join(lines)
    return text


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 2**32))
def test_random_edits_of_the_sample(seed):
    chance = random.Random(seed)
    files = dict(TEXTS["sample"])
    for name in chance.sample(sorted(files), 2):
        files[name] = edited(files[name], chance)
    load_all(files)


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 2**32))
def test_random_edits_of_the_demo(seed):
    chance = random.Random(seed)
    files = dict(TEXTS["whinchat"])
    name = chance.choice(sorted(files))
    files[name] = edited(files[name], chance)
    load_all(files)


@settings(max_examples=50, deadline=None)
@given(st.sampled_from(sorted(TEXTS["sample"])), st.text(max_size=200))
def test_random_text_in_any_file(name, text):
    load_all(TEXTS["sample"] | {name: text.replace("\ud800", "")})


@settings(max_examples=50, deadline=None)
@given(
    st.sampled_from(sorted(TEXTS["sample"])),
    st.lists(
        st.sampled_from(
            [*SIGNS, "parts", "lines", "kind: tank", "on: Mk 1", "cite: §1", "name", "set", "from", "## 1 "]
        ),
        max_size=30,
    ),
)
def test_random_signs_in_any_file(name, pieces):
    load_all(TEXTS["sample"] | {name: "".join(pieces)})


TREES = st.recursive(
    st.sampled_from(
        ["x", "", "20 gal", "Mk 1", "§1", "fuel tank", "fuel cock.inlet", "on", "1 to 2 gal", "tank", "cock", "2 min"]
    ),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3).map(lambda items: "[" + ", ".join(items) + "]"),
        st.dictionaries(
            st.sampled_from(
                [
                    "kind",
                    "capacity",
                    "on",
                    "cite",
                    "is",
                    "assume",
                    "between",
                    "because",
                    "run",
                    "for each",
                    "side",
                    "rules",
                    "to",
                    "set",
                    "given",
                    "start",
                    "settle",
                    "from",
                    "says",
                    "at",
                    "parts",
                    "a",
                    "senses",
                ]
            ),
            inner,
            max_size=4,
        ).map(lambda d: "{" + ", ".join(f"{k}: {v}" for k, v in d.items()) + "}"),
    ),
    max_leaves=12,
)
HEADS = {
    "systems/fuel.yaml": [
        "system: Fuel\nparts: {{p: {}}}\n",
        "system: Fuel\nparts: {}\n",
        "lines: [{}]\n",
        "{}\n",
        "parts: {{p: {{kind: tank, capacity: {}}}}}\n",
        "parts: {{<side> p: {}}}\n",
    ],
    "situations.yaml": ["situations: {{a: {}}}\n", "situations: {}\n", "situations: {{a: {{set: {}}}, b: {}}}\n"],
    "services.yaml": ["services: {{a: {}}}\n", "{}\n"],
    "type.yaml": [
        "name: X\nmods: {}\n",
        "name: X\nairframes: {{a: {}}}\nhouse units: {}\n",
        "marks: {}\nstandards: {}\n",
        "{}\n",
    ],
    "decided.yaml": ["[{}]\n", "{}\n"],
    "glossary.yaml": ["terms: {{a: {}}}\n"],
    "letters.yaml": ["letters: {{a: {}}}\n"],
    "drills/starting.md": ["---\n{}\n---\n1. A.\n"],
    "sources/hb.md": ["---\namendments: {}\n---\n## 1 A\n{}\nText.\n"],
}


@settings(max_examples=120, deadline=None)
@given(
    st.sampled_from(sorted(HEADS)).flatmap(lambda name: st.tuples(st.just(name), st.sampled_from(HEADS[name]))),
    TREES,
    TREES,
)
def test_well_formed_nonsense(place, first, second):
    name, head = place
    load_all(TEXTS["sample"] | {name: head.format(first, second) if head.count("{}") > 1 else head.format(first)})
