"""Short ways to TEI files, and to what they are when written as plain notation and read again."""

from pathlib import Path

from collate.lexicon.tables import typed_keys
from collate.lexicon.words import lexicon
from collate.model.edition import LineMode, Witness
from collate.model.source import Source
from collate.model.transcript import Transcript
from collate.model.witness import Item, Token, WitnessText, read_back
from collate.readers.plain import read
from collate.readers.tei import read_tei, read_tei_witnesses
from collate.settings import Normalising
from collate.tokens.tokenise import tokenise

FIXTURES = Path(__file__).parent / "tei"
NAMESPACE = "http://www.tei-c.org/ns/1.0"


def fixture(name: str) -> Source:
    return Source(name, (FIXTURES / name).read_bytes())


def tei(text: str, header: str = "") -> Source:
    """Return a file whose `<text>` holds `text`."""
    return Source(
        "K.xml", f'<TEI xmlns="{NAMESPACE}"><teiHeader>{header}</teiHeader><text>{text}</text></TEI>'.encode()
    )


def body(text: str, header: str = "") -> Transcript:
    """Read a file with one paragraph."""
    return read_tei(tei(f"<body><p>{text}</p></body>", header), Witness("K", "K", "K.xml"))


def with_list(text: str, *sigla: str) -> tuple[Transcript, ...]:
    """Read a body with an apparatus, by the witnesses named."""
    witnesses = "".join(f'<witness xml:id="{siglum}"/>' for siglum in sigla)
    header = f"<fileDesc><sourceDesc><listWit>{witnesses}</listWit></sourceDesc></fileDesc>"
    return read_tei_witnesses(tei(f"<body>{text}</body>", header))


def cut(transcript: Transcript) -> WitnessText:
    return tokenise([transcript], Normalising(), lexicon())[0]


def raw(transcript: Transcript) -> str:
    """Return a transcript as plain notation, without the new line at its end."""
    return read_back(cut(transcript)).removesuffix("\n")


def written(transcript: Transcript) -> list[str]:
    return [token.written for item in cut(transcript).items for token in item.tokens]


def expanded(transcript: Transcript) -> str:
    return " ".join(token.expanded for item in cut(transcript).items for token in item.tokens)


def codes(transcript: Transcript) -> list[str]:
    return [notice.code for notice in transcript.notices]


def again(text: WitnessText, lines: LineMode) -> WitnessText:
    """Write a witness as plain notation and read that."""
    source = Source("again.txt", read_back(text).encode())
    return cut(read(source, Witness("K", "K", "again.txt", lines=lines), typed_keys()))


def told(text: WitnessText) -> list[object]:
    """Return all that a witness's words are, but for where they stand in the file."""
    return [_item(item) for item in text.items]


def _item(item: Item) -> object:
    asides = [(aside.mark, aside.text, aside.at, aside.note, aside.place.folio) for aside in item.asides]
    words = [_token(token) for token in item.tokens]
    return item.label, item.lead, item.kind, [_token(token) for token in item.heading_tokens], words, asides


def _token(token: Token) -> object:
    place = token.place.folio, token.place.ms_line, token.place.hand, token.word_in_line
    form = token.written, token.trail, token.expanded, token.normal, token.kind, token.language, token.open
    return (*form, token.marks, token.value, token.headwords, *place)
