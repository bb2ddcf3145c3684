"""The words around a drawing: title and situation above; below, what the lines mean, cautions and the notice."""

from collections.abc import Iterable, Sequence

from cutaway.draw.measure import text_width, wrapped
from cutaway.draw.pipes import strokes
from cutaway.draw.shapes import Line, Point, Polyline, Rect, Shape, Text, placed
from cutaway.draw.symbols.strokes import triangle

MARGIN = 28.0
TITLE_SIZE = 26.0
SAYS_SIZE = 17.0
KEY_SIZE = 14.5
NOTICE_SIZE = 14.5
LEADING = 1.3
SAMPLE = 54.0

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
    "oil": "oil under low pressure, or flowing with hardly any",
}
Key = tuple[tuple[Shape, ...], str]


def text_at(at: Point, words: str, role: str, size: float) -> Text:
    """A line of words that no other font can make wider than it was measured."""
    return Text(at, words, role, size, "start", text_width(words, size, bold=role in ("title", "strong", "name")))


def head_shapes(title: str, says: str, width: float) -> tuple[tuple[Shape, ...], float]:
    """Title and situation, and the height that they take."""
    y = MARGIN + TITLE_SIZE * 0.6
    shapes: list[Shape] = [text_at((MARGIN, y), title, "title", TITLE_SIZE)]
    for line in wrapped(says, SAYS_SIZE, width - 2 * MARGIN):
        y += SAYS_SIZE * LEADING + 2
        shapes.append(text_at((MARGIN, y), line, "note", SAYS_SIZE))
    return tuple(shapes), y + 16.0


def keys_for(media: Sequence[str], known: bool, links: bool, flags: bool, areas: bool = False) -> tuple[Key, ...]:
    """What the lines of this sheet mean: a sample and its words each."""
    keys: list[Key] = []
    at_rest: list[str] = []
    for medium in media:
        live, dead, plain = LIVE_WORDS[medium]
        if known:
            keys.append((_sample(strokes(medium, True)), live))
            if medium in FLOWING_WORDS:
                keys.append((_sample(strokes(medium, False, flowing=True)), FLOWING_WORDS[medium]))
            at_rest.append(dead)
        else:
            keys.append((_sample(strokes(medium, None)), plain))
    if known and media:
        keys.append((_sample(strokes(media[0], False)), "; ".join(at_rest)))
        keys.append(((triangle((SAMPLE / 2 + 8, 0.0), 0.0, 17.0, 15.0, f"arrow {media[0]}"),), "flows this way"))
    if links:
        head = triangle((SAMPLE, 0.0), 0.0, 10.0, 9.0, "linkhead")
        keys.append(((Polyline(((0.0, 0.0), (SAMPLE, 0.0)), "link"), head), "works, drives or is read by"))
    if flags:
        flag = ((8.0, -8.0), (34.0, -8.0), (44.0, 0.0), (34.0, 8.0), (8.0, 8.0))
        keys.append(((Polyline(flag, "flag", closed=True),), "part on another sheet"))
    if areas:
        keys.append(((Rect((4.0, -10.0), (SAMPLE - 8.0, 20.0), "area", 6.0),), "station: where the parts are fitted"))
    return tuple(keys)


def _sample(roles: Iterable[str]) -> tuple[Shape, ...]:
    return tuple(Polyline(((0.0, 0.0), (SAMPLE, 0.0)), role) for role in roles)


def foot_shapes(
    keys: Sequence[Key], remarks: Sequence[str], cautions: Sequence[str], notice: str, width: float
) -> tuple[tuple[Shape, ...], float]:
    """The strip at the bottom, drawn as if it began at height 0, and its height."""
    inner = width - 2 * MARGIN
    shapes: list[Shape] = []
    y = 12.0 + KEY_SIZE
    shapes_of_keys, y = _key_rows(keys, inner, y)
    shapes += shapes_of_keys
    for words, role, size_ in (
        *((f"Caution: {c}", "strong", KEY_SIZE) for c in cautions),
        *((remark, "quiet", NOTICE_SIZE) for remark in remarks),
        (notice, "quiet", NOTICE_SIZE),
    ):
        for line in wrapped(words, size_, inner, bold=role == "strong"):
            shapes.append(text_at((MARGIN, y), line, role, size_))
            y += size_ * LEADING
    height = y - NOTICE_SIZE + 14.0
    ground = (Rect((0.0, 0.0), (width, height), "strip"), Line((0.0, 0.0), (width, 0.0), "rule"))
    return (*ground, *shapes), height


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
