"""Short ways to TEI files whose entries point into the text, and to what is said of those that cannot be read."""

import pytest

from collate.errors import InputError
from collate.model.transcript import Transcript
from collate.readers.tei import read_tei_witnesses
from tests.readers.tei_making import tei


def document(body: str, apart: str = "", sigla: str = "ABC", location: str = "") -> tuple[Transcript, ...]:
    """Read a body whose entries stand in it, or `apart` in a list behind it, in the location stated."""
    listed = "".join(f'<witness xml:id="{siglum}"/>' for siglum in sigla)
    stated = f'<variantEncoding method="double-end-point" location="{location or "internal"}"/>'
    header = f"<fileDesc><sourceDesc><listWit>{listed}</listWit></sourceDesc></fileDesc>"
    if location:
        header += f"<encodingDesc>{stated}</encodingDesc>"
    back = f"<back><div><head>Variants</head><listApp>{apart}</listApp></div></back>" if apart else ""
    return read_tei_witnesses(tei(f"<body>{body}</body>{back}", header))


def refused(body: str, apart: str = "", location: str = "") -> str:
    """Return what is said of a document that cannot be read."""
    with pytest.raises(InputError) as told:
        document(body, apart, location=location)
    return str(told.value)
