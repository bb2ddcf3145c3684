"""What a type folder says, as frozen records with the place of everything. Names are spelled as first written."""

from dataclasses import dataclass
from typing import Literal, NewType

from cutaway.problems.span import Span, TextFile
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.which import Standard, StandardName, Which

PartName = NewType("PartName", str)
SourceKey = NewType("SourceKey", str)


# --- type.yaml ---------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Airframe:
    """A real or museum example: a standard, less the parts that are missing or disconnected."""

    name: str
    standard: StandardName
    missing: tuple[PartName, ...]
    disconnected: tuple[PartName, ...]
    says: str
    span: Span


@dataclass(frozen=True, slots=True)
class Mod:
    """A modification: its name ('mod 40'), the marks that it was fitted to, what it did."""

    name: str
    on: tuple[str, ...]
    says: str
    span: Span


@dataclass(frozen=True, slots=True)
class AircraftType:
    """The head of the folder. house_units: dimension and unit name, as the author wants readings shown."""

    name: str
    maker: str
    says: str
    marks: tuple[str, ...]
    mods: tuple[Mod, ...]
    standards: tuple[Standard, ...]
    airframes: tuple[Airframe, ...]
    house_units: tuple[tuple[str, str], ...]
    notice: str
    span: Span


# --- sources and citations ---------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Paragraph:
    """One numbered paragraph. number: '§21' or '§25a'. amended_by: the amendment that put it in, '' if original.

    page: the page of the book on which it begins, as printed or counted, '' if not known. in_file: the page of the
    scan or PDF, counted from 1, '' where it is that of the book or not known.
    """

    source: SourceKey
    number: str
    title: str
    text: str
    on: Which
    amended_by: str
    cautions: tuple[str, ...]
    span: Span
    page: str = ""
    in_file: str = ""


@dataclass(frozen=True, slots=True)
class Amendment:
    """An amendment list: 'A.L. 3', its date as printed, what it did."""

    name: str
    date: str
    says: str


@dataclass(frozen=True, slots=True)
class Source:
    """A book: its short key ('hb'), title, date as printed, rights, amendments, paragraphs in order."""

    key: SourceKey
    title: str
    date: str
    rights: str
    amendments: tuple[Amendment, ...]
    paragraphs: tuple[Paragraph, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Cite:
    """A pointer to a paragraph that exists."""

    source: SourceKey
    number: str
    span: Span

    @property
    def key(self) -> str:
        """Book and paragraph as a person writes them, 'hb §21'."""
        return f"{self.source} {self.number}"


@dataclass(frozen=True, slots=True)
class Decided:
    """Where sources conflict: what is preferred for one value of one part, and why."""

    part: PartName
    value: str
    prefer: Cite
    because: str
    span: Span


# --- parts and lines ---------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Given:
    """One value for some standards: printed in a book (cites), or assumed (because, between).

    decided: where books conflict, why this one is followed; '' where there was nothing to decide.
    """

    quantity: Quantity
    on: Which
    cites: tuple[Cite, ...]
    assumed: bool
    because: str
    between: Quantity | None
    span: Span
    decided: str = ""


@dataclass(frozen=True, slots=True)
class Value:
    """All that was said of one of the kind's quantities, over all standards; conflicts are already settled."""

    name: str
    givens: tuple[Given, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class GivenTable:
    """The rows of a table for some standards, each figure with the unit of its column."""

    rows: tuple[tuple[Quantity, ...], ...]
    on: Which
    cites: tuple[Cite, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class TableValue:
    """All that was given of one of the kind's tables, over all standards."""

    name: str
    givens: tuple[GivenTable, ...]


@dataclass(frozen=True, slots=True)
class PortRef:
    """A part and one of its ports, as the kind or the part's own list names it.

    Where the author named only the part, loading has filled in the port that was meant; `inner` is '' only where a
    coupling goes to the part as such (`driven by: engine`).
    """

    part: PartName
    inner: str
    span: Span


@dataclass(frozen=True, slots=True)
class Link:
    """One coupling given by the author: `driven by: engine`, `worked by: {throttle: below 30 %}`.

    condition: the words after the name in the long form ('below 30 %'), '' in the short form.
    """

    name: str
    target: PortRef
    condition: str
    on: Which
    span: Span


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule of movement for one control. only_when: the statement's place in the file. then: an action's place."""

    control: str
    to: str
    only_when: Span | None
    then: Span | None
    span: Span


@dataclass(frozen=True, slots=True)
class Part:
    """A part on some standards. A part of another kind on another mark is two records of one name.

    station: where it is ('cockpit, left wall'); marked: what is painted on it; hands: who works it ('pilot').
    lists: the entry's lists by name, e.g. ('ways', ('port tank', 'starboard tank')).
    """

    name: PartName
    kind: str
    system: str
    on: Which
    values: tuple[Value, ...]
    lists: tuple[tuple[str, tuple[str, ...]], ...]
    links: tuple[Link, ...]
    rules: tuple[Rule, ...]
    station: str
    marked: str
    hands: str
    says: str
    caution: str
    group: str
    cites: tuple[Cite, ...]
    span: Span
    tables: tuple[TableValue, ...] = ()


@dataclass(frozen=True, slots=True)
class Line:
    """A pipe or wire between two ports."""

    start: PortRef
    end: PortRef
    system: str
    on: Which
    cites: tuple[Cite, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class System:
    """One file of `systems/`: its name, what it is, its default source."""

    name: str
    says: str
    span: Span


@dataclass(frozen=True, slots=True)
class Group:
    """A name for several parts ('vacuum pumps')."""

    name: str
    members: tuple[PartName, ...]


# --- situations, services, drills, scripts -----------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Setting:
    """One `name: figure` or `control: position` of a situation; name and text are kept with their places.

    name: a control as networks name it ('throttle', 'engine.starter'), a condition, or a part that holds something.
    text: the position in the kind's own spelling, or the figure as written.
    """

    name: str
    name_span: Span
    text: str
    text_span: Span
    quantity: Quantity | None


@dataclass(frozen=True, slots=True)
class Situation:
    """What is set, given and started from. settle: how long the model is left alone after the settings, s."""

    name: str
    says: str
    base: str
    sets: tuple[Setting, ...]
    given: tuple[Setting, ...]
    starts: tuple[Setting, ...]
    settle: float
    span: Span


@dataclass(frozen=True, slots=True)
class Service:
    """What the crew needs; `statement` is where its statement stands in the file."""

    name: str
    statement: Span
    cites: tuple[Cite, ...]
    caution: str
    span: Span


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a drill. marks: the code spans in its text, each an action or a statement, in order."""

    number: int
    text: str
    marks: tuple[Span, ...]
    cites: tuple[Cite, ...]
    caution: str
    span: Span


@dataclass(frozen=True, slots=True)
class Drill:
    """Numbered steps that can be run. situation: where it starts. on: the standards it is for."""

    name: str
    title: str
    situation: str
    on: Which
    steps: tuple[Step, ...]
    cites: tuple[Cite, ...]
    span: Span


MarkSort = Literal["introduces", "promise", "settles", "show", "call-out"]


@dataclass(frozen=True, slots=True)
class Mark:
    """What a code span behind a sentence says of it: `promise: the battery`. words: those after the colon."""

    sort: MarkSort
    words: str
    span: Span


@dataclass(frozen=True, slots=True)
class Sentence:
    """One spoken sentence. text: as read aloud, without marks. claims: one span a line of the claim block under it.

    aside: history, opinion, advice, greeting. cites: the paragraphs it reports. paragraph: counts the paragraphs.
    marks: what else is said of it behind it, for the script desk.
    """

    text: str
    chapter: str
    paragraph: int
    claims: tuple[Span, ...]
    cites: tuple[Cite, ...]
    aside: bool
    span: Span
    marks: tuple[Mark, ...] = ()


@dataclass(frozen=True, slots=True)
class Script:
    """One film, talk or article. name: the file's name without its ending."""

    name: str
    title: str
    sentences: tuple[Sentence, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Term:
    """One entry of the glossary. said_as: how it is read aloud, '' if as written. also: other words for it.

    simply: the meaning for a reader who is new to the trade, '' where one reading level serves.
    """

    name: str
    meaning: str
    said_as: str
    also: tuple[str, ...]
    introduced: str
    cites: tuple[Cite, ...]
    span: Span
    simply: str = ""


@dataclass(frozen=True, slots=True)
class Pronounced:
    """How a name or a word is read aloud in this project, where the general rules would say it otherwise."""

    written: str
    said_as: str
    span: Span


@dataclass(frozen=True, slots=True)
class Letter:
    """What a reader or viewer objected to, and what was decided.

    film: the script of the film, '' where none is named; at: the moment in it, s, None where none is given. page,
    panel: where else it stands, as the writer says it. favour, against: the paragraphs that speak for the sentence and
    against it. reply: the author's own draft, '' where one is to be made from the rest.
    """

    name: str
    objects_to: str
    says: str
    decision: str
    because: str
    cites: tuple[Cite, ...]
    span: Span
    who: str = ""
    date: str = ""
    film: str = ""
    at: float | None = None
    page: str = ""
    panel: str = ""
    favour: tuple[Cite, ...] = ()
    against: tuple[Cite, ...] = ()
    reply: str = ""


# --- photographs and charts --------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Point:
    """A place on a photograph. name: the part or group, or any words. parts: those that it shows, () where it is none.

    at: from the left and from the top as shares of the upright picture. side: the margin of its label, '' for either;
    'over' for a label that lies on the photograph itself.
    """

    name: str
    parts: tuple[PartName, ...]
    at: tuple[float, float]
    says: str
    side: Literal["", "left", "right", "over"]
    span: Span


@dataclass(frozen=True, slots=True)
class Photograph:
    """A photograph of the author's own. file: its path in the folder. size: pixels of the upright picture.

    rights: '' where nobody has said, in which case it is for drafts only. station: the place that it shows.
    """

    name: str
    file: str
    size: tuple[int, int]
    says: str
    credit: str
    rights: str
    taken: str
    station: str
    on: Which
    points: tuple[Point, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class AskedChart:
    """A chart that the author asks for: readings of one run against time. All but `name` are places in the file.

    on: the standards or airframes that are shown, one chart each. failed: what stands behind 'with', each by itself.
    """

    name: str
    says: str
    situation: Span
    on: Which | None
    failed: tuple[Span, ...]
    do: Span | None
    show: tuple[Span, ...]
    length: Quantity
    span: Span


@dataclass(frozen=True, slots=True)
class AskedExplorable:
    """A page to be explored that the author asks for. All but `name` and `says` are as written, each with its place.

    on: the standard or airframe, '' for the first. controls: those that are moved, none for those that matter most.
    settle: how long things settle after a movement, None for the usual. states: how many the page has at most, 0 for
    the usual. The last four: where what was written stands, None where nothing was.
    """

    name: str
    says: str
    system: str
    on: str
    situation: str
    controls: tuple[str, ...]
    settle: Quantity | None
    states: int
    span: Span
    system_at: Span | None = None
    on_at: Span | None = None
    situation_at: Span | None = None
    controls_at: tuple[Span, ...] = ()


# --- sheets ------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A part that a sheet does not show, and why."""

    part: PartName
    because: str


@dataclass(frozen=True, slots=True)
class AskedMoment:
    """A moment of a run at which a sheet is drawn. number: s from the first of what is done, or the number of the step
    that is just done."""

    sort: Literal["before", "time", "step", "settled"]
    number: float
    span: Span


@dataclass(frozen=True, slots=True)
class SheetRun:
    """What is run on a sheet that shows moments. All but `situation`, `drill` and `moments` are places in the file.

    drill: the name of the drill that is gone through, '' for none. failed: what stands behind 'with', each by itself.
    moments: () for those that are usual for a drill.
    """

    situation: str
    drill: str
    failed: tuple[Span, ...]
    do: Span | None
    moments: tuple[AskedMoment, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet of the author's own. systems, parts: what it shows, of which `left_out` is not shown.

    on: the standards and airframes that it is drawn for. shape: of its page, '' for one that suits a screen.
    columns: parts from left to right, those of a column from top to bottom. folded: in rows, like lines of writing.
    stations: whether these are shown. situations: those that it is drawn in, () for all. run: what is run on it, where
    it is drawn at moments of a run and not as a situation settles.
    """

    name: str
    says: str
    systems: tuple[str, ...]
    parts: tuple[PartName, ...]
    left_out: tuple[LeftOut, ...]
    on: Which
    shape: str
    folded: bool
    stations: bool
    columns: tuple[tuple[PartName, ...], ...]
    situations: tuple[str, ...]
    span: Span
    run: SheetRun | None = None


HandoutKind = Literal["visitor", "large", "booklet"]


@dataclass(frozen=True, slots=True)
class AskedHandout:
    """A handout that the pack is to have. name: '' for the usual one of a folder that asks for none.

    kinds, papers: one file for each of both. on: the standards and airframes that it is for, one file each; None for
    the one that the scripts show. system, situation: '' for those that the scripts show.
    """

    name: str
    kinds: tuple[HandoutKind, ...]
    papers: tuple[str, ...]
    system: str
    on: Which | None
    situation: str
    span: Span | None


@dataclass(frozen=True, slots=True)
class Lost:
    """A part or a line of systems/ that was written and is left out for a mistake. name: as it is spoken of. kind: the
    part's, '' if not known. joins: the parts, kept, that it would have been joined to so that it acts on them."""

    name: str
    kind: str
    joins: tuple[PartName, ...]


# --- the whole ---------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Folder:
    """A loaded type folder. left_out: names of things that were written but could not be used, in lower case. lost:
    the parts and lines among them. unread: the files of systems/ that could not be read at all."""

    root: str
    type: AircraftType
    sources: tuple[Source, ...]
    decided: tuple[Decided, ...]
    systems: tuple[System, ...]
    parts: tuple[Part, ...]
    lines: tuple[Line, ...]
    groups: tuple[Group, ...]
    situations: tuple[Situation, ...]
    services: tuple[Service, ...]
    drills: tuple[Drill, ...]
    scripts: tuple[Script, ...]
    glossary: tuple[Term, ...]
    letters: tuple[Letter, ...]
    files: tuple[TextFile, ...]
    left_out: frozenset[str]
    pronounced: tuple[Pronounced, ...] = ()
    photographs: tuple[Photograph, ...] = ()
    charts: tuple[AskedChart, ...] = ()
    sheets: tuple[Sheet, ...] = ()
    explorables: tuple[AskedExplorable, ...] = ()
    handouts: tuple[AskedHandout, ...] = ()
    lost: tuple[Lost, ...] = ()
    unread: tuple[str, ...] = ()


def parts_on(folder: Folder, standard: StandardName) -> tuple[Part, ...]:
    """The parts that one standard has, in the order of the files."""
    return tuple(part for part in folder.parts if standard in part.on.names)


def lines_on(folder: Folder, standard: StandardName) -> tuple[Line, ...]:
    """The lines that one standard has."""
    return tuple(line for line in folder.lines if standard in line.on.names)


def given_on(part: Part, name: str, standard: StandardName) -> Given | None:
    """What was said of one quantity of a part for one standard, or None where nothing was."""
    for value in part.values:
        if value.name == name:
            for given in value.givens:
                if standard in given.on.names:
                    return given
    return None


def table_on(part: Part, name: str, standard: StandardName) -> GivenTable | None:
    """The table of that name that was given for one standard, or None where none was."""
    for table in part.tables:
        if table.name == name:
            for given in table.givens:
                if standard in given.on.names:
                    return given
    return None


def paragraph(folder: Folder, cite: Cite) -> Paragraph | None:
    """The paragraph that a citation points at."""
    for source in folder.sources:
        if source.key == cite.source:
            for one in source.paragraphs:
                if one.number == cite.number:
                    return one
    return None
