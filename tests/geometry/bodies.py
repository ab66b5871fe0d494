"""Bodies to measure: one everyday bushing to vary by hand, and random ones of every odd kind.

Random bodies are plain data drawn from a seed, so that a failure names the seed that repeats it.
They go further than any sane drawing: drooping sheds below the clamps, bodies that widen upwards,
caps and flanges far wider or no wider than what they sit on.
"""

import math
import random
from collections.abc import Iterator
from typing import Any

from pydantic import ValidationError

from shedlight.errors import ImpossibleShapeError
from shedlight.geometry.section import Section, build_section
from shedlight.given.bushing import BulkBushing
from shedlight.given.transformer import Transformer

Data = dict[str, Any]

TRANSFORMER: Data = {
    "hole_diameter": 76e-3,
    "cover_thickness": 10e-3,
    "cover_metal": "steel",
    "lowest_oil_level": 0.4,
    "highest_oil_level": 0.8,
    "breathing": "conservator",
    "phase_spacing": 0.4,
    "earth_distance": 0.4,
    "tank_clearance": 0.1,
}
SHEDS: Data = {
    "form": "plain",
    "count": 5,
    "overhang": 38e-3,
    "pitch": 48e-3,
    "first_tip": 45e-3,
    "tip_thickness": 9e-3,
}
BUSHING: Data = {
    "kind": "bulk",
    "conductor": {"form": "rod", "metal": "copper", "diameter": 20e-3},
    "porcelain": {
        "bore": 36e-3,
        "wall": 16e-3,
        "collar_diameter": 120e-3,
        "collar_height": 25e-3,
        "air_length": 290e-3,
    },
    "sheds": SHEDS,
    "fixing": {"form": "clamps", "outer_diameter": 150e-3, "thickness": 14e-3},
    "gasket": {
        "inner_diameter": 78e-3,
        "outer_diameter": 116e-3,
        "thickness": 8e-3,
        "compressed_thickness": 5.6e-3,
    },
    "oil_end": {
        "length": 150e-3,
        "end_diameter": 56e-3,
        "taper_length": 60e-3,
        "shield_diameter": 58e-3,
        "shield_height": 24e-3,
        "shield_edge_radius": 10e-3,
        "stud_diameter": 20e-3,
        "stud_length": 40e-3,
    },
    "cap": {"diameter": 68e-3},
    "terminal": {
        "form": "stud",
        "metal": "copper",
        "finish": "tinned",
        "diameter": 20e-3,
        "height": 60e-3,
        "lug_metal": "copper",
        "lug_finish": "tinned",
    },
}
SMOOTH: Data = {"sheds": None}
FLANGE: Data = {"fixing": {"form": "flange", "outer_diameter": 150e-3, "thickness": 14e-3}}


def everyday(**changes: Any) -> tuple[BulkBushing, Transformer]:
    """The everyday bushing with some fields changed: ``porcelain__wall=…``, ``hole_diameter=…``."""
    bushing = {name: dict(v) if isinstance(v, dict) else v for name, v in BUSHING.items()}
    cover = dict(TRANSFORMER)
    for path, value in changes.items():
        table, _, field = path.partition("__")
        if field:
            bushing[table][field] = value
        elif table in cover:
            cover[table] = value
        else:
            bushing[table] = value
    return BulkBushing.model_validate(bushing), Transformer.model_validate(cover)


def built(**changes: Any) -> Section:
    """Its section."""
    return build_section(*everyday(**changes))


def scaled(data: Data, factor: float) -> Data:
    """The same data with every length multiplied; angles and counts stay."""
    return {
        name: scaled(value, factor)
        if isinstance(value, dict)
        else value * factor
        if isinstance(value, float) and not name.endswith("slope")
        else value
        for name, value in data.items()
    }


def sections(kind: str, count: int) -> Iterator[tuple[str, Section]]:
    """Sections of random bodies, each with the seed it came from; some seeds have none."""
    for number in range(count):
        seed = f"{kind} {number}"
        try:
            bushing, transformer = random_body(seed)
            yield (
                seed,
                build_section(
                    BulkBushing.model_validate(bushing), Transformer.model_validate(transformer)
                ),
            )
        except (ImpossibleShapeError, ValidationError):
            continue


def random_body(seed: str) -> tuple[Data, Data]:
    """A random bushing and cover, mostly possible; lengths in metres."""
    dice = random.Random(seed)
    bore = dice.uniform(10e-3, 70e-3)
    wall = dice.uniform(6e-3, 30e-3)
    body = bore + 2 * wall
    top_wall = dice.choice([wall, wall, dice.uniform(0.4, 1.3) * wall])
    hole = body + dice.uniform(1e-3, 12e-3)
    gasket = hole + dice.uniform(1e-3, 6e-3)
    outer = gasket + dice.uniform(6e-3, 50e-3)
    collar = outer + dice.uniform(1e-3, 10e-3)
    sheds, least = _sheds(dice)
    bushing: Data = {
        **BUSHING,
        "conductor": {"form": "rod", "metal": "copper", "diameter": bore * dice.uniform(0.3, 0.8)},
        "porcelain": {
            "bore": bore,
            "wall": wall,
            "top_wall": top_wall,
            "collar_diameter": collar,
            "collar_height": dice.uniform(8e-3, 40e-3),
            "air_length": least + dice.choice([1e-3, dice.uniform(2e-3, 80e-3)]),
        },
        "sheds": sheds,
        "fixing": _fixing(dice, body, collar),
        "gasket": {
            "inner_diameter": gasket,
            "outer_diameter": outer,
            "thickness": 8e-3,
            "compressed_thickness": dice.uniform(1e-3, 7e-3),
        },
        "cap": _cap(dice, bore + 2 * top_wall),
    }
    bushing["terminal"] = {
        **BUSHING["terminal"],
        "diameter": dice.uniform(6e-3, min(60e-3, bushing["cap"]["diameter"])),
    }
    cover = dice.uniform(4e-3, 20e-3)
    bushing["oil_end"] = _oil_end(dice, bore, wall, cover)
    return bushing, {**TRANSFORMER, "hole_diameter": hole, "cover_thickness": cover}


def _sheds(dice: random.Random) -> tuple[Data | None, float]:
    """Sheds, and the least air length for them."""
    count = dice.choice([0, 1, 2, 3, 4, 5, 8, 12])
    if not count:
        return None, dice.uniform(30e-3, 400e-3)
    drooping = dice.random() < 0.3
    under = dice.uniform(0, 40) if drooping else dice.uniform(0, 12)
    top = min(60, under + dice.uniform(0, 15)) if drooping else dice.uniform(0, 30)
    overhang, thickness = dice.uniform(10e-3, 80e-3), dice.uniform(4e-3, 14e-3)
    root = dice.uniform(1e-3, 8e-3)
    fall, rise = (math.tan(math.radians(angle)) for angle in (under, top))
    setback = root * math.tan(math.radians(45 + under / 2))
    rounding = thickness / 2 / math.tan(math.radians(45 + under / 2))
    pitch = thickness + overhang * (rise - fall) + 2 * setback + dice.uniform(1e-3, 30e-3)
    first = thickness / 2 - overhang * fall + setback + dice.uniform(0.5e-3, 30e-3)
    first, pitch = max(first, 5e-3), max(pitch, thickness + 5e-3)
    sheds: Data = {
        "form": dice.choice(["plain", "alternating"]),
        "count": count,
        "overhang": overhang,
        "pitch": pitch,
        "first_tip": first,
        "top_slope": math.radians(top),
        "under_slope": math.radians(under),
        "tip_thickness": thickness,
        "tip_radius": max(0.5e-3, rounding * dice.uniform(0.3, 1.0)),
        "root_radius": root,
        "ribs": dice.choice([0, 0, 0, 0, 1, 3]),
        "rib_depth": dice.uniform(2e-3, 15e-3),
    }
    if sheds["form"] == "alternating":
        sheds["short_overhang"] = overhang * dice.uniform(0.5, 0.95)
    reach = first + (count - 1) * pitch + thickness / 2 + overhang * rise + root
    return sheds, max(20e-3, reach)


def _fixing(dice: random.Random, body: float, collar: float) -> Data:
    fixing: Data = {
        "form": dice.choice(["clamps", "flange"]),
        "outer_diameter": collar + dice.choice([0.0, dice.uniform(0, 150e-3)]),
        "thickness": dice.uniform(6e-3, 30e-3),
        "edge_radius": dice.uniform(0.3e-3, 2.5e-3),
    }
    if fixing["form"] == "clamps":
        fixing["stand_off"] = max(0.5e-3, dice.uniform(0.1, 0.6) * (collar - body) / 2)
    return fixing


def _cap(dice: random.Random, body: float) -> Data:
    height = dice.uniform(10e-3, 40e-3)
    return {
        "diameter": body + dice.choice([0.0, dice.uniform(0, 30e-3), dice.uniform(0, 250e-3)]),
        "height": height,
        "edge_radius": dice.uniform(0.3e-3, 0.3 * height),
    }


def _oil_end(dice: random.Random, bore: float, wall: float, cover: float) -> Data:
    end = bore + 2 * wall * dice.choice([1.0, dice.uniform(0.3, 1.0)])
    shield = dice.choice([end, bore + dice.uniform(1e-3, 20e-3), end + dice.uniform(0, 80e-3)])
    height, taper = dice.uniform(8e-3, 40e-3), dice.uniform(1e-3, 120e-3)
    return {
        "length": 7e-3 + cover + taper + dice.uniform(1e-3, 120e-3),
        "end_diameter": end,
        "taper_length": taper,
        "shield_diameter": shield,
        "shield_height": height,
        "shield_edge_radius": dice.uniform(0.5e-3, 0.4 * min(height, shield / 2)),
        "stud_diameter": dice.choice([shield, shield * dice.uniform(0.3, 0.6)]),
        "stud_length": dice.uniform(10e-3, 60e-3),
    }
