"""Settings of situations that say nothing on some standards, since those do not have what is set."""

from collections.abc import Iterator

from cutaway.handbook.records import Folder, Part, Setting
from cutaway.problems.span import place
from cutaway.wording.verdicts import listed


def idle_settings(folder: Folder) -> Iterator[str]:
    """A line for each, with its place: a situation is of all standards, and each leaves out what it has not."""
    every = tuple(one.name for one in folder.type.standards)
    for situation in folder.situations:
        for setting in situation.sets:
            on = {name for part in _set_by(setting, folder) for name in part.on.names}
            without = tuple(str(name) for name in every if name not in on)
            if on and without:
                where = f"{setting.name_span.file.path}:{place(setting.name_span).line}"
                have = "have" if len(without) > 1 else "has"
                name = setting.name.replace(".", " ")
                told = f"'{situation.name}' sets the {name}, which {listed(without)} {have} not"
                yield f"{where}  {told}; it says nothing there."


def _set_by(setting: Setting, folder: Folder) -> tuple[Part, ...]:
    """The part whose control is set, as it is on its several standards."""
    return tuple(one for one in folder.parts if setting.name == one.name or setting.name.startswith(f"{one.name}."))
