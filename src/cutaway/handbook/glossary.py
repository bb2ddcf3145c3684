"""glossary.yaml: the words of the trade, how they are said and where they are first explained."""

from cutaway.handbook.door import admit, block_of
from cutaway.handbook.head import Head, read_cites
from cutaway.handbook.names import did_you_mean, fold
from cutaway.handbook.nodes import Block, Faulty, Node, Words
from cutaway.handbook.records import Pronounced, Script, Term
from cutaway.handbook.shapes import GlossaryShape, TermShape
from cutaway.problems.diagnostic import Diagnostic, Problems


def read_glossary(
    root: Node | None, head: Head, scripts: tuple[Script, ...], unread: frozenset[str]
) -> tuple[tuple[Term, ...], Problems]:
    """The terms in order. unread: the names of scripts that are there but could not be read."""
    if root is None or isinstance(root, Faulty):
        return (), ()
    _, problems = admit(GlossaryShape, root, "glossary.yaml")
    block, more = block_of(root.get("terms") if isinstance(root, Block) else None, "'terms'")
    problems = tuple(dict.fromkeys(problems + more))
    terms: list[Term] = []
    known = [script.name for script in scripts]
    for entry in block.entries if block else ():
        name = " ".join(entry.key.text.split())
        shape, more = admit(TermShape, entry.value, f"the term {name}")
        problems += more
        if shape is None or not isinstance(entry.value, Block):
            continue
        cites, more = read_cites(entry.value.get("cite"), head, "")
        problems += more
        introduced = next((script for script in known if fold(script) == fold(shape.introduced)), "")
        if shape.introduced and not introduced and shape.introduced not in unread:
            place = entry.value.get("introduced")
            message = f"The term {name} is said to be introduced in '{shape.introduced}', which is not a script."
            span = place.span if isinstance(place, Words) else entry.key.span
            problems += (Diagnostic("H701", span, message, did_you_mean(shape.introduced, known)),)
        means = " ".join(shape.means.split())
        simply = " ".join(shape.simply.split())
        terms.append(Term(name, means, shape.said_as, tuple(shape.also), introduced, cites, entry.key.span, simply))
    return tuple(terms), problems


def read_pronounced(root: Node | None) -> tuple[Pronounced, ...]:
    """How names are read aloud; what is wrong with the block is told by `read_glossary`."""
    block = root.get("pronounced") if isinstance(root, Block) else None
    if not isinstance(block, Block):
        return ()
    return tuple(
        Pronounced(" ".join(entry.key.text.split()), " ".join(entry.value.text.split()), entry.key.span)
        for entry in block.entries
        if isinstance(entry.value, Words) and entry.value.text.strip()
    )
