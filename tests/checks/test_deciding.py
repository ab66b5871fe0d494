"""One table says which rule decides where the trade disagrees, and every entry is used."""

from pathlib import Path

import shedlight as sl
from shedlight.checks.catalogue import questions
from shedlight.checks.check import deciding
from shedlight.given.reading import parse
from shedlight.given.writing import to_data

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))


def variants() -> list[sl.Installation]:
    """The examples, and what-ifs that bring out rivals they do not."""
    cases = [sl.read(path) for path in EXAMPLES]
    inland = cases[0]
    return [
        *cases,
        sl.changed(inland, transformer__hole_bled=False),
        sl.changed(inland, duty__lightning_impulse=95e3),
        sl.changed(inland, site__deposit=0.0005),
        sl.changed(inland, duty__terminal_load=150.0, duty__terminal_pull=150.0),
        sl.changed(inland, bushing__gasket__groove_width=0.022),
        sl.changed(inland, site__salinity=10.0),
        sl.changed(inland, site__salinity=2.5),
        sl.changed(inland, site__rain_rate=20 / 3.6e6, site__rain_wind=8.0),
        sl.changed(inland, transformer__oil_state="degassed"),
        ringed(inland),
    ]


def ringed(case: sl.Installation) -> sl.Installation:
    """The same with a shield ring at either end."""
    rings = {"live_ring": ("260 mm", "40 mm"), "earth_ring": ("260 mm", "25 mm")}
    fields = {
        f"bushing__{name}": {"diameter": across, "tube_diameter": tube, "offset": "0 mm"}
        for name, (across, tube) in rings.items()
    }
    return sl.changed(case, **fields)


def solved() -> list[sl.Installation]:
    """What is assessed with its field: clamps over oil and over gas, a flange, no horns."""
    quay = EXAMPLES[-1]
    flanged = quay.read_text("utf-8").replace('form = "clamps"', 'form = "flange"')
    return [
        sl.read(quay),
        sl.changed(sl.read(quay), transformer__hole_bled=False, bushing__horns=None),
        ringed(sl.changed(sl.read(quay), transformer__oil_state="degassed")),
        parse(flanged),
    ]


def test_every_rival_shown_is_in_the_table_and_every_entry_is_shown() -> None:
    assessed = [sl.assess(case) for case in variants()]
    assessed += [sl.assess(case, with_field=True) for case in solved()]
    shown = {
        (check.id, rival.title)
        for assessment in assessed
        for check in assessment.checks
        for rival in check.rivals
    }

    assert shown == set(deciding())


def test_entries_belong_to_questions_and_tell_why() -> None:
    for entry in deciding().values():
        assert entry.check in questions()
        assert entry.decides != entry.rival
        assert len(entry.why.split()) >= 6


def test_the_larger_demand_governs_the_oil_space() -> None:
    for case in variants():
        check = sl.assess(case).check("wall.radial.oil")
        assert check.demand is not None
        assert check.demand >= check.rivals[0].demand


def test_variants_are_descriptions_of_their_own() -> None:
    texts = [repr(to_data(case)) for case in variants()]
    assert len(set(texts)) == len(texts)
