"""Where a recording can be cut: at its pauses, so that each piece is a phrase or a few."""

import numpy as np
import numpy.typing as npt

from cutaway.narrate.sound import FRAME, RATE, Recording, Samples

# A pause is a quarter of a second that is hardly louder than the quietest twentieth of the recording. Choices of ours,
# measured on synthetic speech.
_PAUSE = 25
_QUIETEST = 5.0
_ABOVE = 12.0
_SHORTEST = 100
# Speech breathes; sound with no pause for so long is cut where it is quietest.
_LONGEST = 3000
_SEARCH = 1000


def phrases(recording: Recording) -> tuple[tuple[int, int], ...]:
    """The pieces of a recording as samples (first, one past the last), end to end."""
    level = 20.0 * np.log10(recording.loudness + 1e-3)
    quiet = level < np.percentile(level, _QUIETEST) + _ABOVE
    cuts = [0]
    for first, last in _runs(quiet):
        middle = (first + last) // 2
        if last - first >= _PAUSE and middle - cuts[-1] >= _SHORTEST:
            cuts.append(middle)
    ends = [*cuts[1:], len(level)]
    pieces = [piece for a, z in zip(cuts, ends, strict=True) for piece in _no_longer(a, z, recording)]
    whole = recording.count
    return tuple((a * FRAME, whole if z == len(level) else z * FRAME) for a, z in pieces if z > a)


def _runs(quiet: npt.NDArray[np.bool_]) -> list[tuple[int, int]]:
    """Where the flags are set: (first, one past the last) of each run."""
    edges = np.flatnonzero(np.diff(np.concatenate(([0], quiet.astype(np.int8), [0]))))
    return [(int(a), int(z)) for a, z in zip(edges[::2], edges[1::2], strict=True)]


def _no_longer(first: int, last: int, recording: Recording) -> list[tuple[int, int]]:
    pieces: list[tuple[int, int]] = []
    while last - first > _LONGEST:
        search = recording.loudness[first + _LONGEST - _SEARCH : first + _LONGEST]
        cut = first + _LONGEST - _SEARCH + int(np.argmin(search))
        pieces.append((first, cut))
        first = cut
    return [*pieces, (first, last)]


def heard_by_machine(samples: Samples, gain: float) -> bytes:
    """The samples of one piece as the recogniser is given them: loud enough, and with a little noise.

    The noise is always the same, so that a piece is heard alike wherever it stands. Without any, the exact silence of
    synthetic or gated sound breaks the recogniser.
    """
    noise = np.random.default_rng(0).normal(0.0, 30.0, len(samples))
    return np.clip(np.rint(samples.astype(np.float64) * gain + noise), -32768, 32767).astype("<i2").tobytes()


def gain_for(recording: Recording) -> float:
    """What lifts a faint recording to where the noise does no harm; 1 for one that is loud enough."""
    loud = float(np.percentile(recording.loudness, 95))
    return min(40.0, 1500.0 / loud) if loud < 800.0 else 1.0


def seconds_of(sample: int) -> float:
    """When a sample is heard."""
    return sample / RATE
