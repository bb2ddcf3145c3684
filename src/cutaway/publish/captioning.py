"""The caption files of a pack: the words of each script with the paragraphs that its verdicts rest on."""

from collections.abc import Mapping
from itertools import groupby

from cutaway.handbook.records import Script, Term
from cutaway.narrate.captions import Cue, captions
from cutaway.narrate.checked import Checked, CheckedSentence
from cutaway.narrate.spoken import spoken_terms
from cutaway.narrate.srt import srt_file
from cutaway.narrate.timing import timeline
from cutaway.narrate.webvtt import caption_file, chapter_file
from cutaway.problems.diagnostic import Problems
from cutaway.publish.filling import cites_of, key_of
from cutaway.publish.shelf import Shelf


def caption_files(checked: Checked, shelf: Shelf) -> tuple[Mapping[str, bytes], Problems]:
    """Captions and chapters of every script that was checked."""
    glossary = spoken_terms(checked.folder)
    files: dict[str, bytes] = {}
    problems: Problems = ()
    for script, group in groupby(checked.sentences, key=lambda one: one.script):
        cites = {number: _behind(one) for number, one in enumerate(group)}
        cues, more = planned(script, glossary, cites, shelf)
        problems += more
        files[f"captions/{script.name}.vtt"] = caption_file(cues, script.title or script.name).encode()
        files[f"captions/{script.name}.srt"] = srt_file(cues).encode()
        chapters = chapter_file(script, timeline(script, glossary))
        files[f"captions/{script.name}.chapters.vtt"] = chapters.encode()
    return files, problems


def planned(
    script: Script, terms: tuple[Term, ...], cites: Mapping[int, tuple[str, ...]], shelf: Shelf
) -> tuple[tuple[Cue, ...], Problems]:
    """The captions of a script as it will be read aloud, from the shelf where its words, terms and citations are the
    same."""
    depends = (script.name, script.title, script.span.file.text, terms, dict(cites))
    return shelf.piece("captions", depends, lambda: captions(script, terms, cites))


def _behind(one: CheckedSentence) -> tuple[str, ...]:
    """The paragraphs behind a sentence: those it is marked with, then those of its verdicts."""
    own = tuple(key_of(cite) for cite in one.sentence.cites)
    return tuple(dict.fromkeys((*own, *(cite for claim in one.claims for cite in cites_of(claim)))))
