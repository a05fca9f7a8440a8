"""Text in, the same text out as Markdown and HTML show it letter for letter."""

import html
import re

_MARKDOWN = re.compile(r"([\\`*_{}\[\]<>|~&#])")
_NO_TEXT = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufffe\uffff]"
)
_AT_START = re.compile(r"^(\d+)([.)])|^([-+=])", re.MULTILINE)


def markdown(text: str) -> str:
    """Return text in which Markdown sees no mark-up, wherever in a line it is put.

    A line that would begin a list, a rule or a heading is kept from it as well.
    """
    escaped = _MARKDOWN.sub(r"\\\1", xml_text(text))
    return _AT_START.sub(lambda m: f"\\{m[3]}" if m[3] else f"{m[1]}\\{m[2]}", escaped)


def hypertext(text: str) -> str:
    """Return text as HTML, in an element or in an attribute with quotation marks."""
    return html.escape(xml_text(text), quote=True)


def xml_text(text: str) -> str:
    """Return text without the characters that XML or a page does not bear: a picture stands for each."""
    return _NO_TEXT.sub(lambda m: chr(0x2400 + ord(m[0])) if ord(m[0]) < 0x20 else "\ufffd", text)
