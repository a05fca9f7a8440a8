"""An edition's words.tsv: what rulings are taken, and what is told of those that cannot stand."""

import pytest

from collate import pipeline
from collate.errors import InputFaultsError
from collate.lexicon.overlay import words_of
from collate.lexicon.words import senses
from collate.model.source import Source
from collate.model.words import UserWords


def ruled(*rows: str) -> UserWords:
    text = "ruling\tform\tother\tnote\n" + "".join(f"{row}\n" for row in rows)
    edition = pipeline.edition_of_files(["A.txt", "B.txt"])
    return pipeline.with_words(edition, Source("words.tsv", text.encode())).words


@pytest.mark.parametrize(
    ("rows", "line", "said"),
    [
        (["same\tpoke\tpouche\tx", "apart\tpoke\tpouche\ty"], 3, "ruled 'same' in line 2 and 'apart' here"),
        (["apart\tpoke\tpouche\tx", "same\tPouche\tpoke\ty"], 3, "ruled 'apart' in line 2 and 'same' here"),
        (["apart\tþe\tpoke\tx", "same\tpoke\tthe\ty"], 3, "take one out"),
        (["apart\tpoke\tpoke\tx"], 2, "one form"),
        (["apart\tpyke\tpike\tx"], 2, "one form"),
        (["same\tpoke\tpoke\tx"], 2, "one form"),
        (["gloss\tnosuchword\tbag"], 2, "no headword 'nosuchword'"),
        (["gloss\tsethen (noun)\tbag"], 2, "no headword 'sethen (noun)'"),
        (["same\tther to\tþerto\tx"], 2, "more than one word"),
        (["apart\tpoke\ta pouche\tx"], 2, "more than one word"),
        (["headword\tto gedre\ttogeder (adverb)"], 2, "more than one word"),
    ],
)
def test_rulings_that_cannot_stand_are_told(rows: list[str], line: int, said: str) -> None:
    with pytest.raises(InputFaultsError) as told:
        ruled(*rows)
    (fault,) = told.value.errors
    assert said in fault.message
    assert fault.place
    assert (fault.place.source, fault.place.line) == ("words.tsv", line)


def test_all_faults_are_told_together() -> None:
    with pytest.raises(InputFaultsError) as told:
        ruled("apart\tpoke\tpoke\tx", "gloss\tnosuchword\tbag", "sam\ta\tb\tx")
    assert len(told.value.errors) == 3


def test_what_may_stand_is_taken() -> None:
    words = ruled(
        "same\tHugh\tHewe\tso B spells him",
        "same\tHugh\tHewe\tand C",
        "apart\tsouse\tsauce\tpickle in A",
        "gloss\tsethen\tseethe gently",
        "gloss\tsethen (verb)\tseethe gently",
        "headword\tzapfe\tzapfe (noun)\ta new word",
    )
    assert (len(words.rulings), len(words.readings), len(words.glosses)) == (3, 1, 2)


def test_a_gloss_goes_before_the_meaning_of_a_new_headword() -> None:
    words = ruled("gloss\tzapfe (noun)\ta bung", "headword\tzapfe\tzapfe (noun)\ta tap")
    (sense,) = senses("zapfe", words_of(words))
    assert sense.headword.gloss == "a bung"
