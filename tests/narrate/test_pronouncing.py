"""Sounds of words that no dictionary has, and the model of what is expected."""

import random
import re

from rapidfuzz.distance import Levenshtein

from cutaway.narrate import pronounce
from cutaway.narrate.language_model import arpa_text
from cutaway.narrate.letters_to_sounds import sounds_by_rule
from cutaway.narrate.pronounce import said
from cutaway.narrate.recogniser import dictionary


def test_the_rules_against_a_dictionary() -> None:
    """Not an outside bar: the share of wrong phones that our rules are known to make, so that a slip is seen."""
    words = {word: sounds.split() for word, sounds in dictionary().words.items() if re.fullmatch("[a-z]{4,}", word)}
    sample = random.Random(1).sample(sorted(words), 3000)
    wrong = sum(Levenshtein.distance(sounds_by_rule(word).split(), words[word]) for word in sample)
    assert wrong / sum(len(words[word]) for word in sample) < 0.2  # pins today's rules


def test_british_spellings_are_found_in_an_american_dictionary() -> None:
    known = dictionary()
    for british, american in (("carburettor", "carburetor"), ("harbour", "harbor"), ("levelled", "leveled")):
        assert said([british], known)[british][0] == known.words[american]


def test_without_a_speaker_the_rules_do(monkeypatch) -> None:
    monkeypatch.setattr(pronounce.shutil, "which", lambda name: None)
    assert said(["nacelle", "chine"], dictionary()) == {"nacelle": ("N AE S EH L",), "chine": ("CH AY N",)}


def test_chances_sum_to_one() -> None:
    lines = arpa_text([("open", "the", "cock"), ("shut", "the", "cock")], ["hello"]).splitlines()
    section = lines[lines.index("\\1-grams:") + 1 : lines.index("\\2-grams:") - 1]
    ones = {word: 10 ** float(chance) for chance, word, _ in map(str.split, section)}
    assert abs(sum(ones.values()) - 1.0) < 1e-3 and ones["hello"] > 0
    section = lines[lines.index("\\2-grams:") + 1 : lines.index("\\3-grams:") - 1]
    after_the = {row[2]: 10 ** float(row[0]) for row in map(str.split, section) if row[1] == "the"}
    weight = next(10 ** float(row.split()[2]) for row in lines if re.match(r"\S+ the \S+$", row))
    # What is left by the discount goes to the words that were never seen there.
    rest = sum(chance for word, chance in ones.items() if word not in after_the)
    assert abs(sum(after_the.values()) + weight * rest - 1.0) < 1e-3


def test_every_figure_is_expected_as_much_as_the_one_that_is_written() -> None:
    lines = arpa_text([("each", "of", "fifteen", "gallons")], ["hello"]).splitlines()
    chances = {line.split()[3]: line.split()[0] for line in lines if "each of " in line and len(line.split()) == 4}
    assert float(chances["fifteen"]) - float(chances["fifty"]) < 0.31 and chances["fifty"] == chances["two"]
    assert any(line.endswith("fifty gallons </s>") for line in lines)
