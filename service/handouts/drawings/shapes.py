"""The shapes of a build with their measures: legs that lean, frames, boxes, braces."""

from collections.abc import Iterator

from service.domain.angles.drawing import drawn
from service.domain.drawing import Drawing
from service.handouts.drawings.pens import Pen


def shape_drawings(pen: Pen) -> Iterator[tuple[str, str, Drawing]]:
    """Key, caption and drawing of every shape that could be figured, in document order."""
    for number, judged in enumerate(pen.build.shapes, 1):
        if judged.sketch is not None:
            shape = judged.shape
            caption = f"How it stands: {' '.join(shape.id.split())} ({shape.shape})"
            yield f"shape-{number}", caption, drawn(caption, judged.sketch, pen.build.metric)
