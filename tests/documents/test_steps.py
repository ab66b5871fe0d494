"""Steps are printed once, in an order that can be followed, and each knows who uses it."""

import copy

import pytest

from shedlight.documents.citing import number_sources
from shedlight.documents.steps import CHOSEN, Ledger, lay_out, runs, step_lines
from shedlight.physics.surface.creepage import average_diameter, diameter_factor
from shedlight.sources import cite
from shedlight.trace import Label, Number, calculate, given, looked_up, measured

SOURCE = cite("first principles", "geometry", "exact")
LENGTH = Label("Length", "l", "mm")


def trunk() -> Number:
    return measured(0.068, Label("Trunk", "D_t", "mm"), "between the sheds")


def average() -> Number:
    shed = given(0.144, Label("Shed", "D_s", "mm"), "bushing.sheds")
    return calculate(average_diameter, trunk(), shed, 0.144)


def test_equal_steps_are_one_even_if_made_twice() -> None:
    ledger = Ledger()

    first = ledger.enter("one", [average()])
    second = ledger.enter("two", [copy.deepcopy(average())])

    assert first == second
    assert len(ledger.places) == 3


def test_steps_that_differ_only_far_behind_are_two() -> None:
    other = measured(0.068, Label("Trunk", "D_t", "mm"), "somewhere else")
    ledger = Ledger()

    ledger.enter("one", [average(), calculate(average_diameter, other, 0.144, 0.144)])

    names = [ledger.step(place).label.name for place in ledger.places]
    assert names.count("Average diameter") == 2


def test_what_goes_in_comes_first() -> None:
    ledger = Ledger()
    ledger.enter("one", [calculate(diameter_factor, average())])

    for place in ledger.places:
        assert all(origin < place for origins in ledger.origins(place) for origin in origins)


def test_a_missing_number_brings_nothing() -> None:
    ledger = Ledger()
    assert ledger.enter("one", [None]) == ()
    assert len(ledger.places) == 0


def test_shared_steps_stand_before_the_checks_that_use_them() -> None:
    ledger = Ledger()
    da = average()
    ledger.enter("one", [calculate(diameter_factor, da)])
    ledger.enter("two", [da])

    layout = lay_out(ledger, ["one", "two"])

    names = {place: ledger.step(place).label.name for place in ledger.places}
    assert [names[place] for place in layout.starts] == ["Shed", "Trunk"]
    assert [names[place] for place in layout.shared] == ["Average diameter"]
    assert [names[place] for place in layout.own["one"]] == ["Diameter factor"]
    assert layout.own["two"] == ()
    assert sorted(layout.numbers.values()) == [1, 2, 3, 4]
    assert layout.numbers[layout.own["one"][0]] == 4


def test_a_line_says_where_each_input_came_from() -> None:
    ledger = Ledger()
    number = average()
    ledger.enter("one", [number])
    layout = lay_out(ledger, ["one"])
    citation = number.step.citation
    assert citation is not None

    (line,) = step_lines(ledger, layout.own["one"], layout.numbers, number_sources([citation]))

    assert [(used.origin, used.steps) for used in line.inputs] == [
        ("outline", (2,)),
        ("given", (1,)),
        (CHOSEN, ()),
    ]
    assert [used.value for used in line.inputs] == ["68", "144", "144"]
    assert (line.value, line.unit, line.number) == ("106", "mm", 3)
    assert line.source is not None
    assert line.used_by == ("one",)


def test_a_table_row_keeps_what_it_was_chosen_by() -> None:
    chosen_by = given(0.02, LENGTH, "duty")
    row = looked_up(1.5, Label("Factor", "k", "1"), SOURCE, "row 2", (chosen_by,), ("too long",))
    ledger = Ledger()
    ledger.enter("one", [row])
    layout = lay_out(ledger, ["one"])

    (line,) = step_lines(ledger, layout.own["one"], layout.numbers, number_sources([SOURCE]))

    assert line.origin == "table"
    assert line.inputs[0].steps == (1,)
    assert line.remarks == ("too long",)
    assert line.note == "row 2"


def test_long_shared_chains_stay_quick() -> None:
    number: Number = average()
    for _ in range(60):
        number = calculate(average_diameter, number, number, number)
    ledger = Ledger()

    ledger.enter("one", [number])

    # Followed path by path this would be three to the sixtieth steps.
    assert len(ledger.places) == 63


@pytest.mark.parametrize(
    ("numbers", "found"),
    [((), ()), ((4,), ((4, 4),)), ((1, 2, 3, 7, 9, 10), ((1, 3), (7, 7), (9, 10)))],
)
def test_runs(numbers: tuple[int, ...], found: tuple[tuple[int, int], ...]) -> None:
    assert runs(numbers) == found
