"""Small random systems by number, as the files of a type folder: a supply, a consumer, and parts between at random."""

import random

from tests.inquiry.folders import system

BETWEEN = {
    "current": (
        "switch",
        "switch",
        "fuse, rating: 40 A",
        "circuit breaker, rating: 40 A",
        "interlocked switch, made with: part 0",
    ),
    "petrol": ("cock", "cock", "fuel filter", "fuel non-return valve", "cross-feed cock", "hand fuel pump"),
}
SUPPLY = {
    "current": "{kind: battery, capacity: 100 Ah, voltage: 12 V}",
    "petrol": "{kind: tank, capacity: 50 gal, head: 1 m}",
}
CONSUMER = {
    "current": "{kind: electrical load, current: 2 A, fed by: junction <last>.any}",
    "petrol": "{kind: carburettor, lowest pressure: 0.1 lb/sq in, full flow: 2 gal/h}",
}
STATE = {"current": "consumer is working", "petrol": "consumer is fed"}
PUT = {
    "switch": ("off", "on"),
    "interlocked switch": ("off", "on"),
    "cock": ("off", "on"),
    "cross-feed cock": ("off", "on"),
    "hand fuel pump": ("idle", "pumping"),
}


def random_folder(number: int) -> tuple[dict[str, str], str]:
    """The files of the system of that number, and the claim that is asked of it."""
    rng = random.Random(number)
    medium = rng.choice(tuple(BETWEEN))
    last = rng.randint(1, 3)
    parts = [f"junction {i}: {{kind: junction}}" for i in range(last + 1)]
    parts += [f"supply: {SUPPLY[medium]}", f"consumer: {CONSUMER[medium].replace('<last>', str(last))}"]
    lines = ["supply > junction 0", *([f"junction {last} > consumer"] if medium == "petrol" else [])]
    settings = []
    for i in range(rng.randint(3, 5)):
        kind = rng.choice(BETWEEN[medium]) if i else BETWEEN[medium][0]
        parts.append(f"part {i}: {{kind: {kind}}}")
        # Every junction but the first is reached from an earlier one; what is left joins any two.
        b = i + 1 if i < last else rng.randint(1, last)
        a = rng.randrange(b)
        lines.append(f"junction {a} > part {i} > junction {b}")
        positions = PUT.get(kind.split(",")[0])
        if positions:
            settings.append(f"part {i}: {rng.choice(positions)}")
    situations = f"situations:\n  set up:\n    settle: 30 s\n    set: {{{', '.join(settings)}}}\n"
    files = {"systems/small.yaml": system("\n".join(parts), "\n".join(lines)), "situations.yaml": situations}
    return files, f"in set up, at 20 s: {STATE[medium]}"
