"""The cautions that a drawing carries."""

import re
from collections.abc import Mapping

from cutaway.draw.plan import Plan
from cutaway.parts.kind import Kind


def cautions_on(plan: Plan, kinds: Mapping[str, Kind]) -> tuple[str, ...]:
    """Each caution of a part on the sheet, or of its kind, once; none that another says with more words."""
    own = [item.part for item in plan.items if not item.reference]
    found = [c for part in own for c in (part.caution, kinds[part.kind].caution) if c]
    every = tuple(dict.fromkeys(found))
    return tuple(one for one in every if not any(_says_more(other, one) for other in every if other != one))


REFUSING = frozenset({"not", "no", "never", "nothing", "unless", "except", "until", "only", "without", "but"})
"""Words that turn what is said, or narrow it."""


def _says_more(one: str, other: str) -> bool:
    """Whether a caution has all words of another in their order, and some more that take nothing back."""
    rest = iter(words := re.findall(r"[\w']+", one.lower()))
    less = re.findall(r"[\w']+", other.lower())
    if not all(word in rest for word in less):
        return False
    return not any(words.count(word) > less.count(word) for word in REFUSING)
