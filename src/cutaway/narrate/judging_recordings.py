"""Whether a recording is one of the script at all, and whether it was heard well enough to be believed."""

from cutaway.handbook.records import Script
from cutaway.narrate.alignment import Alignment
from cutaway.problems.diagnostic import Diagnostic, Problems

# Choices of ours. On synthetic speech the right script is heard to 90 % and more, and of what is heard in a recording
# of a part of it as much agrees; music, noise and other scripts of the same trade agree in nothing, since words that
# agree by chance are not in their order.
_HARDLY = 0.2
_OF_WHAT_IS_SAID = 0.3
_AT_LEAST = 8
_BADLY = 0.7


def not_this_script(alignment: Alignment, script: Script, name: str, seconds: float) -> Problems:
    """A problem if hardly anything of the script was heard, and what was heard is hardly of the script."""
    of_a_part = alignment.share_agreed >= _OF_WHAT_IS_SAID and len(alignment.agreed) >= _AT_LEAST
    if alignment.share >= _HARDLY or of_a_part:
        return ()
    words = (
        f"'{name}' does not sound like the script {script.name}: in {seconds / 60:.1f} min only "
        f"{len(alignment.agreed)} of its words were made out in their order."
    )
    hint = "See that it is speech and not music or noise, and that it is this script; nothing was written."
    return (Diagnostic("N505", None, words, hint),)


def of_a_part(alignment: Alignment, script: Script, name: str) -> Problems:
    """A warning if whole stretches of the script are not in the recording, so that the captions are of a part."""
    if not alignment.absent:
        return ()
    count = sum(not one.words for one in alignment.sentences)
    words = (
        f"'{name}' is a recording of a part of the script {script.name}: {count} of its {len(alignment.sentences)} "
        "sentences are not in it, and have no captions."
    )
    hint = "Say --out and a folder for this part, so that its captions are not taken for those of the whole."
    return (Diagnostic("N507", None, words, hint),)


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
