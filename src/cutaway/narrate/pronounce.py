"""How words are said, as phones: by the recogniser's dictionary, else by espeak-ng if it is installed, else by rule."""

import re
import shutil
import subprocess
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from types import MappingProxyType

from cutaway.narrate.letters_to_sounds import sounds_by_rule

# The signs of the International Phonetic Alphabet that espeak-ng prints for English, as phones of the ARPAbet.
_IPA_TABLE = """
tʃ=CH dʒ=JH eɪ=EY aɪ=AY ɔɪ=OY aʊ=AW oʊ=OW əʊ=OW aɪə=AY+ER aʊə=AW+ER ɑːɹ=AA+R ɔːɹ=AO+R oːɹ=AO+R ɛɹ=EH+R ɪɹ=IH+R ʊɹ=UH+R
eə=EH+R ɪə=IH+R ʊə=UH+R ɑː=AA ɔː=AO oː=AO uː=UW iː=IY ɜː=ER ɚ=ER əl=AH+L ᵻ=IH ɪ=IH i=IY ɛ=EH e=EH æ=AE a=AE ʌ=AH ə=AH
ɐ=AH ɒ=AA ɔ=AO ɑ=AA ʊ=UH u=UW o=OW θ=TH ð=DH ʃ=SH ʒ=ZH ŋ=NG ɹ=R r=R j=Y ɡ=G h=HH ɾ=T ʔ=T l=L m=M n=N p=P b=B t=T d=D
k=K f=F v=V s=S z=Z w=W
"""
_IPA = MappingProxyType(dict(re.findall(r"(\S+?)=(\S+)", _IPA_TABLE)))
_SIGNS = re.compile("|".join(sorted(map(re.escape, _IPA), key=len, reverse=True)))
# How British spelling differs from what an American dictionary has.
_AMERICAN = (
    (r"our(?=s?$|ed$|ing$|less$)", "or"),
    (r"(?<=[tb])re(?=s?$)", "er"),
    (r"tt(?=(?:ed|er|or|ing)s?$)", "t"),
    (r"ll(?=(?:ed|er|or|ing)s?$)", "l"),
    (r"is(?=(?:e|ed|es|er|ing|ation)s?$)", "iz"),
    (r"ys(?=(?:e|ed|es|er|ing)$)", "yz"),
    (r"ae(?=[a-z])", "e"),
    (r"mme(?=s?$)", "m"),
)
_SPEAKER = "espeak-ng"
_PATIENCE = 20.0


@dataclass(frozen=True, slots=True, eq=False)
class Dictionary:
    """Words and their phones. The first way of saying a word is the one that counts."""

    words: Mapping[str, str]

    def __contains__(self, word: object) -> bool:
        return word in self.words


@lru_cache(maxsize=2)
def read_dictionary(path: Path) -> Dictionary:
    """A dictionary file: a word and its phones a line, other ways of saying it as `word(2)`."""
    words: dict[str, str] = {}
    for line in path.read_text(encoding="utf-8").splitlines():
        word, _, phones = line.partition(" ")
        if phones and not word.endswith(")"):
            words.setdefault(word, phones.strip())
    return Dictionary(MappingProxyType(words))


def said(words: Iterable[str], dictionary: Dictionary) -> dict[str, tuple[str, ...]]:
    """The likely ways of saying each word, likeliest first; those that the dictionary lacks are guessed, in one go."""
    wanted = tuple(dict.fromkeys(words))
    unknown = tuple(word for word in wanted if word not in dictionary)
    spoken = _by_speaker(unknown) if unknown and shutil.which(_SPEAKER) else {}
    guessed = {
        word: _ways(_by_relative(word, dictionary), spoken.get(word, ""), sounds_by_rule(word)) for word in unknown
    }
    return {word: guessed[word] if word in guessed else (dictionary.words[word],) for word in wanted}


def _ways(*guessed: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(way for way in guessed if way)) or ("AH",)


def _by_relative(word: str, dictionary: Dictionary) -> str:
    """The phones of a word that the dictionary has in American spelling, or without its ending."""
    for pattern, other in _AMERICAN:
        found = dictionary.words.get(re.sub(pattern, other, word))
        if found:
            return found
    for ending, sounds in (("'s", "Z"), ("s", "Z"), ("ing", "IH NG"), ("less", "L AH S")):
        stem = dictionary.words.get(word.removesuffix(ending)) if word.endswith(ending) else None
        if stem:
            return f"{stem} {sounds}"
    return ""


def _by_speaker(words: tuple[str, ...]) -> dict[str, str]:
    """What espeak-ng makes of the words, one a line; nothing where it does not do as expected."""
    try:
        done = subprocess.run(
            [_SPEAKER, "-q", "--ipa", "-v", "en-us"],
            input="".join(f"{word}.\n\n" for word in words),
            capture_output=True,
            text=True,
            encoding="utf-8",
            timeout=_PATIENCE,
            check=False,
        )
    except (OSError, subprocess.TimeoutExpired, UnicodeError):
        return {}
    lines = [line for line in done.stdout.splitlines() if line.strip()]
    if done.returncode or len(lines) != len(words):
        return {}
    return {word: phones_of_ipa(line) for word, line in zip(words, lines, strict=True)}


def phones_of_ipa(text: str) -> str:
    """Phones of the ARPAbet for a word in the International Phonetic Alphabet.

    >>> phones_of_ipa("tʃˈaɪn"), phones_of_ipa("sɪlˈɛktɚ")
    ('CH AY N', 'S IH L EH K T ER')
    """
    bare = re.sub(r"[ˈˌ]", "", text)
    phones = " ".join(_IPA[sign].replace("+", " ") for sign in _SIGNS.findall(bare))
    return re.sub(r"\b(\w+)( \1\b)+", r"\1", phones)
