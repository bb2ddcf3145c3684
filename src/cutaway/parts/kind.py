"""The shape of a kind's declaration: what an author can write about such a part and what can be asked of it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Literal

from cutaway.parts.recipe import Medium, Recipe
from cutaway.quantities.quantity import Dimension

Side = Literal["west", "east", "north", "south"]


@dataclass(frozen=True, slots=True)
class Port:
    """Where a line joins the part. side: on which side of the symbol it stands.

    each: the name of a list in the entry (`ways`) that gives one such port for each of its items, named after it.
    default: 'in' or 'out' where `a > part > b` means this port; a part with one port has it for both.
    medium None: takes the medium of what it is joined to.
    """

    name: str
    medium: Medium | None
    side: Side
    default: Literal["", "in", "out", "both"] = ""
    each: str = ""


@dataclass(frozen=True, slots=True)
class Control:
    """Something that the crew moves. name '' is the part's only control, spoken of by the part's own name.

    positions: its named positions in order; the first is where it is left when nothing is said. each: a list in the
    entry whose items are further positions after those given. ranged: moves through a range, 0 % to 100 %; positions
    then name points of it. points: where those stand, 0 to 1; evenly where nothing is said. springs_back: returns to
    its first position when let go.
    """

    name: str
    positions: tuple[str, ...] = ()
    each: str = ""
    ranged: bool = False
    springs_back: bool = False
    points: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Want:
    """A quantity of the part.

    default and between are spelled as an author would spell them; default '' means that it must be given.
    says: what it is, a sentence. because: why the default is what it is ('engineering judgement', a source).
    least, below: what can be at all; a part with any other figure cannot be made. usual: the range
    outside which a given figure looks like a slip, where that is not `between`.
    """

    name: str
    dimension: Dimension
    says: str
    default: str = ""
    between: str = ""
    because: str = ""
    datum: Literal["", "gauge", "absolute"] = ""
    least: Literal["above nought", "nought", "any"] = "above nought"
    below: str = ""
    usual: str = ""


@dataclass(frozen=True, slots=True)
class Order:
    """Two quantities of one kind of which the first must lie below the second, or such a part cannot work.

    says: why, a sentence. alike: whether they may be the same. share: how much of the second the first may be at most.
    """

    lower: str
    upper: str
    says: str
    alike: bool = False
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class Either:
    """Two quantities of a kind of which an author gives one or the other on a standard. says: why, a sentence."""

    one: str
    other: str
    says: str


@dataclass(frozen=True, slots=True)
class Level:
    """What a figure of a part means for the pressure where the part is joined, so that figures of several parts that
    defeat one another can be told.

    sort: 'needs' (the pressure must come above it, or something never happens), 'holds' (a valve that opens there: the
    pressure hardly goes above it), 'limits' (the part passes on what comes up to it and no more) or 'gives' (the part
    by itself puts the pressure up to it). quantity: the figure. at: the port, or the coupling that names one. does:
    what the part does at the figure, words that end before it. never: what may never happen, of 'needs' alone.
    suction: whether it is one. per: pressure for one SI unit of the quantity, where that is no pressure.
    """

    sort: Literal["needs", "holds", "limits", "gives"]
    quantity: str
    at: str
    does: str
    never: str = ""
    suction: bool = False
    per: float = 1.0


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table that an author may give: its name, what it measures, and on which datum a pressure is."""

    name: str
    dimension: Dimension
    datum: Literal["", "gauge", "absolute"] = ""


@dataclass(frozen=True, slots=True)
class TableWant:
    """A table that an author may give: rows of figures under columns, the last of which depends on the others.

    The last must never fall where none of the others falls: a table that does is refused.
    """

    name: str
    says: str
    columns: tuple[Column, ...]


@dataclass(frozen=True, slots=True)
class Coupling:
    """How the part is tied to another across media: `driven by: engine`, `senses: carburettor.inlet`, `works: horn`.

    to 'signals': the other part's signals can be used (`Signal(name, of=coupling)`). to 'node': names a port whose
    across value is used (`Across(coupling name)`). to 'port': joins this part's port `port` to a port of the other
    (`fed by: instrument bus`). needs: signals that the other part must have. back: the name of a coupling under which
    the other part then sees this one, without the author saying so ('engine' for `fuel from: carburettor`). media: what
    the port that a 'node' names may carry; any where it is empty. alone: the other part serves only one so tied, though
    it does not see it (the supercharger of an engine).
    """

    name: str
    to: Literal["signals", "node", "port"]
    says: str
    required: bool = False
    port: str = ""
    needs: tuple[str, ...] = ()
    back: str = ""
    media: tuple[Medium, ...] = ()
    alone: bool = False


@dataclass(frozen=True, slots=True)
class State:
    """Something that is so or not, said with 'is' or 'are' ('lit', 'down', 'running').

    signal: the recipe's signal that is above 0.5 when it is so. opposite: the word for its not being so ('out').
    means, otherwise: what its being so does, and its not being so, in a few words for a drawing; '' where the word says
    enough.
    """

    words: str
    signal: str
    opposite: str = ""
    means: str = ""
    otherwise: str = ""


@dataclass(frozen=True, slots=True)
class Reading:
    """A number that can be asked of the part. main: meant when the part alone is named ('fuel gauge reads 3 lb/sq in').

    signal: the recipe's signal, in SI. unit: the unit in which it is shown when the type folder says nothing.
    alive: a signal above 0.5 while the instrument works; a dead instrument has no reading.
    """

    name: str
    dimension: Dimension
    signal: str
    unit: str
    main: bool = False
    alive: str = ""
    datum: Literal["", "gauge", "absolute"] = ""


@dataclass(frozen=True, slots=True)
class Failure:
    """Something that can go wrong: 'seized', 'choked'. says: what it then does, a sentence."""

    name: str
    says: str


@dataclass(frozen=True, slots=True)
class Content:
    """What an author may set in a situation's `start:`, e.g. a tank's contents or a jack's travel.

    element: the recipe's element whose content it is. per: SI content for one SI unit of the quantity (1 where they
    are the same); full: the quantity that sets the most it can hold, '' if none. held_at: the content for a value of
    the quantity and the part's figures, all SI, where the two are not the same (a bottle filled to a pressure); `full`
    is then a limit on the quantity.
    """

    dimension: Dimension
    element: str
    full: str = ""
    held_at: Callable[[float, Mapping[str, float]], float] | None = None


@dataclass(frozen=True, slots=True)
class Fit:
    """What `build` is given: the part as it stands on one standard, in SI.

    si: the value of each `Want` by name. lists: the entry's lists by name (`ways`). coupled: the names of the
    couplings that the author gave. medium: the medium that a `medium=None` port took. tables: the rows of each table
    that was given, by name.
    """

    si: Mapping[str, float]
    lists: Mapping[str, tuple[str, ...]]
    coupled: frozenset[str]
    medium: Medium | None = None
    tables: Mapping[str, tuple[tuple[float, ...], ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Example:
    """A worked example of a kind: a small network that runs, and what is true of it.

    parts, lines: as in a file of systems/, one part or run a line. claims: on the kind's page and put to the network
    by a test; every one must hold. There should be one for normal work and one for each failure that matters.
    """

    parts: str
    claims: tuple[str, ...]
    lines: str = ""


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of part. families: the law families it is made of, for the reference page; a test compares them with
    what `build` uses. caution: carried to every sentence, sheet and step that shows the part. example: shown on the
    kind's page and worked by a test. indicates: whether the crew sees or hears what it does (a lamp, a gauge, a horn).
    orders: which of its quantities must lie below which. either: of which of them one alone is given.
    levels: what its figures mean for the pressure where it is joined.
    """

    name: str
    says: str
    ports: tuple[Port, ...]
    build: Callable[[Fit], Recipe]
    controls: tuple[Control, ...] = ()
    wants: tuple[Want, ...] = ()
    couplings: tuple[Coupling, ...] = ()
    states: tuple[State, ...] = ()
    readings: tuple[Reading, ...] = ()
    failures: tuple[Failure, ...] = ()
    contents: tuple[Content, ...] = ()
    lists: tuple[str, ...] = ()
    families: tuple[str, ...] = ()
    caution: str = ""
    example: Example | None = None
    tables: tuple[TableWant, ...] = ()
    indicates: bool = False
    orders: tuple[Order, ...] = ()
    either: tuple[Either, ...] = ()
    levels: tuple[Level, ...] = ()
