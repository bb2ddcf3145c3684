"""The synthetic voice, and recordings made with it once for all tests."""

import os
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import numpy.typing as npt
import pytest

from cutaway.narrate.alignment import Alignment, align
from cutaway.narrate.hearing import hear
from cutaway.narrate.script_words import SaidWord, words_said
from cutaway.narrate.sound import open_recording
from tests.narrate.recording.turnstone import DEPARTED, OTHER, SENTENCES
from tests.narrate.recording.voice import RATE, Speech, Voice


def voice_or_skip(name: str) -> Voice:
    """The voice. Where it cannot be installed its tests are skipped; as root in CI it must be there."""
    try:
        return Voice(name)
    except OSError:
        must = os.environ.get("CI") and os.name == "posix" and os.geteuid() == 0
        said = "the synthetic voice is not installed; on Debian: sudo apt-get install flite"
        if must:
            pytest.fail(said)
        pytest.skip(said)


@pytest.fixture(scope="session")
def kept_to() -> Speech:
    """The narration as it is written."""
    return voice_or_skip("rms").say(SENTENCES[:16])


@pytest.fixture(scope="session")
def departed() -> Speech:
    """The narration with sentences left out and said otherwise."""
    return voice_or_skip("slt").say(DEPARTED)


@pytest.fixture(scope="session")
def other() -> Speech:
    """Somebody else's narration."""
    return voice_or_skip("slt").say(OTHER)


def music(seconds: float) -> npt.NDArray[np.int16]:
    """Four organ pipes that swell, with a rest in every bar."""
    t = np.arange(int(seconds * RATE)) / RATE
    pipes = sum(
        np.sin(2 * np.pi * pitch * t) * (0.6 + 0.4 * np.sin(2 * np.pi * 0.5 * at * t))
        for at, pitch in enumerate((220.0, 277.2, 329.6, 440.0), 1)
    )
    sounding = np.sin(2 * np.pi * 0.5 * t) > -0.9
    return np.asarray(2000.0 * pipes * sounding).astype(np.int16)


def aligned(path: Path, scratch: Path, sentences: tuple[str, ...]) -> Alignment:
    """A recording laid beside sentences."""
    recording, problems = open_recording(path, scratch)
    assert recording is not None, problems
    heard = hear(recording, map(words_said, sentences), scratch)
    script = [
        SaidWord(word, at, piece) for at, text in enumerate(sentences) for piece, word in enumerate(words_said(text))
    ]
    return align(script, heard)


@pytest.fixture(scope="session")
def departed_alignment(departed: Speech, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Alignment]:
    """The departing narration laid beside the script."""
    folder = tmp_path_factory.mktemp("departed")
    yield aligned(departed.write(folder / "narration.wav"), folder, SENTENCES)


@pytest.fixture(autouse=True, scope="package")
def _a_cache_of_their_own(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """What the tests hear is not kept among what the user heard, and not known from there."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))
        yield
