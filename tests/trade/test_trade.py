"""The trade's behaviours: each folder here is a small type that must behave as such aircraft are known to.

A folder is a type folder. Its `says` begins 'Common practice, no source' or 'Source:'. Every claim of its scripts must
hold. `wrong.yaml` lists what a naive reader would say instead, each of which must fail: so the test can fail too.
Nothing here may be written in as a rule of the part library: all comes out of parts, lines and figures.
"""

from pathlib import Path

import pytest
from ruamel.yaml import YAML

from cutaway.api.loading import Loaded, load, workshop_for
from cutaway.inquiry.check import judge
from cutaway.inquiry.verdicts import Fails, Holds, Stated
from cutaway.inquiry.workshop import Workshop
from cutaway.language.parse import parse_claim
from cutaway.language.syntax import Claim
from cutaway.narrate.checked import Asking
from cutaway.narrate.checking import check_words
from cutaway.problems.span import TextFile, place, whole

HERE = Path(__file__).parent
FOLDERS = sorted(path.parent for path in HERE.glob("*/type.yaml"))
EVIDENCE = ("Common practice, no source", "Source:")


def opened(folder: Path) -> tuple[Loaded, Workshop]:
    """The type loaded, without a single problem, and its networks."""
    loaded, problems = load(folder)
    assert loaded is not None
    workshop, more = workshop_for(loaded, threads=1)
    assert [f"{p.code} {p.message}" for p in (*problems, *more)] == []
    return loaded, workshop


def naive(folder: Path, loaded: Loaded) -> tuple[tuple[str, Claim], ...]:
    """The claims of `wrong.yaml`, with their texts."""
    claims = []
    for text in YAML(typ="safe").load((folder / "wrong.yaml").read_text(encoding="utf-8")):
        claim, problems = parse_claim(whole(TextFile("claim", text)), loaded.words)
        assert claim is not None and not problems, (text, problems)
        claims.append((text, claim))
    return tuple(claims)


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_a_behaviour_of_the_trade(folder: Path) -> None:
    loaded, workshop = opened(folder)
    assert loaded.folder.type.says.startswith(EVIDENCE)
    checked, problems = check_words(workshop, loaded.parsed, loaded.told, None, Asking(None, "", False))
    assert problems == ()
    judged = [(claim, one) for claim in checked.claims() for one in claim.judged]
    assert judged
    bad = [
        (place(c.claim.span).text, j.subject.name, j.verdict)
        for c, j in judged
        if not isinstance(j.verdict, Holds | Stated)
    ]
    assert bad == []


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_the_naive_reading_fails(folder: Path) -> None:
    loaded, workshop = opened(folder)
    claims = naive(folder, loaded)
    assert claims
    kept = [
        (text, one.subject.name, one.verdict)
        for text, claim in claims
        for one in judge(claim, workshop, loaded.told, False)
        if not isinstance(one.verdict, Fails)
    ]
    assert kept == []
