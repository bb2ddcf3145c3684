"""From the parse tree of one 'with' to records: what has failed, what is given, where a control is held."""

from lark import Token

from cutaway.handbook.names import listed
from cutaway.handbook.world import CONDITIONS as WORLD
from cutaway.handbook.world import out_of_this_world
from cutaway.language.name_index import key
from cutaway.language.said import Said, choose
from cutaway.language.syntax import Condition, FailureChoice, FailureRef, Held
from cutaway.language.trees import Branch, branch, first_token, name_in, names_in, span_of
from cutaway.language.words import CONDITIONS, PartWords

GivenThing = FailureChoice | Condition | Held


def read_given(tree: Branch, said: Said) -> tuple[GivenThing, ...]:
    """What one 'with' says; what is wrong in it is noted and left out."""
    match tree.data:
        case "failed":
            return _failures(tree, None, said)
        case "gone_wrong":
            return _gone_wrong(tree, said)
        case "has_value":
            return _value(tree, said)
        case _:
            return _held(tree, said)


def _failures(tree: Branch, word: Token | None, said: Said) -> tuple[GivenThing, ...]:
    parties = branch(tree)
    span = span_of(tree, said.file)
    found: list[FailureRef] = []
    for name in names_in(parties):
        parts = said.parts(name)
        refs = _refs(parts or (), name, word, said)
        if refs is None:
            return ()
        found.extend(refs)
    if not found:
        return ()
    if parties.data == "any_of":
        return (FailureChoice(tuple(found), span),)
    return tuple(FailureChoice((ref,), span) for ref in found)


def _refs(parts: tuple[PartWords, ...], name: Token, word: Token | None, said: Said) -> list[FailureRef] | None:
    """One failure of each part; of several parts, those that can go wrong so, if any can."""
    found = [(part, _failure(part, word)) for part in parts]
    able = [FailureRef(part.name, failure) for part, failure in found if failure is not None]
    if able or not parts:
        return able
    kinds = [failure for part in parts for failure in part.failures]
    if word is None:
        said.note("L206", name, f"Nothing can go wrong with '{name}' in this model.", "Name a part that can fail.")
    elif not said.left_out(word):
        can = choose(str(word), kinds) or "Nothing can go wrong with it in this model."
        said.note("L206", word, f"'{word}' is not a thing that happens to '{name}'.", can)
    return None


def _failure(part: PartWords, word: Token | None) -> str | None:
    if word is None:
        return part.failures[0] if part.failures else None
    return next((failure for failure in part.failures if key(failure) == key(word)), None)


def _gone_wrong(tree: Branch, said: Said) -> tuple[GivenThing, ...]:
    """'engine pump seized'; and 'throttle closed', which says where a control is held."""
    parties, word = branch(tree, 0), name_in(branch(tree, 1))
    names = names_in(parties)
    control = said.words.controls.get(key(names[0])) if len(names) == 1 else None
    if control is not None:
        part = said.words.parts.get(key(names[0]))
        position = next((p for p in control.positions if key(p) == key(word)), None)
        fails = part is not None and _failure(part, word) is not None
        if position is not None and fails:
            hint = f"Write {names[0]} at {position} for the position."
            said.note(
                "L204", word, f"'{word}' is a position of '{names[0]}' and something that can go wrong with it.", hint
            )
            return ()
        if position is not None:
            return (Held(control.ref, position, None, span_of(tree, said.file)),)
    return _failures(tree, word, said)


def _value(tree: Branch, said: Said) -> tuple[GivenThing, ...]:
    name, amount = name_in(tree), first_token(tree, "QUANTITY", "NUMBER")
    span = span_of(tree, said.file)
    condition = said.words.conditions.get(key(name))
    if condition is not None:
        quantity = said.quantity(amount, (CONDITIONS[condition],))
        world = next(one for one in WORLD if one.name == condition)
        if quantity is not None and out_of_this_world(world, quantity):
            said.note("L107", amount, f"There is no {condition} of {amount}.", f"Write a figure from {world.words}.")
            return ()
        return () if quantity is None else (Condition("", condition, quantity, span),)
    control = said.words.controls.get(key(name))
    part = said.words.parts.get(key(name))
    if control is not None and control.ranged:
        level = said.level(control, amount)
        return () if level is None else (Held(control.ref, "", level, span),)
    if part is not None and part.contents:
        quantity = said.quantity(amount, part.contents, tuple(unit for r in part.readings for unit in r.units))
        return () if quantity is None else (Condition(part.name, "contents", quantity, span),)
    if part is not None or control is not None:
        said.note("L209", name, f"'{name}' cannot be given a figure.", _what_can(said))
    else:
        names = [*said.words.conditions.values(), *(p.name for p in said.words.parts.values() if p.contents)]
        said.unknown(name, "condition, control or store", names)
    return ()


def _what_can(said: Said) -> str:
    stores = [str(p.name) for p in said.words.parts.values() if p.contents]
    return f"Figures can be given for {listed([*said.words.conditions.values(), *stores])}."


def _held(tree: Branch, said: Said) -> tuple[GivenThing, ...]:
    name, place = names_in(tree)
    control = said.control(name)
    position = said.position(control, place) if control is not None else None
    if control is None or position is None:
        return ()
    return (Held(control.ref, position, None, span_of(tree, said.file)),)
