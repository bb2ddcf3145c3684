"""The links of a chain of cause: a closed set of records, each with the paragraphs of its part."""

from dataclasses import dataclass

from cutaway.handbook.records import Cite


@dataclass(frozen=True, slots=True)
class Step:
    """A part on a path. setting: how it stands there ('on', 'port tank', 'made'), '' where it has no say. failure: what
    is wrong with it, '' if nothing."""

    part: str
    setting: str = ""
    failure: str = ""


@dataclass(frozen=True, slots=True)
class Is:
    """A part is in a state: 'the engine is running'."""

    part: str
    state: str
    cites: tuple[Cite, ...]


@dataclass(frozen=True, slots=True)
class Reads:
    """A value against the limit that decides. what: where it is read ('carburettor inlet'). above: whether it is.
    becomes: the state that the part comes to at that limit ('starved'), '' where the limit alone does not say so."""

    part: str
    what: str
    value: float
    limit: float
    dimension: str
    datum: str
    above: bool
    cites: tuple[Cite, ...]
    becomes: str = ""


@dataclass(frozen=True, slots=True)
class Fed:
    """Something comes to a part from a supply, by way of steps in the order of the flow. medium: what comes. drawn:
    the supply draws instead of giving (a vacuum pump), and the steps lead to it."""

    part: str
    supply: str
    steps: tuple[Step, ...]
    medium: str
    drawn: bool
    cites: tuple[Cite, ...]


@dataclass(frozen=True, slots=True)
class Other:
    """Another supply than the nearest, and what shuts the way to it alone; none where it gives nothing itself."""

    supply: str
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Cut:
    """Nothing comes to a part: `steps` shut the way to the nearest supply; none of them where the supply gives
    nothing. others: the other supplies that could give it."""

    part: str
    supply: str
    steps: tuple[Step, ...]
    medium: str
    drawn: bool
    cites: tuple[Cite, ...]
    others: tuple[Other, ...] = ()


@dataclass(frozen=True, slots=True)
class Unjoined:
    """No way leads to a part from any supply. lines: whether a line leads to it at all."""

    part: str
    medium: str
    drawn: bool
    lines: bool
    cites: tuple[Cite, ...]


@dataclass(frozen=True, slots=True)
class Tied:
    """A part goes as another does. by: the coupling's name ('driven by'). state: how the other is ('running')."""

    part: str
    by: str
    to: str
    state: str
    cites: tuple[Cite, ...]


@dataclass(frozen=True, slots=True)
class Stands:
    """A control stands somewhere. control: its name with its part."""

    control: str
    position: str
    cites: tuple[Cite, ...]


@dataclass(frozen=True, slots=True)
class Broken:
    """Something is wrong with a part. says: what that does."""

    part: str
    failure: str
    says: str
    cites: tuple[Cite, ...]


@dataclass(frozen=True, slots=True)
class Holds:
    """What a store holds, SI. full: the most it can hold, None where that is not known."""

    part: str
    content: float
    dimension: str
    cites: tuple[Cite, ...]


@dataclass(frozen=True, slots=True)
class Charged:
    """What a bottle or another store has in it is there from the beginning, or was never put there. given: whether the
    situation says how much. supply: what else gives to it, '' where nothing does; steps: the way from there, in the
    order of the flow."""

    part: str
    given: bool
    empty: bool
    cites: tuple[Cite, ...]
    supply: str = ""
    steps: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True)
class Unmoved:
    """Nothing pushes a piston: it stays where it was."""

    part: str
    cites: tuple[Cite, ...]


@dataclass(frozen=True, slots=True)
class Same:
    """It is so at a part for the same reason as at another, of which it has been told."""

    part: str
    to: str
    cites: tuple[Cite, ...]


@dataclass(frozen=True, slots=True)
class Lasts:
    """A part is still as it was, since what would make it otherwise has not lasted so long yet. called: the name of
    that time among the values of its kind ('starving time'), '' where it has none. seconds: how long it is."""

    part: str
    called: str
    seconds: float
    cites: tuple[Cite, ...]


@dataclass(frozen=True, slots=True)
class Given:
    """A condition of the world, SI."""

    name: str
    value: float


Link = Is | Reads | Fed | Cut | Unjoined | Tied | Stands | Broken | Holds | Charged | Unmoved | Same | Lasts | Given
