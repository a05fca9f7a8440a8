"""Values: a class of named parts in, one whose objects nothing changes once they are made out."""

from dataclasses import dataclass, fields
from operator import attrgetter
from typing import TypeVar, dataclass_transform

Made = TypeVar("Made")


@dataclass_transform(frozen_default=True)
def value(cls: type[Made]) -> type[Made]:
    """Make a slotted dataclass, of two parts or more, that is frozen to the type checker alone.

    It is for what is made once for every word: a dataclass that is frozen at run time as well sets its
    parts by a way round, and takes five times as long to make. To another process it goes as its parts.
    """
    made = dataclass(slots=True, unsafe_hash=True)(cls)
    parts = attrgetter(*(part.name for part in fields(made)))  # type: ignore[arg-type]  # it is a dataclass

    def reduce(self: Made) -> tuple[type[Made], tuple[object, ...]]:
        return made, parts(self)

    setattr(made, "__reduce__", reduce)  # noqa: B010  # no class is known to the checker to have it set
    return made
