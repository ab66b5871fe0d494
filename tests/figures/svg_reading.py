"""Reading painted SVG back, independently of the painter: elements, places, true lengths."""

import math
import re
from collections.abc import Iterator
from xml.etree import ElementTree

NAMESPACE = "{http://www.w3.org/2000/svg}"
_COMMAND = re.compile(r"([MmLlHhVvAaZz])([^MmLlHhVvAaZz]*)")
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def root_of(svg: str) -> ElementTree.Element:
    return ElementTree.fromstring(svg)


def ids(root: ElementTree.Element) -> list[str]:
    return [element.attrib["id"] for element in root.iter() if "id" in element.attrib]


def layer(root: ElementTree.Element, name: str) -> ElementTree.Element:
    return next(g for g in root.iter(f"{NAMESPACE}g") if g.get("data-layer") == name)


def path_data(element: ElementTree.Element) -> list[str]:
    return [path.attrib["d"] for path in element.iter(f"{NAMESPACE}path")]


def length(data: str) -> float:
    """True length of SVG path data, arcs by their radius and chord."""
    return math.fsum(size for _, _, size in steps(data))


def steps(data: str) -> Iterator[tuple[tuple[float, float], tuple[float, float], float]]:
    """Start, end and length of every drawn step."""
    x = y = start_x = start_y = 0.0
    for command, words in _COMMAND.findall(data):
        values = [float(word) for word in _NUMBER.findall(words)]
        before = x, y
        if command == "M":
            x, y = values
        elif command in "ml":
            x, y = x + values[0], y + values[1]
        elif command == "h":
            x += values[0]
        elif command == "v":
            y += values[0]
        elif command == "a":
            x, y = x + values[5], y + values[6]
        elif command in "zZ":
            x, y = start_x, start_y
        else:
            raise AssertionError(f"unexpected command {command}")
        if command in "Mm":
            start_x, start_y = x, y
            continue
        chord = math.dist(before, (x, y))
        yield before, (x, y), _arc(values, chord) if command == "a" else chord


def _arc(values: list[float], chord: float) -> float:
    radius = max(values[0], chord / 2)
    angle = 2 * math.asin(chord / (2 * radius))
    return radius * (2 * math.pi - angle if values[3] else angle)
