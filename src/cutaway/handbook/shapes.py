"""The shapes of the simple files, as pydantic models: which keys an entry has, which must be there, of what form.

These stand at the door only. They look at shape; what the words mean is read by the file's own reader, with places.
The JSON Schema for editors is made from the same models.
"""

from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field


def _as_list(value: Any) -> Any:
    return [value] if isinstance(value, str) else value


def _not_blank(value: str) -> str:
    if not value.strip():
        raise ValueError("blank")
    return value


Text = Annotated[str, Field(description="Words.")]
Said = Annotated[str, AfterValidator(_not_blank)]
Texts = Annotated[list[str], BeforeValidator(_as_list)]
On = Annotated[list[str] | str, Field(description="The standards it belongs to: 'Mk 1', 'Mk 2 to Mk 4', 'not Mk 1'.")]
Cites = Annotated[list[str] | str, Field(description="Paragraphs: '§21', 'hb §21', or a list of them.")]


class Shape(BaseModel):
    """The base of all shapes: no key but those named."""

    model_config = ConfigDict(extra="forbid", strict=True, populate_by_name=False)


class ModShape(Shape):
    """A modification."""

    fitted_to: Texts = Field(default_factory=list, alias="fitted to", description="The marks it was fitted to.")
    says: Text = Field("", description="What it did.")


class AirframeShape(Shape):
    """A real or museum example."""

    standard: Said = Field(description="The standard it was built to, one of the standards of the type.")
    missing: Texts = Field(default_factory=list, description="Parts that it has not.")
    disconnected: Texts = Field(default_factory=list, description="Parts that are there but joined to nothing.")
    says: Text = Field("", description="What it is and where.")


class TypeShape(Shape):
    """type.yaml: the head of the folder."""

    name: Said = Field(description="The name of the type.")
    maker: Text = ""
    says: Text = ""
    notice: Text = Field("", description="The notice that every page of the pack carries.")
    marks: Texts = Field(default_factory=list, description="The marks, in order.")
    mods: dict[str, Any] = Field(default_factory=dict, description="The modifications by name.")
    standards: Texts = Field(default_factory=list, description="Marks with their mods, each judged by itself.")
    airframes: dict[str, Any] = Field(default_factory=dict, description="Real examples by name.")
    house_units: dict[str, str] = Field(
        default_factory=dict, alias="house units", description="Dimension and unit, as readings are shown."
    )


class DecidedShape(Shape):
    """One entry of decided.yaml: which of two books, or paragraphs, is followed."""

    part: Said
    value: Said = Field(description="The quantity, as the part's entry names it.")
    prefer: Said = Field(description="The paragraph that is followed.")
    because: Said


class SystemShape(Shape):
    """The head of a file of systems/."""

    system: Said = Field(description="The name of the system.")
    says: Text = ""
    source: Text = Field("", description="The source that a bare § cites.")
    parts: Any = None
    lines: Any = None


class RunShape(Shape):
    """A line in its long form."""

    run: Said = Field(description="Parts with > between them.")
    on: On = ""
    cite: Cites = ""
    for_each: Any = Field(None, alias="for each")


class RuleShape(Shape):
    """A rule of movement for a control."""

    to: Said = Field(description="The position that the rule is about.")
    control: Text = Field("", description="Which control, where the part has several.")
    only_when: Text = Field("", alias="only when", description="A statement without which it cannot be moved there.")
    then: Text = Field("", description="What moves with it.")


class AssumedShape(Shape):
    """A value that no book gives."""

    assume: Said = Field(description="The value that is assumed.")
    between: Said = Field(default="", description="The range in which it may lie: 'a to b unit'.")
    because: Said = Field(description="Why this value.")
    on: On = ""


class GivenShape(Shape):
    """A value that a book gives."""

    is_: Said = Field(alias="is", description="The value with its unit.")
    on: On = ""
    cite: Cites = ""


class SituationsShape(Shape):
    """situations.yaml."""

    situations: dict[str, Any]


class SituationShape(Shape):
    """One situation."""

    says: Text = ""
    from_: Text = Field("", alias="from", description="The situation that this one goes on from.")
    set: dict[str, str] = Field(default_factory=dict, description="Controls and their positions.")
    given: dict[str, str] = Field(default_factory=dict, description="Height, airspeed, temperature, load factor.")
    settle: Text = Field("", description="How long the model is left alone after that.")
    start: dict[str, str] = Field(default_factory=dict, description="Contents to begin with.")


class ServicesShape(Shape):
    """services.yaml."""

    services: dict[str, Any]


class ServiceShape(Shape):
    """One service in its long form."""

    is_: Said = Field(alias="is", description="The statement that is true while the service is there.")
    cite: Cites = ""
    caution: Text = ""


class GlossaryShape(Shape):
    """glossary.yaml."""

    terms: dict[str, Any]
    pronounced: dict[str, str] = Field(
        default_factory=dict, description="Names and words that are no terms, and how they are read aloud."
    )


class TermShape(Shape):
    """One term."""

    means: Said
    simply: Text = Field("", description="The same for a reader who is new to the trade.")
    said_as: Text = Field("", alias="said as", description="How it is read aloud.")
    also: Texts = Field(default_factory=list, description="Other words for the same.")
    introduced: Text = Field("", description="The script that first explains it.")
    cite: Cites = ""


class LettersShape(Shape):
    """letters.yaml."""

    letters: dict[str, Any]


class LetterShape(Shape):
    """What someone objected to."""

    objects_to: Said = Field(alias="objects to", description="The sentence objected to.")
    says: Text = Field("", description="What the writer says.")
    from_: Text = Field("", alias="from", description="Who wrote, as the reply is to name them.")
    date: Text = Field("", description="When it came.")
    film: Text = Field("", description="The script of the film that it is about, by its file's name.")
    at: Text = Field("", description="The moment in the film: 2:10.")
    page: Text = Field("", description="The page of the manuscript or the handout.")
    panel: Text = Field("", description="The panel or drawing.")
    for_: Cites = Field("", alias="for", description="Paragraphs that speak for the sentence.")
    against: Cites = Field("", description="Paragraphs that speak against the sentence.")
    decision: Text = Field("", description="What was decided. Without it the letter is open.")
    because: Text = Field("", description="Why.")
    reply: Text = Field("", description="The reply in your own words; without it one is drafted.")
    cite: Cites = ""


class PointShape(Shape):
    """A place on a photograph, named by the part that is there or by any words."""

    at: list[str] | str = Field(description="From the left and from the top: [31 %, 42 %], or [620, 410] in pixels.")
    says: Text = Field("", description="What is said of it beside its name; must be there where it is no part.")
    side: Literal["left", "right", "over", ""] = Field(
        "", description="The margin of its label, or 'over' for one on the photograph; else where there is room."
    )


class PhotographShape(Shape):
    """A photograph of one's own."""

    file: Said = Field(description="The picture's place in the folder: photographs/cockpit.jpg.")
    says: Text = Field("", description="What is to be seen, for those who cannot see it.")
    credit: Text = Field("", description="Whose picture it is, as it is to be printed.")
    rights: Text = Field("", description="By what right it is shown. Without it the picture is for drafts only.")
    taken: Text = Field("", description="When, and where.")
    station: Text = Field("", description="The place that it shows, as 'at' of the parts has it.")
    on: On = Field("", description="The standards or the airframe that it shows: 'Mk 1', 'W-17'.")
    points: dict[str, Any] = Field(default_factory=dict, description="What is pointed at.")


class PhotographsShape(Shape):
    """photographs.yaml: one's own photographs, and what is pointed at."""

    photographs: dict[str, Any] = Field(default_factory=dict)


class ChartShape(Shape):
    """A chart: readings of one run against time."""

    says: Text = Field("", description="What it is to show, a sentence.")
    in_: Said = Field(alias="in", description="The situation in which it begins.")
    on: On = Field("", description="The standards or airframes, a chart each; else the first standard.")
    with_: Texts = Field(default_factory=list, alias="with", description="What has failed, or a condition.")
    do: Text = Field("", description="What is done: 'flap lever to down then wait 5 s'.")
    show: Texts = Field(description="Readings, parts or controls: [accumulator pressure, flap lever].")
    for_: Text = Field("60 s", alias="for", description="How long it goes on.")


class ChartsShape(Shape):
    """charts.yaml: the charts that are asked for."""

    charts: dict[str, Any] = Field(default_factory=dict)


class ExplorableShape(Shape):
    """A page on which controls are moved and the sheet answers."""

    says: Text = Field("", description="A sentence for its reader.")
    system: Text = Field(description="The system whose sheet answers.")
    on: Text = Field("", description="The standard or airframe; else the first.")
    in_: Text = Field(alias="in", description="The situation in which it begins.")
    move: Texts = Field(default_factory=list, description="The controls that are moved; else those that matter most.")
    settle: Text = Field("", description="How long things settle after each movement: 30 s; else as the situation.")
    states: Text = Field("", description="How many settled states the page has at most; else 150.")


class ExploreShape(Shape):
    """explore.yaml: the pages to be explored."""

    explore: dict[str, Any] = Field(default_factory=dict)


class LeftOutShape(Shape):
    """A part that a sheet does not show."""

    part: Said = Field(description="A part, or a group of parts.")
    because: Said = Field(description="Why it is not shown.")


class SheetShape(Shape):
    """A sheet of one's own: what it shows, and how it is laid out."""

    sheet: Said = Field(description="Its name, which stands above it.")
    says: Text = Field("", description="A sentence below its name.")
    system: Texts = Field(default_factory=list, description="The system that it shows, or several.")
    parts: Texts = Field(default_factory=list, description="Parts or groups that it shows, besides its systems.")
    leave_out: Any = Field(None, alias="leave out", description="Parts that it does not show, each with the reason.")
    on: On = ""
    in_: Texts = Field(default_factory=list, alias="in", description="The situations that it is drawn in; else all.")
    with_: Texts = Field(default_factory=list, alias="with", description="What has failed or is given.")
    do: Text = Field("", description="What is done, as in a drill: its moments are then drawn.")
    drill: Text = Field("", description="The drill that is gone through, in place of 'in' and 'do'.")
    at: Texts = Field(default_factory=list, description="Moments of the run: before, 5 s, step 3, settled.")
    shape: Literal["", "16:9", "A4", "A4 upright", "square"] = Field("", description="The shape of its page.")
    folded: Literal["yes", "no"] = Field("no", description="Whether a long flow is broken into rows.")
    stations: Literal["yes", "no"] = Field("yes", description="Whether it shows where the parts are fitted.")
    columns: Any = Field(None, description="Lists of parts, from left to right; those of one list from top to bottom.")


class HandoutsShape(Shape):
    """handouts.yaml: what the pack has on paper."""

    paper: Texts = Field(default_factory=list, description="A4 or Letter, or both, where a handout does not say.")
    handouts: Any = Field(None, description="The handouts by name; without it the usual two.")


class HandoutShape(Shape):
    """A handout that is wanted."""

    kind: Texts = Field(default_factory=list, description="visitor, large or booklet, or several; else visitor.")
    paper: Texts = Field(default_factory=list, description="A4 or Letter, or both.")
    system: Text = Field("", description="The system that it shows; else the first that the scripts show.")
    on: On = ""
    in_: Text = Field("", alias="in", description="The situation; else as the scripts show it.")


class SourceHeadShape(Shape):
    """The head of a source, between lines of ---."""

    title: Text = ""
    date: Text = ""
    rights: Text = ""
    amendments: dict[str, Any] = Field(default_factory=dict)


class AmendmentShape(Shape):
    """An amendment list."""

    date: Text = ""
    says: Text = ""


class ParagraphHeadShape(Shape):
    """The braces under a paragraph's heading."""

    on: On = ""
    amendment: Text = ""
    page: Text = Field("", description="The page of the book on which the paragraph begins.")
    in_file: Text = Field("", alias="in file", description="The page of the scan or PDF, counted from 1.")


class DrillHeadShape(Shape):
    """The head of a drill."""

    title: Text = ""
    from_: Said = Field(alias="from", description="The situation in which it begins.")
    on: list[str] | str = Field("", description="The standards or airframes it is for: 'Mk 1', 'not Mk 1', 'W-17'.")
    cite: Cites = ""


class ScriptHeadShape(Shape):
    """The head of a script."""

    title: Text = ""
