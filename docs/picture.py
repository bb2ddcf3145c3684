"""Draws the picture of the README: the petrol system of the Whinchat Mk 2 in the cruise.

python docs/picture.py    writes docs/sheet.png; look at it afterwards
"""

from pathlib import Path

import resvg_py

from cutaway.api.loading import load, workshop_for
from cutaway.draw.measure import font_file
from cutaway.draw.sheet import make_sheet
from cutaway.inquiry.snapshot import snapshot
from cutaway.machine.subjects import subjects

DOCS = Path(__file__).parent
STANDARD, SYSTEM, SITUATION = "Mk 2", "Fuel", "cruising"
MOST = 250_000
"""So many bytes at most, since the picture is kept with the source."""


def picture() -> bytes:
    """The sheet as PNG."""
    loaded, problems = load(DOCS.parent / "demo" / "whinchat")
    assert loaded is not None, problems
    workshop, _ = workshop_for(loaded)
    subject = next(one for one in subjects(loaded.folder) if one.name == STANDARD)
    situation = next(one for one in loaded.folder.situations if one.name == SITUATION)
    shot, problems = snapshot(workshop, loaded.told, subject, SITUATION)
    assert shot is not None, problems
    says = f"{SITUATION}: {situation.says}"
    svg, problems = make_sheet(loaded.folder, subject.name, SYSTEM, shot.values, loaded.kinds, says=says)
    assert svg and not problems, problems
    fonts = [str(path) for bold in (False, True) if (path := font_file(bold)) is not None]
    png = resvg_py.svg_to_bytes(
        svg_string=svg, skip_system_fonts=True, font_files=fonts, sans_serif_family="DejaVu Sans"
    )
    return bytes(png)


if __name__ == "__main__":
    found = picture()
    assert len(found) <= MOST, f"{len(found)} bytes are too many for the README"
    (DOCS / "sheet.png").write_bytes(found)
    print(f"{DOCS / 'sheet.png'} written, {len(found):,} bytes")
