"""Timings of finding and of checking a script against the books alone.

    python benchmarks/sentence_first.py

A search is timed against a plain scan of the same 20,000 paragraphs in the same run. The bars: a search under 50 ms; a
script of 3,000 words checked without a model in under 3 s.
"""

import random
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from cutaway.api.checking import check
from cutaway.handbook.load import load_folder
from cutaway.handbook.records import Folder, Source
from cutaway.handbook.search import ParagraphIndex

WHINCHAT = Path(__file__).parents[1] / "demo" / "whinchat"
PARAGRAPHS = 20_000
WORDS = 3_000
QUERIES = (
    "fuel lamp",
    "carburetter",
    "pressure of the engine pump",
    "battery switch",
    "A valve holds the suction at four and a half inches of mercury, or so near it that you would not quarrel.",
)
# How many words of the trade beside the Whinchat's own a library of this size has. A guess of ours.
VOCABULARY = 15_000


def many_paragraphs(source: Source, seed: int = 1) -> Source:
    """A book of 20,000 paragraphs whose words are as uneven as those of a language: the nth is 1/n as common."""
    chance = random.Random(seed)
    own = list(dict.fromkeys(word for p in source.paragraphs for word in p.text.split()))
    made = ["".join(chance.choices("abcdefghilmnoprstu", k=chance.randint(5, 10))) for _ in range(VOCABULARY)]
    words = own + made
    weights = [1 / (place + 10) for place in range(len(words))]
    return replace(
        source,
        paragraphs=tuple(
            replace(
                source.paragraphs[at % len(source.paragraphs)],
                number=f"§{at}",
                title=" ".join(chance.choices(words, weights, k=3)),
                text=" ".join(chance.choices(words, weights, k=80)),
            )
            for at in range(PARAGRAPHS)
        ),
    )


def seconds(work: Callable[[], object], times: int = 5) -> float:
    """The middle of several timings."""
    found = []
    for _ in range(times):
        begin = time.perf_counter()
        work()
        found.append(time.perf_counter() - begin)
    return sorted(found)[len(found) // 2]


def scan(source: Source, words: str) -> int:
    """The reference: how many paragraphs have any of the words, read one after another."""
    asked = set(words.lower().split())
    return sum(bool(asked & set(p.text.lower().split())) for p in source.paragraphs)


def search_timings(folder: Folder) -> None:
    source = many_paragraphs(folder.sources[0])
    begin = time.perf_counter()
    index = ParagraphIndex((source,), folder.glossary)
    print(f"index of {PARAGRAPHS:,} paragraphs: {time.perf_counter() - begin:.2f} s, once")
    for words in QUERIES:
        first = seconds(lambda words=words: index.search(words), 1)
        took = seconds(lambda words=words: index.search(words))
        reference = seconds(lambda words=words: scan(source, words), 1)
        bar = "within" if max(first, took) < 0.05 else "OVER"
        print(
            f"search {first * 1000:6.1f} ms at first, {took * 1000:6.1f} ms again; "
            f"a scan takes {reference / took:6.0f} times as long; {bar} the bar of 50 ms: {words[:40]}"
        )


def check_timing(folder: Folder) -> None:
    sentences = [s.text for script in folder.scripts for s in script.sentences if not s.aside]
    text: list[str] = []
    while sum(len(line.split()) for line in text) < WORDS:
        if not len(text) % 12:
            text.append(f"\n## Part {len(text) // 12 + 1}\n")
        text.append(sentences[len(text) % len(sentences)])
    with tempfile.TemporaryDirectory() as name:
        root = Path(name)
        about = (WHINCHAT / "type.yaml").read_text(encoding="utf-8").replace("missing: [hand pump]", "missing: []")
        for path, words in (
            ("type.yaml", about),
            ("sources/hb.md", (WHINCHAT / "sources/hb.md").read_text(encoding="utf-8")),
            ("scripts/01-all.md", "# All\n\n" + "\n".join(text) + "\n"),
        ):
            (root / path).parent.mkdir(exist_ok=True)
            (root / path).write_text(words, encoding="utf-8")
        took = seconds(lambda: check(root), 3)
    bar = "within" if took < 3.0 else "OVER"
    print(f"check of {WORDS:,} words without a model: {took:.2f} s; {bar} the bar of 3 s")


if __name__ == "__main__":
    whinchat, _ = load_folder(WHINCHAT)
    assert whinchat is not None
    search_timings(whinchat)
    check_timing(whinchat)
