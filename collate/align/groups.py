"""Numbers brought together in groups, each group known by its lowest."""

from collections import defaultdict
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Groups:
    """Disjoint sets of numbers (R. E. Tarjan, Journal of the ACM 22 (1975) 215-25); a new number is alone."""

    heads: dict[int, int] = field(default_factory=dict)

    def head(self, number: int) -> int:
        """Return the lowest number of the group."""
        path = []
        while (above := self.heads.get(number, number)) != number:
            path.append(number)
            number = above
        for each in path:
            self.heads[each] = number
        return number

    def join(self, a: int, b: int) -> None:
        """Make the groups of two numbers one."""
        low, high = sorted((self.head(a), self.head(b)))
        self.heads[high] = low

    def parts(self, count: int) -> list[list[int]]:
        """Return all groups of the numbers below `count`, in the order of their lowest."""
        found: dict[int, list[int]] = defaultdict(list)
        for number in range(count):
            found[self.head(number)].append(number)
        return list(found.values())
