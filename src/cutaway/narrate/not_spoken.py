"""What captions have beside the spoken words: sounds in brackets, music, the names of speakers."""

import html
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from cutaway.narrate.caption_reading import ReadCue, tags_removed

_SOUND_WORDS = (
    r"music|applause|laugh(?:s|ter|ing)?|cheer(?:s|ing)?|cough(?:s|ing)?|sigh(?:s|ing)?|silence|pause|noise|bells?|"
    r"inaudible|indistinct|crosstalk|chatter|wind|crowd|clap(?:s|ping)?|chuckles?|gasps?|whistl(?:e|es|ing)|drumming|"
    r"beeps?|static|foreign language|no audio|blank_audio|clears throat|"
    r"engines? (?:roar(?:s|ing)?|start(?:s|ing)?|running|noise|stops?)"
)
_BRACKETS = re.compile(r"\[[^\[\]]{1,60}\]")
_ROUND = re.compile(rf"\([^()]{{0,30}}\b(?:{_SOUND_WORDS})\b[^()]{{0,20}}\)", re.IGNORECASE)
_WHOLE_ROUND = re.compile(r"^\s*\([^()]{1,60}\)\s*$")
_MUSIC = re.compile(r"^\s*[♪♫♬♩].*$|[♪♫♬♩]+[^♪♫♬♩]*[♪♫♬♩]+|[♪♫♬♩]+")
_CHANGE = re.compile(r"^\s*(?:>>+|&gt;&gt;|[-–—](?=\s*[A-Z\[(♪]))\s*")
_CAPITALS = re.compile(r"^(?P<name>[A-Z][A-Z0-9 .'’-]{1,24}):\s+(?=\S)")
_NAME = re.compile(r"^(?P<name>[A-Z][a-z]+(?: [A-Z][a-z.]+| [0-9]){0,2}):\s+(?=\S)")
_NO_SPEAKER = frozenset((
    "caution", "warning", "note", "notes", "remember", "example", "first", "second", "third", "finally", "result",
    "answer", "question", "figure", "fig", "step", "steps", "mark", "chapter", "part", "section", "and", "so", "but",
    "that", "then", "here", "now", "important", "tip",
))  # fmt: skip


@dataclass(frozen=True, slots=True)
class Piece:
    """What is spoken in one caption. speaker: whether somebody else begins. pause: of silence before it, s."""

    text: str
    pause: float
    speaker: bool = False


@dataclass(frozen=True, slots=True)
class LeftOut:
    """What was left out of captions: sounds as they stand there, and speakers with how often each was named."""

    sounds: tuple[str, ...]
    speakers: tuple[tuple[str, int], ...]


def spoken(cues: Sequence[ReadCue]) -> tuple[tuple[Piece, ...], LeftOut]:
    """The spoken words of captions, and what was left out. A caption with nothing spoken leaves no piece."""
    names = _speakers(cues)
    sounds: list[str] = []
    named: Counter[str] = Counter()
    pieces: list[Piece] = []
    last = cues[0].start if cues else 0.0
    for cue in cues:
        words: list[str] = []
        begins = False
        for line in _lines(cue):
            bare, change = _CHANGE.subn("", line)
            bare = _without_sounds(bare, sounds)
            changed = _CHANGE.subn("", bare)
            bare, change = changed[0], change + changed[1]
            match = _CAPITALS.match(bare) or _NAME.match(bare)
            if match and match["name"] in names:
                named[match["name"]] += 1
                bare, change = bare[match.end() :], 1
            begins = begins or (bool(change) and not words)
            words += _without_sounds(bare, sounds).split()
        if words:
            pieces.append(Piece(" ".join(words), max(0.0, cue.start - last), begins))
            last = cue.end
    return tuple(_settled(pieces)), LeftOut(tuple(sounds), tuple(sorted(named.items())))


def _settled(pieces: list[Piece]) -> list[Piece]:
    """The first piece begins nothing anew."""
    return [replace(pieces[0], pause=0.0, speaker=False), *pieces[1:]] if pieces else []


def _lines(cue: ReadCue) -> list[str]:
    return [html.unescape(tags_removed(line)) for line in cue.raw.split("\n")]


def _without_sounds(line: str, sounds: list[str]) -> str:
    """The line without sounds; they are added to the list. Words in round brackets alone in a line are no speech."""
    for pattern in (_MUSIC, _BRACKETS, _WHOLE_ROUND, _ROUND):
        sounds += [found.strip() for found in (match[0] for match in pattern.finditer(line)) if found.strip()]
        line = pattern.sub(" ", line)
    return " ".join(line.split())


def _speakers(cues: Sequence[ReadCue]) -> frozenset[str]:
    """The names before a colon that are speakers: all in capitals, or at least twice at the beginning of a line."""
    capitals: set[str] = set()
    others: Counter[str] = Counter()
    for cue in cues:
        for line in _lines(cue):
            bare = _CHANGE.sub("", _without_sounds(line, []))
            match = _CAPITALS.match(bare)
            if match and match["name"].lower() not in _NO_SPEAKER and len(match["name"]) > 2:
                capitals.add(match["name"])
            match = _NAME.match(bare)
            if match and match["name"].split()[0].lower() not in _NO_SPEAKER:
                others[match["name"]] += 1
    return frozenset(capitals) | {name for name, times in others.items() if times > 1}
