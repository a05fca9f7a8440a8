"""What the engine has to say about its input without stopping: notices and faults."""

from dataclasses import dataclass
from enum import StrEnum

from collate.model.source import Place


class Severity(StrEnum):
    """How grave a notice is: an error must be mended, a warning looked at, a note known."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Notice:
    """One remark: a stable `code`, one sentence, and the place it is about (None: no place)."""

    code: str
    message: str
    place: Place | None = None
    severity: Severity = Severity.WARNING
