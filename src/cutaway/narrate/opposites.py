"""Words that mean the contrary of each other: front and rear, locked and unlocked, minimum and maximum."""

import re

from cutaway.handbook.stems import Stems

# Each row is a pair of sides; the words of a side mean nearly the same in a handbook.
_SIDES: tuple[tuple[str, str], ...] = (
    ("on", "off"),
    ("up", "down"),
    ("left port", "right starboard stbd"),
    ("front forward fore ahead", "rear back aft behind astern"),
    ("upper top", "lower bottom"),
    ("inner inboard inside inward inwards", "outer outboard outside outward outwards"),
    ("in", "out"),
    ("above over", "below under beneath"),
    ("first", "last"),
    ("more", "less fewer"),
    ("most", "least"),
    ("maximum greatest highest", "minimum least lowest smallest"),
    ("rise rises risen rose rising climb climbing ascent", "fall falls fallen fell falling descent descend dive drop"),
    ("increase increases increased increasing", "decrease decreases decreased reduce reduces reduced decreasing"),
    ("raised raise raises", "lowered lower lowers"),
    ("open opened opens", "closed close closes shut shuts"),
    ("start starts started starting", "stop stops stopped stopping"),
    ("locked lock", "unlocked unlock free released release"),
    ("inflated inflate", "deflated deflate"),
    ("rich richer", "weak weaker lean"),
    ("hot warm hotter", "cold cool colder"),
    ("high higher", "low lower"),
    ("fast faster quick", "slow slower"),
    ("heavy heavier", "light lighter"),
    ("long longer", "short shorter"),
    ("large larger big bigger", "small smaller"),
    ("clockwise", "anticlockwise counterclockwise"),
    ("extend extended extends", "retract retracted retracts"),
    ("charge charged charges", "discharge discharged discharges"),
    ("connected connect engaged engage", "disconnected disconnect disengaged disengage"),
    ("full", "empty"),
    ("suction inlet intake", "delivery outlet exhaust"),
    ("positive", "negative"),
    ("wet", "dry"),
    ("tight tighten tightened", "slack slacken slackened loose loosen"),
    ("push pushed", "pull pulled"),
    ("day", "night"),
    ("advance advanced", "retard retarded"),
    ("fine", "coarse"),
    ("static", "moving"),
    ("before", "after"),
    ("with", "without"),
    ("manual manually", "automatic automatically"),
    ("normal", "emergency abnormal"),
    ("always", "never seldom"),
    ("clean", "dirty"),
    ("landing", "flying"),
    ("monoplane", "biplane"),
    ("summer", "winter"),
    ("even", "odd"),
)
# Of these it matters what they stand beside: 'the front of the back seat' is not 'the back of the front seat'.
_PLACES = (
    "left right port starboard front rear back upper lower inner outer top bottom first last forward aft inlet outlet "
    "maximum minimum high low"
)
# Beginnings of words that turn them into their contrary.
_TURNING = re.compile(r"^(?:un|non|dis|de|in|im|mis)(?=[a-z]{4})")


class Opposites:
    """Knows the contraries of words by their stems. It lives as long as its stems."""

    def __init__(self, stems: Stems) -> None:
        self._stems = stems
        self._of: dict[str, set[str]] = {}
        stems.learn(word for pair in _SIDES for side in pair for word in side.split())
        for one, other in _SIDES:
            here, there = ({stems.one(word) for word in side.split()} for side in (one, other))
            for stem in here:
                self._of.setdefault(stem, set()).update(there - here)
            for stem in there:
                self._of.setdefault(stem, set()).update(here - there)

        self._places = frozenset(map(stems.one, _PLACES.split()))

    def places(self, stem: str) -> bool:
        """Whether it matters beside which words a word stands."""
        return stem in self._places

    def are(self, one: str, other: str) -> bool:
        """Whether two stems mean the contrary of each other, by the list or by a syllable put before one of them."""
        if other in self._of.get(one, ()):
            return True
        longer, shorter = sorted((one, other), key=len, reverse=True)
        bare = _TURNING.sub("", longer)
        return bare != longer and bare == shorter
