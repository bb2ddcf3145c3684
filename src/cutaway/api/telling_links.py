"""Proposals as text for a person and as records for a program."""

from cutaway.api.linking import Linked
from cutaway.narrate.linking import Proposal
from cutaway.problems.span import place

_HEADS = {"cite": "cite", "part": "part", "claim": "claim"}


def proposal_text(one: Proposal) -> str:
    """One proposal: its number, the sentence, what would be written and why."""
    lines = [f"{one.number:>3}  {_HEADS[one.sort]}  ({one.because})"]
    if one.sentence is not None:
        span = one.sentence.span
        lines.append(f"     {span.file.path}:{place(span).line}  {one.sentence.text}")
    else:
        lines.append(f"     into {one.insertion.path}")
    lines += [f"       {line}" for line in one.words.split("\n")]
    if one.wants:
        lines.append(f"     It will still want: {', '.join(one.wants)}.")
    if one.needs:
        lines.append(f"     It needs number {one.needs} as well.")
    return "\n".join(lines)


def linked_text(linked: Linked) -> str:
    """All proposals for a script."""
    if not linked.proposals:
        return f"There is nothing to propose for {linked.script}: no sentence without a link is plainly stated."
    told = "\n\n".join(map(proposal_text, linked.proposals))
    first = linked.proposals[0].number
    return f"{told}\n\nNothing was written. Accept one with: cutaway link {linked.script} --accept {first}"


def linked_record(linked: Linked) -> list[dict[str, object]]:
    """The same for a program."""
    return [
        {
            "number": one.number,
            "sort": one.sort,
            "sentence": one.sentence.text if one.sentence else None,
            "writes": one.words,
            "into": one.insertion.path,
            "because": one.because,
            "wants": list(one.wants),
            "needs": one.needs or None,
        }
        for one in linked.proposals
    ]
