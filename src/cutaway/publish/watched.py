"""Values that remember which of them were looked at: what was made of them depends on those and no others."""

from collections.abc import Iterator, Mapping


class Watched(Mapping[str, float]):
    """The same values by name; has a life. looked_at: the names that were asked for so far, there or not."""

    def __init__(self, values: Mapping[str, float]) -> None:
        self._values = values
        self.looked_at: set[str] = set()

    def __getitem__(self, name: str) -> float:
        self.looked_at.add(name)
        return self._values[name]

    def __iter__(self) -> Iterator[str]:
        self.looked_at.update(self._values)
        return iter(self._values)

    def __len__(self) -> int:
        self.looked_at.update(self._values)
        return len(self._values)
