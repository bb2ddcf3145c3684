"""The JSON Schema of a type folder's YAML files, so that an editor completes and marks them as they are typed.

The simple files come from the shapes at the door; the blocks of parts are made from the library of kinds. A schema
sees shape only: whether a unit is right or a part exists is found by loading.
"""

from collections.abc import Iterable
from typing import Any

from cutaway.handbook.door import keys_of
from cutaway.handbook.parts import COMMON_KEYS
from cutaway.handbook.ports import Kinds
from cutaway.handbook.shapes import (
    AirframeShape,
    AssumedShape,
    ChartShape,
    DecidedShape,
    ExplorableShape,
    GivenShape,
    GlossaryShape,
    HandoutShape,
    HandoutsShape,
    LeftOutShape,
    LetterShape,
    ModShape,
    PhotographShape,
    PointShape,
    RuleShape,
    RunShape,
    ServiceShape,
    Shape,
    SheetShape,
    SituationShape,
    SystemShape,
    TermShape,
    TypeShape,
)
from cutaway.parts.kind import Coupling, Kind, TableWant, Want

DIALECT = "https://json-schema.org/draft/2020-12/schema"
Schema = dict[str, Any]

_WORDS: Schema = {"type": "string"}
# A figure alone is a number to YAML, though we read it as it is written.
_SCALAR: Schema = {"type": ["string", "number"]}
_ONE_OR_MORE: Schema = {"anyOf": [_SCALAR, {"type": "array", "items": _SCALAR}]}


def json_schema(kinds: Kinds) -> dict[str, Schema]:
    """A schema for each sort of YAML file, by the pattern of its path: 'systems/*.yaml', 'type.yaml' and so on."""
    return {
        "type.yaml": _headed("The head of a type folder.", _type()),
        "systems/*.yaml": _headed("The parts and lines of one system.", _system(kinds)),
        "sheets/*.yaml": _headed("A sheet of one's own.", _sheet()),
        "decided.yaml": _headed(
            "What is followed where books conflict.", {"type": "array", "items": _of(DecidedShape)}
        ),
        "situations.yaml": _headed("What is set, given and started from.", _named("situations", _of(SituationShape))),
        "services.yaml": _headed("What the crew needs.", _named("services", {"anyOf": [_WORDS, _of(ServiceShape)]})),
        "glossary.yaml": _headed("The words of the trade.", _glossary()),
        "letters.yaml": _headed("What was objected to.", _named("letters", _of(LetterShape))),
        "photographs.yaml": _headed("Photographs of one's own.", _named("photographs", _photograph())),
        "charts.yaml": _headed("The charts that are asked for.", _named("charts", _of(ChartShape))),
        "explore.yaml": _headed("The pages to be explored.", _named("explore", _of(ExplorableShape))),
        "handouts.yaml": _headed("What the pack has on paper.", _handouts()),
    }


def _headed(title: str, schema: Schema) -> Schema:
    return {"$schema": DIALECT, "title": title, **schema}


def _of(shape: type[Shape], **special: Schema) -> Schema:
    """The schema of a shape: its keys as an author writes them. special: keys whose own schema says more."""
    properties: dict[str, Schema] = {}
    required: list[str] = []
    for key, field in zip(keys_of(shape), shape.model_fields.values(), strict=True):
        schema = dict(special.get(key, _form_of(field.annotation)))
        if field.description:
            schema["description"] = field.description
        properties[key] = schema
        if field.is_required():
            required.append(key)
    return _object(properties, required, (shape.__doc__ or "").strip())


def _form_of(annotation: Any) -> Schema:
    written = str(annotation)
    if "dict[" in written:
        return {"type": ["object", "null"]}
    if "list[" in written:
        return _ONE_OR_MORE
    return _SCALAR if "str" in written else {}


def _object(properties: dict[str, Schema], required: Iterable[str], description: str = "") -> Schema:
    schema: Schema = {"type": "object", "properties": properties, "additionalProperties": False}
    if description:
        schema["description"] = description
    if required:
        schema["required"] = list(required)
    return schema


def _sheet() -> Schema:
    left_out = _of(LeftOutShape)
    columns = {"type": "array", "items": {"type": "array", "items": _SCALAR}}
    some = {"anyOf": [left_out, {"type": "array", "items": left_out}]}
    return _of(SheetShape, columns=columns, **{"leave out": some})


def _named(key: str, entry: Schema) -> Schema:
    """A file that is one key with named entries."""
    entries = {"type": "object", "additionalProperties": {"anyOf": [entry, {"type": "null"}]}}
    return _object({key: entries}, [key])


def _glossary() -> Schema:
    terms = {"type": "object", "additionalProperties": {"anyOf": [_of(TermShape), {"type": "null"}]}}
    said = {"type": "object", "additionalProperties": _WORDS}
    return _of(GlossaryShape, terms=terms, pronounced=said)


def _handouts() -> Schema:
    entries = {"anyOf": [_of(HandoutShape), {"type": "null"}]}
    return _of(HandoutsShape, handouts={"type": ["object", "null"], "additionalProperties": entries})


def _photograph() -> Schema:
    pair = {"type": "array", "items": _SCALAR, "minItems": 2, "maxItems": 2}
    point = _of(PointShape, at={"anyOf": [pair, _WORDS]}, side={"enum": ["left", "right", "over"]})
    return _of(PhotographShape, points={"type": "object", "additionalProperties": {"anyOf": [pair, _WORDS, point]}})


def _type() -> Schema:
    mods = {"type": "object", "additionalProperties": {"anyOf": [_of(ModShape), {"type": "null"}]}}
    airframes = {"type": "object", "additionalProperties": _of(AirframeShape)}
    units = {"type": "object", "additionalProperties": _WORDS}
    return _of(TypeShape, mods=mods, airframes=airframes, **{"house units": units})


def _system(kinds: Kinds) -> Schema:
    names = sorted(kinds)
    part: Schema = {
        "type": "object",
        "required": ["kind"],
        "properties": {"kind": {"enum": names, "description": _common("kind")}},
        "allOf": [
            {
                "if": {"properties": {"kind": {"const": name}}, "required": ["kind"]},
                "then": {"$ref": f"#/$defs/{_key(name)}"},
            }
            for name in names
        ],
    }
    parts = {"type": "object", "additionalProperties": {"$ref": "#/$defs/part or parts"}}
    run = _of(RunShape, **{"for each": _for_each()})
    lines = {"type": "array", "items": {"anyOf": [_WORDS, run]}}
    defs: dict[str, Schema] = {
        "part": part,
        "part or parts": {
            "if": {"type": "array"},
            "then": {"items": {"$ref": "#/$defs/part"}, "minItems": 1},
            "else": {"$ref": "#/$defs/part"},
        },
        "given": _of(GivenShape),
        "assumed": _of(AssumedShape),
        **{_key(name): _kind(kinds[name]) for name in names},
    }
    return {**_of(SystemShape, parts=parts, lines=lines), "$defs": defs}


def _key(kind: str) -> str:
    # A slash would part the name in two where a reference points at it.
    return f"kind {kind.replace('/', ' or ')}"


def _common(key: str) -> str:
    return next(says for name, says in COMMON_KEYS if name == key)


def _kind(kind: Kind) -> Schema:
    """The block of a part of one kind, without which a misspelt key could not be marked."""
    properties: dict[str, Schema] = {
        "kind": {"const": kind.name, "description": kind.says},
        "on": {**_ONE_OR_MORE, "description": _common("on")},
        "cite": {**_ONE_OR_MORE, "description": _common("cite")},
        "rules": {"type": "array", "items": _of(RuleShape), "description": _common("rules")},
        "for each": _for_each(),
    }
    for key, says in COMMON_KEYS:
        properties.setdefault(key, {**_SCALAR, "description": says})
    for want in kind.wants:
        properties[want.name] = _quantity(want)
    for name in kind.lists:
        properties[name] = {"type": "array", "items": _SCALAR, "description": f"The {name} of this part, in order."}
    for table in kind.tables:
        properties[table.name] = _table(table)
    for coupling in kind.couplings:
        properties[coupling.name] = _coupling(coupling)
    required = ["kind", *(want.name for want in kind.wants if not want.default), *kind.lists]
    required += [coupling.name for coupling in kind.couplings if coupling.required]
    return _object(properties, required, kind.says)


def _quantity(want: Want) -> Schema:
    one = {"anyOf": [_SCALAR, {"$ref": "#/$defs/given"}, {"$ref": "#/$defs/assumed"}]}
    usual = f" Usually {want.default}." if want.default else ""
    return {
        "anyOf": [*one["anyOf"], {"type": "array", "items": one}],
        "description": f"{want.says} ({want.dimension}){usual}",
    }


def _table(table: TableWant) -> Schema:
    """A heading and rows; or the same under `rows`, with `on` and `cite`; or a list of those."""
    row = {"type": "array", "items": _SCALAR, "minItems": len(table.columns), "maxItems": len(table.columns)}
    rows = {"type": "array", "items": row, "minItems": 2}
    long = _object({"rows": rows, "on": _ONE_OR_MORE, "cite": _ONE_OR_MORE}, ["rows"])
    return {"anyOf": [rows, long, {"type": "array", "items": long, "minItems": 1}], "description": table.says}


def _coupling(coupling: Coupling) -> Schema:
    long = _object({"is": _WORDS, "on": _ONE_OR_MORE, "cite": _ONE_OR_MORE}, ["is"])
    conditions = {"type": "object", "additionalProperties": _WORDS, "minProperties": 1}
    one = {"anyOf": [_WORDS, long, conditions]}
    return {"anyOf": [*one["anyOf"], {"type": "array", "items": one}], "description": coupling.says}


def _for_each() -> Schema:
    return {
        "type": "object",
        "additionalProperties": _ONE_OR_MORE,
        "minProperties": 1,
        "description": _common("for each"),
    }
