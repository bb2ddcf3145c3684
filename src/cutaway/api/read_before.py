"""What was read of a type folder before and would be read the same again: trees of files, claims of scripts."""

from collections.abc import Callable

from cutaway.handbook.load import Reader
from cutaway.handbook.nodes import Node
from cutaway.handbook.records import Folder, Script
from cutaway.handbook.yaml_tree import read_tree
from cutaway.language.claims import Sentences
from cutaway.problems.diagnostic import Problems
from cutaway.problems.span import TextFile
from cutaway.publish.shelf import Shelf

_NAMES_NOTHING = ("scripts/", "letters.yaml")
"""How the paths of the files begin that give no name which a claim could speak of."""


def tree_reader(shelf: Shelf) -> Reader:
    """Reads the tree of a YAML file, or takes it from the shelf. Its path counts too: problems and spans name it."""

    def read(file: TextFile) -> tuple[Node | None, Problems]:
        return shelf.piece("tree", (file.path, file.text), lambda: read_tree(file))

    return read


def sentence_reader(folder: Folder, shelf: Shelf) -> Callable[[Script, Callable[[], Sentences]], Sentences]:
    """Reads the claims of a script, or takes them from the shelf: they depend on its text and on what has a name.

    What was left out counts by itself, since a file that could not be opened has no text here.
    """
    names = tuple((file.path, file.text) for file in folder.files if not file.path.startswith(_NAMES_NOTHING))
    known = (names, folder.left_out)

    def read(script: Script, find: Callable[[], Sentences]) -> Sentences:
        return shelf.piece("sentences", (script.name, script.span.file.text, known), find)

    return read
