"""What each medium brings to the numerics: scales for stopping, the small store of every free node, leak and datum."""

from dataclasses import dataclass

from cutaway.parts.recipe import Medium


@dataclass(frozen=True, slots=True)
class Scale:
    """across, through: what counts as one in errors and residuals (Pa, V, K, rad/s; m³/s, A, W, N m).

    store: of a free node that says no other, content per unit of across. leak: to zero, flow per unit of across; only
    a dead wire needs one. start: across value where nothing is said.
    """

    medium: Medium
    across: float
    through: float
    store: float
    leak: float
    start: float


SCALES = (
    Scale("petrol", 5.0e3, 1.0e-4, 2.0e-10, 0.0, 0.0),
    Scale("oil", 1.0e6, 1.0e-4, 1.0e-14, 0.0, 0.0),
    # A volume of 0.05 l.
    Scale("air", 1.0e5, 1.0e-4, 5.0e-5 / 101325.0, 0.0, 101325.0),
    # Leak and store belong together: a dead wire falls to nothing within a second.
    Scale("current", 1.0, 0.1, 1.0e-6, 1.0e-5, 0.0),
    Scale("heat", 10.0, 1.0e3, 50.0, 0.0, 15.0),
    Scale("shaft", 10.0, 1.0, 1.0e-3, 0.0, 0.0),
)

MEDIA = tuple(scale.medium for scale in SCALES)
BY_MEDIUM = {scale.medium: scale for scale in SCALES}
