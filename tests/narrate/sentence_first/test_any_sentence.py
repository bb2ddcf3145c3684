"""Whatever a sentence says, comparing it ends with a verdict."""

from hypothesis import given, settings
from hypothesis import strategies as st

from cutaway.narrate.sentence_first import told
from tests.narrate.sentence_first.folders import spoken

_PIECES = st.sampled_from(
    [
        "Mk 1",
        "mark two",
        "mod 12",
        "0 gal",
        "-3 in",
        "1/0",
        "½",
        "inf lb",
        "1e308 volts",
        "§21",
        "not",
        "may",
        "before",
        "fuel lamp",
        "vacuum gauge",
        "gasoline\n    ",
        "about",
        "3 to 2 pints",
        '"',
        "NEAR(",
        "\x00",
        "é",
        "between 2 and 3 amp.",
    ]
)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.one_of(_PIECES, st.text(max_size=12)), max_size=12))
def test_any_sentence_has_a_verdict(comparer, pieces) -> None:
    (one,) = comparer.script(spoken(" ".join(pieces).replace("\n", " ")))
    assert one is not None and one.verdict in ("stated", "differs", "open")
    assert 0.0 <= one.share <= 1.0 + 1e-9
    assert all(problem.code.startswith("N80") for problem in told(one))
