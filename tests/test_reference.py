"""Every published or exact reference value, and the reader and runner of those rows."""

from collections import Counter
from pathlib import Path

import pytest

from shedlight.errors import InputError
from shedlight.verification import Row, outcome, outcomes, rows
from shedlight.verification.rows import Kind, read_rows

REFERENCE = Path(__file__).parent / "reference"
HEADER = "id,function,inputs,expected,tolerance,kind,source,basis\n"
GOOD = (
    'demo.one,radial.cavities.bubble_factor,"{""permittivity"": 2.2}",1.222222,1e-6,'
    "exact,Somebody,exact\n"
)


@pytest.mark.parametrize("row", rows(), ids=lambda row: row.id)
def test_reference_value_is_met(row: Row) -> None:
    result = outcome(row)
    assert not result.trouble
    assert result.ok, (
        f"computed {result.computed:.9g} {result.unit}, expected {result.expected:.9g}: "
        f"off by {result.deviation:.2g}, allowed {result.tolerance:g} ({result.source})"
    )


def test_there_are_enough_rows_that_prove_more_than_coding() -> None:
    kinds = Counter(row.kind for row in rows())
    assert kinds.total() >= 150
    assert 2 * kinds[Kind.ARITHMETIC] <= kinds.total()
    assert min(kinds.values()) > 0
    assert set(kinds) == set(Kind)


def test_the_rows_that_run_are_the_rows_that_are_written() -> None:
    written = sum(
        len(path.read_text(encoding="utf-8").splitlines()) - 1 for path in REFERENCE.glob("*.csv")
    )
    assert len(rows()) == written == len(outcomes())


def only_row(folder: Path, line: str) -> Row:
    (folder / "demo.csv").write_text(HEADER + line, encoding="utf-8")
    (row,) = read_rows(folder)
    return row


def test_a_good_row_is_met(tmp_path: Path) -> None:
    result = outcome(only_row(tmp_path, GOOD))
    assert result.ok
    assert result.computed == pytest.approx(6.6 / 5.4, rel=1e-12)
    assert result.deviation == pytest.approx(abs(6.6 / 5.4 - 1.222222) / 1.222222, rel=1e-6)


def test_a_wrong_expectation_is_seen(tmp_path: Path) -> None:
    result = outcome(only_row(tmp_path, GOOD.replace("1.222222", "1.222232")))
    assert not result.ok
    assert not result.trouble


@pytest.mark.parametrize(
    ("old", "new", "word"),
    [
        ("bubble_factor", "bubbles", "bubbles"),
        ("radial.cavities", "cellar.cavities", "cellar"),
        ("2.2}", "-2.2}", "permittivity"),
        ('{""permittivity"": 2.2}', "[2.2]", "object"),
        ("permittivity", "epsilon", "epsilon"),
        ("2.2}", '""2.2 mm""}', "plain number"),
        ("2.2}", '""2.2 cubits""}', "cubits"),
        ("1.222222", "1.222222 kV", "plain number"),
    ],
)
def test_trouble_is_part_of_the_outcome(tmp_path: Path, old: str, new: str, word: str) -> None:
    assert old in GOOD
    result = outcome(only_row(tmp_path, GOOD.replace(old, new)))
    assert word in result.trouble
    assert not result.ok


@pytest.mark.parametrize(
    ("old", "new", "word"),
    [
        ("exact,Somebody", "guess,Somebody", "guess"),
        ("Somebody", "", "filled"),
        (",exact\n", ",exact,more\n", "filled"),
        (",exact\n", ",hearsay\n", "hearsay"),
        ("1e-6", "1.5", "tolerance"),
        ("1e-6", "small", "small"),
        ("demo.one", "other.one", "begin"),
    ],
)
def test_a_bad_row_is_refused(tmp_path: Path, old: str, new: str, word: str) -> None:
    assert old in GOOD
    with pytest.raises(InputError, match=word):
        only_row(tmp_path, GOOD.replace(old, new))


def test_an_id_stands_once(tmp_path: Path) -> None:
    (tmp_path / "demo.csv").write_text(HEADER + GOOD + GOOD, encoding="utf-8")
    with pytest.raises(InputError, match="twice"):
        read_rows(tmp_path)


def test_temperatures_are_compared_in_degrees_celsius(tmp_path: Path) -> None:
    """One kelvin is a tenth of 10 °C, not a third of a per cent of 283 K."""
    line = (
        'demo.warm,heat.terminal.warmed,"{""before"": ""0 °C"", ""rise"": ""11 K""}",'
        "10 °C,0.01,exact,Somebody,exact\n"
    )
    result = outcome(only_row(tmp_path, line))
    assert not result.trouble
    assert result.deviation == pytest.approx(0.1, rel=1e-9)


def test_an_expected_zero_is_compared_absolutely(tmp_path: Path) -> None:
    line = (
        'demo.level,oil.head.head_pressure,"{""density"": 1000, ""height"": ""1 mm""}",'
        "0 kPa,1e-2,exact,Somebody,exact\n"
    )
    result = outcome(only_row(tmp_path, line))
    assert result.deviation == pytest.approx(9.80665e-3)
    assert result.ok
