"""What can be said: scopes, actions and statements as frozen records, with names resolved in the folder.

Every name in these records is the folder's own spelling; a name that does not resolve never gets this far.
"""

from dataclasses import dataclass
from typing import Literal

from cutaway.handbook.records import PartName
from cutaway.problems.span import Span
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.which import Which

# --- what is done --------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class ControlRef:
    """A control: a part, and its control's name ('' for the only one)."""

    part: PartName
    control: str


@dataclass(frozen=True, slots=True)
class Move:
    """Put a control to a position. level: 0..1 for one that moves through a range ('throttle to 60 %').

    held: how long before it goes back to where it was ('for 20 s'), None if it stays. through: how many of the actions
    that follow it are done before it goes back ('bolt to held aside while lever to up').
    """

    control: ControlRef
    position: str
    level: float | None
    held: float | None
    span: Span
    through: int = 0


@dataclass(frozen=True, slots=True)
class Wait:
    """Let time pass, s."""

    seconds: float
    span: Span


Action = Move | Wait

# --- what has failed, what is given ----------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class FailureRef:
    """One thing that can go wrong with one part."""

    part: PartName
    failure: str


@dataclass(frozen=True, slots=True)
class FailureChoice:
    """'with A failed' (one option), or 'with any of the vacuum pumps failed': each option is tried by itself."""

    options: tuple[FailureRef, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Condition:
    """'with height 8000 ft', 'with accumulator at 600 to 800 lb/sq in'. part '' for a condition of the world."""

    part: str
    name: str
    quantity: Quantity
    span: Span


@dataclass(frozen=True, slots=True)
class Held:
    """'with throttle at closed': a control put somewhere before the situation's actions."""

    control: ControlRef
    position: str
    level: float | None
    span: Span


# --- when ------------------------------------------------------------------------------------------------------

WhenKind = Literal["settled", "within", "throughout", "at", "never", "takes"]


@dataclass(frozen=True, slots=True)
class When:
    """When the statement is to be true. first, second: s; 'takes' has both, 'within' 'throughout' 'at' one.

    'settled' is what an unmarked claim means: true once the model has come to rest after the actions.
    """

    kind: WhenKind = "settled"
    first: float = 0.0
    second: float = 0.0


@dataclass(frozen=True, slots=True)
class Scope:
    """Where a claim is to be true. on None: every standard; an airframe stands in it under its own name.

    modality: over the positions in the cone.
    """

    on: Which | None
    situation: str
    failures: tuple[FailureChoice, ...]
    conditions: tuple[Condition, ...]
    held: tuple[Held, ...]
    actions: tuple[Action, ...]
    when: When
    modality: Literal["", "always", "sometimes"]
    span: Span


# --- statements of what it does ----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class ReadingRef:
    """A number that a run gives: a part's reading, or the pressure (voltage) at one of its ports; with neither named
    the main reading of the kind that the part is on a standard."""

    part: PartName
    reading: str
    port: str


@dataclass(frozen=True, slots=True)
class InState:
    """'fuel lamp is lit', 'flaps are down'. state: the kind's own words for it; its opposite is negated, unless the
    part is of several kinds, of which one has it as the opposite and another has not."""

    part: PartName
    state: str
    negated: bool
    span: Span


@dataclass(frozen=True, slots=True)
class AtPosition:
    """'tank selector is off', 'throttle is above 30 %'. level and op for a control that moves through a range."""

    control: ControlRef
    position: str
    op: Literal["is", "above", "below"]
    level: float | None
    negated: bool
    span: Span


@dataclass(frozen=True, slots=True)
class Compare:
    """'suction gauge reads 4.5 in Hg ± 0.2', 'carburettor.inlet is above 1.5 lb/sq in'.

    'is' is true inside the quantity's tolerance or range, and without either inside half a unit of its last digit.
    settles: 'settles at …': the value at rest.
    """

    reading: ReadingRef
    op: Literal["is", "above", "below", "at least", "at most"]
    quantity: Quantity
    settles: bool
    negated: bool
    span: Span


@dataclass(frozen=True, slots=True)
class ComesOnAt:
    """'fuel lamp lights at 2 lb/sq in falling': the state begins as what the part senses passes a value."""

    part: PartName
    state: str
    negated: bool
    quantity: Quantity
    falling: bool
    span: Span


@dataclass(frozen=True, slots=True)
class Served:
    """'petrol to the engine is served'."""

    service: str
    negated: bool
    span: Span


@dataclass(frozen=True, slots=True)
class Trend:
    """'boost falls as height rises from 8000 ft to 12000 ft'. start, stop: SI."""

    reading: ReadingRef
    rises: bool
    condition: str
    start: float
    stop: float
    span: Span


@dataclass(frozen=True, slots=True)
class Earlier:
    """'A before B': the first becomes true before the second does."""

    first: "Statement"
    second: "Statement"
    span: Span


@dataclass(frozen=True, slots=True)
class Independent:
    """'horn does not depend on outer throttles'."""

    part: PartName
    controls: tuple[ControlRef, ...]
    negated: bool
    span: Span


@dataclass(frozen=True, slots=True)
class AgainstScope:
    """'fuel gauge is lower than with throttle at closed': one reading here and in another scope."""

    reading: ReadingRef
    op: Literal["higher", "lower", "same"]
    other: Scope
    span: Span


@dataclass(frozen=True, slots=True)
class CanMove:
    """'undercarriage lever can be moved to up'."""

    control: ControlRef
    position: str
    negated: bool
    span: Span


# --- statements of how it is built -------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Built:
    """A statement that the records answer without a run.

    what: 'fitted' 'at' 'marked' 'worked by' 'positions' 'count' 'feeds' 'works' 'driven by' 'set at'.
    subject: the part; for 'count' the kind or group, or a plural of what several kinds or names end in ('lamps').
    words: the text compared, the one other part, the positions in order, or for 'count' all parts that can be meant,
    on whatever standard. number: for 'count'. quantity: for 'set at'. value: for 'set at' the quantity's name, '' if
    any fits; for 'positions' the control's name, '' for the only one.
    """

    what: Literal["fitted", "at", "marked", "worked by", "positions", "count", "feeds", "works", "driven by", "set at"]
    subject: str
    words: tuple[str, ...]
    number: int
    quantity: Quantity | None
    value: str
    negated: bool
    span: Span


# --- joined --------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Not:
    """Not so."""

    of: "Statement"
    span: Span


@dataclass(frozen=True, slots=True)
class And:
    """All of them."""

    of: tuple["Statement", ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Or:
    """At least one of them. 'any of the lamps is lit' is read as this, 'none of' as its negation, 'each of' as And."""

    of: tuple["Statement", ...]
    span: Span


@dataclass(frozen=True, slots=True)
class If:
    """'A if B' (kind 'if'), 'A only if B', 'A exactly when B'."""

    then: "Statement"
    condition: "Statement"
    kind: Literal["if", "only if", "exactly when"]
    span: Span


Statement = (
    InState
    | AtPosition
    | Compare
    | ComesOnAt
    | Served
    | Trend
    | Earlier
    | Independent
    | AgainstScope
    | CanMove
    | Built
    | Not
    | And
    | Or
    | If
)


@dataclass(frozen=True, slots=True)
class Claim:
    """A scope and what is to be true in it."""

    scope: Scope
    statement: Statement
    span: Span
