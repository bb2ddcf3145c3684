"""The captions that a film really went out with, where the type folder has them: `captions/NAME.vtt`, as `cutaway
captions --recording` writes it and as a person may have mended it. Their times are those of the film."""

from dataclasses import replace
from difflib import SequenceMatcher
from pathlib import Path

from cutaway.handbook.names import fold
from cutaway.handbook.reading import decoded
from cutaway.narrate.caption_reading import ReadCue, read_captions
from cutaway.narrate.captions import Cue
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.publish.films import with_film_times
from cutaway.publish.snapshot import FilmSentence, FilmThen, ScriptThen, Snapshot

FOLDER = "captions"
# The share of a script's words that its captions must have to be held to be its own. A choice of ours.
_ITS_OWN = 0.6


def with_captions_of_films(says: Snapshot, folder: Path) -> tuple[Snapshot, Problems]:
    """What goes out, with the captions and times of the films where the type folder has them."""
    scripts: list[ScriptThen] = []
    problems: Problems = ()
    for script in says.scripts:
        cues, more = _read(folder / FOLDER / f"{script.name}.vtt", f"{FOLDER}/{script.name}.vtt")
        film = film_from(script, cues) if cues else None
        problems += more
        if cues and film is None:
            message = (
                f"'{FOLDER}/{script.name}.vtt' has other words than the script, so the times of the pack are taken."
            )
            hint = f"Write the captions of the film anew: cutaway captions {script.name} --recording FILE --replace"
            problems += (Diagnostic("K308", None, message, hint),)
        scripts.append(script if film is None else with_film_times(replace(script, film=film)))
    return replace(says, scripts=tuple(scripts)), problems


def _read(path: Path, shown: str) -> tuple[tuple[ReadCue, ...], Problems]:
    try:
        data = path.read_bytes()
    except OSError:
        return (), ()
    file, problems = decoded(data, shown)
    if file is None:
        return (), problems
    return read_captions(file)


def film_from(script: ScriptThen, cues: tuple[ReadCue, ...]) -> FilmThen | None:
    """A film by its captions; None where they are not of this script. Sentences without a caption are not in it."""
    there = [(word, at) for at, cue in enumerate(cues) for word in cue.words.split()]
    said = [(word, number) for number, one in enumerate(script.sentences) for word in one.text.split()]
    sentence_of = _sentences([word for word, _ in there], said)
    if sentence_of is None:
        return None
    words: dict[int, list[int]] = {}
    for place, number in enumerate(sentence_of):
        words.setdefault(number, []).append(place)
    order = sorted(words)
    sentences = tuple(
        FilmSentence(shown, shown, _start(places[0], there, cues), number)
        for number in order
        for places in (words[number],)
        for shown in (" ".join(there[place][0] for place in places),)
    )
    place_of = {number: at for at, number in enumerate(order)}
    in_cue: list[list[int]] = [[] for _ in cues]
    for place, (_, at) in enumerate(there):
        in_cue[at].append(sentence_of[place])
    found: list[Cue] = []
    for at, (cue, numbers) in enumerate(zip(cues, in_cue, strict=True), 1):
        mine = tuple(dict.fromkeys(numbers))
        cites = tuple(dict.fromkeys(cite for number in mine for cite in script.sentences[number].cites))
        name = cue.identifier or f"{script.name}-{at}"
        film = tuple(place_of[number] for number in mine)
        found.append(Cue(name, cue.start, cue.end, _lines(cue), film, cites))
    return FilmThen(sentences, tuple(found))


def _sentences(there: list[str], said: list[tuple[str, int]]) -> list[int] | None:
    """To which sentence each word of the captions belongs; a word that is in none goes with the one before it."""
    matcher = SequenceMatcher(None, [fold(w) for w in there], [fold(w) for w, _ in said], autojunk=False)
    found: list[int | None] = [None] * len(there)
    matched = 0
    for block in matcher.get_matching_blocks():
        matched += block.size
        for one in range(block.size):
            found[block.a + one] = said[block.b + one][1]
    if not said or matched < _ITS_OWN * len(said):
        return None
    last = next(number for number in found if number is not None)
    whole: list[int] = []
    for number in found:
        last = last if number is None else number
        whole.append(last)
    return whole


def _start(place: int, there: list[tuple[str, int]], cues: tuple[ReadCue, ...]) -> float:
    """When a word is said, as near as its caption tells: by its share of the caption's letters."""
    at = there[place][1]
    cue = cues[at]
    before = sum(len(word) + 1 for word, other in there[:place] if other == at)
    return round(cue.start + (cue.end - cue.start) * before / max(1, len(cue.words) + 1), 3)


def _lines(cue: ReadCue) -> tuple[str, ...]:
    """The lines of a caption as they are read; on one line where tags make the lines uncertain."""
    lines = tuple(" ".join(line.split()) for line in cue.raw.splitlines() if line.strip())
    return lines if " ".join(lines) == cue.words else (cue.words,)
