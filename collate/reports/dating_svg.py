"""Dossiers in, an SVG timeline out: hands, wordings, copies, reigns and persons, in black and white."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from xml.sax.saxutils import escape

from collate.model.dates import Bounds, Day
from collate.model.days import bounds_said, term_said
from collate.model.evidence import Dating, Dossier, Interval, Life, Term
from collate.reports.dating_phrases import interval_said

_LEFT, _WIDTH, _RIGHT = 230, 700, 30
_TOP, _ROW, _PAD = 60, 22, 14
_STEPS = (1, 2, 5, 10, 20, 25, 50, 100)
_MOST_TICKS = 14


@dataclass(frozen=True, slots=True)
class Scale:
    """The years the timeline spans, and where a day lies on it."""

    first: int
    last: int

    def at(self, day: Day) -> float:
        """Return the place of a day, in units of the picture."""
        years = day.year + (day.month - 1) / 12 + (day.day - 1) / 365.25 - self.first
        return _LEFT + min(max(years / (self.last - self.first), 0.0), 1.0) * _WIDTH


def dating(found: Dating) -> Iterator[str]:
    """Yield the timeline."""
    scale = _scale(found)
    persons = [life for life in found.lives if not life.king]
    body, y = list(_axis(scale, found.kings)), _TOP + 2 * _ROW + _PAD
    for life in persons:
        body.extend(_person(life, y, scale))
        y += _ROW
    y += _PAD if persons else 0
    for dossier in found.dossiers:
        body.extend(_witness(dossier, y, scale))
        y += 3 * _ROW + _PAD
    legend = list(_legend(y + 4))
    height = y + 3 * _ROW
    yield _head(found, height)
    yield from (f"  {line}\n" for line in (*_grid(scale, y), *body, *legend))
    yield "</svg>\n"


def _head(found: Dating, height: int) -> str:
    width = _LEFT + _WIDTH + _RIGHT
    title = f"{found.title}: what bears on date"
    said = "; ".join(
        f"{d.witness.siglum}: wording {interval_said(d.wording)}, copy {interval_said(d.copy)}"
        for d in found.dossiers
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}"'
        f' viewBox="0 0 {width} {height}" role="img" font-family="sans-serif" font-size="13" fill="#000">\n'
        f"  <title>{escape(title)}</title>\n  <desc>{escape(said)}</desc>\n"
        '  <defs><pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse"'
        ' patternTransform="rotate(45)"><rect width="6" height="6" fill="#fff"/>'
        '<line x1="0" y1="0" x2="0" y2="6" stroke="#000" stroke-width="2"/></pattern></defs>\n'
        f'  <rect width="{width}" height="{height}" fill="#fff"/>\n'
        f'  <text x="12" y="26" font-size="16" font-weight="bold">{escape(title)}</text>\n'
    )


def _scale(found: Dating) -> Scale:
    """Return the years from ten before the first day that counts to ten after the last, in whole decades."""
    persons = [life for life in found.lives if not life.king]
    spans = [
        *(bounds for d in found.dossiers for bounds in (d.hand, d.wording.bounds, d.copy.bounds)),
        *(term_bounds(term) for life in persons for term in life.terms),
        *(life.died for life in persons),
    ]
    days = [day for span in spans for day in (span.not_before, span.not_after) if day is not None]
    years = [day.year for day in days] or [1350, 1500]
    first, last = (min(years) - 10) // 10 * 10, -(-(max(years) + 10) // 10) * 10
    return Scale(first, max(last, first + 50))


def term_bounds(term: Term) -> Bounds:
    """Return the days between which a term may have run."""
    return Bounds(term.began.not_before, term.ended.not_after)


def _ticks(scale: Scale) -> range:
    step = next((s for s in _STEPS if (scale.last - scale.first) / s <= _MOST_TICKS), 200)
    return range(-(-scale.first // step) * step, scale.last + 1, step)


def _grid(scale: Scale, bottom: int) -> Iterator[str]:
    for year in _ticks(scale):
        x = scale.at(Day(year, 1, 1))
        yield (
            f'<line x1="{x:.1f}" y1="{_TOP}" x2="{x:.1f}" y2="{bottom}" stroke="#bbb" stroke-width="1"'
            ' stroke-dasharray="2 3"/>'
        )


def _axis(scale: Scale, kings: Sequence[Life]) -> Iterator[str]:
    """Yield the years, and the reigns under them, each named if there is room."""
    for year in _ticks(scale):
        yield _text(scale.at(Day(year, 1, 1)), _TOP - 6, str(year), anchor="middle")
    yield _text(12, _TOP + 16, "reigns")
    for life in kings:
        for term in life.terms:
            yield from _reign(life, term, scale)


def _reign(life: Life, term: Term, scale: Scale) -> Iterator[str]:
    first, last = term.began.not_before, term.ended.not_after
    if first is None or last is None or last.year < scale.first or first.year >= scale.last:
        return
    x, end = scale.at(first), scale.at(last)
    yield (
        f'<rect x="{x:.1f}" y="{_TOP}" width="{max(end - x, 1):.1f}" height="{_ROW}" fill="#fff"'
        f' stroke="#000"><title>{escape(life.name)}, {escape(bounds_said(term_bounds(term)))}</title></rect>'
    )
    short = _short(life.name)
    sizes = ((life.name, 13), (short, 13), (short, 11))
    name, size = next((each for each in sizes if len(each[0]) * each[1] * 0.54 + 3 < end - x), ("", 0))
    if name:
        yield _text((x + end) / 2, _TOP + 16, name, anchor="middle", size=size)


def _short(name: str) -> str:
    """Return a king's name shortened: Ric. II."""
    forename, _, number = name.partition(" ")
    short = {"Edward": "Edw.", "Henry": "Hen.", "Richard": "Ric."}.get(forename, forename)
    return f"{short} {number}".strip()


def _person(life: Life, y: int, scale: Scale) -> Iterator[str]:
    """Yield a person: a line for each office, a cross at the death."""
    yield _text(12, y + 14, life.name)
    middle = y + 9
    for term in life.terms:
        held = term_bounds(term)
        span = Bounds(held.not_before, held.not_after or life.died.not_after)
        if span != Bounds():
            yield from _line(span, middle, scale, 4, f"{life.name}, {term_said(term.office, held)}")
    died = life.died.not_before or life.died.not_after
    if died is not None:
        yield _text(scale.at(died), y + 15, "†", anchor="middle", size=17)
        if len(life.terms) == 1:
            yield _text(scale.at(died) + 10, y + 14, life.terms[0].office)


def _witness(dossier: Dossier, y: int, scale: Scale) -> Iterator[str]:
    """Yield a witness: its hand hatched, its wording a line with ends, its copy a black bar."""
    siglum = dossier.witness.siglum
    yield _text(12, y + _ROW + 14, siglum, size=16, bold=True)
    yield from _hand(dossier, y, scale)
    for row, (label, interval) in enumerate((("wording", dossier.wording), ("copy", dossier.copy)), 1):
        top = y + row * _ROW
        yield _text(_LEFT - 12, top + 14, label, anchor="end")
        if not interval.agree:
            yield _text(_LEFT + 4, top + 14, "the grounds do not agree")
        elif interval.bounds == Bounds():
            yield _text(_LEFT + 4, top + 14, "not bounded")
        elif label == "wording":
            yield from _line(interval.bounds, top + 9, scale, 2, _said(siglum, label, interval))
            yield from _days(interval, top, scale)
        else:
            yield from _bar(interval.bounds, top + 3, scale, "#000", _said(siglum, label, interval))
            yield from _days(interval, top, scale)


def _days(interval: Interval, top: int, scale: Scale) -> Iterator[str]:
    """Yield an interval in words beside its line, if there is room."""
    said, x = interval_said(interval), _beside(interval.bounds, scale)
    if interval.bounds.not_after is not None and x + 6 * len(said) < _LEFT + _WIDTH + _RIGHT:
        yield _text(x, top + 14, said, size=11)


def _said(siglum: str, label: str, interval: Interval) -> str:
    return f"{siglum}, {label}: {interval_said(interval)}"


def _hand(dossier: Dossier, y: int, scale: Scale) -> Iterator[str]:
    yield _text(_LEFT - 12, y + 14, "hand", anchor="end")
    hand = dossier.witness.hand
    if hand is None:
        yield _text(_LEFT + 4, y + 14, "not dated")
    else:
        yield from _bar(dossier.hand, y + 3, scale, "url(#hatch)", f"{dossier.witness.siglum}: {hand.stated}")
        yield _text(_beside(dossier.hand, scale), y + 14, hand.stated)


def _beside(bounds: Bounds, scale: Scale) -> float:
    return (scale.at(bounds.not_after) if bounds.not_after else _LEFT) + 6


def _ends(bounds: Bounds, scale: Scale) -> tuple[float, float]:
    first = scale.at(bounds.not_before) if bounds.not_before else float(_LEFT)
    last = scale.at(bounds.not_after) if bounds.not_after else float(_LEFT + _WIDTH)
    return first, max(last, first + 3)


def _bar(bounds: Bounds, y: int, scale: Scale, fill: str, said: str) -> Iterator[str]:
    x, end = _ends(bounds, scale)
    yield (
        f'<rect x="{x:.1f}" y="{y}" width="{end - x:.1f}" height="13" fill="{fill}" stroke="#000">'
        f"<title>{escape(said)}</title></rect>"
    )
    yield from _arrows(bounds, y + 6, scale)


def _line(bounds: Bounds, y: int, scale: Scale, width: int, said: str) -> Iterator[str]:
    x, end = _ends(bounds, scale)
    yield (
        f'<line x1="{x:.1f}" y1="{y}" x2="{end:.1f}" y2="{y}" stroke="#000" stroke-width="{width}">'
        f"<title>{escape(said)}</title></line>"
    )
    for place, day in ((x, bounds.not_before), (end, bounds.not_after)):
        if day is not None and width < 3:
            upright = f'x1="{place:.1f}" y1="{y - 6}" x2="{place:.1f}" y2="{y + 6}"'
            yield f'<line {upright} stroke="#000" stroke-width="2"/>'
    yield from _arrows(bounds, y, scale)


def _arrows(bounds: Bounds, y: int, scale: Scale) -> Iterator[str]:
    """Yield an arrow head at each end that is open."""
    x, end = _ends(bounds, scale)
    if bounds.not_before is None:
        yield f'<path d="M {x - 8:.1f} {y} l 10 -6 v 12 z"/>'
    if bounds.not_after is None:
        yield f'<path d="M {end + 8:.1f} {y} l -10 -6 v 12 z"/>'


def _text(x: float, y: float, said: str, *, anchor: str = "start", size: int = 13, bold: bool = False) -> str:
    weight = ' font-weight="bold"' if bold else ""
    return (
        f'<text x="{x:.1f}" y="{y}" text-anchor="{anchor}" font-size="{size}"{weight}'
        f' stroke="#fff" stroke-width="3" paint-order="stroke">{escape(said)}</text>'
    )


def _legend(y: int) -> Iterator[str]:
    """Yield what the signs mean."""
    yield f'<rect x="12" y="{y}" width="40" height="13" fill="url(#hatch)" stroke="#000"/>'
    yield _text(58, y + 11, "the hand, as a catalogue dates it")
    yield f'<line x1="300" y1="{y + 6}" x2="340" y2="{y + 6}" stroke="#000" stroke-width="2"/>'
    yield f'<line x1="300" y1="{y}" x2="300" y2="{y + 12}" stroke="#000" stroke-width="2"/>'
    yield f'<line x1="340" y1="{y}" x2="340" y2="{y + 12}" stroke="#000" stroke-width="2"/>'
    yield _text(346, y + 11, "the wording; an arrow: no bound on that side")
    yield f'<rect x="650" y="{y}" width="40" height="13" fill="#000"/>'
    yield _text(696, y + 11, "the copy")
    yield f'<line x1="780" y1="{y + 6}" x2="820" y2="{y + 6}" stroke="#000" stroke-width="4"/>'
    yield _text(826, y + 11, "an office; † a death")
