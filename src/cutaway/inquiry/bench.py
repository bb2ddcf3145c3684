"""A threshold put to the test: what a part senses is held at a pressure of our choosing, as on a test bench."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from cutaway.inquiry.deciding import LONGEST_REST
from cutaway.inquiry.evidence import cites_of
from cutaway.inquiry.judging import Question, scenes_of
from cutaway.inquiry.signals import needed
from cutaway.inquiry.truth import half_step, truth
from cutaway.inquiry.verdicts import Fails, Holds, NotModelled, Undecided, Verdict
from cutaway.inquiry.workshop import Request
from cutaway.language.syntax import ComesOnAt, InState
from cutaway.machine import names
from cutaway.machine.bind import Bound
from cutaway.machine.network import InputSlot
from cutaway.machine.records import Change, Outcome
from cutaway.parts.recipe import Const, Expr, Input
from cutaway.quantities.si import to_si
from cutaway.quantities.which import StandardName


@dataclass(frozen=True, slots=True)
class _Levels:
    """The sensed pressure well before the limit, just short of it, just past it, Pa."""

    before: float
    short: float
    past: float


def bench_verdict(question: Question, statement: ComesOnAt) -> Verdict:
    """Bench test: the sensed point is held at a pressure of our choosing and moved from one side of the limit to just
    short of it, then just past it, in the scope's situation; with no situation, the part is given its current."""
    bound = question.bound
    sensed = bound.wiring.coupled.get((str(statement.part), "senses"))
    if statement.part not in bound.parts:
        return NotModelled((str(statement.part),))
    if sensed is None:
        return NotModelled((f"what {statement.part} senses",))
    node = bound.wiring.joined[names.node_name(*sensed)]
    quantity = statement.quantity
    value, tolerance = to_si(quantity), half_step(quantity)
    sign = 1.0 if statement.falling else -1.0
    levels = _Levels(value + sign * 10 * tolerance, value + sign * tolerance, value - sign * tolerance)
    held: dict[str, Expr] = {node: Input("condition", "bench")}
    if not question.scope.situation:
        held.update(_current_to(bound, str(statement.part)))
    on_bench = _on_bench(bound, held, levels.before)
    state = InState(statement.part, statement.state, statement.negated, statement.span)
    asked = replace(question, statement=state, bound=on_bench)
    need = needed(state, on_bench, question.told.services)
    if need.missing:
        return NotModelled(need.missing)
    made = question.workshop.made(on_bench, need.signals)
    scenes = scenes_of(asked, made)
    if isinstance(scenes, NotModelled):
        return scenes
    results = question.workshop.runs(
        [
            Request(made, scenes.all[0].legs, (*scenes.all[0].changes, Change(0.0, "bench", level)), LONGEST_REST, True)
            for level in (levels.before, levels.short, levels.past)
        ]
    )
    so: list[bool] = []
    for result in results:
        if isinstance(result, Outcome) or result.outcome.kind != "done":
            outcome = result if isinstance(result, Outcome) else result.outcome
            return Undecided(outcome.sentence)
        times = truth(state, result, on_bench, question.told.services)
        so.append(times.holds_at(times.until))
    cites = cites_of(state, question.scope, bound, question.told.services)
    if so == [False, False, True]:
        return Holds(0.0, (), cites, 3)
    if so[2]:
        return Fails(0.0, "too early", (), cites, tried=3)
    return Fails(0.0, "never came", (), cites, tried=3)


def _current_to(bound: Bound, part: str) -> dict[str, Expr]:
    """The node that feeds an electrical part, held at the voltage that the part is made for."""
    kind, voltage = bound.kinds[bound.parts[part].kind], bound.fits[part].si.get("voltage")
    feeds = [c.port for c in kind.couplings if c.to == "port" and (part, c.name) in bound.wiring.coupled]
    if voltage is None:
        return {}
    return {bound.wiring.joined[names.node_name(part, port)]: Const(voltage) for port in feeds}


def _on_bench(bound: Bound, held: Mapping[str, Expr], level: float) -> Bound:
    """The same subject with some nodes held in our hands, one of them as the condition 'bench'."""
    network = replace(
        bound.network,
        nodes=tuple(replace(n, boundary=held.get(n.name, n.boundary)) for n in bound.network.nodes),
        inputs=(*bound.network.inputs, InputSlot("bench", "condition", level)),
    )
    name = StandardName(f"{bound.subject.name}, on the bench: {', '.join(held)}")
    return replace(bound, network=network, subject=replace(bound.subject, name=name))
