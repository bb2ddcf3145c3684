"""English plurals, and things counted in words: enough for a trade whose nouns are tanks, batteries and buses."""


def plural(name: str) -> str:
    """The plural of a name; only its last word changes.

    >>> plural("vacuum pump"), plural("battery"), plural("bus"), plural("magneto switch"), plural("flaps")
    ('vacuum pumps', 'batteries', 'buses', 'magneto switches', 'flaps')
    """
    small = name.lower()
    if small.endswith(("ss", "us", "x", "z", "ch", "sh")):
        return name + "es"
    if small.endswith("s"):
        return name
    if small.endswith("y") and small[-2:-1] not in "aeiou":
        return name[:-1] + "ies"
    return name + "s"


def counted(number: int, what: str, many: str = "") -> str:
    """A number with its noun, which stands in the singular for one alone. many: the plural of an odd word.

    >>> counted(1, "page"), counted(2, "battery"), counted(0, "page"), counted(1200, "word"), counted(2, "foot", "feet")
    ('1 page', '2 batteries', '0 pages', '1,200 words', '2 feet')
    """
    return f"{number:,} {what if number == 1 else many or plural(what)}"
