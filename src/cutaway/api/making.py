"""Make the pack: check, draw, caption, write, all or nothing."""

import html
import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from cutaway.api.corrections import written_side
from cutaway.api.loading import Loaded, load, workshop_for
from cutaway.api.places import cache_folder, memory_file, pack_folder
from cutaway.draw.sheet import make_sheet
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.snapshot import snapshot
from cutaway.inquiry.workshop import Workshop
from cutaway.machine.fitting import Assumption
from cutaway.machine.subjects import Subject, subjects
from cutaway.narrate.captions import captions
from cutaway.narrate.checked import Asking, Checked, check_words, is_wrong
from cutaway.narrate.spoken import spoken_terms
from cutaway.narrate.srt import srt_file
from cutaway.narrate.timing import timeline
from cutaway.narrate.webvtt import caption_file, chapter_file
from cutaway.problems.diagnostic import Problems, has_error, in_order
from cutaway.publish.filling import pack_view
from cutaway.publish.pack import write_pack
from cutaway.publish.page import page
from cutaway.publish.records_json import problems_json, verdicts_json
from cutaway.publish.view import SheetView


@dataclass(frozen=True, slots=True)
class Made:
    """A pack that was written. wrong: whether a claim in it fails or an item of the folder was left out."""

    folder: Path
    files: tuple[str, ...]
    checked: Checked
    wrong: bool
    touched: tuple[str, ...] = ()


def make(
    folder: Path | str,
    out: Path | None = None,
    rests: bool = True,
    progress: Callable[[int], None] | None = None,
) -> tuple[Made | None, Problems]:
    """Make the pack of a type folder. The last pack stays whole until the new one is complete."""
    loaded, problems = load(folder)
    if loaded is None:
        return None, problems
    workshop, more = workshop_for(loaded, progress=progress)
    problems += more
    memory = Memory(memory_file())
    checked, more = check_words(workshop, loaded.parsed, loaded.told, memory, Asking(rests=rests))
    problems += more
    sheets, files, more = _sheets(loaded, workshop)
    problems += more
    words, more = _captions(loaded)
    files |= words
    problems = in_order(problems + more)
    view = pack_view(loaded.folder, checked, _assumptions(workshop), sheets, loaded.kinds, problems)
    files["index.html"] = page(view).encode()
    files["verdicts.json"] = verdicts_json(view)
    files["problems.json"] = problems_json(problems)
    more_words, more = written_side(loaded, checked, files, rests)
    problems = in_order(problems + more)
    files |= more_words.files
    written, more = write_pack(out if out is not None else pack_folder(loaded.path), files)
    problems = in_order(problems + more)
    if written is None:
        return None, problems
    wrong = has_error(problems) or any(is_wrong(v) for v in checked.verdicts())
    return Made(written, tuple(sorted(files)), checked, wrong, more_words.touched), problems


def _assumptions(workshop: Workshop) -> tuple[Assumption, ...]:
    """The assumed values of all standards, each once."""
    found: dict[tuple[str, str, str], Assumption] = {}
    for subject in subjects(workshop.folder):
        bound, _ = workshop.bound(subject)
        for one in bound.assumptions:
            found.setdefault((one.part, one.value, one.stated), one)
    return tuple(found.values())


def _sheets(loaded: Loaded, workshop: Workshop) -> tuple[tuple[SheetView, ...], dict[str, bytes], Problems]:
    views: list[SheetView] = []
    files: dict[str, bytes] = {}
    problems: Problems = ()
    cache = cache_folder()
    for subject in subjects(loaded.folder):
        for situation in loaded.folder.situations:
            shot, more = snapshot(workshop, loaded.told, subject, situation.name)
            problems += more
            for system in loaded.folder.systems:
                svg, more = make_sheet(
                    loaded.folder,
                    subject.name,
                    system.name,
                    shot.values if shot is not None else None,
                    loaded.kinds,
                    says=f"{situation.name}: {situation.says}",
                    cache=cache / "layout" if cache is not None else None,
                )
                problems += more
                if svg:
                    path = _sheet_path(subject, situation.name, system.name)
                    files[path] = svg.encode()
                    title = f"{system.name}, {subject.name}, {situation.name}"
                    views.append(SheetView(str(subject.name), system.name, title, path, _description(svg)))
    return tuple(views), files, problems


def _sheet_path(subject: Subject, situation: str, system: str) -> str:
    words = "-".join((system, str(subject.name), situation)).casefold()
    return f"sheets/{re.sub(r'[^a-z0-9]+', '-', words).strip('-')}.svg"


def _description(svg: str) -> str:
    """The text alternative that the sheet carries."""
    found = re.search(r"<desc[^>]*>(.*?)</desc>", svg, re.DOTALL)
    return html.unescape(found.group(1)).strip() if found else ""


def _captions(loaded: Loaded) -> tuple[dict[str, bytes], Problems]:
    files: dict[str, bytes] = {}
    problems: Problems = ()
    for script in loaded.folder.scripts:
        cues, more = captions(script, spoken_terms(loaded.folder))
        problems += more
        files[f"captions/{script.name}.vtt"] = caption_file(cues, script.title).encode()
        files[f"captions/{script.name}.srt"] = srt_file(cues).encode()
        slots = timeline(script, spoken_terms(loaded.folder))
        files[f"captions/{script.name}.chapters.vtt"] = chapter_file(script, slots).encode()
    return files, problems
