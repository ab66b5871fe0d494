"""What is wrong with a field is told once: field, line, given, expected and cure."""

import re

import pytest

import shedlight as sl
from edits import edited, example, line_of
from shedlight.errors import MOST_LISTED, DescriptionError, Problem
from shedlight.given.reading import from_data

LENGTH = "a length from 5 mm to 500 mm"
COUNT = "a whole number from 1 to 200, without quotes"
BORE = "bushing.porcelain.bore"
SHEDS = "bushing.sheds.count"
NAME = 'name = "Ostrel Meadow, transformer 2, 12 kV side"'


def problems(text: str) -> tuple[Problem, ...]:
    with pytest.raises(DescriptionError) as refused:
        sl.parse(text, "some.toml")
    assert str(refused.value).startswith("some.toml cannot be used:\n")
    for problem in refused.value.problems:
        assert str(problem) in str(refused.value) or len(refused.value.problems) > MOST_LISTED
        assert str(problem).isprintable(), "one line each, nothing that moves the cursor"
        assert problem.cure.endswith((".", "?"))
        assert not problem.expected.startswith(("expected", "Input", "input"))
    return refused.value.problems


def problem(text: str) -> Problem:
    found = problems(text)
    assert len(found) == 1, found
    return found[0]


def bore(written: str) -> str:
    return edited('bore = "25 mm"', f"bore = {written}")


# what is written: given, and cure
QUANTITIES = {
    '"25 mmm"': ('"25 mmm"', "Did you mean mm?"),
    '"25 MM"': ('"25 MM"', "Did you mean mm?"),
    '"25 kV"': ('"25 kV"', "The unit kV is one of voltage."),
    '"25"': ('"25"', 'Add the unit: "25 mm", if so meant.'),
    "25": ("25", 'Write it as text with its unit, such as "25 mm".'),
    "2.5": ("2.5", 'such as "2.5 mm".'),
    "nan": ("nan", 'such as "5 mm".'),
    "-inf": ("-inf", 'such as "5 mm".'),
    '"nan mm"': ('"nan mm"', "Write one number, then its unit."),
    '"1e999 mm"': ('"1e999 mm"', "too large"),
    f'"{"9" * 900} mm"': (f'"{"9" * 60}…"', "Write one number"),
    '"1,250 mm"': ('"1,250 mm"', "Write 1250 or 1.250"),
    '"5 m"': ('"5 m"', "It means: Inner diameter of the porcelain."),
    '"4.999 mm"': ('"4.999 mm"', "It means: Inner diameter of the porcelain."),
    '"-25 mm"': ('"-25 mm"', "It means: Inner diameter of the porcelain."),
    "true": ("true", "Write it as text with its unit"),
    "[25]": ("a list", "Write it as text with its unit"),
    "{}": ("an empty table", "Write it as text with its unit"),
    "2024-01-31": ("the date 2024-01-31", "Write it as text with its unit"),
    '""': ('""', "Write one number, then its unit."),
    '"25\\u001b[31m mm"': (r"'25\x1b[31m mm'", "is not known"),
    "[" * 90 + "]" * 90: ("a list", "Write it as text with its unit"),
    "0x" + "f" * 5000: ("very many digits", "Write it as text with its unit"),
}


@pytest.mark.parametrize("written", QUANTITIES, ids=lambda written: written[:20])
def test_quantity(written: str) -> None:
    given, cure = QUANTITIES[written]
    text = bore(written)
    found = problem(text)

    assert found.field == BORE
    assert found.line == line_of(text, "bore =")
    assert given in found.given
    assert found.expected == LENGTH
    assert cure in found.cure


COUNTS = ("4.5", '"4"', "true", "0", "201", str(2**63 - 1), "-1", "nan", "[4]")


@pytest.mark.parametrize("written", COUNTS)
def test_count(written: str) -> None:
    found = problem(edited("count = 4", f"count = {written}"))

    assert found.field == SHEDS
    assert found.given in (written, "a list")
    assert found.expected == COUNT
    assert found.cure == "It means: Number of sheds, long and short together."


@pytest.mark.parametrize("written", ['"yes"', '"true"', "1", "0", "1.0", "[]", '""'])
def test_yes_or_no(written: str) -> None:
    found = problem(edited("hole_bled = true", f"hole_bled = {written}"))

    assert found.field == "transformer.hole_bled"
    assert found.given in (written, "an empty list")
    assert found.expected == "true or false, without quotes"


METALS = "one of copper, aluminium, bronze, brass"
EARTHINGS = "one of effective, low-resistance, resonant, isolated"

# old text, new text: field, given, expected, cure
WORDS = {
    ('metal = "copper"', 'metal = "coper"'): (
        *("bushing.conductor.metal", '"coper"', METALS, "Did you mean copper?"),
    ),
    ('metal = "copper"', 'metal = "Copper"'): (
        *("bushing.conductor.metal", '"Copper"', METALS, "Did you mean copper?"),
    ),
    ('metal = "copper"', "metal = 29"): (
        *("bushing.conductor.metal", "29", METALS, "It means: Metal of the conductor."),
    ),
    ('"resonant"', '"petersen"'): (
        *("duty.neutral_earthing", '"petersen"', EARTHINGS, "It means: How the neutral"),
    ),
    ('pollution_class = "b"', 'pollution_class = "B1"'): (
        *("site.pollution_class", '"B1"', "one of a, b, c, d, e", "?"),
    ),
    ('form = "rod"', 'form = "rad"'): (
        *("bushing.conductor.form", '"rad"', "one of rod, tube", "Did you mean rod?"),
    ),
    ('form = "rod"\n', ""): (
        *("bushing.conductor.form", "nothing", "one of rod, tube", "Set form to say which it is."),
    ),
    ('form = "rod"', "form = 1"): (
        *("bushing.conductor.form", "1", "one of rod, tube", "Set form to say which it is."),
    ),
    ('kind = "bulk"', 'kind = "graded"'): (
        *("bushing.kind", '"graded"', "one of bulk", "It means: Solid (bulk) bushing."),
    ),
    (NAME, 'name = ""'): ("name", '""', "text of 1 to 200 characters", "It means: What you call"),
    (NAME, 'name = " "'): ("name", '" "', "a text that can be seen", "Write a few words."),
    (NAME, "name = 5"): ("name", "5", "text in quotes", "It means: What you call"),
    (NAME, f'name = "{"x" * 201}"'): ("name", "xxx…", "text of 1 to 200 characters", "It means"),
    (NAME, 'name = "a\\nb"'): ("name", r"'a\nb'", "text on one line", "Take out line breaks"),
    (NAME, 'name = "\\u001b[31mred"'): (
        *("name", r"'\x1b[31mred'", "text without control characters", r"Take out '\x1b'."),
    ),
    (NAME, 'name = "a\\u0000"'): ("name", r"'a\x00'", "without control", r"Take out '\x00'."),
    (NAME, 'name = "\\uFFFE"'): ("name", r"'\ufffe'", "without control", r"Take out '\ufffe'."),
    ('remark = "', 'remark = "\\u009b'): ("remark", "x9b", "without control", r"Take out '\x9b'."),
}


@pytest.mark.parametrize("edit", WORDS, ids=lambda edit: edit[1][:30])
def test_word(edit: tuple[str, str]) -> None:
    field, given, expected, cure = WORDS[edit]
    found = problem(edited(*edit))

    assert found.field == field
    assert given in found.given
    assert expected in found.expected
    assert cure in found.cure


# old text, new text: field, expected, cure, what stands in the line told
MISSING = {
    ('kind = "bulk"\n', ""): ("bushing.kind", "(bulk)", "Add kind to [bushing].", "[bushing]"),
    ('bore = "25 mm"\n', ""): (
        *(
            BORE,
            "inner diameter of the porcelain (5 mm to 500 mm)",
            "Add bore to [bushing.porcelain].",
        ),
        "[bushing.porcelain]",
    ),
    ('cover_metal = "steel"\n', ""): (
        *("transformer.cover_metal", "(steel, non-magnetic steel, aluminium)"),
        *("Add cover_metal to [transformer].", "[transformer]"),
    ),
    ('neutral_earthing = "resonant"\n', ""): (
        *("duty.neutral_earthing", "(effective, low-resistance, resonant, isolated)"),
        *("Add neutral_earthing to [duty].", "[duty]"),
    ),
    (
        '[bushing.cap]\ndiameter = "56 mm"\nspring_travel = "1 mm"\n'
        'clamp_force = "8 kN"\nspring_rate = "1.2 kN/mm"\n',
        "",
    ): (
        *("bushing.cap", "a table [bushing.cap], the top cap"),
        *("Add [bushing.cap] and its fields.", "[bushing]"),
    ),
    (NAME + "\n", ""): ("name", "what you call this", "Add name to the top of the file.", ""),
}


@pytest.mark.parametrize("edit", MISSING, ids=lambda edit: edit[0][:20])
def test_missing_field(edit: tuple[str, str]) -> None:
    field, expected, cure, stands = MISSING[edit]
    text = edited(*edit)
    found = problem(text)

    assert (found.field, found.given, found.cure) == (field, "nothing", cure)
    assert expected in found.expected
    assert found.line == (line_of(text, stands) if stands else None)


# old text, new text: field, given, cure, what stands in the line told
UNKNOWN = {
    ("bore =", "boer ="): ("bushing.porcelain.boer", '"25 mm"', "Did you mean bore?", "boer"),
    ("[duty]", "[dutty]"): ("dutty", "a table", "Did you mean duty?", "[dutty]"),
    ("[duty]", '[duty]\naltitude = "5 m"'): (
        *("duty.altitude", '"5 m"', "It belongs to [site].", 'altitude = "5 m"'),
    ),
    ("[duty]", '[duty]\nname = "x"'): (
        *("duty.name", '"x"', "It belongs to the top of the file.", 'name = "x"'),
    ),
    ("[duty]", "[duty]\nzzz = 1"): ("duty.zzz", "1", "Known here: highest_voltage, ", "zzz"),
    ("[duty]", '[duty]\n"\\u001b[31m" = 1'): (
        *('duty."\\u001b[31m"', "1", "Known here: highest_voltage, ", "u001b"),
    ),
    ("[duty]", f"[duty]\n{'k' * 900} = 1"): (
        *(f'duty."{"k" * 60}"', "1", "Known here: highest_voltage, ", "kkkk"),
    ),
}


@pytest.mark.parametrize("edit", UNKNOWN, ids=lambda edit: edit[1][:20])
def test_unknown_field(edit: tuple[str, str]) -> None:
    field, given, cure, stands = UNKNOWN[edit]
    text = edited(*edit)
    found = problem(text)

    assert (found.field, found.given, found.expected) == (field, given, "a known name")
    assert found.cure.startswith(cure)
    assert found.line == line_of(text, stands)


@pytest.mark.parametrize("written", ["[[site]]\nx = 1", "site = 1", 'site = "inland"', "site = []"])
def test_something_else_than_a_table(written: str) -> None:
    text = re.sub(r"\[site\].*?\n\n", "\n", example(), flags=re.DOTALL)
    text = text.replace("[duty]", f"{written}\n[duty]", 1)
    found = problem(text)

    assert found.field == "site"
    assert found.expected == "a table [site]"
    assert found.line == line_of(text, "site")


def test_something_else_than_a_table_with_kinds() -> None:
    text = re.sub(r"\[bushing.conductor\].*?\n\n", "\n", example(), flags=re.DOTALL)
    found = problem(text.replace('kind = "bulk"', 'kind = "bulk"\nconductor = "rod"'))

    assert (found.field, found.given) == ("bushing.conductor", '"rod"')
    assert found.expected == "a table [bushing.conductor]"


# old text, new text: field, given, expected
CLASHES = {
    (
        *('coldest_air = "-20 °C"\nhottest_air = "40 °C"',),
        *('coldest_air = "20 °C"\nhottest_air = "10 °C"',),
    ): ("site.coldest_air", "20 °C", "less than hottest_air, 10 °C"),
    ('pollution_class = "b"\ndeposit = "0.035 mg/cm²"\n', ""): (
        *("site.pollution_class", "nothing", "the class, or a measurement of the dirt"),
    ),
    ('lowest_oil_level = "400 mm"', 'lowest_oil_level = "800 mm"'): (
        *("transformer.lowest_oil_level", "800 mm", "at most highest_oil_level, 650 mm"),
    ),
    ('top_oil_temperature = "95 °C"', 'top_oil_temperature = "35 °C"'): (
        *("transformer.top_oil_temperature", "35 °C", "at least site.hottest_air, 40 °C"),
    ),
    ('form = "rod"', 'form = "tube"\ninner_diameter = "12 mm"'): (
        *("bushing.conductor.inner_diameter", "12 mm", "less than diameter, 12 mm"),
    ),
    ('form = "plain"', 'form = "alternating"\nshort_overhang = "32 mm"'): (
        *("bushing.sheds.short_overhang", "32 mm", "less than overhang, 32 mm"),
    ),
    ('inner_diameter = "62 mm"', 'inner_diameter = "92 mm"'): (
        *("bushing.gasket.inner_diameter", "92 mm", "less than outer_diameter, 92 mm"),
    ),
    ('compressed_thickness = "4.2 mm"', 'compressed_thickness = "6 mm"'): (
        *("bushing.gasket.compressed_thickness", "6 mm", "less than thickness, 6 mm"),
    ),
    ("[duty]", '[duty]\npower_frequency_dry = "60 kV"'): (
        *("duty.power_frequency_dry", "60 kV"),
        "at most 53.03 kV beside lightning_impulse, 75 kV (its default)",
    ),
    ("[duty]", '[duty]\nlightning_impulse = "40 kV"'): (
        *("duty.lightning_impulse", "40 kV"),
        "at least 42.43 kV beside power_frequency_dry, 30 kV (its default)",
    ),
    ('hole_spacing = "30 mm"', 'hole_spacing = "11 mm"'): (
        *("bushing.terminal.hole_spacing", "11 mm", "more than hole_diameter, 11 mm"),
    ),
    ('width = "60 mm"', 'width = "10 mm"'): (
        *("bushing.terminal.hole_diameter", "11 mm", "less than width, 10 mm"),
    ),
    ('holes = 4\nhole_diameter = "11 mm"', 'holes = 16\nhole_diameter = "20 mm"'): (
        *("bushing.terminal.holes", "16", "holes that leave metal on the palm"),
    ),
}


@pytest.mark.parametrize("edit", CLASHES, ids=lambda edit: edit[1][:30] or edit[0][:30])
def test_fields_that_do_not_go_together(edit: tuple[str, str]) -> None:
    field, given, expected = CLASHES[edit]
    text = edited(*edit)
    found = problem(text)
    table, _, name = field.rpartition(".")

    assert (found.field, found.given) == (field, given)
    assert expected in found.expected
    start = line_of(text, f"[{table}]")
    if given == "nothing":
        assert found.line == start
    else:
        rest = "\n".join(text.split("\n")[start:])
        assert found.line == start + line_of(rest, f"{name} =")


def test_several_faults_are_told_at_once_each_in_its_line() -> None:
    text = bore('"25"').replace('wall = "14 mm"', 'wall = "14 kg"')
    text = text.replace("count = 4", "count = 0")
    found = problems(text)
    names = [item.field.rpartition(".")[2] for item in found]

    assert names == ["bore", "wall", "count"]
    assert [item.line for item in found] == [line_of(text, f"{name} =") for name in names]


def test_a_wrong_voltage_is_told_once_not_for_every_default_that_hangs_on_it() -> None:
    found = problem(edited('highest_voltage = "12 kV"', 'highest_voltage = "12 KV"'))

    assert found.field == "duty.highest_voltage"


def test_a_hundred_faults_are_counted_not_listed() -> None:
    text = "\n".join(f"zz{n} = 1" for n in range(100)) + "\n" + example()
    with pytest.raises(DescriptionError) as refused:
        sl.parse(text)

    assert len(refused.value.problems) == 100
    assert str(refused.value).endswith("… and 80 more")
    assert str(refused.value).count("\n") == MOST_LISTED + 1


def test_dotted_and_inline_tables_give_their_line() -> None:
    dotted = edited('[site]\naltitude = "250 m"', '[site]\naltitude.high = "250 m"')
    inline = edited('[site]\naltitude = "250 m"', '[site]\naltitude = { high = "250 m" }')
    quoted = edited('[site]\naltitude = "250 m"', '["site"]\n"altitude" = "250 km"')

    assert problem(dotted).line == line_of(dotted, "altitude")
    assert problem(inline).line == line_of(inline, "altitude")
    assert problem(quoted).line == line_of(quoted, "altitude")


def test_lines_are_not_misled_by_text_and_odd_line_ends() -> None:
    remark = 'remark = """\n[bushing.porcelain]\nbore = 1\u2028\n"""\n'
    text = edited('remark = "', remark + 'zz = "').replace('bore = "25 mm"', 'bore = "25"')

    assert {item.field: item.line for item in problems(text)} == {
        BORE: line_of(text, 'bore = "25"'),
        "zz": line_of(text, "zz ="),
    }


def test_bare_numbers_are_for_programs_only() -> None:
    case = sl.parse(example())

    with pytest.raises(DescriptionError, match="text with its unit"):
        from_data(case.model_dump(exclude_unset=True), "program")
    assert sl.changed(case, bushing__porcelain__bore=0.026).bushing.porcelain.bore == 0.026


# old text, new text: field
SHAPES = {
    ('bore = "25 mm"', 'bore = "250 mm"'): "bushing.oil_end.end_diameter",
    ('wall = "14 mm"', 'wall = "20 mm"'): "transformer.hole_diameter",
    ('diameter = "12 mm"', 'diameter = "30 mm"'): "bushing.conductor.diameter",
    ("count = 4", "count = 40"): "bushing.porcelain.air_length",
    ('pitch = "40 mm"', 'pitch = "8 mm"'): "bushing.sheds.pitch",
    ('tip_thickness = "8 mm"', 'tip_thickness = "8 mm"\ntip_radius = "9 mm"'): (
        "bushing.sheds.tip_radius"
    ),
}


@pytest.mark.parametrize("edit", SHAPES, ids=lambda edit: edit[1][:30])
def test_impossible_shape_is_refused_with_field_and_cure(edit: tuple[str, str]) -> None:
    with pytest.raises(sl.ImpossibleShapeError) as refused:
        sl.assess(sl.parse(edited(*edit)))

    found = refused.value.problem
    assert found.field == SHAPES[edit]
    assert found.cure.endswith(".")
    assert found.given
    assert found.expected
