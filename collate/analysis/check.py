"""All faults of an edition's transcriptions, in the order of its witnesses and their text."""

from collections.abc import Iterator, Mapping, Sequence

from collate.analysis.faults import of_witness, written_forms
from collate.analysis.slips import slips
from collate.lexicon.words import Lexicon, is_listed
from collate.model.notice import Checked, Notice
from collate.model.witness import WitnessText


def check(
    texts: Sequence[WitnessText],
    unread: Mapping[str, Sequence[Notice]],
    silenced: Sequence[tuple[str, str]],
    lexicon: Lexicon,
) -> tuple[Checked, ...]:
    """Return every fault of the texts, and of what could not be read, each silenced or not.

    `silenced` holds (code, reason) or ("siglum code", reason) as the edition states them.
    """
    reasons = dict(silenced)
    own = slips(texts, written_forms(texts), lambda form: is_listed(form, lexicon))
    found = {text.siglum: (*of_witness(text), *own[text.siglum]) for text in texts}
    return tuple(
        Checked(siglum, notice, reasons.get(f"{siglum} {notice.code}", reasons.get(notice.code)))
        for siglum in dict.fromkeys((*unread, *found))
        for notice in _in_order((*unread.get(siglum, ()), *found.get(siglum, ())))
    )


def _in_order(notices: Sequence[Notice]) -> Iterator[Notice]:
    def place(notice: Notice) -> tuple[int, int, str]:
        return (notice.place.line, notice.place.column, notice.code) if notice.place else (0, 0, notice.code)

    yield from sorted(notices, key=place)
