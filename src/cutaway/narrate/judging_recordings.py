"""Whether a recording is one of the script at all, and whether it was heard well enough to be believed."""

from cutaway.handbook.records import Script
from cutaway.narrate.alignment import Alignment
from cutaway.problems.diagnostic import Diagnostic, Problems

# Choices of ours. On synthetic speech the right script is heard to 90 % and more; music and another script stay far
# below the first figure, since words that agree by chance are not in their order.
_HARDLY = 0.2
_BADLY = 0.7


def not_this_script(alignment: Alignment, script: Script, name: str, seconds: float) -> Problems:
    """A problem if hardly anything of the script was heard."""
    if alignment.share >= _HARDLY:
        return ()
    words = (
        f"'{name}' does not sound like the script {script.name}: in {seconds / 60:.1f} min only "
        f"{100 * alignment.share:.0f} % of its words were made out in their order."
    )
    hint = "See that it is speech and not music or noise, and that it is this script; nothing was written."
    return (Diagnostic("N505", None, words, hint),)


def heard_badly(alignment: Alignment, script: Script, name: str) -> Problems:
    """A warning if so little was heard that times and departures are doubtful."""
    present = [one for one in alignment.sentences if one.words]
    total = sum(len(one.words) for one in present)
    heard = sum(word.heard for one in present for word in one.words)
    if total and heard >= _BADLY * total:
        return ()
    words = (
        f"Of the words of {script.name}, only {100 * heard / max(total, 1):.0f} % were made out in the sentences of "
        f"'{name}' that were found at all."
    )
    hint = "Listen to the captions before they are used; a recording with less noise is heard better."
    return (Diagnostic("N506", None, words, hint),)
