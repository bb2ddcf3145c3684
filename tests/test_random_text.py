"""Whatever stands in the files of a type folder, what is wrong comes back as problems, and nothing is raised."""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cutaway.api.checking import check_problems
from cutaway.problems.catalogue import CATALOGUE

WHINCHAT = Path(__file__).parent.parent / "demo" / "whinchat"
FILES = sorted(path.relative_to(WHINCHAT).as_posix() for path in WHINCHAT.rglob("*") if path.suffix in (".yaml", ".md"))
TEXTS = {name: (WHINCHAT / name).read_text(encoding="utf-8") for name in FILES}
WORDS = sorted({word for text in TEXTS.values() for word in text.split()})

# What readers of YAML, Markdown, figures and claims have to be careful with.
ODD = [
    "", "\x00", "\t", "{", "}", "[", "]", '"', "'", "#", "|", ">", "---", "- ", "&a", "*a", "<<", "!x", "%", "@", "`",
    "```claim", "\r", "\ufeff", "\u2028", "1e300", "-1", "0", "nan", ".inf", "null", "true", "<side>", "for each:",
    "on:", "§", "not ", ": ", "? ", "a" * 300, "1" * 400, "((((", "[[[[", "{a: {b: {c: d}}}", "Mk 9",
    "repeated 99999999 times",
]  # fmt: skip

edits = st.lists(
    st.tuples(
        st.sampled_from(["insert", "delete", "swap", "truncate", "replace"]),
        st.floats(0.0, 1.0),
        st.floats(0.0, 1.0),
        st.one_of(st.sampled_from(ODD), st.sampled_from(WORDS), st.text(max_size=20)),
    ),
    min_size=1,
    max_size=5,
)


def edited(text: str, kind: str, first: float, second: float, put: str) -> str:
    """The text with one edit at a share of its length."""
    low, high = sorted((int(first * len(text)), int(second * len(text))))
    match kind:
        case "insert":
            return text[:low] + put + text[low:]
        case "delete":
            return text[:low] + text[min(high, low + 60) :]
        case "truncate":
            return text[:high]
        case "replace":
            words = text.split(" ")
            words[int(first * (len(words) - 1))] = put
            return " ".join(words)
        case _:
            lines = text.splitlines(keepends=True) or [""]
            one, other = int(first * (len(lines) - 1)), int(second * (len(lines) - 1))
            lines[one], lines[other] = lines[other], lines[one]
            return "".join(lines)


@pytest.fixture(scope="module")
def whinchat(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return Path(shutil.copytree(WHINCHAT, tmp_path_factory.mktemp("random") / "whinchat"))


@contextmanager
def written(folder: Path, name: str, text: str) -> Iterator[None]:
    """One file of the folder with another text for a while."""
    data = text.encode("utf-8", errors="surrogatepass")
    (folder / name).write_bytes(data)
    try:
        yield
    finally:
        (folder / name).write_text(TEXTS[name], encoding="utf-8")


def check_is_told(folder: Path) -> None:
    """Every problem is of a known code, says something, and stands inside its file."""
    for problem in check_problems(folder):
        assert problem.code in CATALOGUE
        assert problem.message.strip()
        for span in (problem.span, *(span for span, _ in problem.also)):
            assert span is None or 0 <= span.start <= span.end <= len(span.file.text)


SHORT = settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture]
)


@SHORT
@given(name=st.sampled_from(FILES), changes=edits)
def test_edits_of_the_demo(whinchat: Path, name: str, changes: list[tuple[str, float, float, str]]) -> None:
    text = TEXTS[name]
    for change in changes:
        text = edited(text, *change)
    with written(whinchat, name, text):
        check_is_told(whinchat)


@SHORT
@given(
    name=st.sampled_from(FILES),
    text=st.one_of(st.text(max_size=200), st.lists(st.sampled_from(WORDS + ODD)).map(" ".join)),
)
def test_any_text_at_all(whinchat: Path, name: str, text: str) -> None:
    with written(whinchat, name, text):
        check_is_told(whinchat)


def test_the_edits_do_edit() -> None:
    """Each sort of edit changes the text of some file, so that what is tried is not the demo itself."""
    text = TEXTS["systems/fuel.yaml"]
    for kind in ("insert", "delete", "swap", "truncate", "replace"):
        assert edited(text, kind, 0.2, 0.7, "what") != text, kind
