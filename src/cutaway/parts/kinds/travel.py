"""What is worked by the travel of another part: how far that has gone, and where a cam on it trips something."""

from cutaway.parts.kind import Coupling, Want
from cutaway.parts.kinds.common import least, most, over, under, within_one
from cutaway.parts.recipe import Expr, Mode, Signal

SNAP = 0.01  # share of the travel by which a thing must go back before its cam lets go
NOT_GIVEN = "Where it is not given, no travel trips it."

MOVED_BY = Coupling(
    "moved by",
    "signals",
    "The part whose travel works it: a lever, a throttle, a jack, a leg, doors.",
    required=True,
    needs=("position",),
)


def travel() -> Expr:
    """How far the part at the other end of `moved by` has gone, 0 to 1."""
    return within_one(Signal("position", of="moved by"))


def trip_wants(verb: str, what: str) -> tuple[Want, Want]:
    """Where the cam trips: above one share of the travel, below another, or both. The author gives at least one."""
    return (
        Want(
            f"{verb} above",
            "fraction",
            f"Share of the travel above which {what}.",
            default="100 %",
            because=NOT_GIVEN,
            least="nought",
        ),
        Want(
            f"{verb} below",
            "fraction",
            f"Share of the travel below which {what}.",
            default="0 %",
            because=NOT_GIVEN,
            least="nought",
        ),
    )


def trip(name: str, position: Expr, above: float, below: float) -> Mode:
    """Set while the position is above one share or below another; each with a little way back before it lets go.

    The position is kept between 0 and 1, so that `above` 1 and `below` 0 are never reached.
    """
    back_from = above - min(SNAP, 0.5 * above)
    back_to = below + min(SNAP, 0.5 * (1.0 - below))
    sets = most(over(position, above), under(position, below))
    return Mode(name, sets, least(under(position, back_from), over(position, back_to)), started=None)
