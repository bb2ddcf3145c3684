"""The process that hears pieces of a recording: `python -m cutaway.narrate.listening SAMPLES FOLDER`.

Reads the pieces as a JSON list of (first, one past the last sample), writes a line of JSON for each.
"""

import json
import sys
from pathlib import Path

from cutaway.narrate.phrases_of_sound import heard_by_machine, seconds_of
from cutaway.narrate.recogniser import listener, words_in
from cutaway.narrate.sound import mapped


def main(raw: Path, scratch: Path) -> None:
    """Hear the pieces that standard input names."""
    recording = mapped(raw)
    decoder = listener(scratch)
    for first, last in json.load(sys.stdin):
        found = words_in(decoder, heard_by_machine(recording, first, last), seconds_of(first))
        print(json.dumps((first, last, [(one.word, one.start, one.end) for one in found])), flush=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
