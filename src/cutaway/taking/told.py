"""What is told of the pages that were taken and of what became of a person's corrections."""

from collections.abc import Iterable

from cutaway.handbook.names import listed
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.taking.merging import Merged
from cutaway.taking.records import Page, PlacedLine

_POOR = 60.0


def told_of_pages(pages: tuple[Page, ...], left_out: tuple[PlacedLine, ...]) -> Problems:
    """Blank pages, pages that lay wrong, pages that could hardly be read, text over pictures, lines left out."""
    found: list[Diagnostic] = []
    blank = [page.number for page in pages if page.blank]
    if blank and len(pages) > len(blank):
        found.append(
            Diagnostic(
                "T201", None, f"Nothing stands on {_pages(blank)}.", "Scan it again if there should be something."
            )
        )
    turned = [page for page in pages if page.turned]
    if turned:
        lay = [f"{page.number} ({'upside down' if page.turned == 180 else 'on its side'})" for page in turned]
        found.append(
            Diagnostic(
                "T202",
                None,
                f"Turned before reading: page {listed(lay)}.",
                "Nothing is to be done; look whether it was right.",
            )
        )
    poor = [page.number for page in pages if page.origin == "read" and not page.blank and _confidence(page) < _POOR]
    if poor:
        found.append(
            Diagnostic(
                "T212",
                None,
                f"Next to nothing could be made out on {_pages(poor)}; what was taken is mostly guesses.",
                "Scan it again at 300 dots an inch, or type it into the file and leave out the guesses.",
            )
        )
    over = [page.number for page in pages if page.over_picture and page.origin == "text"]
    if over:
        found.append(
            Diagnostic(
                "T207",
                None,
                f"On {_pages(over)} the text lies over a picture of the page: somebody else's reading of a scan.",
                "Its figures are listed to be confirmed. To have the pictures read anew, add --read-again",
            )
        )
    if left_out:
        texts = list(dict.fromkeys(f"'{placed.line.text}'" for placed in left_out))
        some = ", ".join(texts[:4]) + (" …" if len(texts) > 4 else "")
        found.append(
            Diagnostic(
                "T208",
                None,
                f"{len(left_out)} lines were left out as running heads and page numbers: {some}",
                "All of them are listed in taken.json of the source.",
            )
        )
    return tuple(found)


def told_of_merging(name: str, merged: Merged | None, key: str) -> Problems:
    """What a person had changed and was kept, and what they had taken out."""
    if merged is None:
        return ()
    found: list[Diagnostic] = []
    if merged.yours:
        differs = f" The new reading of {_numbers(merged.differs)} differs from the last." if merged.differs else ""
        found.append(
            Diagnostic(
                "T205",
                None,
                f"In sources/{name}.md {_numbers(merged.yours)} {_was(merged.yours)} corrected by hand and "
                f"{_was(merged.yours)} kept.{differs}",
                f"The reading itself stands in taken/{key}/.",
            )
        )
    if merged.stayed_out:
        found.append(
            Diagnostic(
                "T209",
                None,
                f"{_numbers(merged.stayed_out)} {_was(merged.stayed_out)} taken out of sources/{name}.md by hand and "
                "stayed out.",
                f"To have it back, copy it from taken/{key}/reading.md",
            )
        )
    return tuple(found)


def told_of_runs(keys: tuple[str, ...]) -> Problems:
    """A book that numbers anew became several sources."""
    if len(keys) < 2:
        return ()
    return (
        Diagnostic(
            "T206",
            None,
            f"The numbers of the book begin anew {len(keys) - 1} times, so it became the sources {listed(keys)}.",
            f"Cite the second as {keys[1]} §1",
        ),
    )


def _confidence(page: Page) -> float:
    words = [word.confidence for line in page.lines for word in line.words]
    return sum(words) / len(words) if words else 0.0


def _was(numbers: tuple[str, ...]) -> str:
    return "was" if len(numbers) == 1 else "were"


def _numbers(numbers: Iterable[str]) -> str:
    many = [f"§{number}" if number else "a paragraph without number" for number in numbers]
    return listed(many) if len(many) <= 8 else f"{', '.join(many[:7])} and {len(many) - 7} others"


def _pages(numbers: list[int]) -> str:
    stretches: list[list[int]] = []
    for number in numbers:
        if stretches and number == stretches[-1][1] + 1:
            stretches[-1][1] = number
        else:
            stretches.append([number, number])
    words = [str(a) if a == b else f"{a} to {b}" for a, b in stretches[:8]]
    more = " and more" if len(stretches) > 8 else ""
    return f"page{'s' if len(numbers) > 1 else ''} {listed(words)}{more}"
