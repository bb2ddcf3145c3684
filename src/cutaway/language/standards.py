"""What 'on …' means in a claim."""

from lark import Token

from cutaway.language.name_index import key
from cutaway.language.said import Said
from cutaway.quantities.which import Standard, StandardName, Which, read_which


def standards_named(token: Token, said: Said) -> Which | None:
    """The standards, or the airframe, that follow 'on'.

    A mark means its standards; an airframe is judged only where it is named, since what it lacks is its own story.
    """
    head = said.words.folder.type
    text = str(token)
    by_name = {standard.name: standard for standard in head.standards}
    named = [a for a in head.airframes if key(a.name) in key(text)]
    for airframe in named:
        if key(airframe.name) == key(text):
            return Which(airframe.name, frozenset((StandardName(airframe.name),)))
    extra = tuple(
        Standard(StandardName(a.name), by_name[a.standard].mark, by_name[a.standard].mods)
        for a in named
        if a.standard in by_name
    )
    if said.left_out(token):
        return None
    mods = tuple(mod.name for mod in head.mods)
    which, problems = read_which(text, said.span(token), head.marks, mods, (*head.standards, *extra))
    said.pass_on(problems)
    return which
