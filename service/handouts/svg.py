"""A drawing as SVG: a document of its own with its marks in words, or a figure inside a page."""

from html import escape

from service.domain.drawing import Circle, Drawing, Path, Shape, Text, wrapped
from service.handouts.clean import one_line

NAMESPACE = "//".join(("http:", "www.w3.org/2000/svg"))  # a name, not an address
FACE = "Helvetica, Arial, 'Liberation Sans', sans-serif"
LINE = 14.0
BORDER = 6.0
STRONG = ' font-weight="bold"'


def inline(drawing: Drawing, key: str) -> str:
    """The drawing for a page of HTML, as wide as its frame. `key` makes its ids its own.

    Its marks are not in it: the page lists them beside it.
    """
    return _written(drawing, drawing.height, key, [], f'class="drawing" id="{_safe(key)}"')


def standalone(drawing: Drawing) -> str:
    """The drawing as a document of its own, its title and its marks in words below."""
    said = [line for mark in (drawing.title, *drawing.marks) for line in _lines(mark, drawing)]
    first = drawing.height + LINE
    below = [
        f'<text x="{BORDER:g}" y="{first + LINE * place:.2f}"{"" if place else STRONG}>'
        f"{escape(line)}</text>"
        for place, line in enumerate(said)
    ]
    high = first + LINE * len(said)
    size = f'xmlns="{NAMESPACE}" lang="en-US" color="#000"'
    return _written(drawing, high, "drawing", below, size)


def _written(drawing: Drawing, high: float, key: str, below: list[str], also: str) -> str:
    name = _safe(key)
    paper = f'<rect width="{drawing.width:.2f}" height="{high:.2f}" fill="#fff"/>'
    lines = [
        f'<svg {also} viewBox="0 0 {drawing.width:.2f} {high:.2f}" role="img"'
        f' aria-labelledby="{name}-title {name}-desc" data-scale="{drawing.scale:.6f}">',
        f'<title id="{name}-title">{_said(drawing.title)}</title>',
        f'<desc id="{name}-desc">{_said(drawing.description)}</desc>',
        *([paper] if below else []),
        '<g fill="none" stroke="currentColor" stroke-linejoin="round" stroke-linecap="butt">',
    ]
    lines += [_line(one) for one in drawing.shapes if not isinstance(one, Text)]
    lines.append(f'</g><g font-family="{escape(FACE)}" font-size="11" fill="currentColor">')
    lines += [_text(one) for one in drawing.texts()]
    return "\n".join([*lines, *below, "</g></svg>\n"])


def _line(shape: Shape) -> str:
    assert isinstance(shape, Path | Circle)
    of = f' data-of="{_said(shape.of)}"' if shape.of else ""
    dashes = ' stroke-dasharray="3 2"' if shape.dashed else ""
    style = f'class="{shape.shows}"{of} stroke-width="{shape.weight:g}"{dashes}'
    if isinstance(shape, Circle):
        x, y = shape.center
        return f'<circle cx="{x:.3f}" cy="{y:.3f}" r="{shape.radius:.3f}" {style}/>'
    spots = " ".join(f"{x:.3f},{y:.3f}" for x, y in shape.spots)
    fill = ' fill="currentColor" stroke="none"' if shape.filled else ""
    return f'<{"polygon" if shape.closed else "polyline"} points="{spots}" {style}{fill}/>'


def _text(text: Text) -> str:
    x, y = text.at
    anchor = "" if text.anchor == "start" else f' text-anchor="{text.anchor}"'
    size = "" if text.size == 11 else f' font-size="{text.size:g}"'
    turn = f' transform="rotate(-90 {x:.2f} {y:.2f})"' if text.upright else ""
    weight = STRONG if text.strong else ""
    place = f'x="{x:.2f}" y="{y:.2f}"'
    return f"<text {place}{anchor}{size}{weight}{turn}>{_said(text.words)}</text>"


def _lines(mark: str, drawing: Drawing) -> list[str]:
    first, *more = wrapped(one_line(mark), drawing.width - 3 * BORDER)
    return [first, *(f"\u2003{line}" for line in more)]


def _said(words: str) -> str:
    return escape(one_line(words))


def _safe(key: str) -> str:
    return "".join(c if c.isascii() and (c.isalnum() or c in "-.") else "-" for c in key)
