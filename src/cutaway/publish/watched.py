"""Values that remember which of them were looked at: what was made of them depends on those and no others."""

from collections.abc import Iterator, Mapping


class Watched(Mapping[str, float]):
    """The same values by name; has a life."""

    def __init__(self, values: Mapping[str, float]) -> None:
        self._values = values
        self._names: set[str] = set()
        self._all = False

    @property
    def looked_at(self) -> tuple[str, ...] | None:
        """The names that were asked for so far, there or not, in order; None where all were gone through."""
        return None if self._all else tuple(sorted(self._names))

    def __getitem__(self, name: str) -> float:
        self._names.add(name)
        return self._values[name]

    def __iter__(self) -> Iterator[str]:
        self._all = True
        return iter(self._values)

    def __len__(self) -> int:
        self._all = True
        return len(self._values)
