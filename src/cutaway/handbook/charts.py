"""charts.yaml: the charts that are asked for; what their words mean is read by the language."""

from cutaway.handbook.door import admit, block_of, several_of
from cutaway.handbook.head import Head, read_on
from cutaway.handbook.nodes import Block, Entry, Faulty, Node, Words
from cutaway.handbook.records import AskedChart
from cutaway.handbook.shapes import ChartShape, ChartsShape
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error
from cutaway.problems.span import Span, TextFile, whole
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import to_si

USUAL = "60 s"
LONGEST = 2 * 24 * 3600.0
"""The longest that a chart goes on, s: two days, more than any tank or battery lasts."""


def read_charts(root: Node | None, head: Head) -> tuple[tuple[AskedChart, ...], Problems]:
    """The charts in order; one with a mistake is left out."""
    if root is None or isinstance(root, Faulty):
        return (), ()
    _, problems = admit(ChartsShape, root, "charts.yaml")
    block, more = block_of(root.get("charts") if isinstance(root, Block) else None, "'charts'")
    problems = tuple(dict.fromkeys(problems + more))
    charts: list[AskedChart] = []
    for entry in block.entries if block else ():
        chart, more = _chart(entry, head)
        problems += more
        if chart is not None:
            charts.append(chart)
    return tuple(charts), problems


def _chart(entry: Entry, head: Head) -> tuple[AskedChart | None, Problems]:
    name = " ".join(entry.key.text.split())
    shape, problems = admit(ChartShape, entry.value, f"the chart {name}")
    if shape is None or not isinstance(entry.value, Block):
        return None, problems
    block = entry.value
    situation = _places(block.get("in"))
    on, more = read_on(block.get("on"), head, airframes=True) if block.get("on") is not None else (None, ())
    length, again = _length(block.get("for"), name)
    problems += more + again
    if has_error(problems) or length is None or not situation:
        return None, problems
    do = _places(block.get("do"))
    return (
        AskedChart(
            name, " ".join(shape.says.split()), situation[0], on, _places(block.get("with")), do[0] if do else None,
            _places(block.get("show")), length, entry.key.span,
        ),
        problems,
    )  # fmt: skip


def _places(node: Node | None) -> tuple[Span, ...]:
    return tuple(item.span for item in several_of(node) if isinstance(item, Words) and not item.empty)


def _length(node: Node | None, name: str) -> tuple[Quantity | None, Problems]:
    place = node.span if isinstance(node, Words) and not node.empty else whole(TextFile("charts.yaml", USUAL))
    text = node.text if isinstance(node, Words) and not node.empty else USUAL
    quantity, problems = read_quantity(text, place, "time")
    if quantity is not None and not 0.0 < to_si(quantity) <= LONGEST:
        message = f"The chart {name} cannot go on for {text}."
        return None, (Diagnostic("H921", place, message, "Write a time above nought and up to 48 hours: 2 min"),)
    return quantity, problems
