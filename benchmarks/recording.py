"""How long twelve minutes of a narration take to be heard and laid beside the script, and how much memory.

The reference in the same run is the length of the sound itself. `--two-hours` hears two hours instead.
Wants the extra `recording` and, on Debian, the package flite.
"""

import argparse
import math
import resource
import sys
import tempfile
import time
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parent.parent))

from cutaway.narrate.alignment import align
from cutaway.narrate.recogniser import hear
from cutaway.narrate.script_words import SaidWord, words_said
from cutaway.narrate.sound import RATE, open_recording
from tests.narrate.recording.turnstone import SENTENCES
from tests.narrate.recording.voice import Voice, write_wav


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--two-hours", action="store_true")
    minutes = 120 if asked.parse_args().two_hours else 12
    once = Voice("slt").say(SENTENCES)
    times = math.ceil(minutes * 60 * RATE / len(once.samples))
    script = [
        SaidWord(word, turn * len(SENTENCES) + at, piece)
        for turn in range(times)
        for at, text in enumerate(SENTENCES)
        for piece, word in enumerate(words_said(text))
    ]
    with tempfile.TemporaryDirectory() as scratch:
        path = Path(scratch) / "narration.wav"
        write_wav(path, np.tile(once.samples, times))
        began, used = time.perf_counter(), time.process_time()
        recording, problems = open_recording(path, Path(scratch))
        assert recording is not None, problems
        heard = hear(recording, map(words_said, SENTENCES), Path(scratch))
        found = align(script, heard)
        wall = time.perf_counter() - began
    own, others = resource.getrusage(resource.RUSAGE_SELF), resource.getrusage(resource.RUSAGE_CHILDREN)
    cpu = own.ru_utime + own.ru_stime - used + others.ru_utime + others.ru_stime
    # Two listeners run beside this process; the largest child counts for each.
    memory = (own.ru_maxrss + 2 * others.ru_maxrss) / 1024
    print(f"{recording.seconds / 60:.1f} min of speech, {len(script):,} words, {100 * found.share:.1f} % made out")
    print(f"{wall:.1f} s ({wall / recording.seconds:.3f} of its length), {cpu:.1f} s of CPU, {memory:.0f} MB at most")


if __name__ == "__main__":
    main()
