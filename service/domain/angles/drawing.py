"""A shape as a small line drawing: black lines, letters, and what each letter means in words."""

from html import escape
from itertools import chain

from service.domain.angles.answer import Drawing, Letter
from service.domain.tape import plain

NAMESPACE = "//".join(("http:", "www.w3.org/2000/svg"))  # a name, not an address
WIDE, HIGH, BORDER, LINE = 420.0, 300.0, 30.0, 18.0


def meaning(letter: Letter, metric: bool) -> str:
    """What a letter stands for: `A = length: 16 1/4"`."""
    size = letter.size
    if isinstance(size, float):
        return f"{letter.letter} = {letter.name}: {size:.2f} degrees"
    return f"{letter.letter} = {letter.name}: {plain(size, metric)}"


def svg(title: str, drawing: Drawing, metric: bool = False) -> str:
    """The drawing as an SVG document that scales to its frame, and reads aloud in words."""
    spots = list(chain.from_iterable(drawing.outlines))
    left, right = min(x for x, _ in spots), max(x for x, _ in spots)
    low, top = min(y for _, y in spots), max(y for _, y in spots)
    scale = min(WIDE / max(right - left, 1e-9), HIGH / max(top - low, 1e-9))
    high = (top - low) * scale

    def place(x: float, y: float) -> tuple[float, float]:
        return BORDER + (x - left) * scale, BORDER + high - (y - low) * scale

    words = [meaning(letter, metric) for letter in drawing.letters]
    whole = high + 2 * BORDER + LINE * len(words)
    lines = [
        f'<svg xmlns="{NAMESPACE}" viewBox="0 0 {WIDE + 2 * BORDER:g} {whole:.1f}" role="img">',
        f"<title>{escape(title)}</title>",
        f"<desc>{escape('; '.join(words))}</desc>",
        '<g fill="none" stroke="#000" stroke-width="1.5" stroke-linejoin="round">',
    ]
    for outline in drawing.outlines:
        points = " ".join("{:.1f},{:.1f}".format(*place(*spot)) for spot in outline)
        lines.append(f'<polygon points="{points}"/>')
    lines.append('</g><g font-family="sans-serif" font-size="14" fill="#000">')
    for letter in drawing.letters:
        x, y = place(*letter.at)
        lines.append(f'<text x="{x + 4:.1f}" y="{y - 4:.1f}">{letter.letter}</text>')
    for number, said in enumerate(words, 1):
        y = high + 2 * BORDER + LINE * (number - 0.5)
        lines.append(f'<text x="{BORDER:g}" y="{y:.1f}">{escape(said)}</text>')
    lines.append("</g></svg>\n")
    return "\n".join(lines)
