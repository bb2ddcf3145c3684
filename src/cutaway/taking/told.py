"""What is told of the pages that were taken and of what became of a person's corrections."""

from collections.abc import Iterable, Sequence

from cutaway.handbook.names import listed
from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.taking.merging import Merged
from cutaway.taking.paragraphs import LIST
from cutaway.taking.records import Page, PlacedLine, Proposal, Taken

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
                f"{counted(len(left_out), 'line')} {_was(left_out)} left out as running heads and page numbers: {some}",
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


def told_of_standards(proposals: tuple[Proposal, ...], asked: tuple[Proposal, ...]) -> Problems:
    """Paragraphs that were given their marks by their own words, and those of which a person is asked."""
    found: list[Diagnostic] = []
    given = [one for one in proposals if one.sure and not one.answer and one.asks == "standards"]
    if given:
        some = "; ".join(f"§{one.paragraph} on {one.on} ('{one.words}')" for one in given[:6])
        found.append(
            Diagnostic(
                "T213",
                None,
                f"{counted(len(given), 'paragraph')} {_was(given)} taken to be for some marks only, by the "
                f"heading or the first words: {some}{'; …' if len(given) > 6 else ''}",
                "Where that is wrong, put the braces under the heading right in the source; it is kept.",
            )
        )
    open_ones = [one for one in asked if not one.answer and one.asks == "standards"]
    if open_ones:
        some = "; ".join(f"§{one.paragraph} '{one.words}' ({one.why})" for one in open_ones[:4])
        found.append(
            Diagnostic(
                "T214",
                None,
                f"{counted(len(open_ones), 'paragraph')} may be for some marks only: {some}"
                f"{'; …' if len(open_ones) > 4 else ''}. Until you answer, nothing is written of it.",
                "Answer in confirm.yaml under 'standards to confirm'; add a mark that is missing to type.yaml.",
            )
        )
    return tuple(found)


def told_of_amendments(
    everything: tuple[Taken, ...], labels: tuple[PlacedLine, ...], asked: tuple[Proposal, ...]
) -> Problems:
    """Lines that name an amendment above what it brought, lists of amendments, and paragraphs that a person is asked
    about."""
    found: list[Diagnostic] = []
    brought = [one for one in everything if one.under]
    if labels:
        lines = "; ".join(f"'{placed.line.text}' (page {placed.page})" for placed in labels[:4])
        given = [f"§{one.number}" for one in brought if one.amendment]
        words = f" above {listed(given)}, which {_was(given)} taken as what it brought" if given else ""
        found.append(
            Diagnostic(
                "T217",
                None,
                f"{counted(len(labels), 'line')} {_names(labels)} an amendment and nothing else{words}: {lines}"
                f"{'; …' if len(labels) > 4 else ''}",
                "Where that is wrong, put the braces under the heading right in the source; it is kept.",
            )
        )
    open_ones = [one for one in asked if not one.answer and one.asks == "amendment"]
    if open_ones:
        some = "; ".join(f"§{one.paragraph} '{one.words}' ({one.why})" for one in open_ones[:4])
        found.append(
            Diagnostic(
                "T218",
                None,
                f"{counted(len(open_ones), 'paragraph')} may be of an amendment: {some}"
                f"{'; …' if len(open_ones) > 4 else ''} Until you answer, nothing is written of it.",
                "Answer in confirm.yaml under 'amendments to confirm': is: yes, another amendment, or none.",
            )
        )
    lists = [one for one in everything if one.title == LIST]
    if lists:
        some = "; ".join(f"§{one.number} (page {one.page}): '{one.blocks[0][:50]}'" for one in lists)
        found.append(
            Diagnostic(
                "T219",
                None,
                f"A list of amendments stands outside the numbered paragraphs; it was given its own number: {some}",
                "Its dates stand at the top of the source under 'amendments'. Look whether each paragraph that an "
                "amendment brought names it: {amendment: A.L. 1}",
            )
        )
    return tuple(found)


def _names(lines: Sequence[object]) -> str:
    return "names" if len(lines) == 1 else "name"


def told_of_runs(keys: tuple[str, ...]) -> Problems:
    """A book that numbers anew became several sources."""
    if len(keys) < 2:
        return ()
    return (
        Diagnostic(
            "T206",
            None,
            f"The numbers of the book begin anew {counted(len(keys) - 1, 'time')}, so it became the sources "
            f"{listed(keys)}.",
            f"Cite the second as {keys[1]} §1",
        ),
    )


def _confidence(page: Page) -> float:
    words = [word.confidence for line in page.lines for word in line.words]
    return sum(words) / len(words) if words else 0.0


def _was(numbers: Sequence[object]) -> str:
    return "was" if len(numbers) == 1 else "were"


def _numbers(numbers: Iterable[str]) -> str:
    many = [f"§{number}" if number else "a paragraph without number" for number in numbers]
    return listed(many) if len(many) <= 8 else f"{', '.join(many[:7])} and {counted(len(many) - 7, 'other')}"


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
