"""What the tests of this folder print: the demonstrations, and installations with hostile names."""

from functools import cache
from pathlib import Path

from shedlight.checks.assessment import Assessment, assess
from shedlight.given.bushing import Installation
from shedlight.given.reading import read

ROOT = Path(__file__).parents[2]
DEMOS = ("inland-12kv", "quay-24kv", "quarry-36kv")

TYPST = '#panic("x") $sqrt(2)$ *bold* _it_ @nowhere <label> `raw` // gone \\ #let'
HTML = "</title></style><script>alert(1)</script> & \"x\" 'y' <img src=x onerror=y>"
LONG = "W" * 200
HAN = "変圧器のブッシング"
ARABIC = "محول رقم"
EMOJI = "Bushing \N{PARTY POPPER}"
BACKWARDS = "\u202eecnuob"
HOSTILE = (TYPST, HTML, LONG, HAN, ARABIC, EMOJI, BACKWARDS)


def demo(name: str) -> Installation:
    return read(ROOT / "examples" / f"{name}.toml")


@cache
def assessed(name: str = "quay-24kv", called: str = "", remark: str | None = None) -> Assessment:
    """A demonstration, perhaps under another name."""
    case = demo(name)
    data = case.model_dump(exclude_unset=True)
    data |= {"name": called} if called else {}
    data |= {"remark": remark} if remark is not None else {}
    return assess(Installation.model_validate(data))


def squeezed(text: str) -> str:
    """A text without white space, for it may be broken anywhere on paper."""
    return "".join(text.replace("\N{ZERO WIDTH SPACE}", "").split())
