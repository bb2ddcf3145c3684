"""What the scripts speak of: which systems in which order, and in which situation most. Whoever has to choose a sheet,
or to put several in order, goes by this."""

from collections import Counter
from collections.abc import Iterator, Mapping
from itertools import groupby

from cutaway.handbook.records import Folder
from cutaway.language.claims import ParsedSentence
from cutaway.language.syntax import Claim
from cutaway.narrate.checked import Checked
from cutaway.narrate.naming import parts_named
from cutaway.narrate.shots import Picture, shots
from cutaway.narrate.spoken import spoken_terms
from cutaway.narrate.timing import timeline


def pictures(checked: Checked) -> tuple[Picture, ...]:
    """What is seen while the scripts are spoken, in their order; what is wrong with the marks is told elsewhere."""
    return tuple(_pictures(checked))


def systems_in_order(folder: Folder, seen: tuple[Picture, ...]) -> tuple[str, ...]:
    """All systems: those of some pictures as they first come up, then the others as the folder has them."""
    return tuple(dict.fromkeys((*(one.system for one in seen if one.system), *(one.name for one in folder.systems))))


def usual_situations(checked: Checked) -> Mapping[str, str]:
    """For each system the situation that most claims about its parts speak of; for one of which none speaks, that of
    most claims at all; '' where there is no situation."""
    folder = checked.folder
    systems = {str(part.name): part.system for part in folder.parts}
    names = frozenset(systems)
    found: dict[str, Counter[str]] = {}
    for one in checked.sentences:
        for claim in (judged.claim for judged in one.claims):
            if claim.scope.situation:
                for system in {"", *_systems(claim, systems, names)}:
                    found.setdefault(system, Counter())[claim.scope.situation] += 1
    first = next((one.name for one in folder.situations), "")
    anywhere = _most(found.get("", Counter()), first)
    return {one.name: _most(found.get(one.name, Counter()), anywhere) for one in folder.systems}


def _systems(claim: Claim, systems: Mapping[str, str], names: frozenset[str]) -> set[str]:
    return {systems[part] for part in parts_named(claim, names)}


def _most(found: Counter[str], otherwise: str) -> str:
    return next((name for name, _ in found.most_common(1)), otherwise)


def _pictures(checked: Checked) -> Iterator[Picture]:
    said = spoken_terms(checked.folder)
    for script, group in groupby(checked.sentences, key=lambda one: one.script):
        parsed = tuple(
            ParsedSentence(script.name, one.sentence, tuple(claim.claim for claim in one.claims), 0) for one in group
        )
        listed, _ = shots(script, parsed, timeline(script, said), checked.folder)
        yield from (shot.picture for shot in listed if shot.picture is not None)
