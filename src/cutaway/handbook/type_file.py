"""type.yaml: the head of the folder, with its marks, mods, standards, airframes and house units."""

from cutaway.handbook.door import admit, block_of, head_span, several_of
from cutaway.handbook.names import did_you_mean, fold, listed
from cutaway.handbook.nodes import Block, Entry, Node, Words
from cutaway.handbook.records import AircraftType, Airframe, Mod, PartName
from cutaway.handbook.shapes import AirframeShape, ModShape, TypeShape
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span
from cutaway.quantities.units import UNITS, unit_spelled
from cutaway.quantities.which import Standard, read_standard, standards_of

NOTICE = (
    "This is an interpretation for the ground. It is not flight, maintenance or operating advice; what is done to a "
    "real aircraft is governed by its approved documents and by the licensed people of the place."
)


def read_type(root: Node, folder_name: str) -> tuple[AircraftType | None, Problems]:
    """The aircraft type; None where type.yaml cannot be used at all."""
    block, problems = block_of(root, "type.yaml")
    if block is None:
        return None, problems
    shape, more = admit(TypeShape, block, "type.yaml")
    problems += more
    if shape is None:
        # What can be read is kept, so that the other files are not judged without their marks.
        shape = _what_can_be_read(block)
    name = shape.name.strip() or folder_name
    marks, more = _marks(block)
    problems += more
    mods, more = _mods(block, marks)
    problems += more
    standards, more = _standards(block, marks or (name,), mods)
    problems += more
    airframes, more = _airframes(block, standards)
    problems += more
    units, more = _house_units(block)
    return (
        AircraftType(
            name,
            shape.maker,
            shape.says,
            marks or (name,),
            mods,
            standards,
            airframes,
            units,
            shape.notice.strip() or NOTICE,
            head_span(block),
        ),
        problems + more,
    )


def _what_can_be_read(block: Block) -> TypeShape:
    def text(key: str) -> str:
        node = block.get(key)
        return node.text if isinstance(node, Words) else ""

    def texts(key: str) -> list[str]:
        return [words.text for words in _words(block.get(key))]

    return TypeShape.model_construct(
        name=text("name"), maker=text("maker"), says=text("says"), notice=text("notice"), marks=texts("marks")
    )


def _words(node: Node | None) -> tuple[Words, ...]:
    return tuple(item for item in several_of(node) if isinstance(item, Words) and not item.empty)


def _marks(block: Block) -> tuple[tuple[str, ...], Problems]:
    first: dict[str, Words] = {}
    problems: Problems = ()
    for words in (one for said in _words(block.get("marks")) for one in _apart(said)):
        if fold(words.text) in first:
            problems += (
                Diagnostic(
                    "H802",
                    words.span,
                    f"The mark '{words.text}' is listed twice.",
                    "Take one of the two out.",
                    ((first[fold(words.text)].span, "it stands first here:"),),
                ),
            )
        else:
            first[fold(words.text)] = words
    return tuple(" ".join(words.text.split()) for words in first.values()), problems + _run_together(block)


def _apart(words: Words) -> tuple[Words, ...]:
    """The marks of a list that was written without its brackets."""
    return tuple(Words(one.strip(), words.span) for one in words.text.split(",") if one.strip())


def _run_together(block: Block) -> Problems:
    """An error for a list of marks without brackets, which YAML takes for one text."""
    wrong = [words for words in _words(block.get("marks")) if len(_apart(words)) > 1]
    return tuple(
        Diagnostic(
            "H802",
            words.span,
            f"'{words.text}' is one text, and so one mark; a list of marks stands in brackets.",
            f"Write marks: [{', '.join(one.text for one in _apart(words))}]",
        )
        for words in wrong
    )


def _mods(block: Block, marks: tuple[str, ...]) -> tuple[tuple[Mod, ...], Problems]:
    mods: list[Mod] = []
    problems: Problems = ()
    for entry in _entries(block, "mods"):
        name = " ".join(entry.key.text.split())
        shape: ModShape | None = ModShape(says="")
        if _is_said(entry.value):
            shape, more = admit(ModShape, entry.value, f"the mod {name}")
            problems += more
        if shape is None:
            continue
        on: list[str] = []
        for words in _words(entry.value.get("fitted to") if isinstance(entry.value, Block) else None):
            mark = _spelled(words.text, marks)
            if mark:
                on.append(mark)
            else:
                problems += (_unknown_mark(words.text, words.span, marks),)
        mods.append(Mod(name, tuple(on), shape.says, entry.key.span))
    return tuple(mods), problems


def _standards(block: Block, marks: tuple[str, ...], mods: tuple[Mod, ...]) -> tuple[tuple[Standard, ...], Problems]:
    standards: list[Standard] = []
    problems: Problems = ()
    for words in _words(block.get("standards")):
        standard, more = read_standard(words.text, words.span, marks, tuple(mod.name for mod in mods))
        problems += more
        if standard is not None and standard not in standards:
            standards.append(standard)
    return tuple(standards) or standards_of(marks), problems


def _airframes(block: Block, standards: tuple[Standard, ...]) -> tuple[tuple[Airframe, ...], Problems]:
    airframes: list[Airframe] = []
    problems: Problems = ()
    for entry in _entries(block, "airframes"):
        name = " ".join(entry.key.text.split())
        shape, more = admit(AirframeShape, entry.value, f"the airframe {name}")
        problems += more
        if shape is None:
            continue
        standard = next((s for s in standards if fold(s.name) == fold(shape.standard)), None)
        if standard is None:
            node = entry.value.get("standard") if isinstance(entry.value, Block) else None
            problems += (
                Diagnostic(
                    "H804",
                    node.span if node else entry.key.span,
                    f"The airframe {name} is of the standard '{shape.standard}', which is not among the standards.",
                    did_you_mean(shape.standard, [s.name for s in standards]),
                ),
            )
            continue
        missing = tuple(PartName(part) for part in shape.missing)
        disconnected = tuple(PartName(part) for part in shape.disconnected)
        airframes.append(Airframe(name, standard.name, missing, disconnected, shape.says, entry.key.span))
    return tuple(airframes), problems


def _house_units(block: Block) -> tuple[tuple[tuple[str, str], ...], Problems]:
    units: list[tuple[str, str]] = []
    problems: Problems = ()
    dimensions = tuple(dict.fromkeys(unit.dimension for unit in UNITS))
    for entry in _entries(block, "house units"):
        dimension = next((d for d in dimensions if d == fold(entry.key.text)), None)
        if dimension is None:
            hint = did_you_mean(entry.key.text, dimensions)
            problems += (Diagnostic("H801", entry.key.span, f"'{entry.key.text}' is not a dimension.", hint),)
            continue
        if not isinstance(entry.value, Words) or entry.value.empty:
            continue
        unit = unit_spelled(entry.value.text, dimension)
        if unit is not None and unit.dimension == dimension:
            units.append((dimension, unit.name))
        else:
            known = [u.name for u in UNITS if u.dimension == dimension]
            message = f"'{entry.value.text}' is not a unit of {dimension}."
            problems += (Diagnostic("H801", entry.value.span, message, f"Write {listed(known, 'or')}."),)
    return tuple(units), problems


def _entries(block: Block, key: str) -> tuple[Entry, ...]:
    node = block.get(key)
    return node.entries if isinstance(node, Block) else ()


def _is_said(node: Node) -> bool:
    return not (isinstance(node, Words) and node.empty)


def _spelled(text: str, known: tuple[str, ...]) -> str:
    return next((name for name in known if fold(name) == fold(text)), "")


def _unknown_mark(text: str, span: Span, marks: tuple[str, ...]) -> Diagnostic:
    return Diagnostic("H802", span, f"There is no mark '{text}'.", did_you_mean(text, marks))
