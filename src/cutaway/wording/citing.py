"""Citations as they stand behind a sentence: '(handbook §22, §25)'."""

from cutaway.handbook.records import Cite, Folder


def cited(cites: tuple[Cite, ...], folder: Folder) -> str:
    """The paragraphs in brackets, each once, grouped by book; '' where there are none."""
    if not cites:
        return ""
    books: dict[str, list[str]] = {}
    for cite in cites:
        numbers = books.setdefault(cite.source, [])
        if cite.number not in numbers:
            numbers.append(cite.number)
    return "(" + "; ".join(f"{book_name(key, folder)} {', '.join(numbers)}" for key, numbers in books.items()) + ")"


def book_name(key: str, folder: Folder) -> str:
    """How a book is spoken of: 'handbook' where the folder has only the one, else its title."""
    if len(folder.sources) == 1:
        return "handbook"
    return next((source.title for source in folder.sources if source.key == key and source.title), key)
