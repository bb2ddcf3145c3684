"""drills/*.md: numbered steps, whose code spans are what is done and what is then seen."""

import re
from dataclasses import dataclass

from markdown_it.token import Token

from cutaway.handbook.door import admit, head_span
from cutaway.handbook.front_matter import front_matter
from cutaway.handbook.head import Head, read_cites, read_cites_text, read_on
from cutaway.handbook.marked_text import code_spans, read_aloud
from cutaway.handbook.names import did_you_mean, fold, missing_situation
from cutaway.handbook.nodes import Block, Faulty
from cutaway.handbook.records import Cite, Drill, Situation, Step
from cutaway.handbook.scripts import line_starts, tokens
from cutaway.handbook.shapes import DrillHeadShape
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span, TextFile

_CAUTION = re.compile(r"^[ \t]*>[ \t]?", re.MULTILINE)
_CAUTION_WORD = re.compile(r"^(?:caution|warning)\s*[:.]?\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class _Item:
    """One item of the list: the number it was given, and its place."""

    number: int
    start: int
    end: int


def read_drill(
    file: TextFile, head: Head, situations: tuple[Situation, ...], left_out: frozenset[str]
) -> tuple[Drill | None, Problems]:
    """One drill; None where it cannot be run."""
    name = file.path.removeprefix("drills/").removesuffix(".md")
    block, begin, problems = front_matter(file)
    if block is None:
        if not problems:
            hint = "Begin the file with ---, then from: and a situation, then --- again."
            problems = (Diagnostic("H503", Span(file, 0, 0), f"The drill {name} does not say where it begins.", hint),)
        return None, problems
    shape, more = admit(DrillHeadShape, block, f"the head of the drill {name}")
    problems += more
    items = _items(file, begin)
    steps, more = _steps(file, items, head)
    problems += more
    if not items:
        hint = "Write its steps as a list: 1. Petrol on: `fuel cock to on`."
        problems += (Diagnostic("H501", head_span(block), f"The drill {name} has no numbered steps.", hint),)
    problems += _in_sequence(steps)
    if shape is None:
        return None, problems
    on, more = read_on(block.get("on"), head, airframes=True)
    problems += more
    cites, more = read_cites(block.get("cite"), head, "")
    problems += more
    situation, more = _situation(block, shape.from_, name, situations, left_out)
    problems += more
    if on is None or not situation or not steps:
        return None, problems
    return Drill(name, shape.title or name, situation, on, steps, cites, Span(file, 0, begin)), problems


def _situation(
    block: Block, text: str, name: str, situations: tuple[Situation, ...], left_out: frozenset[str]
) -> tuple[str, Problems]:
    known = [situation.name for situation in situations]
    found = next((one for one in known if fold(one) == fold(text)), "")
    place = block.get("from")
    if found or fold(text) in left_out or isinstance(place, Faulty) or place is None:
        return found, ()
    message = f"The drill {name} begins in '{text}', which is not a situation."
    return "", (Diagnostic("H402", place.span, message, did_you_mean(text, known) or missing_situation(text)),)


def _items(file: TextFile, begin: int) -> tuple[_Item, ...]:
    """The items of the numbered lists at the left margin."""
    starts = line_starts(file.text)
    found: list[_Item] = []
    ordered: list[bool] = []
    for token in tokens(file, begin):
        if token.type in ("ordered_list_open", "bullet_list_open"):
            ordered.append(token.type == "ordered_list_open")
        elif token.type in ("ordered_list_close", "bullet_list_close"):
            ordered.pop()
        elif token.type == "list_item_open" and ordered == [True] and token.map:
            found.append(_item(token, token.map, starts))
    return tuple(found)


def _item(token: Token, lines: list[int], starts: tuple[int, ...]) -> _Item:
    last = len(starts) - 1
    number = int(token.info) if token.info.isdigit() else 0
    return _Item(number, starts[min(lines[0], last)], starts[min(lines[1], last)])


def _steps(file: TextFile, items: tuple[_Item, ...], head: Head) -> tuple[tuple[Step, ...], Problems]:
    steps: list[Step] = []
    problems: Problems = ()
    for item in items:
        step, more = _step(file, item, head)
        steps.append(step)
        problems += more
    return tuple(steps), problems


def _step(file: TextFile, item: _Item, head: Head) -> tuple[Step, Problems]:
    raw = file.text[item.start : item.end]
    quote = _CAUTION.search(raw)
    end = item.start + quote.start() if quote else item.end
    cautions = (
        [_CAUTION.sub("", line) for line in raw[quote.start() :].split("\n") if _CAUTION.match(line)] if quote else []
    )
    caution = _CAUTION_WORD.sub("", read_aloud(" ".join(cautions)))
    marks: list[Span] = []
    cites: tuple[Cite, ...] = ()
    problems: Problems = ()
    text = file.text[item.start : end]
    for code in reversed(code_spans(file.text, item.start, end)):
        if fold(code.text).startswith("cite:"):
            offset = len(code.text) - len(code.text.partition(":")[2].lstrip())
            place = Span(file, code.inner + offset, code.inner_end)
            some, more = read_cites_text(code.text.partition(":")[2].strip(), place, head, "")
            cites, problems = some + cites, problems + more
            text = text[: code.start - item.start] + text[code.end - item.start :]
        else:
            marks.insert(0, Span(file, code.inner, code.inner_end))
    words = read_aloud(re.sub(r"^\s*[-*+] ", "", re.sub(r"^\s*\d+[.)]\s+", "", text), flags=re.MULTILINE))
    span = Span(file, item.start, item.start + len(raw.rstrip()))
    return Step(item.number, words, tuple(marks), cites, caution, span), problems


def _in_sequence(steps: tuple[Step, ...]) -> Problems:
    wrong = next((n for n, step in enumerate(steps, 1) if step.number != n), None)
    if wrong is None:
        return ()
    step = steps[wrong - 1]
    first = Span(step.span.file, step.span.start, min(step.span.end, step.span.start + 12))
    message = f"Step {step.number} stands where step {wrong} is due."
    return (Diagnostic("H502", first, message, f"Number the steps in one row from 1, this one as {wrong}."),)
