"""A page that is opened in the browser, and must have said nothing in its console when it is closed."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any


@contextmanager
def silent_page(browser: Any, file: Path, width: int, height: int) -> Iterator[Any]:
    """The page of a file in a window of that size, px."""
    page = browser.new_page(viewport={"width": width, "height": height})
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.goto(file.as_uri())
    yield page
    assert said == []
    page.close()
