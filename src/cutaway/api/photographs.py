"""Photographs with their call-outs for Python users: drawn, indexed, written where they are not yet."""

from dataclasses import dataclass
from dataclasses import replace as changed
from pathlib import Path

from cutaway.api.loading import load
from cutaway.api.stills import missing_library
from cutaway.draw.theme import Manner
from cutaway.handbook.names import did_you_mean, fold
from cutaway.handbook.records import Folder
from cutaway.problems.diagnostic import Diagnostic, Problems, in_order
from cutaway.publish.photographs import Plate, index_of, photographs_record, plate_png, plate_svg, plates
from cutaway.publish.single_file import write_file


@dataclass(frozen=True, slots=True)
class Look:
    """How they are drawn. manner 'both': SVG that follows the reader's screen. png: pictures beside the drawings."""

    manner: Manner = "both"
    png: bool = False
    names: tuple[str, ...] = ()


PLAIN = Look()


@dataclass(frozen=True, slots=True, eq=False)
class Drawn:
    """The photographs that were drawn. written: the files, where a folder for them was named."""

    folder: Folder
    plates: tuple[Plate, ...]
    written: tuple[Path, ...]


def photographs(
    folder: Path | str, look: Look = PLAIN, out: Path | None = None, replace: bool = False
) -> tuple[Drawn | None, Problems]:
    """Draw the photographs of a type folder with their call-outs, and write them where `out` is named.

    A file that is there and is the same already is left as it is; one that differs is written over only if `replace`.
    """
    loaded, problems = load(folder)
    if loaded is None:
        return None, problems
    wrong = (*missing_library(look.png), *_unknown(loaded.folder, look.names))
    if wrong:
        return None, wrong
    drawn, more = plates(_only(loaded.folder, look.names))
    problems += more
    written: list[Path] = []
    for name, content in _files(drawn, look) if out is not None else ():
        assert out is not None
        path = out / name
        if not (path.is_file() and path.read_bytes() == content):
            done, more = write_file(path, content, replace)
            problems += more
            if done is None:
                continue
        written.append(path)
    return Drawn(loaded.folder, drawn, tuple(written)), in_order(problems)


def _only(folder: Folder, names: tuple[str, ...]) -> Folder:
    wanted = {fold(name) for name in names}
    kept = tuple(one for one in folder.photographs if not wanted or fold(one.name) in wanted)
    return changed(folder, photographs=kept)


def _unknown(folder: Folder, names: tuple[str, ...]) -> Problems:
    known = [one.name for one in folder.photographs]
    if not known:
        hint = "Write photographs.yaml: photographs: {cockpit: {file: photographs/cockpit.jpg, rights: own picture}}"
        return (Diagnostic("C131", None, "The folder has no photographs that can be shown.", hint),)
    return tuple(
        Diagnostic("C132", None, f"There is no photograph '{name}'.", did_you_mean(name, known))
        for name in names
        if fold(name) not in {fold(one) for one in known}
    )


def _files(drawn: tuple[Plate, ...], look: Look) -> list[tuple[str, bytes]]:
    mark = f"-{look.manner}" if look.manner == "dark" else ""
    files: list[tuple[str, bytes]] = []
    for one in drawn:
        files.append((f"{one.stem}{mark}.svg", plate_svg(one, look.manner).encode()))
        if look.png:
            manner: Manner = "light" if look.manner == "both" else look.manner
            files.append((f"{one.stem}{mark}.png", plate_png(one, manner)))
    return files


def photographs_text(drawn: Drawn) -> str:
    """What there is, photograph by photograph, then where each part is to be seen."""
    lines: list[str] = []
    for one in drawn.plates:
        shot = one.photograph
        count = len(shot.points)
        about = [f"{count} point{'' if count == 1 else 's'}", shot.station, shot.on.words, shot.credit]
        lines.append(f"{shot.name}: {'; '.join(word for word in about if word)}")
        if not shot.rights:
            lines.append("  for drafts only: it has no rights")
    index = index_of(drawn.folder, (one.photograph for one in drawn.plates))
    for title, rows in (("part", index.parts), ("station", index.stations), ("standard", index.standards)):
        lines.append(f"By {title}:")
        lines += [f"  {name}: {', '.join(shown)}" for name, shown in rows]
    return "\n".join(lines)


def photographs_json(drawn: Drawn) -> dict[str, object]:
    """The same for a program, as it stands in a pack."""
    return photographs_record(drawn.folder, drawn.plates)
