"""What was asked, its opposite and what it means; lines in words; what counts as a failure."""

import pytest

from cutaway.api.asking import Asked, base_for
from cutaway.inquiry.questions.differing_records import RecordDifference
from cutaway.inquiry.questions.links import Charged, Cut, Other, Reads, Step, Tied
from cutaway.inquiry.search.changes import Break
from cutaway.wording.compare_lines import line_words
from cutaway.wording.how_far import alike_words, leaks_words, scope_words
from cutaway.wording.links import link_words
from cutaway.wording.otherwise import asked_clause, asks_words, meant_lines, otherwise_clause
from tests.inquiry.questions.asking import whinchat


@pytest.mark.parametrize(
    ("statement", "opposite"),
    [
        ("fuel lamp is lit", "the fuel lamp is out"),
        ("fuel lamp is out", "the fuel lamp is lit"),
        ("fuel lamp is not lit", "the fuel lamp is lit"),
        ("suction gauge reads below 1 in Hg", "the suction gauge reads no less than 1 in Hg"),
        ("suction gauge reads at least 1 in Hg", "the suction gauge reads below 1 in Hg"),
        ("flying instruments", "flying instruments are not in order"),
        ("tank selector is off", "the tank selector is not off"),
        ("fuel lamp is lit and engine is stopped", "that is otherwise"),
    ],
)
def test_the_opposite_is_a_plain_one(statement: str, opposite: str) -> None:
    here = whinchat()
    base, _, _ = base_for(here.loaded, here.workshop, Asked(statement))
    assert base is not None
    assert otherwise_clause(base.question, here.loaded.folder) == opposite


def test_a_service_is_in_order_and_said_to_mean_what_its_author_wrote() -> None:
    here = whinchat()
    base, _, _ = base_for(here.loaded, here.workshop, Asked("flying instruments"))
    assert base is not None
    assert asked_clause(base.question, here.loaded.folder) == "flying instruments are in order"
    (meant,) = meant_lines(base.question, here.loaded.folder)
    assert meant.startswith("By 'flying instruments' is meant that the artificial horizon is working and ")
    assert asks_words(("tank selector is off",), here.loaded.folder) == "the tank selector is off"


def test_a_line_of_one_mark_alone_and_the_way_round_on_the_other() -> None:
    def line(run: str, on_one: bool) -> RecordDifference:
        return RecordDifference("line", run, "", run if on_one else "", "" if on_one else run, (), (), ())

    direct = line("generator.output > main bus", True)
    round_about = (line("generator.output > ammeter.inlet", False), line("ammeter.outlet > main bus", False))
    assert line_words(direct, (direct, *round_about), "Mk 1", "Mk 2") == (
        "The output side of the generator leads straight to the main bus on Mk 1, and by way of the ammeter on Mk 2."
    )
    assert line_words(direct, (direct, round_about[0]), "Mk 1", "Mk 2").endswith("to the main bus on Mk 1 only.")
    swapped = line("generator.output > main bus", False)
    assert line_words(swapped, (swapped,), "Mk 1", "Mk 2").endswith("on Mk 2 only.")


def test_every_supply_that_is_cut_off_is_named_and_those_alike_together() -> None:
    folder = whinchat().loaded.folder
    ground = (Step("ground switch", "ground"),)
    others = (
        Other("port battery", ground),
        Other("starboard battery", ground),
        Other("port generator", (Step("port generator", "still"),)),
        Other("trolley", ()),
    )
    cut = Cut("bus", "socket", (Step("socket", "disconnected"),), "current", False, (), others)
    assert link_words(cut, folder) == (
        "no current comes to the bus from the socket, because the socket stands at disconnected; nor from the port "
        "battery or the starboard battery, because the ground switch stands at ground; nor from the port generator, "
        "which stands still; nor from the trolley, for the same reason"
    )


def test_a_limit_says_what_comes_of_it() -> None:
    folder = whinchat().loaded.folder
    reads = Reads("bus", "bus", 24.0, 18.0, "voltage", "", True, ())
    from_leg = Tied("switch", "watches", "leg", "locked down", ())
    assert link_words(from_leg, folder) == "the switch watches the leg, which is locked down"
    assert link_words(reads, folder) == "the voltage at the bus is 24 V, above the 18 V that it needs"
    dead = Reads("bus", "bus", 0.0, 16.8, "voltage", "", False, (), "dead")
    assert link_words(dead, folder).endswith("below the 16.8 V at which the bus becomes dead")
    assert "nothing was in the bottle" in link_words(Charged("bottle", False, True, ()), folder)
    assert "what the situation begins with" in link_words(Charged("bottle", True, False, ()), folder)


def test_what_counts_as_a_failure_is_said() -> None:
    assert scope_words(()).endswith("a broken wire or pipe between two parts does not")
    assert scope_words(("fuse", "oil tank")).endswith("nor anything in a fuse or an oil tank")
    assert "A slow leak of the air bottle does not explain it alone" in leaks_words(("air bottle",), "explain it")
    two = [(Break("lamp", "filament", "lamp: filament"),), (Break("bus", "short", "bus: short"),)]
    assert alike_words(two).endswith("tells these two apart: the lamp (filament) and the bus (short).")
