"""Cutting a paragraph into the sentences that are spoken: full stops of abbreviations and figures do not end one."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

# After these a full stop goes on, whatever follows: they stand before a name, a number or an instance.
_BEFORE_A_NAME = frozenset(
    re.findall(
        r"\S+",
        """mk mks no nos fig figs sec para paras ref vol p pp ch st mr mrs ms dr prof messrs capt cdr cmdr lt sgt flt wg
        gp sqn col maj gen adm rev hon c ca cf viz eg ie e.g i.e a.l a.p al ap d.h vs v approx mod mods art pl""",
    )
)
# After these a full stop ends a sentence only before a capital: 'lb. per', but '20 lb. The'.
_UNITS = frozenset(
    re.findall(
        r"\S+",
        """lb lbs sq cu in ins ft yd yds oz pt pts qt gal gals gall hr hrs min mins sec secs amp amps deg rev revs h.p
        b.h.p r.p.m m.p.h p.s.i hg cwt temp press alt max etc co ltd bros jun sen inc diam""",
    )
)
_END = re.compile(r"""[.!?…]+[)\]"'’”»]*(?=\s|$|\x00)""")
_WORD_BEFORE = re.compile(r"([A-Za-z][\w.]*)$")
_DEGREES = re.compile(r"(?:\bdegs?\.?\s?|°\s?)[CFK]$", re.IGNORECASE)
_OPENS = re.compile(r"""\s*[("'‘“«\[]*""")


@dataclass(frozen=True, slots=True)
class Stretch:
    """A sentence as offsets in the paragraph that was cut."""

    start: int
    end: int


def cut(text: str) -> tuple[Stretch, ...]:
    """The sentences of a paragraph, without the blanks around them. \\x00 in the text stands for a mark.

    >>> text = "It holds 2 lb./sq. in. at 1,800 r.p.m. The Mk. 2 (see No. 3) has 3.5 in. of travel, i.e. more."
    >>> [text[s.start : s.end] for s in cut(text)]
    ['It holds 2 lb./sq. in. at 1,800 r.p.m.', 'The Mk. 2 (see No. 3) has 3.5 in. of travel, i.e. more.']
    """
    return tuple(_trimmed(text))


def _trimmed(text: str) -> Iterator[Stretch]:
    at = 0
    for end in (*_ends(text), len(text)):
        piece = text[at:end]
        bare = piece.strip(" \t\n\x00")
        if bare:
            start = at + piece.index(bare)
            yield Stretch(start, start + len(bare))
        at = end


def _ends(text: str) -> Iterator[int]:
    for match in _END.finditer(text):
        if not _goes_on(text, match.start(), match.end()):
            yield match.end()


def _goes_on(text: str, stop: int, after: int) -> bool:
    """Whether the sentence goes on behind a stop."""
    opening = _OPENS.match(text, after)
    next_at = opening.end() if opening else after
    following = text[next_at : next_at + 1]
    if following in ("", "\x00"):
        return False
    if text[stop] != "." and following.islower():
        return True
    found = _WORD_BEFORE.search(text, 0, stop)
    word = found[1].lower() if found else ""
    if text[stop] == "." and after - stop == 1 and word:
        # 'No. 14', but 'the answer is no. The sparks …'
        if word in ("no", "nos"):
            return following.isdigit() or following.islower()
        # '80 deg. C.': the letter belongs to the unit, and ends a sentence before a capital as other units do.
        if word in ("deg", "degs") and re.match(r"[CFK]\b", text[next_at:]):
            return True
        if _DEGREES.search(text, 0, stop):
            return not following.isupper()
        if word in _BEFORE_A_NAME:
            return True
        # An initial: 'R. J. Hallam'.
        if len(word) == 1 and found and found[1].isupper() and word != "i":
            return True
        # '4.5 in. Hg': the unit goes on with a capital.
        if word == "in" and re.match(r"Hg\b", text[next_at:]):
            return True
        if word in _UNITS or "." in word:
            return not following.isupper()
    return following.islower()
