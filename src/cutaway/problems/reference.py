"""The reference page of problems, and one entry as text, made from the catalogue."""

from collections.abc import Mapping

from cutaway.problems.catalogue import CATALOGUE
from cutaway.problems.entry import Entry

ROOMS = {
    "Q": "Quantities and standards",
    "H": "The type folder",
    "T": "Taking in sources",
    "L": "Statements and claims",
    "P": "Parts",
    "M": "The machine",
    "I": "Inquiry",
    "N": "Narration",
    "D": "Drawing",
    "K": "The pack",
    "C": "The command line",
}
"""The first letter of a code and what it speaks of."""

_INTRODUCTION = """\
# Problems

Everything that Cutaway can say against a type folder has a code that keeps its one meaning. An *error* means that the
item was left out of what follows, a *note* that it was kept. `cutaway explain Q104` shows an entry on the terminal.
"""


def problems_page(catalogue: Mapping[str, Entry] = CATALOGUE) -> str:
    """The page, in Markdown: a section a room, an entry a code, with a wrong and a right sample."""
    parts = [_INTRODUCTION]
    for letter, room in ROOMS.items():
        codes = sorted(code for code in catalogue if code[0] == letter)
        if codes:
            parts.append(f"\n## {room}\n")
            parts.extend(_section(code, catalogue[code]) for code in codes)
    return "".join(parts)


def _section(code: str, entry: Entry) -> str:
    head = f"\n### {code} {entry.title}\n\n*{_severity(entry)}.* {entry.why}\n\n"
    if not entry.where:
        return f"{head}Wrong: {entry.wrong}\n\nRight: {entry.right}\n"
    wrong, right = differing(entry.wrong, entry.right)
    return f"{head}Wrong, in `{entry.where}`:\n\n{_fenced(wrong)}\nRight:\n\n{_fenced(right)}"


def _fenced(sample: str) -> str:
    return f"````\n{sample.rstrip()}\n````\n"


def _severity(entry: Entry) -> str:
    return "Error" if entry.severity == "error" else "Note"


def entry_text(code: str, entry: Entry) -> str:
    """One entry for the terminal."""
    wrong, right = differing(entry.wrong, entry.right) if entry.where else (entry.wrong, entry.right)
    where = f", in {entry.where}" if entry.where else ""
    return (
        f"{code}  {entry.title} ({_severity(entry).lower()})\n\n{entry.why}\n\n"
        f"Wrong{where}:\n{_indented(wrong)}\n\nRight:\n{_indented(right)}"
    )


def _indented(sample: str) -> str:
    return "\n".join(f"    {line}".rstrip() for line in sample.rstrip().splitlines())


def differing(wrong: str, right: str, around: int = 2) -> tuple[str, str]:
    """The lines in which two samples differ, with a few of those before and behind: a whole file hides its point."""
    one, other = wrong.splitlines(), right.splitlines()
    same = next((n for n, (a, b) in enumerate(zip(one, other, strict=False)) if a != b), min(len(one), len(other)))
    shortest = min(len(one), len(other)) - same
    behind = next((n for n in range(shortest) if one[-1 - n] != other[-1 - n]), shortest)
    return "\n".join(_cut(one, same, behind, around)), "\n".join(_cut(other, same, behind, around))


def _cut(lines: list[str], same: int, behind: int, around: int) -> list[str]:
    start, end = max(0, same - around), min(len(lines), len(lines) - behind + around)
    shown = lines[start:end]
    return [*(["…"] if start else []), *shown, *(["…"] if end < len(lines) else [])]
