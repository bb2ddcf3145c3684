"""Cutting paragraphs into sentences."""

import pytest

from cutaway.handbook.sentences import cut


def pieces(text: str) -> list[str]:
    return [text[s.start : s.end] for s in cut(text)]


@pytest.mark.parametrize(
    "whole",
    [
        "It takes 2 lb. per sq. in. of pressure.",
        "It takes 2 lb./sq. in. and no more.",
        "She turns at 1,800 r.p.m. on the ground.",
        "The cock, e.g. on the Mk. 2, is on the floor.",
        "See No. 3 tank, Fig. 4 and para. 12 of A.P. 1565.",
        "The bore is 3.5 in. and the stroke 4.25 in. or so.",
        "A.L. 3 put it in.",
        "Mr. R. J. Hallam drew it.",
        "It flew to St. Ives at 90 m.p.h. in an hour.",
        "'What now?' he asked, and shut the cock.",
        "It goes round and round ... and then it stops.",
    ],
)
def test_one_sentence_stays_one(whole):
    assert pieces(whole) == [whole]


@pytest.mark.parametrize(
    "sentences",
    [
        ["It holds at 2 lb. per sq. in.", "The lamp is out."],
        ["She turns at 1,800 r.p.m.", "Then she stops."],
        ["Is it on?", "It is!", "Well then."],
        ["He said 'stop.'", "She stopped."],
        ["It weighs 3 lb. 4 oz. in all.", "No more."],
        ["Push it in.", "The lamp goes out."],
        ["So did I.", "Nobody saw it."],
        ["The first (on the left).", "(The second is gone.)"],
    ],
)
def test_sentences_are_parted(sentences):
    assert pieces(" ".join(sentences)) == sentences


def test_line_ends_do_not_matter():
    assert pieces("It is\non the left. It\nis shut.") == ["It is\non the left.", "It\nis shut."]
    assert pieces("  \n ") == []
    assert pieces("") == []
