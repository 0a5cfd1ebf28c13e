"""The drawing of every shape, parsed as XML and held against the sizes that its words state."""

import re
from fractions import Fraction
from itertools import combinations
from math import hypot
from xml.etree import ElementTree

import pytest

from tests.angles.asking import SHAPES, question, row

EACH = 40
NAMES = "{http://www.w3.org/2000/svg}"
SAID = re.compile(r'^([A-Z]) = (.*): (?:(.+)"|(.+) mm|(.+) degrees)$')
HEIGHT, WIDTH = 10.0, 0.5  # points of a letter: its height, and the least share that is its width


def addresses(shape):
    return [row(seed) if shape == "row" else question(shape, seed) for seed in range(EACH)]


def drawn(client, shape):
    """Every drawing that is answered, with its address."""
    for address in addresses(shape):
        response = client.get(f"{address}&format=svg")
        if response.status_code == 200:
            yield address, ElementTree.fromstring(response.text)


def inches(found):
    """The size that a line of words states."""
    if found[4]:
        return float(found[4]) / 25.4
    whole, _, part = found[3].partition(" ")
    return float(Fraction(whole) + (Fraction(part) if part else 0)) if "/" in found[3] else (
        float(found[3])
    )  # fmt: skip


def spots(element):
    return [tuple(map(float, pair.split(","))) for pair in element.get("points").split()]


def lines(root, kind):
    return [one for one in root.iter() if one.get("class") == kind]


@pytest.mark.parametrize("shape", [*SHAPES, "row"])
def test_every_line_of_a_size_is_as_long_as_its_words_say(client, shape):
    """A size that is stated in inches, over the line that stands for it, is the scale, always."""
    held = 0
    for address, root in drawn(client, shape):
        scale = float(root.get("data-scale"))
        sizes = {one.get("data-of"): spots(one) for one in lines(root, "size")}
        said = [SAID.match(text.text) for text in root.iter(f"{NAMES}text")]
        for found in filter(None, said):
            if found[5] or (shape == "sloped-box" and found[1] == "A"):
                continue
            size = inches(found)
            if size == 0:
                continue
            (x, y), (a, b) = sizes[found[1]]
            assert hypot(a - x, b - y) / scale == pytest.approx(size, abs=0.003), address
            held += 1
    assert held > EACH / 2


@pytest.mark.parametrize("shape", [*SHAPES, "row"])
def test_no_words_stand_on_others_or_over_the_edge(client, shape):
    for address, root in drawn(client, shape):
        left, top, wide, high = map(float, root.get("viewBox").split())
        frames = [frame(text) for text in root.iter(f"{NAMES}text")]
        for a, b in combinations(frames, 2):
            apart = a[0] >= b[2] or b[0] >= a[2] or a[1] >= b[3] or b[1] >= a[3]
            assert apart, (address, a, b)
        for a in frames:
            assert left <= a[0] and a[2] <= wide and top <= a[1] and a[3] <= high, address


@pytest.mark.parametrize("shape", [*SHAPES, "row"])
def test_the_wood_stays_on_the_paper(client, shape):
    for address, root in drawn(client, shape):
        _, _, wide, high = map(float, root.get("viewBox").split())
        found = [spot for one in lines(root, "outline") for spot in spots(one)]
        assert found, address
        assert all(0 <= x <= wide and 0 <= y <= high for x, y in found), address


def frame(text):
    """Room that words take at the very least: half of their height for every letter."""
    x, y = float(text.get("x")), float(text.get("y"))
    long = len(text.text) * HEIGHT * WIDTH * 0.9
    back = {"middle": long / 2, "end": long}.get(text.get("text-anchor"), 0)
    if text.get("transform"):
        return x - 7, y - long + back, x, y + back
    return x - back, y - 7, x - back + long, y
