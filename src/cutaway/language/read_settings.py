"""The settings of a situation as the records of the language. The handbook's reader has judged them; what it could
not use is not there, and what a setting names is looked up again only to be put in the same words as a claim's."""

from cutaway.handbook.records import Setting
from cutaway.language.name_index import key
from cutaway.language.syntax import Condition, Held
from cutaway.language.words import Words
from cutaway.quantities.si import to_si


def held_by(setting: Setting, words: Words) -> Held | None:
    """`tank selector: port tank` or `throttle: 60 %`."""
    control = words.controls.get(key(setting.name))
    if control is None:
        return None
    if setting.quantity is not None:
        return Held(control.ref, "", to_si(setting.quantity), setting.name_span)
    position = next((p for p in control.positions if key(p) == key(setting.text)), None)
    return None if position is None else Held(control.ref, position, None, setting.name_span)


def condition_of(setting: Setting, words: Words) -> Condition | None:
    """`height: 3000 ft`."""
    name = words.conditions.get(key(setting.name))
    if name is None or setting.quantity is None:
        return None
    return Condition("", name, setting.quantity, setting.name_span)


def contents_of(setting: Setting, words: Words) -> Condition | None:
    """`port tank: 18 gal`."""
    part = words.parts.get(key(setting.name))
    if part is None or setting.quantity is None:
        return None
    return Condition(part.name, "contents", setting.quantity, setting.name_span)
