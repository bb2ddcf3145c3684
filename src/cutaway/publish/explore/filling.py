"""The explorable page as records of words, from what was worked out."""

from collections.abc import Iterable, Mapping
from pathlib import Path

from cutaway.draw.draft import draft_on, placed_on
from cutaway.draw.layout import cache_folder
from cutaway.draw.looks import looks_of
from cutaway.draw.pages import SHAPE
from cutaway.draw.plan import whole_system
from cutaway.draw.seen import Values
from cutaway.draw.shapes import Picture
from cutaway.draw.sheet import NOTICE, drawn, sheet_picture
from cutaway.handbook.records import Cite, Folder, Part
from cutaway.inquiry.explore import Arc, Led, Refused, Stop
from cutaway.inquiry.explore_ground import Movement, place_words, seen_at
from cutaway.inquiry.explore_seen import because
from cutaway.inquiry.explore_told import Happening
from cutaway.inquiry.questions.links import Link
from cutaway.machine.bind import Bound, ControlSlot
from cutaway.problems.diagnostic import Problems
from cutaway.publish.explore.records import ArcView, ControlView, ExploreView, MoveView, PartView, StopView
from cutaway.publish.explore.working import Stage, Worked
from cutaway.publish.view import ParagraphView
from cutaway.wording.asking import are, the
from cutaway.wording.figures import duration
from cutaway.wording.shown import listed_with, sentence
from cutaway.wording.why import because_lines

UNFOLLOWED = "Where this leads is not worked out from here."


def explore_view(
    worked: Worked, folder: Folder, layouts: Path | None, stage: Stage = lambda words: None
) -> tuple[ExploreView | None, Problems]:
    """The page's record; None where its sheet cannot be drawn."""
    found, subject = worked.found, worked.asked.subject
    stage("drawing every state")
    pictures, problems = _pictures(worked, folder, layouts)
    if len(pictures) < len(found.stops):
        return None, problems
    stage("asking why of every state")
    links = [_because(worked, stop) for stop in found.stops]
    varying = _worth_telling(worked)
    stops = tuple(
        _stop(worked, folder, stop, reasons, varying) for stop, reasons in zip(found.stops, links, strict=True)
    )
    bound = found.ground.bound
    name = str(subject.name)
    who = name if name.startswith(folder.type.name) else f"{folder.type.name} {name}"
    parts = [bound.parts[part] for part in (*worked.showing.parts, *_moved_parts(worked)) if part in bound.parts]
    cites = [c for stop in links for several in stop.values() for link in several for c in getattr(link, "cites", ())]
    view = ExploreView(
        f"{who}: {worked.asked.system}",
        folder.type.maker,
        worked.asked.says,
        _begins(worked),
        _bound(worked),
        duration(found.ground.settle),
        tuple(_control(worked, slot) for slot in found.ground.controls),
        tuple(_move(worked, movement) for movement in found.movements),
        tuple(f"{slot.spoken}: {_where(slot, found.stops[0].placed)}" for slot in worked.fixed),
        varying,
        stops,
        looks_of(pictures),
        _cautions(parts, bound),
        _paragraphs(folder, (*cites, *(cite for part in parts for cite in part.cites))),
        folder.type.notice or NOTICE,
    )
    return view, problems


def _pictures(worked: Worked, folder: Folder, layouts: Path | None) -> tuple[list[Picture], Problems]:
    """The sheet of every stop: placed once, then filled in for each."""
    asked, kinds = worked.asked, worked.found.ground.bound.kinds
    first, problems = picture_of(worked, folder, worked.found.stops[0].here.values, layouts)
    if first is None:
        return [], problems
    extract = whole_system(folder, asked.subject, asked.system)
    placed, _ = placed_on(folder, asked.subject, extract, kinds, layouts or cache_folder(), (SHAPE,))
    draft = draft_on(folder, asked.subject, kinds, placed, SHAPE)
    others = [drawn(draft, stop.here.values, "", first.name) for stop in worked.found.stops[1:]]
    return [first, *others], problems


def picture_of(worked: Worked, folder: Folder, values: Values, layouts: Path | None) -> tuple[Picture | None, Problems]:
    """The sheet as it is drawn for one state of the page."""
    asked, kinds = worked.asked, worked.found.ground.bound.kinds
    return sheet_picture(
        folder, asked.subject.name, asked.system, values, kinds, "", layouts, f"explore {asked.system}"
    )


# --- stops -------------------------------------------------------------------------------------------------------


def _because(worked: Worked, stop: Stop) -> dict[str, tuple[Link, ...]]:
    ground = worked.found.ground
    seen = seen_at(ground, stop.here)
    return {part: because(ground, part, seen) for part in worked.parts}


def _worth_telling(worked: Worked) -> tuple[str, ...]:
    """The parts of the sheet, and of the others those that are not the same at every stop."""
    shown = [dict(worked.showing.of(stop.here.values).notes) for stop in worked.found.stops]
    return tuple(
        part for part in worked.parts if part in worked.showing.parts or len({one.get(part) for one in shown}) > 1
    )


def _stop(
    worked: Worked, folder: Folder, stop: Stop, links: Mapping[str, tuple[Link, ...]], told: tuple[str, ...]
) -> StopView:
    notes = dict(worked.showing.of(stop.here.values).notes)
    return StopView(
        tuple(_where(slot, stop.placed) for slot in worked.found.ground.controls),
        tuple(PartView(", ".join(notes.get(part, ())), because_lines(links[part], folder)) for part in told),
        tuple(_arc(stop.arcs.get(movement)) for movement in worked.found.movements),
        tuple(_nearest(worked, slot, stop.placed) for slot in worked.found.ground.controls),
    )


def _arc(arc: Arc | None) -> ArcView | None:
    match arc:
        case None:
            return None
        case Led(to=to, happened=happened):
            return ArcView(to, "", tuple(_happened(one) for one in happened))
        case Refused(asks=asks):
            return ArcView(-1, sentence(f"held back: it can be moved there only when {listed_with(asks)}"), ())
        case _:
            why = UNFOLLOWED if arc.because == "bound" else sentence(f"the model finds no state there: {arc.sentence}")
            return ArcView(-1, why, ())


def _happened(one: Happening) -> str:
    what = f"{the(one.part)} {are(one.part)} {one.words}"
    when = f"after {duration(one.time)}" if one.time >= 0.05 else "at once"
    if one.times > 1:
        return sentence(f"{what} {one.times} times, first {when}")
    return sentence(f"{when} {what}")


# --- controls ----------------------------------------------------------------------------------------------------


def _moved_parts(worked: Worked) -> tuple[str, ...]:
    return tuple(slot.part for slot in worked.found.ground.controls)


def _control(worked: Worked, slot: ControlSlot) -> ControlView:
    about = _about(worked.found.ground.bound.parts[slot.part])
    return ControlView(slot.spoken, about, _slide(worked, slot), not slot.springs_back)


def _slide(worked: Worked, slot: ControlSlot) -> tuple[int, ...]:
    """The movements that put a control somewhere in its range and leave it there, from one end to the other; none
    where there is but one, or no range."""
    moves = enumerate(worked.found.movements)
    mine = [(one.value, n) for n, one in moves if slot.ranged and one.input == slot.input and not one.back]
    return tuple(n for _, n in sorted(mine)) if len(mine) > 1 else ()


def _nearest(worked: Worked, slot: ControlSlot, placed: Mapping[str, float]) -> int:
    """The place on a slide nearest to where a control stands, which a rule may have put between two; -1: no slide."""
    places = [worked.found.movements[n].value for n in _slide(worked, slot)]
    stands = placed.get(slot.input, 0.0)
    return min(range(len(places)), key=lambda place: abs(places[place] - stands), default=-1)


def _where(slot: ControlSlot, placed: Mapping[str, float]) -> str:
    return place_words(slot, placed.get(slot.input, 0.0))


def _about(part: Part) -> str:
    told = (
        part.station,
        f"marked {part.marked}" if part.marked else "",
        f"worked by {part.hands}" if part.hands else "",
    )
    return "; ".join(words for words in told if words)


def _move(worked: Worked, movement: Movement) -> MoveView:
    settle = duration(worked.found.ground.settle)
    if movement.waits:
        return MoveView(-1, f"wait {settle}", "", f"wait {settle}")
    slots = worked.found.ground.controls
    index = next(i for i, slot in enumerate(slots) if slot.input == movement.input)
    back = duration(movement.back) if movement.back else ""
    over = "let go" if slots[index].springs_back else "back"
    told = f"{slots[index].spoken} to {movement.words}" + (f" for {back}, then {over}" if back else "")
    return MoveView(index, movement.words, back, told)


# --- around it ---------------------------------------------------------------------------------------------------


def _begins(worked: Worked) -> tuple[str, ...]:
    found, situation = worked.found, worked.situation
    settle = found.ground.settle
    words = [sentence(f"it begins in '{situation.name}': {situation.says}" if situation.says else situation.name)]
    if found.waited:
        words.append(f"That is let settle for {duration(found.waited * settle)} more, until nothing shown here moves.")
    words.append(f"After each movement {duration(settle)} pass before the next.")
    slots = {slot.element: slot.part for slot in found.ground.bound.contents.values()}
    reach = {element.name for element in found.ground.within.elements}
    kept = [slots[one.element] for one in found.ground.kept if one.element in reach]
    if kept:
        words.append(f"What is in {listed_with(map(the, kept))} is kept as it was: nothing runs dry here.")
    return tuple(words)


def _bound(worked: Worked) -> tuple[str, ...]:
    found, count = worked.found, len(worked.found.stops)
    if found.whole:
        words = [f"All that can come of these movements is here: {count} settled states."]
    else:
        words = [f"{count} settled states are here, those that are fewest movements away."]
        words.append("Where a movement leads further the page says so, and does not guess.")
    part = f"1 part in {round(1.0 / worked.fine.stores):,}"
    words.append(f"Ways that come to the same figures, and to stores alike to {part}, come to one state.")
    if worked.walks:
        came = "each came" if not worked.astray else f"all but {worked.astray} came"
        walks = f"{worked.walks} walks of up to {worked.longest} movements"
        words.append(f"To test it, {walks} were run from the beginning; {came} to what is shown here.")
    return tuple(words)


def _cautions(parts: Iterable[Part], bound: Bound) -> tuple[str, ...]:
    found = [text for part in parts for text in (part.caution, bound.kinds[part.kind].caution) if text]
    return tuple(dict.fromkeys(found))


def _paragraphs(folder: Folder, cites: Iterable[Cite]) -> tuple[ParagraphView, ...]:
    wanted = {(cite.source, cite.number) for cite in cites}
    return tuple(
        ParagraphView(f"{p.source} {p.number}", p.number, p.title, p.text, source.title, p.on.words, p.cautions)
        for source in folder.sources
        for p in source.paragraphs
        if (p.source, p.number) in wanted
    )
