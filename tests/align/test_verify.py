"""The proof is itself proved: each kind of broken collation is found out."""

from dataclasses import replace

import pytest

from collate.align.verify import faults, verify
from collate.errors import InternalError
from collate.model.collation import Column, Locus, Presence, Span, Transposition
from tests.making import collated

SOUND = collated({"A": "take figes and ale", "B": "take dates and"})


def broken(**changes: object) -> list[str]:
    return list(faults(replace(SOUND, **changes)))  # type: ignore[arg-type]


def test_a_sound_collation_passes() -> None:
    assert verify(SOUND) is SOUND


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"columns": SOUND.columns[:-1]}, "ends at word"),
        ({"columns": (*SOUND.columns, SOUND.columns[-1])}, "not from"),
        ({"columns": SOUND.columns[::-1]}, "not from"),
        (
            {
                "columns": (
                    *SOUND.columns,
                    Column((Span(4, 4, Presence.OMITTED), Span(3, 3, Presence.OMITTED))),
                )
            },
            "empty in every witness",
        ),
        ({"loci": (Locus(0, 2), Locus(1, 3))}, "overlaps"),
        ({"loci": (Locus(2, 2),)}, "overlaps"),
        ({"loci": (Locus(0, 99),)}, "runs out"),
        ({"transpositions": (Transposition("A", 2, 9, 0, 1),)}, "moved in A"),
        ({"transpositions": (Transposition("A", 0, 1, 0, 99),)}, "home"),
    ],
)
def test_a_broken_collation_is_found_out(changes: dict[str, object], said: str) -> None:
    assert any(said in fault for fault in broken(**changes))


def test_a_false_presence_is_found_out() -> None:
    first = SOUND.columns[0]
    lying = Column((replace(first.spans[0], presence=Presence.OMITTED), first.spans[1]))
    assert any("omitted" in fault for fault in broken(columns=(lying, *SOUND.columns[1:])))


def test_a_broken_collation_never_leaves() -> None:
    with pytest.raises(InternalError, match="not sound"):
        verify(replace(SOUND, columns=SOUND.columns[:-1]))
