"""Lines that stand between numbered paragraphs and belong to none: 'A.L. 1, August 1937' above what it brought, and a
list of amendments."""

from dataclasses import dataclass

from cutaway.taking.amending import begins_list, is_label, is_list_head
from cutaway.taking.headings import is_marks
from cutaway.taking.heads import Head
from cutaway.taking.records import PlacedLine


@dataclass(frozen=True, slots=True)
class Between:
    """Lines by their index among all lines. labels: each names an amendment and nothing else. lists: each begins a
    list of amendments, which goes on to the next head. sections: each heads paragraphs for some marks ('Mk. II
    aeroplanes only'). others: headings without a number, at which such a section ends."""

    labels: tuple[int, ...] = ()
    lists: tuple[int, ...] = ()
    sections: tuple[int, ...] = ()
    others: tuple[int, ...] = ()

    def stop(self, at: int, stop: int) -> int:
        """Where the text that begins at a line ends: before the next of these lines, or at `stop`."""
        return min((cut for cut in (*self.labels, *self.lists, *self.sections) if at < cut < stop), default=stop)


def between(lines: tuple[PlacedLine, ...], gaps: tuple[bool, ...], heads: tuple[Head, ...]) -> Between:
    """The lines of both sorts among some lines. heads: all that look like heads of paragraphs."""
    at_heads = {head.at for head in heads}
    labels: list[int] = []
    lists: list[int] = []
    sections: list[int] = []
    others: list[int] = []
    last = max(at_heads, default=-1)
    inside = False
    for at, placed in enumerate(lines):
        text = placed.line.text
        if at in at_heads:
            inside = False
        elif inside or (at - 1 in at_heads and not gaps[at]):
            continue
        elif is_list_head(text) and (gaps[at] or text.isupper()):
            lists.append(at)
            inside = True
        elif is_label(text) and at + 1 in at_heads:
            labels.append(at)
        elif gaps[at] and _heads_section(text) and at + 1 in at_heads:
            (sections if is_marks(text) else others).append(at)
        elif gaps[at] and at > last and begins_list(text):
            lists.append(at)
            inside = True
    return Between(tuple(labels), tuple(lists), tuple(sections), tuple(others))


def _heads_section(text: str) -> bool:
    """Whether a line may be a heading: short, begun with a capital, and no sentence."""
    return len(text) <= 60 and text[:1].isupper() and not text.endswith((".", ",", ";"))


def under_labels(heads: tuple[Head, ...], there: Between) -> dict[int, int]:
    """The label under which heads stand, by their line: the head right below it, and further ones with a letter."""
    found: dict[int, int] = {}
    for label in there.labels:
        for place, head in enumerate(head for head in heads if head.at > label):
            if there.stop(label, head.at) != head.at or (place and not head.letter):
                break
            found[head.at] = label
    return found


def in_sections(heads: tuple[Head, ...], there: Between) -> dict[int, int]:
    """The heading for some marks under which heads stand, by their line: the nearest above, if no other ends it."""
    found: dict[int, int] = {}
    for head in heads:
        above = max((at for at in (*there.sections, *there.others, *there.lists) if at < head.at), default=-1)
        if above in there.sections:
            found[head.at] = above
    return found
