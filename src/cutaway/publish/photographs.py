"""The author's photographs in the pack: each with its call-outs, and an index by part, station and standard."""

import base64
import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from cutaway.draw.callout_labels import notes_of, part_shown
from cutaway.draw.callouts import STYLE, callouts_picture, credit_of
from cutaway.draw.shapes import Picture
from cutaway.draw.svg import slug
from cutaway.draw.theme import Manner
from cutaway.handbook.names import fold
from cutaway.handbook.nodes import Block
from cutaway.handbook.reading import read_folder
from cutaway.handbook.records import Folder, Photograph, Point
from cutaway.handbook.yaml_tree import read_tree
from cutaway.narrate.checked import Checked
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span
from cutaway.publish.drawings import Desk
from cutaway.publish.html import Html, anchor, el
from cutaway.publish.photograph_file import published_picture
from cutaway.publish.plain_page import plain_page
from cutaway.publish.product import Files, Product
from cutaway.publish.stills import Size, drawing, still

PAGE = "photographs.html"
RECORD = "photographs.json"
FOLDER = "photographs"
_FORMAT = 1
LONGEST_STEM = 80
"""Letters of a file's name: longer ones are refused by some disks."""
FINE = 1.5  # pixels of a PNG to the unit of a drawing: some 2,400 across


@dataclass(frozen=True, slots=True)
class Plate:
    """A photograph with its call-outs drawn. stem: the name of its files, without ending."""

    photograph: Photograph
    stem: str
    picture: Picture


@dataclass(frozen=True, slots=True)
class Index:
    """Which photographs show what: each name with the names of the photographs, in the order of the folder."""

    parts: tuple[tuple[str, tuple[str, ...]], ...]
    stations: tuple[tuple[str, tuple[str, ...]], ...]
    standards: tuple[tuple[str, tuple[str, ...]], ...]


def photograph_files(folder: Folder) -> tuple[Mapping[str, bytes], Problems]:
    """The drawings, the page and the record by their path in the pack; nothing where there is no photograph."""
    drawn, problems = plates(folder)
    if not drawn:
        return {}, problems
    files = {f"{FOLDER}/{one.stem}.svg": plate_svg(one).encode() for one in drawn}
    record = photographs_record(folder, drawn)
    files[PAGE] = photographs_page(folder, drawn).encode()
    files[RECORD] = (json.dumps(record, ensure_ascii=False, indent=1) + "\n").encode()
    return files, problems


def plates(folder: Folder) -> tuple[tuple[Plate, ...], Problems]:
    """Every photograph that can be opened, with its call-outs."""
    found: list[Plate] = []
    problems: Problems = ()
    taken: set[str] = set()
    for photograph in folder.photographs:
        content, more = published_picture(Path(folder.root), photograph)
        problems += more
        if content is None:
            continue
        href = f"data:image/jpeg;base64,{base64.b64encode(content).decode()}"
        picture, more = callouts_picture(folder, photograph, href)
        problems += more
        found.append(Plate(photograph, _free(slug(photograph.name)[:LONGEST_STEM].strip("-"), taken), picture))
    return tuple(found), problems


def _free(stem: str, taken: set[str]) -> str:
    """A name of a file that no other photograph has."""
    name, number = stem, 1
    while name in taken:
        number += 1
        name = f"{stem}-{number}"
    taken.add(name)
    return name


def plate_svg(plate: Plate, manner: Manner = "both") -> str:
    """A photograph with its call-outs as one SVG file, the photograph in it."""
    return drawing(plate.picture, manner, style=STYLE)


def plate_png(plate: Plate, manner: Manner = "light", fine: float = FINE) -> bytes:
    """The same as PNG."""
    across, down = (round(side * fine) for side in plate.picture.size)
    return still(plate.picture, Size("photograph", "", across, down), manner, style=STYLE)


# --- the index -----------------------------------------------------------------------------------------------------


def index_of(folder: Folder, photographs: Iterable[Photograph]) -> Index:
    """Which photographs show which part, station and standard or airframe; parts and stations by name."""
    many = tuple(photographs)
    subjects = [*(str(one.name) for one in folder.type.standards), *(one.name for one in folder.type.airframes)]
    return Index(
        _sorted((str(part), one.name) for one in many for point in one.points for part in point.parts),
        _sorted((station, one.name) for one in many for station in _stations(folder, one)),
        _gathered(subjects, ((name, one.name) for one in many for name in one.on.names)),
    )


def _stations(folder: Folder, photograph: Photograph) -> Iterator[str]:
    """The place that it shows, and those of the parts that it points at."""
    if photograph.station:
        yield photograph.station
    for point in photograph.points:
        part = part_shown(folder, photograph, point)
        if part is not None and part.station:
            yield part.station


def _sorted(pairs: Iterable[tuple[str, str]]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    many = list(pairs)
    return _gathered(sorted({name for name, _ in many}, key=fold), many)


def _gathered(names: Iterable[str], pairs: Iterable[tuple[str, str]]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    many = list(pairs)
    rows = ((name, tuple(dict.fromkeys(shows for one, shows in many if fold(one) == fold(name)))) for name in names)
    first = {fold(name): (name, shown) for name, shown in reversed([row for row in rows if row[1]])}
    return tuple(reversed(first.values()))


# --- page and record -----------------------------------------------------------------------------------------------


def photographs_record(folder: Folder, drawn: tuple[Plate, ...]) -> dict[str, object]:
    """The photographs and their index for a program."""
    index = index_of(folder, (one.photograph for one in drawn))
    return {
        "format": _FORMAT,
        "type": folder.type.name,
        "notice": folder.type.notice,
        "photographs": [_record(folder, one) for one in drawn],
        "by part": {name: list(shown) for name, shown in index.parts},
        "by station": {name: list(shown) for name, shown in index.stations},
        "by standard": {name: list(shown) for name, shown in index.standards},
    }


def _record(folder: Folder, plate: Plate) -> dict[str, object]:
    one = plate.photograph
    return {
        "name": one.name,
        "file": f"{FOLDER}/{plate.stem}.svg",
        "says": one.says,
        "credit": one.credit,
        "rights": one.rights,
        "taken": one.taken,
        "station": one.station,
        "on": one.on.words,
        "points": [_point_record(folder, one, point) for point in one.points],
        "words": list(plate.picture.description),
    }


def _point_record(folder: Folder, photograph: Photograph, point: Point) -> dict[str, object]:
    part = part_shown(folder, photograph, point)
    return {
        "name": point.name,
        "parts": [str(part) for part in point.parts],
        "at": [round(share, 4) for share in point.at],
        "says": point.says,
        "marked": part.marked if part is not None else "",
        "station": part.station if part is not None else "",
        "cites": [cite.key for cite in part.cites] if part is not None else [],
    }


def photographs_page(folder: Folder, drawn: tuple[Plate, ...]) -> str:
    """The photographs with their call-outs, then the index."""
    index = index_of(folder, (one.photograph for one in drawn))
    sections = (
        _table("By part", "parts", index.parts),
        _table("By station", "stations", index.stations),
        _table("By standard", "standards", index.standards),
    )
    places = el("p", el("a", "Index by part, station and standard", href="#parts"))
    return plain_page(
        f"{folder.type.name}, photographs",
        (places, *(_figure(folder, one) for one in drawn), *sections),
        folder.type.notice,
    )


def _figure(folder: Folder, plate: Plate) -> Html:
    one = plate.photograph
    path = f"{FOLDER}/{plate.stem}.svg"
    width, height = (str(round(side)) for side in plate.picture.size)
    shown = el("img", src=path, alt=" ".join(plate.picture.description), width=width, height=height)
    points = [
        el("li", el("b", point.name), "".join(f"; {note.rstrip('.')}" for note in notes_of(folder, one, point)))
        for point in one.points
    ]
    caption = el("figcaption", el("p", one.says) if one.says else "", el("p", credit_of(one), class_="quiet"))
    return el(
        "section",
        el("h2", one.name, id=anchor("photograph", one.name)),
        el("figure", el("div", el("a", shown, href=path), class_="drawn"), caption),
        el("ul", *points) if points else "",
        aria_labelledby=anchor("photograph", one.name),
    )


def _table(title: str, name: str, rows: tuple[tuple[str, tuple[str, ...]], ...]) -> Html | str:
    if not rows:
        return ""
    body = (el("tr", el("th", row, scope="row"), el("td", *_links(shown))) for row, shown in rows)
    return el("section", el("h2", title, id=name), el("table", el("tbody", *body)), aria_labelledby=name)


def _links(names: tuple[str, ...]) -> Iterator[str]:
    for number, name in enumerate(names):
        yield ", " if number else ""
        yield el("a", name, href=f"#{anchor('photograph', name)}")


def _product(desk: Desk, checked: Checked) -> tuple[Files, Problems]:
    return photograph_files(desk.workshop.folder)


PHOTOGRAPHS = Product(
    "Photographs",
    "The author's own photographs with what is to be seen on them, by part, station and standard.",
    "drawing the call-outs",
    _product,
    PAGE,
    whole=False,
)


# --- publishing ----------------------------------------------------------------------------------------------------


def without_rights(pack: Path, folder: Path) -> Problems:
    """That a pack holds photographs of which nobody has said by what right they are shown; they are not published.

    folder: the type folder, in which each of them is named.
    """
    try:
        record = json.loads((pack / RECORD).read_bytes())
        named = [str(one["name"]) for one in record["photographs"] if not str(one["rights"]).strip()]
    except (OSError, ValueError, KeyError, TypeError):
        return ()
    hint = "Write rights: … in photographs.yaml, or take the photograph out; then say `cutaway make` again."
    message = "The photograph {} has no rights, so that the pack is not published."
    places = _places(folder) if named else {}
    return tuple(Diagnostic("K312", places.get(fold(name)), message.format(name), hint) for name in named)


def _places(folder: Path) -> Mapping[str, Span]:
    """Where each photograph is named in the type folder as it is now."""
    texts, _ = read_folder(folder)
    file = texts.file("photographs.yaml") if texts is not None else None
    tree = read_tree(file)[0] if file is not None else None
    block = tree.get("photographs") if isinstance(tree, Block) else None
    return {fold(one.key.text): one.key.span for one in block.entries} if isinstance(block, Block) else {}
