"""Which type folder a verb is about: said last, as FOLDER, or with -C; at every verb alike.

A verb declares one of the two, whichever reads better in its own file; the other is added here.
"""

import inspect
from collections.abc import Callable
from pathlib import Path
from typing import Any

import typer
from typer.models import ArgumentInfo

PLACES = ("folder", "place", "what", "scripts")
"""What verbs call an argument that is a type folder, or something in one."""
HELP = "The type folder; else the one that you are in."
OPTION = "folder_by_option"

Verb = Callable[..., Any]


class FolderVerbs(typer.Typer):
    """A program whose verbs take their type folder both ways."""

    def command(self, *names: Any, **options: Any) -> Callable[[Verb], Verb]:  # type: ignore[override]
        """Add a verb, as the class above does, with the other way to say its folder."""
        add = super().command(*names, **options)

        def adding(verb: Verb) -> Verb:
            add(both_ways(verb))
            return verb

        return adding


def both_ways(verb: Verb) -> Verb:
    """The verb with both ways to say its type folder; itself where it is about none, or makes one."""
    given = dict(inspect.signature(verb, eval_str=True).parameters)
    asks = tuple(name for name, one in given.items() if isinstance(one.default, ArgumentInfo))
    place = next((name for name in PLACES if name in given), "")
    if not place or (place == "folder" and place in asks and given[place].default.default is ...):
        return verb
    added = _added(place, given, asks)
    several = place in asks and given[place].annotation == list[Path]
    before = asks if place not in asks else ()
    wanted = place in asks and given[place].default.default is ...

    def asked(**said: Any) -> Any:
        by_option, by_place = said.pop(OPTION), said.pop(place, None)
        if wanted and not by_option and not by_place:
            raise typer.BadParameter(f"Say which: {place.upper()}, or a folder with -C.")
        if several:
            said[place] = [within(by_option, one) for one in by_place or (by_option,)]
            return verb(**said)
        if by_option is None and by_place is None:
            by_place = _said_too_early(said, before, given, verb.__name__.replace("_", "-"))
        chosen = one_folder(by_option, by_place) if place == "folder" else within(by_option, by_place)
        return verb(**{**said, place: chosen if chosen is not None else Path()})

    rest = (name for name in given if name not in (*asks, place))
    order = (*(name for name in asks if name != place), *added, *rest)
    parameters = [added.get(name, given.get(name)) for name in order]
    loose = [one.replace(kind=inspect.Parameter.KEYWORD_ONLY) for one in parameters if one is not None]
    asked.__signature__ = inspect.Signature(loose)  # type: ignore[attr-defined]
    asked.__annotations__ = {one.name: one.annotation for one in loose}
    asked.__name__, asked.__doc__ = verb.__name__, verb.__doc__
    return asked


def _added(place: str, given: dict[str, inspect.Parameter], asks: tuple[str, ...]) -> dict[str, inspect.Parameter]:
    """The argument and the option by which the folder is said. No argument can follow one that takes all words."""
    kind = inspect.Parameter.KEYWORD_ONLY
    option = inspect.Parameter(
        OPTION, kind, default=typer.Option(None, "--folder", "-C", help=HELP), annotation=Path | None
    )
    if place in asks:
        helps, several = given[place].default.help, given[place].annotation == list[Path]
    else:
        helps, several = "", False
        if any(given[name].annotation not in (str, Path) for name in asks):
            return {OPTION: option}
    argument = inspect.Parameter(
        place,
        kind,
        default=typer.Argument(None, help=HELP if helps in ("", "The type folder.") else helps),
        annotation=list[Path] | None if several else Path | None,
    )
    return {place: argument, OPTION: option}


def one_folder(by_option: Path | None, by_place: Path | None) -> Path | None:
    """The folder that was said, which may be said twice but not differently."""
    if by_option is not None and by_place is not None and _real(by_option) != _real(by_place):
        raise typer.BadParameter(f"Two folders are named: '{by_place}', and '{by_option}' with -C. Leave out one.")
    return by_place if by_place is not None else by_option


def within(by_option: Path | None, by_place: Path | None) -> Path | None:
    """A place in a type folder: as it was said where it lies in the folder of -C, else looked for in there."""
    if by_option is None or by_place is None:
        return by_place if by_place is not None else by_option
    if _real(by_place).is_relative_to(_real(by_option)):
        return by_place
    if by_place.is_absolute() or is_type_folder(by_place):
        return one_folder(by_option, by_place)
    script = by_option / "scripts" / f"{by_place.name}.md"
    return script if len(by_place.parts) == 1 and script.is_file() else by_option / by_place


def is_type_folder(path: Path) -> bool:
    """Whether a type folder stands there."""
    return (path / "type.yaml").is_file()


def _real(path: Path) -> Path:
    return path.expanduser().resolve()


def _said_too_early(
    said: dict[str, Any], before: tuple[str, ...], given: dict[str, inspect.Parameter], verb: str
) -> Path | None:
    """The type folder where it stands in the place of an argument that may be left out, which is then left out; one
    in the place of an argument that is wanted is told. Where one is in a type folder oneself no other can be meant."""
    last = next((name for name in reversed(before) if said.get(name)), "")
    if not last or not isinstance(said[last], str) or is_type_folder(Path()) or not is_type_folder(Path(said[last])):
        return None
    folder, asks = Path(said[last]), given[last].default
    if asks.default is not ...:
        said[last] = asks.default
        return folder
    wanted = " ".join(name.upper() for name in before)
    hint = f"cutaway {verb} {wanted} {folder}"
    raise typer.BadParameter(f"'{folder}' is a type folder. Before it say {last.upper()}:  {hint}")
