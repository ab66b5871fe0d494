"""The same quantities found the slow and plain way, sharing no step with the code under test.

Taut string: every pair of points on porcelain and metal that see each other, and Dijkstra's
shortest way over them. Rain: one ray from every place on the outline. Creepage over air: every
pair of places on the path. Sight is tested by Shapely against the solid, less a hair.
"""

import math
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.sparse import coo_array
from scipy.sparse.csgraph import dijkstra

from shedlight.geometry.curves import Curve, chain
from shedlight.geometry.section import Section

Array = NDArray[np.float64]

SAGITTA = 2e-5
HAIR = 5e-5
METAL_STEP = 1e-3
RAIN_STEP = 3e-4
SOLIDS = ("porcelain", "clamps", "cover", "conductor", "gasket")


def solid_of(section: Section, *regions: str, hair: float = HAIR) -> shapely.Geometry:
    """Some regions together, less a hair."""
    whole = shapely.union_all([section.polygon(name, SAGITTA) for name in regions])
    shaved = whole.buffer(-hair, join_style="mitre")
    shapely.prepare(shaved)
    return shaved


def sees(solid: shapely.Geometry, ways: Array) -> NDArray[np.bool_]:
    return np.asarray(shapely.disjoint(solid, shapely.linestrings(ways)), dtype=np.bool_)


def corners(curve: Curve, sagitta: float = SAGITTA) -> Array:
    return np.array(list(chain(curve.points(sagitta))))


def shortest_string(section: Section, surface: str, earth: list[str], live: str) -> float:
    """Length of the shortest way from metal to metal through the open."""
    radii = section.radii
    widest = max(radii.cap, radii.shield, radii.ring_outer, *(s.tip_radius for s in section.sheds))
    face = corners(section.curve(surface))
    earthed = np.concatenate([_studded(section.curve(name), widest + 0.02) for name in earth])
    charged = _studded(section.curve(live), widest + 0.02)
    places = np.concatenate([face, earthed, charged])
    faced, grounded = len(face), len(face) + len(earthed)
    first, second = np.triu_indices(len(places), k=1)
    wanted = (first < faced) | ((first < grounded) & (second >= grounded))
    first, second = first[wanted], second[wanted]
    seen = sees(solid_of(section, *SOLIDS), np.stack([places[first], places[second]], axis=1))
    first, second = first[seen], second[seen]
    lengths = np.hypot(*(places[second] - places[first]).T)
    # Two more places stand for all earthed and for all live metal, next to nothing away from it.
    begin, end = len(places), len(places) + 1
    ground, charge = np.arange(faced, grounded), np.arange(grounded, len(places))
    rows = np.concatenate([first, np.full(len(ground), begin), charge])
    columns = np.concatenate([second, ground, np.full(len(charge), end)])
    weights = np.concatenate([lengths, np.full(len(ground) + len(charge), 1e-12)])
    graph = coo_array((np.maximum(weights, 1e-12), (rows, columns)), shape=(end + 1, end + 1))
    return float(dijkstra(graph.tocsr(), directed=False, indices=[begin])[0, end])


def _studded(curve: Curve, widest: float) -> Array:
    """Places close together on metal, as far out as anything reaches."""
    found: list[Array] = []
    line = corners(curve)
    for a, b in pairwise(line):
        share = np.clip((widest - a[0]) / (b[0] - a[0]), 0.0, 1.0) if b[0] > widest else 1.0
        size = float(np.hypot(*(b - a))) * float(share)
        shares = np.linspace(0.0, float(share), max(1, math.ceil(size / METAL_STEP)) + 1)
        found.append(a + (b - a) * shares[:, None])
    return np.concatenate(found)


def dry_length(section: Section, creepage: Curve, angle: float) -> float:
    """Length of the creepage path that no ray of rain reaches."""
    line = corners(creepage)
    sizes = np.hypot(*np.diff(line, axis=0).T)
    counts = np.maximum(1, np.ceil(sizes / RAIN_STEP)).astype(int)
    number = np.concatenate([(np.arange(count) + 0.5) / count for count in counts])
    place = np.repeat(line[:-1], counts, axis=0)
    place = place + np.repeat(np.diff(line, axis=0), counts, axis=0) * number[:, None]
    weight = np.repeat(sizes / counts, counts)
    against = np.array([math.sin(angle), math.cos(angle)])
    rays = np.stack([place + 1e-5 * against, place + 5.0 * against], axis=1)
    # Grown by next to nothing, so that a ray that only grazes does not wet.
    wet = sees(solid_of(section, "porcelain", "conductor", hair=-1e-8), rays)
    return float(np.sum(weight[~wet]) * creepage.length / np.sum(weight))


def steepest_ratio(section: Section, creepage: Curve, samples: int) -> float:
    """Largest creepage over air distance between any two places on the whole path."""
    lengths = np.linspace(0.0, creepage.length, samples)
    places = np.array(list(chain(creepage.at(float(length)) for length in lengths)))
    first, second = np.triu_indices(samples, k=1)
    straight = np.hypot(*(places[second] - places[first]).T)
    ratio = (lengths[second] - lengths[first]) / np.maximum(straight, 1e-9)
    solid = solid_of(section, "porcelain", hair=2e-5)
    for batch in np.array_split(np.argsort(-ratio), math.ceil(len(ratio) / 500)):
        seen = sees(solid, np.stack([places[first[batch]], places[second[batch]]], axis=1))
        if seen.any():
            return float(ratio[batch[int(np.argmax(seen))]])
    return 1.0


def drip_clearance(lower: Curve, upper: Curve, reach: float, root: float) -> float:
    """Distance from the lowest place of the upper shed to the lower one, trunk and root left out.

    The lowest place is sought further out than reach, the lower shed further out than root.
    """
    above, below = corners(upper, 1e-8), corners(lower, 1e-8)
    hanging = above[above[:, 0] > reach]
    lowest = hanging[int(np.argmin(hanging[:, 1]))]
    shed = below[below[:, 0] >= root]
    return float(shapely.distance(shapely.LineString(shed), shapely.Point(lowest)))
