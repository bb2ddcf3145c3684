"""English plurals of the names of parts and kinds: enough for a trade whose nouns are tanks, batteries and buses."""


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
