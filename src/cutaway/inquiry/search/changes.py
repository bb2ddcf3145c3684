"""What a question may change: positions, failures, given conditions, assumed values."""

from dataclasses import dataclass

from cutaway.machine.bind import ControlSlot

Thing = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Put:
    """A control stands elsewhere. value: its input's, from the end of the situation on. words: the position. instead:
    of a control that the scope's own actions move, where they put it; in its stead they put it here, or, where it stood
    here before, leave it alone."""

    part: str
    control: str
    input: str
    value: float
    words: str
    instead: str = ""

    @property
    def thing(self) -> Thing:
        """What is altered: a set alters each thing once."""
        return ("control", self.input)


@dataclass(frozen=True, slots=True)
class Break:
    """Something has gone wrong with a part."""

    part: str
    failure: str
    input: str

    @property
    def thing(self) -> Thing:
        """What is altered. A part may have two things wrong with it, but not the same twice."""
        return ("failure", self.input)


@dataclass(frozen=True, slots=True)
class Give:
    """A condition of the world, or what a store holds, is otherwise. part: '' for a condition. si: the value; words:
    as it is told."""

    part: str
    name: str
    si: float
    words: str

    @property
    def thing(self) -> Thing:
        """What is altered."""
        return ("given", self.part or self.name)


@dataclass(frozen=True, slots=True)
class Assume:
    """An assumed value is at another place of its range. key: part and name of the value."""

    part: str
    value: str
    si: float
    words: str

    @property
    def thing(self) -> Thing:
        """What is altered."""
        return ("assumed", f"{self.part} {self.value}")


Alteration = Put | Break | Give | Assume
ChangeSet = frozenset[Alteration]


def in_words(one: Alteration) -> str:
    """An alteration as a list of them would have it: 'tank selector at off', 'engine pump seized'."""
    match one:
        case Put(part=part, control=control, words=words):
            return f"{part}{' ' + control if control else ''} at {words}{' instead' if one.instead else ''}"
        case Break(part=part, failure=failure):
            return f"{part} {failure}"
        case Give(part=part, name=name, words=words):
            return f"{part or name} {words}"
        case Assume(part=part, value=value, words=words):
            return f"{value} of {part} {words}"


def put(slot: ControlSlot, value: float, words: str) -> Put:
    """A control elsewhere."""
    return Put(str(slot.part), slot.control, slot.input, value, words)
