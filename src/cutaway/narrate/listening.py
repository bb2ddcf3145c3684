"""The process that hears pieces of a recording: `python -m cutaway.narrate.listening SAMPLES FOLDER`.

Reads from standard input how loud the sound is to be made and the pieces as (first, one past the last sample), as
JSON; writes a line of JSON for each piece, times counted from its beginning.
"""

import json
import os
import sys
from pathlib import Path

from cutaway.narrate.phrases_of_sound import heard_by_machine
from cutaway.narrate.recogniser import listener, words_in
from cutaway.narrate.sound import stretch


def main(raw: Path, scratch: Path) -> None:
    """Hear the pieces that standard input names."""
    decoder = listener(scratch)
    gain, pieces = json.load(sys.stdin)
    for first, last in pieces:
        found = words_in(decoder, heard_by_machine(stretch(raw, first, last), gain))
        print(json.dumps((first, last, [(one.word, one.start, one.end) for one in found])), flush=True)


if __name__ == "__main__":
    try:
        main(Path(sys.argv[1]), Path(sys.argv[2]))
    except BrokenPipeError:
        # Nobody listens to the listener any more: the session was ended. No complaint as Python closes the pipe.
        os._exit(1)
