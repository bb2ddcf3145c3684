"""How a word that no dictionary has is likely to be said: rules from letters to the phones of the ARPAbet.

For words such as 'chine' or 'aileron' a guess is enough: the recogniser wants the right sort of sound.
The rules are ours, for British spelling said with an American recogniser's phones; the first that fits is taken.
"""

import re

# letters, what must follow them (a pattern), what must stand before them (a pattern), phones
_Rule = tuple[str, str, str, str]
_END = r"$"
_CONSONANT = r"[bcdfghjklmnpqrstvwxz]"
# A consonant and a last e, which is not heard but lengthens the vowel; also before -ed, -es, -er, -ing.
_MAGIC = r"(?:[bcdfgklmnpstvz]|th|r)(?:e|es|ed|er|ers|ing|y)$"
_SOFT = r"[eiy]"

_RULES: tuple[_Rule, ...] = (
    # whole endings
    ("eurs", _END, "", "ER Z"), ("eur", _END, "", "ER"), ("ious", _END, "[ct]", "AH S"), ("ious", _END, "", "IY AH S"),
    ("ous", _END, "", "AH S"), ("ttes", _END, "", "T S"), ("tte", _END, "", "T"), ("lles", _END, "", "L Z"),
    ("lle", _END, "", "L"), ("gue", _END, "", "G"), ("que", _END, "", "K"), ("ture", "(?:s|d)?$", "", "CH ER"),
    ("sure", "(?:s|d)?$", "[aeiou]", "ZH ER"), ("ssure", "(?:s|d)?$", "", "SH ER"), ("tion", "", "", "SH AH N"),
    ("cian", "", "", "SH AH N"), ("ssion", "", "", "SH AH N"), ("sion", "", "[aeiou]", "ZH AH N"),
    ("sion", "", "", "SH AH N"), ("cial", "", "", "SH AH L"), ("tial", "", "", "SH AH L"), ("cious", "", "", "SH AH S"),
    ("tious", "", "", "SH AH S"), ("age", "(?:s|d)?$", "[a-z]{2}[bcdfgklmnprstv]", "IH JH"),
    ("ator", "s?$", "", "EY T ER"), ("able", "s?$", "", "AH B AH L"), ("ible", "", "", "AH B AH L"),
    ("ful", _END, "", "F AH L"), ("less", _END, "", "L AH S"), ("ness", _END, "", "N AH S"),
    ("ment", "s?$", "", "M AH N T"), ("ing", "s?$", "[a-z]{2}", "IH NG"), ("ies", _END, "[a-z]{2}", "IY Z"),
    ("ied", _END, "[a-z]{2}", "IY D"), ("ed", _END, "[td]", "AH D"), ("ed", _END, "[pkfsxc]|sh|ch", "T"),
    ("ed", _END, "[a-z]{2}", "D"), ("es", _END, "[sxz]|sh|ch|[cg]", "AH Z"), ("es", _END, "[ptkf]", "S"),
    ("es", _END, "[a-z]{2}", "Z"), ("ers", _END, "[a-z]", "ER Z"), ("er", _END, "[a-z]", "ER"),
    ("ors", _END, "[a-z]{2}", "ER Z"), ("or", _END, "[a-z]{2}[^o]", "ER"), ("ars", _END, "[a-z]{3}", "ER Z"),
    ("ar", _END, "[a-z]{3}", "ER"), ("re", _END, "[tb]", "ER"), ("res", _END, "[tb]", "ER Z"),
    ("le", "s?$", _CONSONANT, "AH L"), ("al", "s?$", "[a-z]{2}", "AH L"), ("el", "s?$", "[a-z]{2}", "AH L"),
    ("en", "s?$", "[a-z]{2}", "AH N"), ("on", "s?$", "[a-z]{3}", "AH N"), ("an", "s?$", "[a-z]{3}", "AH N"),
    ("um", _END, "[a-z]{3}", "AH M"), ("us", _END, "[a-z]{2}", "AH S"), ("ia", _END, "", "IY AH"),
    ("ly", _END, "", "L IY"), ("a", _END, "[a-z]", "AH"), ("o", "s?$", "", "OW"), ("i", _END, "", "IY"),
    ("y", _END, "^" + _CONSONANT + "{1,3}", "AY"), ("fy", _END, "", "F AY"), ("y", _END, "", "IY"),
    ("ue", "s?$", "[rl]", "UW"), ("ue", "s?$", "", "Y UW"), ("ew", "", "[rlcj]", "UW"), ("ew", "", "", "Y UW"),
    ("e", _END, "[a-z]", ""),
    # beginnings
    ("kn", "", "^", "N"), ("gn", "", "^", "N"), ("wr", "", "^", "R"), ("wh", "o", "^", "HH"), ("ps", "", "^", "S"),
    ("pn", "", "^", "N"), ("aero", "", "^", "EH R OW"), ("x", "", "^", "Z"),
    # groups of consonants
    ("tch", "", "", "CH"), ("sch", "", "", "SH"), ("ch", "[rl]", "", "K"), ("ch", "", "", "CH"), ("sh", "", "", "SH"),
    ("th", "", "", "TH"), ("ph", "", "", "F"), ("gh", "t|$", "[aio]u?|ei", ""), ("gh", "", "", "G"),
    ("wh", "", "", "W"),
    ("ck", "", "", "K"), ("cqu", "", "", "K W"), ("qu", "", "", "K W"), ("q", "", "", "K"), ("sc", _SOFT, "", "S"),
    ("cc", _SOFT, "", "K S"), ("dge", "", "", "JH"), ("dg", _SOFT, "", "JH"), ("mb", _END, "", "M"),
    ("mn", _END, "", "M"), ("gn", "(?:s|e)?$", "", "N"), ("ng", "(?:s|th)?$", "", "NG"), ("ng", "[aoulr]", "", "NG G"),
    ("nk", "", "", "NG K"), ("nx", "", "", "NG K S"),
    ("bb", "", "", "B"), ("dd", "", "", "D"), ("ff", "", "", "F"), ("gg", "", "", "G"), ("ll", "", "", "L"),
    ("mm", "", "", "M"), ("nn", "", "", "N"), ("pp", "", "", "P"), ("rr", "", "", "R"), ("ss", "", "", "S"),
    ("tt", "", "", "T"), ("zz", "", "", "Z"), ("cc", "", "", "K"), ("kk", "", "", "K"),
    # groups of vowels, those with r first
    ("eer", "", "", "IH R"), ("ear", "[dt]?$", "", "IH R"), ("ear", "", "", "ER"), ("air", "", "", "EH R"),
    ("oar", "", "", "AO R"), ("oor", "", "", "AO R"), ("our", "", "", "AO R"), ("iar", "", "", "AY ER"),
    ("ier", "", "", "IY ER"), ("are", "(?:s|d)?$", "", "EH R"), ("ere", "(?:s|d)?$", "", "IH R"),
    ("ire", "(?:s|d)?$", "", "AY ER"), ("ore", "(?:s|d)?$", "", "AO R"), ("ure", "(?:s|d)?$", "", "Y UH R"),
    ("ar", "", "w", "AO R"), ("ar", "[aeiou]", "", "AE R"), ("ar", "", "", "AA R"), ("err", "", "", "EH R"),
    ("er", "[aeiou]", "", "EH R"), ("er", "", "", "ER"), ("ir", "[aeiou]", "", "IH R"), ("ir", "", "", "ER"),
    ("or", "", "w", "ER"), ("or", "", "", "AO R"), ("ur", "[aeiou]", "", "Y UH R"), ("ur", "", "", "ER"),
    ("yr", "[aeiou]", "", "AY R"), ("yr", "", "", "ER"),
    ("augh", "", "", "AO"), ("ough", "t", "", "AO"), ("ough", "", "", "OW"), ("eigh", "", "", "EY"),
    ("igh", "", "", "AY"),
    ("eau", "", "", "OW"), ("ai", "", "", "EY"), ("ay", "", "", "EY"), ("au", "", "", "AO"), ("aw", "", "", "AO"),
    ("ae", "", "", "IY"), ("ee", "", "", "IY"), ("ea", "d", "", "EH"), ("ea", "", "", "IY"), ("ei", "", "c", "IY"),
    ("ei", "", "", "EY"), ("ey", _END, "", "IY"), ("ey", "", "", "EY"), ("eu", "", "", "Y UW"), ("ie", "", "", "IY"),
    ("oa", "", "", "OW"), ("oe", "", "", "OW"), ("oi", "", "", "OY"), ("oy", "", "", "OY"), ("oo", "[kd]", "", "UH"),
    ("oo", "", "", "UW"), ("ou", "", "", "AW"), ("ow", "[nld]?$", "[a-z]", "OW"), ("ow", "", "", "AW"),
    ("ui", "", "[rj]", "UW"), ("ui", "", "", "IH"), ("uy", "", "", "AY"), ("io", "", "", "IY OW"),
    ("ia", "", "", "IY AH"),
    # single vowels: long before a last e, short before two consonants or at the end
    ("a", "ste$", "", "EY"), ("a", "l[lkt]", "", "AO"), ("a", "tion", "", "EY"), ("a", "", "w|qu", "AA"),
    ("a", _MAGIC, "", "EY"), ("a", "[aeiou]", "", "EY"), ("a", "", "", "AE"),
    ("e", _MAGIC, "", "IY"), ("e", "[aiou]", "", "IY"), ("e", "", "", "EH"),
    ("i", "nd$|ld$|gn", "", "AY"), ("i", _MAGIC, "", "AY"), ("i", "[ao]", "^[a-z]{1,2}", "AY"), ("i", "", "", "IH"),
    ("o", "l[dtk]|st$", "", "OW"), ("o", _MAGIC, "", "OW"), ("o", "[aeiu]", "", "OW"), ("o", "", "", "AA"),
    ("u", _MAGIC, "[rljc]", "UW"), ("u", _MAGIC, "", "Y UW"), ("u", "[aeio]", "g", "W"), ("u", "[aeio]", "", "UW"),
    ("u", "", "p|b|f", "AH"), ("u", "", "", "AH"),
    ("y", "[aeiou]", "", "Y"), ("y", _MAGIC, "", "AY"), ("y", "", "", "IH"),
    # single consonants
    ("b", "", "", "B"), ("c", _SOFT, "", "S"), ("c", "", "", "K"), ("d", "", "", "D"), ("f", "", "", "F"),
    ("g", _SOFT, "[a-z]", "JH"), ("g", "", "", "G"), ("h", "[aeiouy]", "", "HH"), ("h", "", "", ""),
    ("j", "", "", "JH"),
    ("k", "", "", "K"), ("l", "", "", "L"), ("m", "", "", "M"), ("n", "", "", "N"), ("p", "", "", "P"),
    ("r", "", "", "R"),
    ("s", _END, "[bdglmnrvwaeiouy]", "Z"), ("s", "[aeiou]", "[aeiou]", "Z"), ("s", "", "", "S"), ("t", "", "", "T"),
    ("v", "", "", "V"), ("w", "[aeiouy]", "", "W"), ("w", "", "", ""), ("x", "", "", "K S"), ("z", "", "", "Z"),
)  # fmt: skip

_SPELT = """a=EY b=B+IY c=S+IY d=D+IY e=IY f=EH+F g=JH+IY h=EY+CH i=AY j=JH+EY k=K+EY l=EH+L m=EH+M n=EH+N o=OW p=P+IY
q=K+Y+UW r=AA+R s=EH+S t=T+IY u=Y+UW v=V+IY w=D+AH+B+AH+L+Y+UW x=EH+K+S y=W+AY z=Z+IY"""
_NAMES = {letter: sounds.replace("+", " ") for letter, sounds in re.findall(r"(\S)=(\S+)", _SPELT)}
_COMPILED = tuple(
    (letters, re.compile(after), re.compile(f"(?:{before})$"), sounds) for letters, after, before, sounds in _RULES
)


def sounds_by_rule(word: str) -> str:
    """The phones of a word by the rules; letters that cannot be said as a word are spelt out.

    >>> sounds_by_rule("chine"), sounds_by_rule("bilge"), sounds_by_rule("nacelle"), sounds_by_rule("xq")
    ('CH AY N', 'B IH L JH', 'N AE S EH L', 'EH K S K Y UW')
    """
    letters = re.sub(r"[^a-z]", "", word.lower())
    if not re.search(r"[aeiouy]", letters):
        return " ".join(_NAMES[letter] for letter in letters)
    sounds: list[str] = []
    at = 0
    while at < len(letters):
        taken, said = _first_that_fits(letters, at)
        sounds.extend(said.split())
        at += taken
    return " ".join(sounds)


def _first_that_fits(word: str, at: int) -> tuple[int, str]:
    for letters, after, before, sounds in _COMPILED:
        if word.startswith(letters, at) and after.match(word, at + len(letters)) and before.search(word[:at]):
            return len(letters), sounds
    return 1, ""
