"""The errors we raise on purpose, each with its exit status and, where it has one, its place."""

from collections.abc import Sequence

from collate.model.source import Place


class CollateError(Exception):
    """Any error of ours; `message` is one sentence that says what is wrong and what to do."""

    exit_status = 70

    def __init__(self, message: str, place: Place | None = None) -> None:
        super().__init__(message)
        self.message = message
        self.place = place

    def __str__(self) -> str:
        return f"{self.place}: {self.message}" if self.place else self.message

    def __reduce__(self) -> tuple[type["CollateError"], tuple[object, ...]]:
        return type(self), (self.message, self.place)


class InputError(CollateError):
    """A file, folder or setting given by the user is wrong."""

    exit_status = 2


class UsageError(CollateError):
    """The command line asks for something that cannot be."""

    exit_status = 2


class InternalError(CollateError):
    """A fault of ours: a proof of our own output failed."""

    exit_status = 70


class WorkersError(CollateError):
    """Those who shared the work are gone: no result can be had this time."""

    exit_status = 70


class InputFaultsError(InputError):
    """Several faults of one input, told together."""

    def __init__(self, errors: Sequence[InputError]) -> None:
        super().__init__("; ".join(str(error) for error in errors))
        self.errors = tuple(errors)

    def __reduce__(self) -> tuple[type["InputFaultsError"], tuple[object, ...]]:
        return type(self), (self.errors,)
