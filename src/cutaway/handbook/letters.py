"""letters.yaml: what readers and viewers objected to, and what was decided."""

from cutaway.handbook.door import admit, block_of
from cutaway.handbook.head import Head, read_cites
from cutaway.handbook.nodes import Block, Faulty, Node
from cutaway.handbook.records import Letter
from cutaway.handbook.shapes import LetterShape, LettersShape
from cutaway.problems.diagnostic import Problems


def read_letters(root: Node | None, head: Head) -> tuple[tuple[Letter, ...], Problems]:
    """The letters in order."""
    if root is None or isinstance(root, Faulty):
        return (), ()
    _, problems = admit(LettersShape, root, "letters.yaml")
    block, more = block_of(root.get("letters") if isinstance(root, Block) else None, "'letters'")
    problems = tuple(dict.fromkeys(problems + more))
    letters: list[Letter] = []
    for entry in block.entries if block else ():
        name = " ".join(entry.key.text.split())
        shape, more = admit(LetterShape, entry.value, f"the letter {name}")
        problems += more
        if shape is None or not isinstance(entry.value, Block):
            continue
        cites, more = read_cites(entry.value.get("cite"), head, "")
        problems += more
        letters.append(Letter(name, shape.objects_to, shape.says, shape.decision, shape.because, cites, entry.key.span))
    return tuple(letters), problems
