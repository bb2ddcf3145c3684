"""How long twelve minutes of a narration take to be heard and laid beside the script, and how much memory.

The reference in the same run is the length of the sound itself. The narration is invented: the same sentences in
another order and another voice every time they come round. `--two-hours` hears two hours instead; `--again` hears it
twice, the second time with what was kept of the first. Wants the extra `recording` and, on Debian, the package flite.
"""

import argparse
import re
import resource
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from threading import Event, Thread

import numpy as np

sys.path.insert(0, str(Path(__file__).parent.parent))

from cutaway.narrate.alignment import Alignment, align
from cutaway.narrate.heard_before import HeardBefore
from cutaway.narrate.hearing import hear
from cutaway.narrate.script_words import SaidWord, words_said
from cutaway.narrate.sound import RATE, open_recording
from tests.narrate.recording.turnstone import SENTENCES
from tests.narrate.recording.voice import Speech, SpokenWord, Voice, joined

VOICES = ("slt", "rms")


Truth = tuple[tuple[SpokenWord, ...], ...]


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--two-hours", action="store_true")
    asked.add_argument("--again", action="store_true")
    options = asked.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "narration.wav"
        script, truth, length = narration(120 if options.two_hours else 12, path)
        print(f"{length / 60:.1f} min of speech, {len(script):,} sentences", flush=True)
        for words in ("heard:", "heard again:") if options.again else ("heard:",):
            busy = processor()
            with memory() as peaks:
                found, seconds = laid_beside(script, path, Path(folder))
            print(f"{words} {found.share:.1%} of the words made out")
            cpu = processor() - busy
            print(f"  {seconds:.1f} s ({seconds / length:.3f} of its length), {cpu:.1f} s of CPU; {told_of(peaks)}")
            placed(found, truth)


def narration(minutes: float, path: Path) -> tuple[tuple[str, ...], Truth, float]:
    """Write speech of so many minutes; its sentences, when each word is said, and its length in s."""
    chance = np.random.default_rng(4)
    voices = tuple(Voice(name) for name in VOICES)
    script: list[str] = []
    parts: list[Speech] = []
    length = 0.0
    while length < 60.0 * minutes:
        round_of = tuple(SENTENCES[at] for at in chance.permutation(len(SENTENCES)))
        parts.append(voices[len(parts) % len(voices)].say(round_of))
        script += round_of
        length += len(parts[-1].samples) / RATE
    speech = joined(parts)
    speech.write(path)
    return tuple(script), speech.words, length


def laid_beside(script: tuple[str, ...], path: Path, folder: Path) -> tuple[Alignment, float]:
    """The narration heard and laid beside its script; how long that took, s."""
    began = time.perf_counter()
    words = [SaidWord(word, at, piece) for at, text in enumerate(script) for piece, word in enumerate(words_said(text))]
    recording, problems = open_recording(path, folder)
    assert recording is not None, problems
    with closing(HeardBefore(folder / "heard.sqlite")) as before:
        heard = hear(recording, map(words_said, script), folder, told, before)
    found = align(words, heard)
    return found, time.perf_counter() - began


def told(heard: float, whole: float) -> None:
    if sys.stderr.isatty():
        print(f"\r{heard:,.0f} of {whole:,.0f} s heard", end="\n" if heard >= whole else "", file=sys.stderr)


def processor() -> float:
    """Seconds of CPU that this process and those that it started have used so far."""
    used = (resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    return sum(one.ru_utime + one.ru_stime for one in used)


@contextmanager
def memory() -> Iterator[dict[str, float]]:
    """The most memory that this process and each that it starts take meanwhile, MB by process. Linux only.

    What the system reports of an ended child is no use: it counts what its parent had when it was begun.
    """
    peaks: dict[str, float] = {}
    done = Event()
    with suppress(OSError):
        Path("/proc/self/clear_refs").write_text("5")

    def look() -> None:
        while not done.wait(0.2):
            with suppress(OSError):
                children = [
                    one for task in Path("/proc/self/task").iterdir() for one in (task / "children").read_text().split()
                ]
                for process in ("self", *children):
                    found = re.search(r"VmHWM:\s+(\d+)", Path(f"/proc/{process}/status").read_text())
                    # A child that has not begun yet is a copy of its parent.
                    if found and (process == "self" or b"listening" in Path(f"/proc/{process}/cmdline").read_bytes()):
                        peaks[process] = int(found[1]) / 1024

    looking = Thread(target=look, daemon=True)
    looking.start()
    try:
        yield peaks
    finally:
        done.set()
        looking.join()


def told_of(peaks: dict[str, float]) -> str:
    if not peaks:
        return "memory not known on this system"
    return f"{sum(peaks.values()):.0f} MB at most ({' + '.join(f'{peak:.0f}' for peak in peaks.values())})"


def placed(found: Alignment, truth: Truth) -> None:
    """How far the words are from where the voice says that they are."""
    errors = [
        1000.0 * abs(mine.start - true.start)
        for one, said in zip(found.sentences, truth, strict=True)
        if [word.said.word for word in one.words] == [word.word for word in said]
        for mine, true in zip(one.words, said, strict=True)
    ]
    half, most = np.percentile(errors, (50, 95))
    print(f"  {len(errors):,} words placed: half within {half:.0f} ms, 95 of 100 within {most:.0f} ms")


if __name__ == "__main__":
    main()
