"""The codes of stills, sequences, overlays and handouts."""

from cutaway.problems.entry import Entry, Severity


def _told(severity: Severity, title: str, why: str, wrong: str, right: str, test: str) -> Entry:
    return Entry(severity, title, why, wrong, right, tested_by=test)


_STILLS = "tests/publish/handout/test_stills.py"
_OVERLAY = "tests/publish/handout/test_overlay.py"
_HANDOUT = "tests/publish/handout/test_handout.py"
_PRODUCT = "tests/publish/handout/test_in_the_pack.py"

ENTRIES: dict[str, Entry] = {
    "K501": _told(
        "error",
        "no system of that name to draw",
        "A sheet shows one system, as the files of `systems/` name it.",
        "`cutaway stills --system full`",
        "`cutaway stills --system fuel`",
        _STILLS,
    ),
    "K502": _told(
        "error",
        "a sequence without moments",
        "What moves must be told at which moments of the run it is to be seen.",
        "`cutaway overlay --system fuel --do 'tank selector to off'`",
        "the same with `--at before --at '10 s'`, or with `--events`",
        _STILLS,
    ),
    "K503": _told(
        "error",
        "a sequence of too many moments",
        "Hundreds of pictures are a slip of the pen more often than a wish.",
        "`--every '0.1 s' --for '10 min'`",
        "`--every '10 s' --for '10 min'`",
        _STILLS,
    ),
    "K504": _told(
        "error",
        "the library for stills is not installed",
        "Pictures are made from drawings with resvg_py, which is an extra of this package.",
        "`cutaway stills` in an installation without the extra",
        "`pip install -c constraints.txt -e '.[handout]'`, then the same; or `--svg`",
        _STILLS,
    ),
    "K505": _told(
        "error",
        "a size, paper or kind that there is not",
        "Sheets are laid out for a few sizes, so that their words stay large enough.",
        "`cutaway stills --size a0`",
        "`cutaway stills --size a4`",
        _STILLS,
    ),
    "K506": _told(
        "error",
        "the program for films is not installed",
        "Films are written with the program that imageio-ffmpeg carries, which is an extra of this package.",
        "`cutaway overlay` in an installation without the extra",
        "`pip install -c constraints.txt -e '.[overlay]'`, then the same",
        _OVERLAY,
    ),
    "K507": _told(
        "error",
        "a film that could not be written",
        "The disk or the encoder refuses. Nothing half written is left.",
        "`cutaway overlay` on a full disk",
        "`cutaway overlay` where there is room",
        _OVERLAY,
    ),
    "K508": _told(
        "error",
        "an overlay of several systems",
        "A film shows one sheet, since several would each need the whole frame.",
        "`cutaway overlay --at '1 s'`, which means every system",
        "`cutaway overlay --system fuel --at '1 s'`",
        _OVERLAY,
    ),
    "K509": _told(
        "error",
        "the typesetter is not installed",
        "Handouts are set with typst, which is an extra of this package.",
        "`cutaway handout` in an installation without the extra",
        "`pip install -c constraints.txt -e '.[handout]'`, then the same",
        _HANDOUT,
    ),
    "K510": _told(
        "warning",
        "a sentence held back from the handout",
        "Paper cannot be corrected once it is given away, so what does not hold is not printed.",
        "a sentence whose claim fails on a standard that it speaks of",
        "the sentence mended, or its claim limited to the standards on which it holds",
        _HANDOUT,
    ),
    "K511": _told(
        "warning",
        "a sheet that is too large for the handout's page",
        "Words on paper are not set smaller than can be read, so a large drawing needs several pages or is left out.",
        "a sheet of one page of a system with eighty parts",
        "a smaller system, or the booklet, which gives it several pages",
        _HANDOUT,
    ),
    "K512": _told(
        "warning",
        "handouts are asked for, and the typesetter is not installed",
        "Handouts are set with typst, which is an extra of this package; the pack is made without them.",
        "a `handouts.yaml` in an installation without the extra",
        "`pip install -c constraints.txt -e '.[handout]'`, then `cutaway make` again",
        _PRODUCT,
    ),
    "K513": _told(
        "warning",
        "a handout of what a standard has not",
        "A handout shows one system of one standard or airframe, and this one has no part of it.",
        "a handout of a system that is all on Mk 2, on: Mk 1",
        "the same with: on: Mk 2",
        _PRODUCT,
    ),
    "H950": Entry(
        "error",
        "a kind of handout or a paper that there is not",
        "There are three kinds of handout, set for two papers.",
        "handouts:\n  petrol: {kind: poster, paper: A4}\n",
        "handouts:\n  petrol: {kind: visitor, paper: A4}\n",
        where="handouts.yaml",
    ),
    "H951": Entry(
        "error",
        "a handout of what is not there",
        "A handout shows a system of `systems/` in a situation of `situations.yaml`.",
        "handouts:\n  petrol: {system: Feul, in: parked}\n",
        "handouts:\n  petrol: {system: Fuel, in: parked}\n",
        where="handouts.yaml",
    ),
}
