"""The public face is exactly what it says: all of it there, nothing else let out."""

import subprocess
import sys
from types import ModuleType

import pytest

import shedlight
from edits import EXAMPLES

LISTED = {
    *("Assessment", "Check", "Installation", "Verdict"),
    *("assess", "changed", "parse", "read", "to_toml"),
    *("CalculationError", "DescriptionError", "ImpossibleShapeError"),
    *("InputError", "ShedlightError", "UnitError"),
}


def test_list_is_what_was_promised() -> None:
    assert set(shedlight.__all__) == LISTED
    assert list(shedlight.__all__) == sorted(shedlight.__all__)


@pytest.mark.parametrize("name", sorted(LISTED))
def test_name_can_be_reached_and_comes_from_the_house(name: str) -> None:
    thing = getattr(shedlight, name)

    assert thing.__module__.startswith("shedlight.")
    assert thing.__doc__
    assert thing.__name__ == name


def test_nothing_else_is_shown() -> None:
    assert dir(shedlight) == sorted(LISTED)


def test_nothing_else_lies_about_but_modules_of_the_house() -> None:
    for name, thing in vars(shedlight).items():
        if isinstance(thing, ModuleType):
            assert thing.__name__ == f"shedlight.{name}"
        else:
            assert name.startswith("_") or name in {
                *LISTED,
                "Any",
                "TYPE_CHECKING",
                "import_module",
            }


@pytest.mark.parametrize("name", ["units", "nowhere", "tables", "run", "__path", "numpy"])
def test_what_is_not_listed_is_refused(name: str) -> None:
    code = f"import shedlight\ntry: shedlight.{name}\nexcept AttributeError as e: print(e)"
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert f"no attribute '{name}'" in said.stdout


def test_import_is_light_and_star_import_gives_the_list() -> None:
    code = (
        "import sys, shedlight\n"
        "heavy = {'numpy', 'scipy', 'shapely', 'pydantic', 'typer'} & set(sys.modules)\n"
        "assert not heavy, heavy\n"
        "from shedlight import *\n"
        f"assert {LISTED!r} <= set(globals())\n"
        "assert 'units' not in globals()\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def test_the_example_of_the_first_page_runs() -> None:
    case = shedlight.read(EXAMPLES / "inland-12kv.toml")
    assessment = shedlight.assess(case)

    assert isinstance(case, shedlight.Installation)
    assert isinstance(assessment, shedlight.Assessment)
    assert all(isinstance(check, shedlight.Check) for check in assessment.by_urgency)
    assert {check.verdict for check in assessment.checks} <= set(shedlight.Verdict)
    assert shedlight.parse(shedlight.to_toml(case)) == case


def test_every_error_is_one_of_ours_and_input_errors_are_value_errors() -> None:
    for name in LISTED:
        thing = getattr(shedlight, name)
        if isinstance(thing, type) and issubclass(thing, Exception):
            assert issubclass(thing, shedlight.ShedlightError)
            assert issubclass(thing, ValueError) == issubclass(thing, shedlight.InputError)
            assert thing.exit_status == (2 if issubclass(thing, shedlight.InputError) else 3)
