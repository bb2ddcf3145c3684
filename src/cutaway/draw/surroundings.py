"""What stands around the sheet of a plan: title, situation, what the lines mean, cautions, remarks and the notice."""

from collections.abc import Mapping

from cutaway.draw.cautions import cautions_on
from cutaway.draw.frame import Around
from cutaway.draw.pipes import Used
from cutaway.draw.plan import Extract, Plan
from cutaway.draw.strip import keys_for
from cutaway.draw.theme import MEDIA
from cutaway.handbook.records import Folder
from cutaway.machine.subjects import Subject, parts_of
from cutaway.parts.kind import Kind

NOTICE = "An interpretation for talks on the ground. Not flight, maintenance or operating advice."
SYMBOLS_REMARK = "Symbols are our own and not those of the handbook; needles show more or less, not figures."
OVER = 24.0
"""How far the areas of stations with the names above them may reach beyond a layout."""

PLAIN_REMARK = "Plain layout: the layout library was not at hand."


def around_of(
    folder: Folder,
    subject: Subject,
    extract: Extract,
    plan: Plan,
    kinds: Mapping[str, Kind],
    says: str,
    known: bool,
    areas: bool,
    plain: bool = False,
    used: Used | None = None,
    signs: tuple[str, ...] = (),
) -> Around:
    """What stands around a sheet. known: whether a state is shown. areas: whether stations are. plain: its layout.
    used: what the state shows, None for all that any may. signs: sentences about letters and signs."""
    media = [m for m in MEDIA if any(t.medium == m for t in plan.ties)]
    links = any(t.sort == "link" for t in plan.ties)
    flags = any(i.reference for i in plan.items)
    keys = keys_for(media, known, links, flags, areas)
    shown = None if used is None else keys_for(media, known, links, flags, areas, used)
    remarks = (*remarks_on(folder, subject, extract, plain), *signs, SYMBOLS_REMARK)
    title = f"{who_is(folder, subject)}: {extract.name}"
    cautions = cautions_on(plan, kinds)
    over = OVER if areas else 0.0
    return Around(title, says, keys, remarks, cautions, folder.type.notice or NOTICE, shown, over=over)


def remarks_on(folder: Folder, subject: Subject, extract: Extract, plain: bool) -> tuple[str, ...]:
    """What a reader must know of a sheet: that its layout is plain, and what of the subject is left out of it."""
    there = {part.name for part in parts_of(folder, subject)}
    reasons: dict[str, list[str]] = {}
    for part, because in extract.hidden:
        if part in there:
            reasons.setdefault(because, []).append(part)
    out = tuple(f"Not shown here: {', '.join(parts)}. {because}" for because, parts in reasons.items())
    return ((PLAIN_REMARK,) if plain else ()) + out


def who_is(folder: Folder, subject: Subject) -> str:
    """Type and standard; an airframe often has the type's name in its own."""
    name = str(subject.name)
    return name if name.startswith(folder.type.name) else f"{folder.type.name} {name}"
