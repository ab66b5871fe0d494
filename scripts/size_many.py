"""Size bushings for hundreds of random duties and sites and check each: run by hand.

Usage: python scripts/size_many.py [COUNT] [SEED]
"""

import random
import sys
import time
from collections import Counter

from shedlight.sizing.request import request_from
from shedlight.sizing.sized import size

LEVELS = (7.2, 12.0, 17.5, 24.0, 36.0, 52.0)
CURRENTS = (100, 250, 400, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150)


def random_tables(draw: random.Random) -> dict[str, object]:
    """Duty, site and transformer as one finds them; the hole is left to the bushing."""
    volts, amperes = draw.choice(LEVELS), draw.choice(CURRENTS)
    return {
        "name": f"{volts:g} kV, {amperes} A",
        "duty": {
            "highest_voltage": f"{volts} kV",
            "rated_current": f"{amperes} A",
            "neutral_earthing": draw.choice(("effective", "low-resistance", "resonant")),
            "earth_fault_duration": draw.choice(("1 s", "3 s", "2 h")),
            "short_time_duration": "1 s",
            "terminal_load": f"{draw.choice((500, 1000, 1250))} N",
        },
        "site": {
            "altitude": f"{draw.choice((0, 250, 1000, 1800, 2500))} m",
            "pollution_class": draw.choice("abcde"),
        },
        "transformer": {
            "cover_thickness": "12 mm",
            "cover_metal": draw.choice(("steel", "non-magnetic steel")),
            "hole_bled": True,
            "lowest_oil_level": "1600 mm",
            "highest_oil_level": "2000 mm",
            "breathing": "conservator",
            "phase_spacing": "1200 mm",
            "earth_distance": "900 mm",
            "tank_clearance": f"{40 + 5 * volts:.0f} mm",
            "top_oil_temperature": f"{draw.choice((80, 85, 90))} °C",
        },
    }


def main(count: int, seed: int) -> None:
    """Size, check, and print what came of it."""
    draw, tally, start = random.Random(seed), Counter[str](), time.process_time()
    for number in range(count):
        tables = random_tables(draw)
        sized = size(request_from(tables))
        verdict = "holds" if sized.holds else f"short: {', '.join(sized.short)}"
        tally["holds" if sized.holds else "short"] += 1
        tally["fails"] += bool(sized.failed)
        draft = sized.draft
        print(  # noqa: T201
            f"{number:4} {tables['name']:16} {tables['site']} {verdict}; air {draft.air:.3f} m, "
            f"{draft.count} {draft.form}, cautions {[c.id for c in sized.cautions]}, "
            f"fails {[c.id for c in sized.failed]}",
            flush=True,
        )
    print(dict(tally), f"{(time.process_time() - start) / count:.1f} s CPU each")  # noqa: T201


if __name__ == "__main__":
    main(int((sys.argv[1:] or ["100"])[0]), int((sys.argv[2:] or ["1"])[0]))
