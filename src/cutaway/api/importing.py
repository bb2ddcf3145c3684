"""Take words in as a script of the type folder: existing captions or a manuscript."""

import re
from dataclasses import dataclass
from pathlib import Path

from cutaway.api.loading import load
from cutaway.api.repairing import read_text
from cutaway.narrate.caption_reading import read_captions
from cutaway.narrate.imported import Block, from_captions, from_plain_text, script_text
from cutaway.narrate.manuscript_reading import read_docx
from cutaway.narrate.not_spoken import LeftOut
from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error, in_order
from cutaway.problems.span import TextFile
from cutaway.publish.single_file import write_file

CAPTION_ENDINGS = (".vtt", ".srt")
TEXT_ENDINGS = (".txt", ".text")
MARKDOWN_ENDINGS = (".md", ".markdown")


@dataclass(frozen=True, slots=True)
class Imported:
    """A script that was written: its name, its file, how many blocks of words it was made of."""

    name: str
    file: Path
    words: int


def import_words(folder: Path | str, file: Path, name: str = "", title: str = "") -> tuple[Imported | None, Problems]:
    """Write the words of a file as a script. A script that is there is never written over."""
    loaded, problems = load(folder)
    if loaded is None:
        return None, problems
    script = name or _name(file.stem)
    if script != _name(script):
        words = f"'{script}' cannot be the name of a script."
        return None, (Diagnostic("N607", None, words, f"Use letters, figures and hyphens: --name {_name(script)}"),)
    target = loaded.path / "scripts" / f"{script}.md"
    if target.exists():
        words = f"The script {script} is there already ({target}); nothing was written."
        hint = f"Give the new one another name, for instance --name {_free(target)}"
        return None, (Diagnostic("N602", None, words, hint),)
    text, problems = _script_text(file, title or file.stem.replace("-", " ").replace("_", " ").strip())
    if text is None:
        return None, in_order(problems)
    written, more = write_file(target, text.encode())
    if written is None:
        return None, in_order(problems + more)
    return Imported(script, written, len(re.findall(r"\w+", text))), in_order(problems)


def _name(words: str) -> str:
    return re.sub(r"[^\w]+", "-", words.lower()).strip("-") or "script"


def _free(target: Path) -> str:
    number = 2
    while target.with_name(f"{target.stem}-{number}.md").exists():
        number += 1
    return f"{target.stem}-{number}"


def _script_text(file: Path, title: str) -> tuple[str | None, Problems]:
    ending = file.suffix.lower()
    if ending == ".docx" and file.is_file():
        blocks, problems = read_docx(file)
        return _made(file, title, blocks, problems)
    if ending not in (*CAPTION_ENDINGS, *TEXT_ENDINGS, *MARKDOWN_ENDINGS, ".docx"):
        words = f"Words are not taken from '{file.name}'."
        return None, (Diagnostic("N601", None, words, "Give VTT, SRT, Markdown, plain text (.txt) or DOCX."),)
    _, text, problems = read_text(file)
    if text is None:
        return None, problems
    if ending in CAPTION_ENDINGS:
        cues, more = read_captions(text)
        if not cues:
            return _made(file, title, None, problems + more)
        blocks, left_out, guessed = from_captions(cues)
        told = (*_left_out(left_out), *_guessed(guessed))
        return _made(file, title, blocks, (*problems, *more, *told))
    if ending in MARKDOWN_ENDINGS:
        return _markdown(file, title, text, problems)
    return _made(file, title, from_plain_text(text.text), problems)


def _made(file: Path, title: str, blocks: tuple[Block, ...] | None, problems: Problems) -> tuple[str | None, Problems]:
    if blocks is not None and any(re.search(r"\w", block.text) for block in blocks):
        return script_text(title, blocks, file.name), problems
    if has_error(problems):
        return None, problems
    words = f"'{file.name}' has no words in it."
    return None, (*problems, Diagnostic("N601", None, words, "Give the file with the narration."))


def _markdown(file: Path, title: str, text: TextFile, problems: Problems) -> tuple[str | None, Problems]:
    """Markdown is what a script is written in, so that it is kept as it stands; only a title is added."""
    if not re.search(r"\w", text.text):
        return _made(file, title, None, problems)
    has_title = re.search(r"^# \S", text.text, re.MULTILINE) or text.text.startswith("---\n")
    body = text.text if has_title else f"# {title}\n\n{text.text}"
    return body if body.endswith("\n") else body + "\n", problems


def _left_out(out: LeftOut) -> Problems:
    """What captions have beside the words that are spoken."""
    told = []
    if out.sounds:
        some = list(dict.fromkeys(out.sounds))
        shown = ", ".join(f"'{sound}'" for sound in some[:5]) + (" …" if len(some) > 5 else "")
        told.append(f"{counted(len(out.sounds), 'sound')} ({shown})")
    if out.speakers:
        times = sum(number for _, number in out.speakers)
        told.append(f"the names of speakers before {counted(times, 'line')} ({', '.join(n for n, _ in out.speakers)})")
    if not told:
        return ()
    words = f"Left out, since it is not spoken: {' and '.join(told)}."
    return (Diagnostic("N608", None, words, "Where something of it is spoken, write it into the script."),)


def _guessed(count: int) -> Problems:
    if not count:
        return ()
    words = f"The captions have hardly any full stops: {counted(count, 'end')} of sentences were guessed."
    return (Diagnostic("N609", None, words, "Read the script through and put the full stops right."),)
