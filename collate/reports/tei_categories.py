"""The categories that a TEI document puts its readings in, each with what it means."""

from collections.abc import Mapping

from collate.model.apparatus import VariantKind, Weight
from collate.model.tense import ShiftKind, Tense

_KINDS: Mapping[VariantKind, str] = {
    VariantKind.LEMMA: "The base's own reading; as an element it is lem and bears no type.",
    VariantKind.SPELLING: "The same word, spelled otherwise.",
    VariantKind.ABBREVIATION: "The same word, abbreviated in one and written out in the other.",
    VariantKind.DIVISION: "The same words, divided otherwise.",
    VariantKind.PUNCTUATION: "Only the points differ.",
    VariantKind.NUMERAL: "One number in two notations.",
    VariantKind.INFLECTION: "Two forms of one word that differ neither in tense nor in mood.",
    VariantKind.TENSE: "Two forms of one verb that differ in tense.",
    VariantKind.MOOD: "Two forms of one verb that differ in mood.",
    VariantKind.SUBSTITUTION: "Other words, or another number.",
    VariantKind.OMISSION: "No words where the base has some.",
    VariantKind.ADDITION: "Words where the base has none.",
    VariantKind.TRANSPOSITION: "The same words in another place: exclude links the two.",
    VariantKind.DITTOGRAPHY: "Words written twice by mistake.",
    VariantKind.EYE_SKIP: "Words passed over between two like words.",
    VariantKind.LACUNA: "The text is lost here: what the witness had cannot be known.",
}
_WEIGHTS: Mapping[Weight, str] = {
    Weight.ACCIDENTAL: "Touches the presentation only.",
    Weight.SUBSTANTIVE: "Touches the meaning.",
}
_CAUSES = {
    "homeoteleuton": "The eye skipped between two like words that end their phrases.",
    "homeoarchy": "The eye skipped between two like words that begin their phrases.",
    "dittography": "The scribe wrote the same words twice.",
    "minim": "Perhaps a misreading: minims divided otherwise, as in n and u.",
    "long-s": "Perhaps a misreading: long s for f or l, or the reverse.",
    "shape": "Perhaps a misreading: other letters of like shape, as c and t.",
    "bar": "Perhaps a misreading: a bar for m or n added or overlooked.",
    "abbreviation": "Perhaps a misreading: one sign of abbreviation for another, or for a letter.",
    "expansion": "Perhaps an abbreviation written out as another word.",
    "numeral": "Perhaps a misreading: strokes of a roman number added, lost or taken for others.",
    "order": "Perhaps a slip: letters that changed place.",
    "false-start": "Perhaps a false start: the beginning of the word that follows.",
    "sound": "Perhaps a slip of the ear: other letters of like sound.",
}
_SORTS = {
    "dialect": "A substitution of accidental weight: a word of the same sense by dialect (hem, them)."
    " It stands in the group of its lemma.",
}
_STATES = {
    "presentation": "One reading in several states, no variant: letters lost, uncertain, red, enlarged,"
    " struck out or written above the line in some witnesses only.",
    "heading": "Headings as wholes; they are not collated word by word.",
    "absent": "Who has the item and who has not. An empty reading of this type is no omission: the whole item"
    " does not stand in that witness.",
}
_TENSES: Mapping[Tense, str] = {
    Tense.PRESENT: "is, loueth.",
    Tense.PRETERITE: "was, louyd.",
    Tense.PERFECT: "hath loued.",
    Tense.PLUPERFECT: "had loued.",
    Tense.PRESENT_PASSIVE: "is loued.",
    Tense.PAST_PASSIVE: "was loued.",
    Tense.MODAL: "A modal verb in the present: wil loue.",
    Tense.MODAL_PAST: "A modal verb in the preterite: wolde loue.",
    Tense.IMPERATIVE: "A command.",
    Tense.INFINITIVE: "The infinitive, alone or after to.",
    Tense.SUBJUNCTIVE: "The subjunctive.",
    Tense.PRESENT_PARTICIPLE: "The participle in -yng or -and, without an auxiliary.",
    Tense.PAST_PARTICIPLE: "The past participle, without an auxiliary.",
    Tense.AMBIGUOUS: "The forms do not settle it.",
}
_SHIFTS: Mapping[ShiftKind, str] = {
    ShiftKind.STATE: "What one person is, has or does lastingly.",
    ShiftKind.WRITING: "The making of the book itself.",
    ShiftKind.NAMING: "What a thing is called.",
    ShiftKind.ASPECT: "Done and still so, or done once.",
    ShiftKind.OTHER: "Another verb.",
}

TAXONOMIES: tuple[tuple[str, str, Mapping[str, str]], ...] = (
    ("kind", "Kinds of variant", {str(kind): said for kind, said in _KINDS.items()}),
    ("weight", "Weights of variants", {str(weight): said for weight, said in _WEIGHTS.items()}),
    ("cause", "Likely causes of variants", _CAUSES),
    ("sort", "Sorts within the kinds: the subtypes of readings", _SORTS),
    ("tense", "Tenses and moods of verbs", {str(tense): said for tense, said in _TENSES.items()}),
    ("shift", "What a shift of tense is about", {str(kind): said for kind, said in _SHIFTS.items()}),
    ("state", "Entries that are no variants, and the base", {**_STATES, "base": "The base."}),
)
"""Each taxonomy: how the names of its categories begin, what it divides, its categories."""
