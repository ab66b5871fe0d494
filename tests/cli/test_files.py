"""Outputs are written whole or not at all, whatever happens on the way."""

import random
import signal
import stat
import subprocess
import sys
import time
from io import BytesIO
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from pypdf import PdfReader

import shedlight as sl
from edits import EXAMPLES
from shedlight.cli.entry import run
from shedlight.given.writing import write_whole

INLAND = str(EXAMPLES / "inland-12kv.toml")
OLD = b"what stood there before"


def written(command: str, target: Path) -> bytes:
    assert run([command, INLAND, "-o", str(target)]) == 0
    assert [path.name for path in target.parent.iterdir()] == [target.name]
    return target.read_bytes()


def test_drawing_as_svg(tmp_path: Path) -> None:
    svg = written("draw", tmp_path / "section.svg").decode("utf-8")

    assert svg.startswith("<svg")
    assert svg.rstrip().endswith("</svg>")
    assert "nan" not in svg.lower()


def test_drawing_as_png(tmp_path: Path) -> None:
    png = written("draw", tmp_path / "section.png")

    assert png.startswith(b"\x89PNG\r\n\x1a\n")
    assert png.endswith(b"IEND\xaeB`\x82")


def test_drawing_as_pdf(tmp_path: Path) -> None:
    assert len(PdfReader(BytesIO(written("draw", tmp_path / "section.pdf"))).pages) == 1


def test_calculation_as_pdf(tmp_path: Path) -> None:
    pages = PdfReader(BytesIO(written("report", tmp_path / "calculation.pdf"))).pages

    assert "Ostrel Meadow" in pages[0].extract_text()


def test_calculation_as_html(tmp_path: Path) -> None:
    html = written("report", tmp_path / "calculation.html").decode("utf-8")

    assert html.lower().startswith("<!doctype html>")
    assert html.rstrip().endswith("</html>")
    assert "Ostrel Meadow" in html


def test_ending_may_be_in_capitals(tmp_path: Path) -> None:
    assert written("draw", tmp_path / "SECTION.SVG").startswith(b"<svg")


# --- refused before any work ----------------------------------------------------------------


def refused(capsys: pytest.CaptureFixture[str], command: str, target: Path) -> str:
    start = time.process_time()
    assert run([command, INLAND, "-o", str(target)]) == 2
    captured = capsys.readouterr()
    assert captured.out == ""
    assert captured.err.startswith(f"shedlight: {target} cannot be used:\n  output: given ")
    assert captured.err.count("\n") == 2
    assert time.process_time() - start < 1.0, "refused before the work, not after it"
    return captured.err


@pytest.mark.parametrize(
    ("command", "name", "given", "expected"),
    [
        ("draw", "x.gif", "the ending .gif", ".svg or .png or .pdf"),
        ("draw", "x", "no ending", ".svg or .png or .pdf"),
        ("draw", ".svg", "no ending", ".svg or .png or .pdf"),
        ("report", "x.svg", "the ending .svg", ".pdf or .html"),
        ("report", "x.pdf.", "no ending", ".pdf or .html"),
    ],
)
def test_unknown_ending(
    capsys: Any, tmp_path: Path, command: str, name: str, given: str, expected: str
) -> None:
    said = refused(capsys, command, tmp_path / name)

    assert f"given {given}; expected {expected}." in said
    assert list(tmp_path.iterdir()) == []


def test_folder_in_place_of_a_file(capsys: Any, tmp_path: Path) -> None:
    target = tmp_path / "x.pdf"
    target.mkdir()

    assert "given a folder; expected a file" in refused(capsys, "report", target)
    assert list(target.iterdir()) == []


def test_folder_that_is_not_there(capsys: Any, tmp_path: Path) -> None:
    assert "which is not there" in refused(capsys, "draw", tmp_path / "none" / "x.svg")


def test_file_in_place_of_a_folder(capsys: Any, tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(OLD)

    assert "given the folder" in refused(capsys, "draw", tmp_path / "file" / "x.svg")


def test_bad_description_leaves_the_old_file(tmp_path: Path) -> None:
    target, bad = tmp_path / "x.svg", tmp_path / "bad.toml"
    target.write_bytes(OLD)
    bad.write_text("zz", encoding="utf-8")

    assert run(["draw", str(bad), "-o", str(target)]) == 2
    assert target.read_bytes() == OLD


# --- trouble while writing ------------------------------------------------------------------


@pytest.mark.parametrize("step", ["mkstemp", "fdopen", "fsync", "chmod", "replace"])
@pytest.mark.parametrize(
    "error", [OSError(28, "No space left on device"), PermissionError(13, "No")]
)
def test_trouble_leaves_the_old_file_and_nothing_else(
    capsys: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str, error: OSError
) -> None:
    def fail(*_: object, **__: object) -> None:
        raise error

    target = tmp_path / "x.svg"
    target.write_bytes(OLD)
    place = {"mkstemp": "tempfile.mkstemp", "fdopen": "os.fdopen", "fsync": "os.fsync"}
    monkeypatch.setattr(place.get(step, f"pathlib.Path.{step}"), fail)
    status = run(["draw", INLAND, "-o", str(target)])
    monkeypatch.undo()
    said = capsys.readouterr().err

    assert status == 2
    assert said.startswith(f"shedlight: {target} cannot be used:\n  output: given ")
    assert (error.strerror or "").lower() in said
    assert target.read_bytes() == OLD
    assert list(tmp_path.iterdir()) == [target]


def test_device_that_takes_no_files(capsys: Any) -> None:
    assert run(["draw", INLAND, "-o", "/proc/x.svg"]) == 2
    assert "shedlight: /proc/x.svg cannot be used:" in capsys.readouterr().err


def test_interrupt_while_writing_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stop(_: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("os.fsync", stop)

    assert run(["draw", INLAND, "-o", str(tmp_path / "x.svg")]) == 130
    assert list(tmp_path.iterdir()) == []


def test_permissions_and_links_are_kept(tmp_path: Path) -> None:
    real, link = tmp_path / "real.svg", tmp_path / "link.svg"
    real.write_bytes(OLD)
    real.chmod(0o640)
    link.symlink_to(real)
    write_whole(link, "new")
    write_whole(tmp_path / "fresh.svg", b"fresh")

    assert link.is_symlink()
    assert real.read_text(encoding="utf-8") == "new"
    assert stat.S_IMODE(real.stat().st_mode) == 0o640
    assert stat.S_IMODE((tmp_path / "fresh.svg").stat().st_mode) == 0o644


def test_longest_name_that_the_disk_takes(tmp_path: Path) -> None:
    target = tmp_path / ("ü" * 125 + ".svg")
    write_whole(target, "new")

    assert target.read_text(encoding="utf-8") == "new"


# --- killed while writing -------------------------------------------------------------------

WRITER = """
import sys
from shedlight.given.writing import write_whole
old, new = b"a" * 300_000, b"b" * 300_000
print("ready", flush=True)
while True:
    write_whole(sys.argv[1], old)
    write_whole(sys.argv[1], new)
"""


def kill_while_writing(target: Path, number: signal.Signals, after: float) -> None:
    with subprocess.Popen(
        [sys.executable, "-c", WRITER, str(target)], stdout=subprocess.PIPE
    ) as writer:
        assert writer.stdout is not None
        writer.stdout.readline()
        time.sleep(after)
        writer.send_signal(number)
        writer.wait()


def test_killed_at_any_moment_the_file_is_whole(tmp_path: Path) -> None:
    target, dice = tmp_path / "x.svg", random.Random(1)
    for _ in range(12):
        kill_while_writing(target, signal.SIGKILL, dice.uniform(0.0, 0.05))
        if target.exists():
            assert target.read_bytes() in (b"a" * 300_000, b"b" * 300_000)
        left = [path.name for path in tmp_path.iterdir() if path != target]
        assert all(name.startswith(".") for name in left), "what is left behind is hidden"


PAUSED = """
import sys, time
from shedlight.given import writing
from shedlight.cli.entry import main
def pause(handle):
    print("writing", flush=True)
    time.sleep(60)
writing.os.fsync = pause
main(sys.argv[1:])
"""


def test_told_to_end_while_writing_leaves_nothing(tmp_path: Path) -> None:
    command = [sys.executable, "-c", PAUSED, "draw", INLAND, "-o", str(tmp_path / "x.svg")]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as writer:
        assert writer.stdout is not None
        assert writer.stdout.readline() == "writing\n"
        assert [path.name[:11] for path in tmp_path.iterdir()] == [".shedlight-"]
        writer.terminate()
        _, said = writer.communicate(timeout=30)

    assert said == "shedlight: stopped before it was done\n"
    assert writer.returncode == 128 + signal.SIGTERM
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("after", [0.2, 0.5, 0.8])
def test_told_to_end_at_any_moment_gives_no_traceback(tmp_path: Path, after: float) -> None:
    shedlight = Path(sys.executable).with_name("shedlight")
    command = [str(shedlight), "draw", INLAND, "-o", str(tmp_path / "x.svg")]
    with subprocess.Popen(command, stderr=subprocess.PIPE, text=True) as writer:
        time.sleep(after)
        writer.terminate()
        _, said = writer.communicate(timeout=30)

    assert "Traceback" not in said
    assert [path.name for path in tmp_path.iterdir()] in ([], ["x.svg"])


ODD_NAMES = {
    "emoji": "🙂⚡ bushing 🧯",
    "right to left": "מבודד 24 ק״ו, שנאי 2",
    "turned about": "abc \u202edef\u202c ghi",
    "markup": "<b>&amp; #strong[x] $y$ `z` \\n {{w}} [bold]v[/bold]",
    "long": "Ostrel " * 28,
    "one long word": "x" * 200,
    "combining": "Z͑ͫ̓a̴l͠g̵o̶",
}


@pytest.mark.parametrize("kind", ODD_NAMES)
def test_odd_names_go_through_every_door(capsys: Any, tmp_path: Path, kind: str) -> None:
    case = sl.changed(sl.read(INLAND), name=ODD_NAMES[kind], remark=ODD_NAMES[kind])
    file = tmp_path / "odd.toml"
    write_whole(file, sl.to_toml(case))

    assert run(["check", str(file)]) == 0
    assert run(["check", str(file), "--json"]) == 0
    assert run(["draw", str(file), "-o", str(tmp_path / "odd.svg")]) == 0
    assert run(["report", str(file), "-o", str(tmp_path / "odd.html")]) == 0
    assert capsys.readouterr().err == ""
    ElementTree.parse(tmp_path / "odd.svg")
