"""The parts of a bushing: names, material, task, the checks that protect it, how it fails."""

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources

from shedlight.checks.catalogue import questions
from shedlight.checks.check import Question


@dataclass(frozen=True)
class Part:
    """One part of a bushing, in plain words."""

    key: str
    name: str
    also: tuple[str, ...]
    field: str
    material: str
    task: str
    checks: tuple[str, ...]
    failure: str

    @property
    def questions(self) -> tuple[Question, ...]:
        """The questions of the catalogue that protect this part."""
        return tuple(q for q in questions().values() if q.part in self.checks)


@cache
def parts() -> tuple[Part, ...]:
    """Every part, in the order of the way from the line to the winding's lead."""
    text = resources.files("shedlight.explain").joinpath("parts.toml").read_text("utf-8")
    return tuple(
        Part(**{**entry, "also": tuple(entry["also"]), "checks": tuple(entry["checks"])})
        for entry in tomllib.loads(text)["part"]
    )


def parts_page() -> str:
    """The parts as a Markdown page."""
    lines = [
        "# The parts of a solid bushing",
        "",
        "<!-- Made from the code by `make docs`; do not edit by hand. -->",
        "",
        "Look from the ground. Never touch a bushing, its terminal or a test tap unless the",
        "equipment is de-energised, earthed and proved dead; keep away from cracked or leaking",
        "porcelain.",
    ]
    for part in parts():
        other = f" (also: {', '.join(part.also)})" if part.also else ""
        lines += [
            "",
            f"## {part.name}{other}",
            "",
            f"- **Made of:** {part.material}",
            f"- **For:** {part.task}",
            f"- **When it fails:** {part.failure}",
            f"- **Described under:** `{part.field}`",
            "- **Protected by:**",
            *(f"    - `{question.id}` – {question.title}" for question in part.questions),
        ]
    return "\n".join(lines) + "\n"
