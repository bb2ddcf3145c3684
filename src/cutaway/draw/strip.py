"""The words around a drawing: title and situation above; below, what the lines mean, cautions and the notice."""

from collections.abc import Iterable, Sequence

from cutaway.draw.measure import text_width, wrapped
from cutaway.draw.pipes import Used, strokes
from cutaway.draw.shapes import Line, Point, Polyline, Rect, Shape, Text, placed
from cutaway.draw.symbols.strokes import triangle

MARGIN = 28.0
TITLE_SIZE = 26.0
SAYS_SIZE = 17.0
KEY_SIZE = 14.5
NOTICE_SIZE = 14.5
LEADING = 1.3
SAMPLE = 54.0
BETWEEN, LEAST_COLUMN = 36.0, 420.0
"""Between two columns of cautions, and how wide each must be."""

BULLET = "\N{BULLET} "
"""By which each caution is seen to begin."""

LIVE_WORDS = {
    "petrol": ("petrol under pressure", "petrol, at rest", "petrol pipe"),
    "oil": ("oil under pressure", "oil, at rest", "oil pipe"),
    "air": ("air under suction or pressure", "air as outside", "air pipe"),
    "current": ("wire, live", "wire, dead", "wire"),
    "heat": ("heat", "no heat", "heat"),
    "shaft": ("shaft, turning", "shaft, still", "shaft"),
}
FLOWING_WORDS = {
    "petrol": "petrol flowing, hardly any pressure",
    "oil": "oil at low pressure",
}
Key = tuple[tuple[Shape, ...], str]


def text_at(at: Point, words: str, role: str, size: float) -> Text:
    """A line of words that no other font can make wider than it was measured."""
    return Text(at, words, role, size, "start", text_width(words, size, bold=role in ("title", "strong", "name")))


def head_shapes(title: str, says: str, width: float) -> tuple[tuple[Shape, ...], float]:
    """Title and situation, and the height that they take. What is too long for a line goes on in the next."""
    y = MARGIN + TITLE_SIZE * 0.6
    first, *more = wrapped(title, TITLE_SIZE, width - 2 * MARGIN, bold=True) or ("",)
    shapes: list[Shape] = [text_at((MARGIN, y), first, "title", TITLE_SIZE)]
    for line in more:
        y += TITLE_SIZE * LEADING
        shapes.append(text_at((MARGIN, y), line, "title", TITLE_SIZE))
    for line in wrapped(says, SAYS_SIZE, width - 2 * MARGIN):
        y += SAYS_SIZE * LEADING + 2
        shapes.append(text_at((MARGIN, y), line, "note", SAYS_SIZE))
    return tuple(shapes), y + 16.0


def keys_for(
    media: Sequence[str], known: bool, links: bool, flags: bool, areas: bool = False, used: Used | None = None
) -> tuple[Key, ...]:
    """What the lines of this sheet mean: a sample and its words each. used: no others than those (None: all)."""
    keys = _state_keys(media, used) if known else [(_sample(strokes(m, None)), LIVE_WORDS[m][2]) for m in media]
    if links:
        head = triangle((SAMPLE, 0.0), 0.0, 10.0, 9.0, "linkhead")
        keys.append(((Polyline(((0.0, 0.0), (SAMPLE, 0.0)), "link"), head), "works, drives or is read by"))
    if flags:
        flag = (Rect((6.0, -8.0), (40.0, 16.0), "flag", 2.0), Line((41.0, -8.0), (41.0, 8.0), "rule"))
        keys.append((flag, "part on another sheet"))
    if areas:
        keys.append(((Rect((4.0, -10.0), (SAMPLE - 8.0, 20.0), "area", 6.0),), "station: where the parts are fitted"))
    return tuple(keys)


def _state_keys(media: Sequence[str], used: Used | None) -> list[Key]:
    """What tells the state of each medium, then what tells that it is at rest, then the arrow."""
    looks: list[tuple[tuple[str, ...], str]] = []
    still: dict[str, list[str]] = {}
    for medium in media:
        live, dead, _ = LIVE_WORDS[medium]
        if medium == "air" and used is not None and len(used.air) == 1:
            live = f"air under {min(used.air)}"
        looks.append((strokes(medium, True), live))
        if medium in FLOWING_WORDS:
            looks.append((strokes(medium, False, flowing=True), FLOWING_WORDS[medium]))
        if used is None or strokes(medium, False) in used.looks:
            still.setdefault("wire" if medium == "current" else "pipe", []).append(dead)
    keys = [(_sample(look), words) for look, words in looks if used is None or look in used.looks]
    for sort, words in still.items():
        medium = "current" if sort == "wire" else next(m for m in media if m != "current")
        keys.append((_sample(strokes(medium, False)), "; ".join(words)))
    if media and (used is None or used.flows):
        keys.append(((triangle((SAMPLE / 2 + 8, 0.0), 0.0, 17.0, 15.0, f"arrow {media[0]}"),), "flows this way"))
    return keys


def _sample(roles: Iterable[str]) -> tuple[Shape, ...]:
    return tuple(Polyline(((0.0, 0.0), (SAMPLE, 0.0)), role) for role in roles)


def foot_shapes(
    keys: Sequence[Key],
    remarks: Sequence[str],
    cautions: Sequence[str],
    notice: str,
    width: float,
    shown: Sequence[Key] | None = None,
) -> tuple[tuple[Shape, ...], float]:
    """The strip at the bottom, drawn as if it began at height 0, and its height. shown: of the keys, those that are
    drawn (None: all); the height is that for all, so that it is the same in every state."""
    shapes, end = _words(keys, remarks, cautions, notice, width - 2 * MARGIN, shown)
    height = round(end - NOTICE_SIZE + 14.0, 2)
    ground = (Rect((0.0, 0.0), (width, height), "strip"), Line((0.0, 0.0), (width, 0.0), "rule"))
    return (*ground, *shapes), height


def side_shapes(
    keys: Sequence[Key],
    remarks: Sequence[str],
    cautions: Sequence[str],
    notice: str,
    width: float,
    shown: Sequence[Key] | None = None,
) -> tuple[tuple[Shape, ...], float]:
    """The same to stand beside the drawing, and its height."""
    shapes, end = _words(keys, remarks, cautions, notice, width - 2 * MARGIN, shown)
    height = round(end - NOTICE_SIZE + 14.0, 2)
    edge = Polyline(((width, 0.0), (0.0, 0.0), (0.0, height), (width, height)), "rule")
    return (Rect((0.0, 0.0), (width, height), "strip"), edge, *shapes), height


def _words(
    keys: Sequence[Key],
    remarks: Sequence[str],
    cautions: Sequence[str],
    notice: str,
    inner: float,
    shown: Sequence[Key] | None,
) -> tuple[list[Shape], float]:
    """Keys, cautions, remarks and notice one below another, and where they end if all keys are drawn."""
    _, full = _key_rows(keys, inner, 12.0 + KEY_SIZE)
    shapes, y = _key_rows(keys if shown is None else shown, inner, 12.0 + KEY_SIZE)
    spare = full - y
    if cautions:
        shapes.append(text_at((MARGIN, y), "Cautions", "strong", KEY_SIZE))
        more, y = _cautions(cautions, inner, y + KEY_SIZE * LEADING)
        shapes += more
    for words in (" ".join(remarks), notice):
        for line in wrapped(words, NOTICE_SIZE, inner):
            shapes.append(text_at((MARGIN, y), line, "quiet", NOTICE_SIZE))
            y += NOTICE_SIZE * LEADING
    return shapes, y + spare


def _cautions(cautions: Sequence[str], inner: float, y: float) -> tuple[list[Shape], float]:
    """Cautions below one another, in two columns where these are less high."""
    half = (inner - BETWEEN) / 2
    one, end = _column(cautions, inner, MARGIN, y)
    ways = [(one, end)]
    for first in range(1, len(cautions) if half >= LEAST_COLUMN else 0):
        left, left_end = _column(cautions[:first], half, MARGIN, y)
        right, right_end = _column(cautions[first:], half, MARGIN + half + BETWEEN, y)
        ways.append((left + right, max(left_end, right_end)))
    return min(ways, key=lambda way: way[1])


def _column(cautions: Sequence[str], inner: float, x: float, y: float) -> tuple[list[Shape], float]:
    shapes: list[Shape] = []
    for caution in cautions:
        more, y = _caution(caution, inner, x, y)
        shapes += more
    return shapes, y


def _caution(words: str, inner: float, x: float, y: float) -> tuple[list[Shape], float]:
    """A caution with a bullet before it and its lines below one another."""
    aside = text_width(BULLET, KEY_SIZE)
    shapes: list[Shape] = [text_at((x, y), BULLET.strip(), "strong", KEY_SIZE)]
    for line in wrapped(words, KEY_SIZE, inner - aside):
        shapes.append(text_at((x + aside, y), line, "note", KEY_SIZE))
        y += KEY_SIZE * LEADING
    return shapes, y


def _key_rows(keys: Sequence[Key], inner: float, y: float) -> tuple[list[Shape], float]:
    shapes: list[Shape] = []
    x = MARGIN
    for sample, words in keys:
        wide = SAMPLE + 10 + text_width(words, KEY_SIZE)
        if x + wide > MARGIN + inner and x > MARGIN:
            x, y = MARGIN, y + KEY_SIZE * LEADING + 6
        shapes += placed(sample, (x, y - KEY_SIZE * 0.36))
        shapes.append(text_at((x + SAMPLE + 10, y), words, "note", KEY_SIZE))
        x += wide + 30
    return shapes, y + KEY_SIZE * LEADING + 8
