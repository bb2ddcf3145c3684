"""services.yaml: what the crew needs, each a statement; what it says is read by the language."""

from cutaway.handbook.door import admit, block_of, wrong_form
from cutaway.handbook.head import Head, read_cites
from cutaway.handbook.names import fold
from cutaway.handbook.nodes import Block, Entry, Faulty, Node, Words
from cutaway.handbook.records import Service
from cutaway.handbook.shapes import ServiceShape, ServicesShape
from cutaway.problems.diagnostic import Problems


def read_services(root: Node | None, head: Head) -> tuple[tuple[Service, ...], frozenset[str], Problems]:
    """The services in order, and the names of those left out."""
    if root is None or isinstance(root, Faulty):
        return (), frozenset(), ()
    _, problems = admit(ServicesShape, root, "services.yaml")
    block, more = block_of(root.get("services") if isinstance(root, Block) else None, "'services'")
    services: list[Service] = []
    lost: set[str] = set()
    for entry in block.entries if block else ():
        service, some = _service(entry, head)
        more += some
        if service is None:
            lost.add(fold(entry.key.text))
        else:
            services.append(service)
    return tuple(services), frozenset(lost), _once(problems + more)


def _service(entry: Entry, head: Head) -> tuple[Service | None, Problems]:
    name = " ".join(entry.key.text.split())
    node = entry.value
    if isinstance(node, Words):
        if node.empty:
            return None, (wrong_form(node, f"the service {name}", "a statement, such as carburettor is fed"),)
        return Service(name, node.span, (), "", entry.key.span), ()
    shape, problems = admit(ServiceShape, node, f"the service {name}")
    if shape is None or not isinstance(node, Block):
        return None, problems
    cites, more = read_cites(node.get("cite"), head, "")
    words = node.get("is")
    assert isinstance(words, Words)
    return Service(name, words.span, cites, shape.caution, entry.key.span), problems + more


def _once(problems: Problems) -> Problems:
    return tuple(dict.fromkeys(problems))
