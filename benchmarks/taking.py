"""How long it takes to take in a book of 500 pages with a text layer, and a scanned page beside the bare reader.

The bar: 500 pages of text in under 60 s.
"""

import os
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from cutaway.api.finding import new
from cutaway.api.loading import load
from cutaway.api.taking import take_in
from cutaway.taking.pictures import fit
from cutaway.taking.reader import _run, find_reader
from tests.taking.drawn import PARAGRAPHS, page, worn
from tests.taking.pdfs import text_pdf

PAGES, A_PAGE, BAR = 500, 4, 60.0


def book() -> list[list[str]]:
    """Pages of numbered paragraphs, 36 lines each, with running heads and page numbers."""
    pages, number = [], 0
    for at in range(1, PAGES + 1):
        lines = ["THE TURNSTONE", ""]
        for _ in range(A_PAGE):
            number += 1
            lines.append(f"{number}. Cock {number}. The cock on frame {number} shuts the pipe to")
            lines += [f"tank {k} of station {at}, which holds {k + 7}.5 gallons and gives" for k in range(6)]
            lines += ["full throttle.", ""]
        pages.append([*lines, f"- {at} -"])
    return pages


def main() -> None:
    """Print the figures."""
    with tempfile.TemporaryDirectory() as place:
        os.environ["XDG_CACHE_HOME"] = f"{place}/cache"
        folder = Path(place) / "bench"
        new(folder)
        file = Path(place) / "book.pdf"
        file.write_bytes(text_pdf(book()))
        began = time.perf_counter()
        outcome, problems = take_in(folder, [file])
        took = time.perf_counter() - began
        assert outcome is not None, problems
        assert outcome.sources[0].paragraphs == PAGES * A_PAGE
        print(f"500 pages of text: {took:.1f} s ({took / BAR:.2f} of the bar of {BAR:.0f} s)")
        began = time.perf_counter()
        take_in(folder, [file])
        print(f"the same again:    {time.perf_counter() - began:.1f} s")
        began = time.perf_counter()
        loaded, _ = load(folder)
        assert loaded is not None
        print(f"loading the folder after it: {time.perf_counter() - began:.1f} s")
        scan(folder, Path(place))


def scan(folder: Path, place: Path) -> None:
    """A worn page, read by take, and by the reader alone."""
    reader = find_reader()
    if reader is None:
        print("a scanned page: not measured, tesseract-ocr is not installed")
        return
    picture = worn(page(PARAGRAPHS), degrees=-3.2, stains=6, speckle=0.002, blur=0.8)
    picture.save(place / "worn.png")
    began = time.perf_counter()
    _run(reader, fit(picture), "--psm", "3", "tsv")
    alone = time.perf_counter() - began
    began = time.perf_counter()
    take_in(folder, [place / "worn.png"])
    took = time.perf_counter() - began
    print(f"a worn page: {took:.1f} s, {took / alone:.1f} times the reader alone, which makes nothing of half of it")
    began = time.perf_counter()
    take_in(folder, [place / "worn.png"])
    print(f"the same again, from the kept page: {time.perf_counter() - began:.2f} s")


if __name__ == "__main__":
    main()
