"""The house rules of src/shedlight, kept by reading its source: nothing is imported for it.

Floors only look down. Each line names a floor and the floors it may import, besides itself and
the open modules. A floor that is not listed may not exist: add it here, with its reasons.
"""

import ast
import io
import subprocess
import sys
import tokenize
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

OPEN = ("errors", "units", "sources", "trace", "tables", "toml")  # they import only each other

UP_TO_PHYSICS = ("given", "geometry", "physics")
UP_TO_CHECKS = (*UP_TO_PHYSICS, "workings", "checks")
UP_TO_FIGURES = (*UP_TO_CHECKS, "sizing", "variants", "service", "figures")
ALL_BUT_DOORS = (*UP_TO_FIGURES, "verification", "documents", "explain", "exchange")

MAY_IMPORT: dict[str, tuple[str, ...]] = {
    "given": (),
    "geometry": ("given",),
    "physics": ("geometry",),  # curves as they are drawn; PHYSICS_COMMONS, never another room
    "workings": UP_TO_PHYSICS,
    "checks": (*UP_TO_PHYSICS, "workings"),
    "verification": UP_TO_CHECKS,
    "sizing": UP_TO_CHECKS,
    "variants": (*UP_TO_CHECKS, "sizing"),  # what a site needs is sizing's closed form
    "service": UP_TO_CHECKS,
    "figures": (*UP_TO_CHECKS, "sizing", "variants"),  # records of what was decided are drawn
    "documents": UP_TO_FIGURES,
    "explain": (*UP_TO_FIGURES, "documents"),  # numbers and steps are printed by one floor only
    "exchange": UP_TO_FIGURES,
    "cli": (*ALL_BUT_DOORS, ""),  # "" is the public face, shedlight itself
    "web": (*ALL_BUT_DOORS, ""),
    "": ALL_BUT_DOORS,
    "__main__": ("cli",),
}

PHYSICS_COMMONS = ("domain",)  # modules of the physics floor open to all its rooms

SCREEN = ("typer", "click", "rich", "typst", "argparse", "matplotlib", "tkinter")
FILES = ("tomllib", "tomli_w", "sqlite3", "subprocess", "socket", "http", "urllib")
PLACES = ("pathlib", "os", "io", "shutil", "tempfile", "glob")
UNWANTED: dict[str, tuple[str, ...]] = {
    "geometry": (*SCREEN, *FILES),
    "physics": (*SCREEN, *FILES, *PLACES, "pydantic", "pint", "shapely"),
}
HEAVY_FOR_PHYSICS = ("typer", "rich", "typst", "shapely", "pint")

LONGEST_FILE = 400  # lines
LONGEST_FUNCTION = 35  # code lines
NAMES_THAT_SAY_NOTHING = ("utils", "util", "helpers", "helper", "misc")

SOURCE = Path(__file__).parents[2] / "src"
PACKAGE = "shedlight"


@dataclass(frozen=True)
class Module:
    """One file of the house: dotted name below the package, and its text."""

    name: str  # "" is the package itself
    text: str
    is_package: bool = False

    @property
    def floor(self) -> str:
        return self.name.partition(".")[0]

    @property
    def room(self) -> str:
        """Second part of the name; for the physics floor, its room."""
        return self.name.split(".")[1] if "." in self.name else ""

    @property
    def tree(self) -> ast.Module:
        return ast.parse(self.text)


def read_house(source: Path) -> list[Module]:
    modules = []
    for path in sorted((source / PACKAGE).rglob("*.py")):
        parts = list(path.relative_to(source / PACKAGE).with_suffix("").parts)
        is_package = parts[-1] == "__init__"
        name = ".".join(parts[:-1] if is_package else parts)
        modules.append(Module(name, path.read_text(encoding="utf-8"), is_package))
    return modules


# --- what a module imports -----------------------------------------------------------------


def imported_names(module: Module) -> Iterator[str]:
    """Full dotted names, wherever in the file; ``from a import b`` gives ``a.b``."""
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            start = _absolute(module, node)
            yield from (f"{start}.{alias.name}" for alias in node.names)


def _absolute(module: Module, node: ast.ImportFrom) -> str:
    if not node.level:
        return node.module or ""
    here = [PACKAGE, *module.name.split(".")] if module.name else [PACKAGE]
    climbed = here[: len(here) - node.level + module.is_package]
    return ".".join([*climbed, *([node.module] if node.module else [])])


def house_imports(module: Module) -> Iterator[tuple[str, str]]:
    """Floor and second part of every import from the house itself."""
    for name in imported_names(module):
        package, _, rest = name.partition(".")
        if package == PACKAGE:
            floor, _, inside = rest.partition(".")
            known = floor in MAY_IMPORT or floor in OPEN
            yield (floor if known else "", inside.partition(".")[0])


# --- the rules: each gives the faults it finds ---------------------------------------------


def import_faults(module: Module) -> list[str]:
    """Imports that look up, or sideways into another floor."""
    if module.floor not in MAY_IMPORT and module.floor not in OPEN:
        return [f"{module.name}: floor {module.floor!r} is not in the table MAY_IMPORT"]
    allowed = {module.floor, *OPEN}
    allowed |= set(MAY_IMPORT.get(module.floor, ()))
    if module.floor in OPEN:
        allowed = set(OPEN)
    return [
        f"{module.name or PACKAGE} imports {floor or PACKAGE}"
        for floor, _ in house_imports(module)
        if floor not in allowed
    ]


def room_faults(module: Module) -> list[str]:
    """Rooms of physics that open into one another."""
    if module.floor != "physics":
        return []
    allowed = {*PHYSICS_COMMONS, "", module.room}
    return [
        f"{module.name} imports physics.{room}"
        for floor, room in house_imports(module)
        if floor == "physics" and room not in allowed
    ]


def outside_faults(module: Module) -> list[str]:
    """Files and screens reaching into floors that must not know them."""
    unwanted = UNWANTED.get(module.floor, ())
    return [
        f"{module.name} imports {name}"
        for name in imported_names(module)
        if name.partition(".")[0] in unwanted
    ]


def name_faults(module: Module) -> list[str]:
    return [
        f"{module.name}: {part!r} says nothing; name it after its subject"
        for part in module.name.split(".")
        if part.strip("_") in NAMES_THAT_SAY_NOTHING
    ]


def length_faults(module: Module) -> list[str]:
    lines = len(module.text.splitlines())
    faults = [f"{module.name}: {lines} lines"] if lines > LONGEST_FILE else []
    code = code_lines(module.text)
    for node in ast.walk(module.tree):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            length = body_length(node, code)
            if length > LONGEST_FUNCTION:
                faults.append(f"{module.name}.{node.name}: {length} code lines")
    return faults


def code_lines(text: str) -> set[int]:
    """Numbers of the lines that hold more than a comment; docstrings count nowhere."""
    idle = (tokenize.COMMENT, tokenize.NL, tokenize.NEWLINE, tokenize.INDENT, tokenize.DEDENT)
    lines: set[int] = set()
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        if token.type not in idle:
            lines |= set(range(token.start[0], token.end[0] + 1))
    for node in ast.walk(ast.parse(text)):
        for docstring in _docstring(node):
            lines -= set(range(docstring.lineno, (docstring.end_lineno or 0) + 1))
    return lines


def _docstring(node: ast.AST) -> list[ast.stmt]:
    if not isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef | ast.Module):
        return []
    return node.body[:1] if ast.get_docstring(node, clean=False) is not None else []


def body_length(node: ast.FunctionDef | ast.AsyncFunctionDef, code: set[int]) -> int:
    body = node.body[len(_docstring(node)) :]
    if not body:
        return 0
    return len(code & set(range(body[0].lineno, (node.end_lineno or 0) + 1)))


# --- the house as it stands ----------------------------------------------------------------

HOUSE = read_house(SOURCE)
RULES = (import_faults, room_faults, outside_faults, name_faults, length_faults)


def test_the_house_was_found() -> None:
    assert len(HOUSE) > 10


@pytest.mark.parametrize("module", HOUSE, ids=lambda module: module.name or PACKAGE)
def test_module_keeps_the_house_rules(module: Module) -> None:
    faults = [fault for rule in RULES for fault in rule(module)]
    assert not faults, "\n".join(faults)


WALK_ROOMS = """
import importlib, pkgutil, sys
import shedlight.physics as floor
for found in pkgutil.walk_packages(floor.__path__, floor.__name__ + "."):
    importlib.import_module(found.name)
print(*sorted(name for name in sys.modules if "." not in name))
"""


def test_physics_loads_no_screen_and_no_heavy_library() -> None:
    run = subprocess.run(
        [sys.executable, "-c", WALK_ROOMS], capture_output=True, text=True, check=False
    )
    assert run.returncode == 0, run.stderr
    loaded = run.stdout.split()
    assert PACKAGE in loaded
    assert not set(HEAVY_FOR_PHYSICS) & set(loaded)


# --- proof that each rule can fail ---------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("given.duty", "import shedlight.geometry.curves"),
        ("given.duty", "from shedlight import geometry"),
        ("geometry.curves", "from shedlight.physics.air import gaps"),
        ("geometry.curves", "from ..checks import air"),
        ("physics.air.gaps", "from shedlight.given.tables import read_table"),
        ("physics.air.gaps", "def f():\n    from shedlight.workings import Workings"),
        ("workings", "from .checks.air import arcing"),
        ("checks.air", "if TYPE_CHECKING:\n    import shedlight.figures.scene as scene"),
        ("figures.section", "import shedlight.documents"),
        ("figures.section", "import shedlight as sl"),
        ("figures.section", "from shedlight import assess"),
        ("documents.sheet", "from shedlight.cli import main"),
        ("cli.main", "from shedlight.web import app"),
        ("trace", "from shedlight.given import duty"),
        ("errors", "import shedlight"),
        ("", "from shedlight.cli import main"),
        ("", "from .cli import main"),
        ("cellar", "import math"),
    ],
)
def test_looking_up_is_found(name: str, text: str) -> None:
    assert import_faults(Module(name, text, is_package=name == ""))


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("given.duty", "import math\nfrom shedlight import units\nfrom . import levels"),
        ("geometry.curves", "from shedlight.given.bushing import Bushing"),
        ("physics.air.gaps", "from ...trace import formula\nfrom . import tables"),
        ("workings", "import shedlight.physics.air.gaps"),
        ("checks.air", "from shedlight.workings import Workings"),
        ("documents.sheet", "from shedlight.sizing import search\nimport shedlight.figures"),
        ("cli.main", "import shedlight\nfrom shedlight import read, assess"),
        ("", "from shedlight.given.reading import read\nfrom .checks import assess"),
        ("__main__", "from shedlight.cli import main"),
        ("trace", "from shedlight.sources import Citation\nfrom .errors import InputError"),
    ],
)
def test_looking_down_is_allowed(name: str, text: str) -> None:
    assert not import_faults(Module(name, text, is_package=name == ""))


@pytest.mark.parametrize(
    "text",
    [
        "from shedlight.physics.heat import fin",
        "from shedlight.physics import heat",
        "import shedlight.physics.heat.fin",
        "from ..heat.fin import hot_spot",
        "from .. import heat",
    ],
)
def test_a_door_between_rooms_is_found(text: str) -> None:
    assert room_faults(Module("physics.air.gaps", text)) == [
        "physics.air.gaps imports physics.heat"
    ]


def test_the_commons_open_into_no_room() -> None:
    assert room_faults(Module("physics.domain", "from shedlight.physics.air import gaps"))
    assert room_faults(Module("physics", "from .air import gaps", is_package=True))


def test_a_room_may_use_itself_and_the_commons() -> None:
    text = "from shedlight.physics.air import tables\nfrom shedlight.physics.domain import positive"
    assert not room_faults(Module("physics.air.gaps", text))
    assert not room_faults(Module("checks.air", "from shedlight.physics import air, heat"))


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("physics.air.gaps", "from pathlib import Path"),
        ("physics.air.gaps", "import rich.progress"),
        ("physics.surface", "def f():\n    import shapely"),
        ("geometry.rain", "import tomllib"),
        ("geometry.rain", "from typer import echo"),
    ],
)
def test_files_and_screens_are_found(name: str, text: str) -> None:
    assert outside_faults(Module(name, text))
    assert not outside_faults(Module("cli.main", text))


def test_geometry_may_use_its_library() -> None:
    assert not outside_faults(Module("geometry.rain", "import shapely\nimport numpy as np"))


@pytest.mark.parametrize("name", ["checks.utils", "helpers", "physics.air._helpers"])
def test_names_that_say_nothing_are_found(name: str) -> None:
    assert name_faults(Module(name, ""))
    assert not name_faults(Module("checks.air", ""))


def function_of(code_lines: int) -> str:
    """A function with a long docstring, blanks and comments, and so many code lines."""
    idle = '    """One.\n\n    Two.\n    """\n\n    # why\n'
    return "def f(\n    a,\n    b,\n):\n" + idle + "    a = (1)  # x\n\n" * code_lines


def test_a_long_function_is_found() -> None:
    assert not length_faults(Module("workings", function_of(LONGEST_FUNCTION)))
    assert length_faults(Module("workings", function_of(LONGEST_FUNCTION + 1))) == [
        f"workings.f: {LONGEST_FUNCTION + 1} code lines"
    ]


def test_methods_and_inner_functions_count_too() -> None:
    method = "class A:\n" + function_of(36).replace("\n", "\n    ").replace("def", "    def", 1)
    assert length_faults(Module("workings", method)) == ["workings.f: 36 code lines"]
    wrapped = "def outer():\n    def inner():\n        '''Doc.'''\n" + "        x = 1\n" * 35
    assert length_faults(Module("workings", wrapped)) == ["workings.outer: 36 code lines"]


def test_every_line_of_a_long_text_counts() -> None:
    text = "def f():\n    return '''" + "\n" * LONGEST_FUNCTION + "'''\n"
    assert length_faults(Module("workings", text)) == ["workings.f: 36 code lines"]


def test_a_long_file_is_found() -> None:
    assert not length_faults(Module("workings", "x = 1\n" * LONGEST_FILE))
    assert length_faults(Module("workings", "x = 1\n" * (LONGEST_FILE + 1)))


def test_reading_a_house(tmp_path: Path) -> None:
    room = tmp_path / PACKAGE / "physics" / "air"
    room.mkdir(parents=True)
    (tmp_path / PACKAGE / "__init__.py").touch()
    (room / "__init__.py").touch()
    (room / "gaps.py").write_text("from .. import heat\n", encoding="utf-8")
    house = read_house(tmp_path)
    assert [(m.name, m.is_package) for m in house] == [
        ("", True),
        ("physics.air", True),
        ("physics.air.gaps", False),
    ]
    assert room_faults(house[2])
