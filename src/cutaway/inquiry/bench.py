"""A threshold put to the test: what a part senses is held at a pressure of our choosing, as on a test bench."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from cutaway.inquiry.course import BETWEEN_ACTIONS
from cutaway.inquiry.deciding import LONGEST_REST
from cutaway.inquiry.evidence import cites_of
from cutaway.inquiry.judging import Concluded, Plan, Results, scenes_of, settled_plan, unanswered
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.truth import half_step, true_at_end
from cutaway.inquiry.verdicts import Fails, Holds, NotModelled, Undecided
from cutaway.inquiry.workshop import Made, Request
from cutaway.language.syntax import ComesOnAt, InState
from cutaway.machine import names
from cutaway.machine.bind import Bound
from cutaway.machine.network import InputSlot
from cutaway.machine.records import Change, Run
from cutaway.parts.recipe import Const, Expr, Input
from cutaway.quantities.si import to_si


@dataclass(frozen=True, slots=True)
class Levels:
    """The sensed across value well before the limit, just short of it, just past it, SI."""

    before: float
    short: float
    past: float


def levels_of(statement: ComesOnAt) -> Levels:
    """Ten half digits before the printed limit, one short of it, one past it."""
    value, tolerance = to_si(statement.quantity), half_step(statement.quantity)
    sign = 1.0 if statement.falling else -1.0
    return Levels(value + sign * 10 * tolerance, value + sign * tolerance, value - sign * tolerance)


def on_bench(question: Question, statement: ComesOnAt) -> Question | NotModelled:
    """The question about the same subject with what the part senses held in our hands, as the condition 'bench'; with
    no situation, the part is given its current too."""
    bound, part = question.bound, str(statement.part)
    if part not in bound.parts:
        return NotModelled((part,))
    couplings = bound.kinds[bound.parts[part].kind].couplings
    sensed = [
        bound.wiring.coupled[(part, c.name)]
        for c in couplings
        if c.to == "node" and (part, c.name) in bound.wiring.coupled
    ]
    if len(sensed) != 1:
        return NotModelled((f"what {part} senses",))
    node = bound.wiring.joined[names.node_name(*sensed[0])]
    store = any(e.at[0] == node and e.family in ("TANK", "STORE", "ACCUM", "RAM") for e in bound.network.elements)
    if store or bound.wiring.media[node] == "air":
        return NotModelled((f"a test bench for what {part} senses",))
    held: dict[str, Expr] = {node: Input("condition", "bench")}
    if not question.scope.situation:
        held.update(_current_to(bound, part))
    return replace(question, bound=_held_by_hand(bound, held, levels_of(statement).before))


def bench_plan(question: Question, statement: ComesOnAt, made: Made) -> Plan:
    """In the scope's first scene: well before the limit the state is not, just short of it neither, just past it is.
    Each of the three is tried by itself, coming from well before the limit."""
    scenes = scenes_of(question, made)
    if isinstance(scenes, (NotModelled, Undecided)):
        return settled_plan(scenes)
    scene, levels = scenes.all[0], levels_of(statement)
    moment = scene.clock + BETWEEN_ACTIONS
    requests = tuple(
        Request(made, scene.legs, (*scene.changes, Change(moment, "bench", level)), moment + LONGEST_REST, "calm")
        for level in (levels.before, levels.short, levels.past)
    )
    state = InState(statement.part, statement.state, statement.negated, statement.span)
    cites = cites_of(statement, question.scope, question.bound, question.told.services)

    def conclude(results: Results) -> Concluded:
        so: list[bool] = []
        for result in results:
            nothing = unanswered(result)
            if nothing is not None:
                return nothing, None
            assert isinstance(result, Run)
            so.append(true_at_end(state, result, question.bound, question.told.services))
        if so == [False, False, True]:
            return Holds(0.0, (), cites, len(so)), None
        return Fails(0.0, "too early" if so[2] else "never came", (), cites, tried=len(so)), None

    return Plan(requests, conclude)


def _current_to(bound: Bound, part: str) -> dict[str, Expr]:
    """The node that feeds an electrical part, held at the voltage that the part is made for."""
    kind, voltage = bound.kinds[bound.parts[part].kind], bound.fits[part].si.get("voltage")
    feeds = [c.port for c in kind.couplings if c.to == "port" and (part, c.name) in bound.wiring.coupled]
    if voltage is None:
        return {}
    return {bound.wiring.joined[names.node_name(part, port)]: Const(voltage) for port in feeds}


def _held_by_hand(bound: Bound, held: Mapping[str, Expr], level: float) -> Bound:
    network = replace(
        bound.network,
        nodes=tuple(replace(n, boundary=held.get(n.name, n.boundary)) for n in bound.network.nodes),
        inputs=(*bound.network.inputs, InputSlot("bench", "condition", level)),
    )
    return replace(bound, network=network)
