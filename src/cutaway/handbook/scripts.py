"""scripts/*.md: narration as sentences, each with the claims, citations or the word `aside` that stand behind it."""

import re
from dataclasses import dataclass, replace

from markdown_it import MarkdownIt
from markdown_it.token import Token

from cutaway.handbook.door import admit
from cutaway.handbook.front_matter import front_matter
from cutaway.handbook.head import Head, read_cites_text
from cutaway.handbook.marked_text import CodeSpan, code_spans, read_aloud, without_comments, without_leads
from cutaway.handbook.names import did_you_mean
from cutaway.handbook.records import Cite, Mark, MarkSort, Script, Sentence
from cutaway.handbook.sentences import cut
from cutaway.handbook.shapes import ScriptHeadShape
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span, TextFile
from cutaway.quantities.spoken import unsayable

_MARKDOWN = MarkdownIt("commonmark").enable("table").disable(["inline", "text_join"], ignoreInvalid=True)
_MARK = re.compile(r"^(?:aside|(?:cite|introduces|promise|settles|show|call-out)\s*:)", re.IGNORECASE)
_NEAR_MARK = re.compile(
    r"^(?:asides?|cites?|source|see|introduc(?:es?|ed|ing)|promises?|settle[sd]?|shows?|call[- ]?outs?)\b\s*:?",
    re.IGNORECASE,
)
_EXAMPLES: dict[MarkSort, str] = {
    "introduces": "selector cock",
    "promise": "the battery",
    "settles": "the battery",
    "show": "Fuel, Mk 1, cruising",
    "call-out": "fuel lamp",
}
_SORTS: dict[str, MarkSort] = {sort: sort for sort in _EXAMPLES}


def read_script(file: TextFile, head: Head) -> tuple[Script, Problems]:
    """One script; it is always kept, with what could be read of it."""
    block, begin, problems = front_matter(file)
    name = file.path.removeprefix("scripts/").removesuffix(".md")
    shape, more = admit(ScriptHeadShape, block, f"the head of {file.path}") if block else (None, ())
    reader = _Reader(file, head, begin)
    for token in tokens(file, begin):
        reader.take(token)
    title = (shape.title if shape else "") or reader.title or name
    if not reader.sentences and not problems:
        message = f"The script {name} has no sentences."
        more += (Diagnostic("H606", None, message, f"Write the narration in {file.path}, in plain paragraphs."),)
    return Script(name, title, tuple(reader.sentences), Span(file, 0, begin)), problems + more + tuple(reader.problems)


def tokens(file: TextFile, begin: int) -> list[Token]:
    """The blocks of a Markdown text; what is before `begin` is blanked, so that lines keep their numbers."""
    text = re.sub(r"[^\n]", " ", file.text[:begin]) + without_comments(file.text[begin:])
    return _MARKDOWN.parse(text.replace("\f", " ").replace("\v", " "))


def line_starts(text: str) -> tuple[int, ...]:
    """Where each line begins, and the end of the text."""
    starts = [0, *(i + 1 for i, letter in enumerate(text) if letter == "\n"), len(text)]
    return tuple(starts)


@dataclass(frozen=True, slots=True)
class _Mark:
    """`cite: §12` or `aside`, with its place."""

    at: int
    aside: bool
    cites: tuple[Cite, ...]
    says: Mark | None = None


class _Reader:
    """Goes through the blocks of one script. It lives for one file."""

    def __init__(self, file: TextFile, head: Head, begin: int) -> None:
        self.file, self.head = file, head
        self.plain = file.text[:begin] + without_comments(file.text[begin:])
        self.starts = line_starts(file.text)
        self.sentences: list[Sentence] = []
        self.problems: list[Diagnostic] = []
        self.title = self.chapter = ""
        self.paragraph = 0
        self.heading = ""

    def take(self, token: Token) -> None:
        if token.type == "heading_open":
            self.heading = token.tag
        elif token.type == "heading_close":
            self.heading = ""
        elif token.type == "inline" and token.map:
            if self.heading:
                self._head(token)
            else:
                self._paragraph(*self._range(token.map), nested=token.level > 1)
        elif token.type == "fence" and token.map:
            self._fence(token, *self._range(token.map))

    def _range(self, lines: list[int]) -> tuple[int, int]:
        last = len(self.starts) - 1
        return self.starts[min(lines[0], last)], self.starts[min(lines[1], last)]

    def _head(self, token: Token) -> None:
        words = read_aloud(token.content)
        if self.heading == "h1" and not self.title:
            self.title = words
        else:
            self.chapter = words

    def _paragraph(self, start: int, end: int, nested: bool) -> None:
        marks: list[_Mark] = []
        if nested:
            self.plain = self.plain[:start] + without_leads(self.plain[start:end]) + self.plain[end:]
        masked = self.plain[start:end]
        for code in code_spans(self.plain, start, end):
            if _MARK.match(code.text):
                marks.append(self._mark(code))
                masked = masked[: code.start - start] + "\x00" * (code.end - code.start) + masked[code.end - start :]
            else:
                self._near_mark(code)
                inner = re.sub(r"[.!?…]", "_", masked[code.start - start : code.end - start])
                masked = masked[: code.start - start] + inner + masked[code.end - start :]
        stretches = cut(masked)
        if not stretches:
            return
        self.paragraph += 1
        before = len(self.sentences)
        for place, stretch in enumerate(stretches):
            last = stretches[place + 1].start if place + 1 < len(stretches) else len(masked)
            first = 0 if not place else stretch.start
            own = [mark for mark in marks if first <= mark.at - start < last]
            raw = self._without_marks(start + stretch.start, start + stretch.end, marks)
            text = read_aloud(raw)
            if re.search(r"\w", text):
                self._sentence(text, own, Span(self.file, start + stretch.start, start + stretch.end))
        if len(self.sentences) == before:
            self.paragraph -= 1

    def _without_marks(self, start: int, end: int, marks: list[_Mark]) -> str:
        raw = self.plain[start:end]
        for code in reversed(code_spans(self.plain, start, end)):
            if any(mark.at == code.start for mark in marks):
                raw = raw[: code.start - start] + " " + raw[code.end - start :]
        return raw

    def _sentence(self, text: str, marks: list[_Mark], span: Span) -> None:
        cites = tuple(cite for mark in marks for cite in mark.cites)
        aside = any(mark.aside for mark in marks)
        says = tuple(mark.says for mark in marks if mark.says is not None)
        for figure in unsayable(text):
            message = f"'{_short(figure)}' in '{_short(text)}' is more than anybody can say."
            self.problems.append(Diagnostic("H608", span, message, "Write the figure as the book prints it."))
        self.sentences.append(Sentence(text, self.chapter, self.paragraph, (), cites, aside, span, says))

    def _mark(self, code: CodeSpan) -> _Mark:
        span = Span(self.file, code.inner, code.inner_end)
        if code.text.lower() == "aside":
            return _Mark(code.start, True, ())
        key, _, rest = code.text.partition(":")
        sort = _SORTS.get(key.strip().lower())
        if sort is not None:
            return self._desk_mark(code, span, sort, " ".join(rest.split()))
        if key.strip().lower() != "cite":
            message = f"The mark '{code.text}' is not understood."
            self.problems.append(Diagnostic("H604", span, message, "Write `aside` alone, or `cite: §21`."))
            return _Mark(code.start, False, ())
        offset = len(code.text) - len(rest.lstrip())
        place = Span(self.file, code.inner + offset, code.inner_end)
        cites, more = read_cites_text(rest.strip(), place, self.head, "")
        if not rest.strip():
            more = (Diagnostic("H203", span, "This mark does not name a paragraph.", "Write `cite: §21`."),)
        self.problems.extend(more)
        return _Mark(code.start, False, cites)

    def _desk_mark(self, code: CodeSpan, span: Span, sort: MarkSort, words: str) -> _Mark:
        """A mark for the script desk; one that names nothing is told and left out."""
        if words:
            return _Mark(code.start, False, (), Mark(sort, words, span))
        message = f"The mark '{code.text}' does not say what."
        self.problems.append(Diagnostic("H607", span, message, f"Write `{sort}: {_EXAMPLES[sort]}`, say."))
        return _Mark(code.start, False, ())

    def _near_mark(self, code: CodeSpan) -> None:
        """A code span that was surely meant as a mark, and would otherwise be read aloud."""
        if _NEAR_MARK.match(code.text) and ("§" in code.text or ":" in code.text or len(code.text.split()) == 1):
            rest = code.text.partition(":")[2].strip()
            hint = f"Write `cite: {rest}`." if rest else "Write `aside`, or `cite: §21`."
            span = Span(self.file, code.inner, code.inner_end)
            self.problems.append(Diagnostic("H604", span, f"The mark '{code.text}' is not understood.", hint))

    def _fence(self, token: Token, start: int, end: int) -> None:
        word = (token.info.split() or [""])[0]
        opening = Span(
            self.file,
            start,
            max(
                start,
                len(self.file.text[:end].rstrip())
                if end <= start
                else start + len(self.file.text[start:end].partition("\n")[0]),
            ),
        )
        body = self.file.text[start:end].rstrip("\n").split("\n")
        closing = body[-1].strip(" >\t")
        opens_again = any(re.match(rf"\s*{re.escape(token.markup)}\s*\w", line) for line in body[1:])
        if opens_again or len(body) < 2 or closing != token.markup[:1] * max(len(closing), len(token.markup)):
            message = "This block is not closed, so everything after it is taken into it."
            self.problems.append(
                Diagnostic("H602", opening, message, f"Write a line {token.markup} after its last line.")
            )
            return
        if word != "claim":
            message = (
                f"A block of '{word}' is neither read aloud nor checked."
                if word
                else "This block does not say what it is."
            )
            hint = did_you_mean(word, ["claim"]) if word else ""
            hint = "Write ```claim over it." if not hint.startswith("Did") else "Did you mean ```claim?"
            self.problems.append(Diagnostic("H603", opening, message, hint))
            return
        if not self.sentences:
            message = "There is no sentence before this claim."
            self.problems.append(
                Diagnostic("H601", opening, message, "Put the claim under the sentence that it is about.")
            )
            return
        last = self.sentences[-1]
        self.sentences[-1] = replace(last, claims=last.claims + self._claims(start, end))

    def _claims(self, start: int, end: int) -> tuple[Span, ...]:
        claims: list[Span] = []
        at = start
        lines = self.file.text[start:end].rstrip("\n").split("\n")
        for place, line in enumerate(lines):
            bare = line.strip(" \t>") if line.lstrip().startswith(">") else line.strip()
            if 0 < place < len(lines) - 1 and bare and not bare.startswith("#"):
                begin = at + line.index(bare)
                claims.append(Span(self.file, begin, begin + len(bare)))
            at += len(line) + 1
        return tuple(claims)


def _short(words: str) -> str:
    return words if len(words) <= 60 else f"{words[:57]} …"
