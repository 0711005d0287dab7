"""Twist drills by name and by size, and the sets that people own."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.hardware.drills import all_drills, drill_set, drills_of, find_drill, nearest_drill
from calculators.quantities.errors import InputError

DIAMETERS = st.floats(0.2, 110, allow_nan=False)


@pytest.mark.parametrize(
    ("text", "name", "diameter_mm"),
    [
        ("#7", "#7", 5.1054), ("no 7", "#7", 5.1054), ("No.7", "#7", 5.1054), ("number 7", "#7", 5.1054),
        ("F", "F", 6.5278), ("letter f", "F", 6.5278), ("13/64", "13/64 in", 5.159375),
        ('13/64"', "13/64 in", 5.159375), ("13/64 inch", "13/64 in", 5.159375), ("5.1", "5.1 mm", 5.1),
        ("5,1 mm", "5.1 mm", 5.1), ("7", "7 mm", 7.0), ("1 1/32", "1 1/32 in", 26.19375),
        ("½ in", "1/2 in", 12.7), ("1½", "1 1/2 in", 38.1), ("0.201 in", "#7", 5.1054), ("12.50mm", "12.5 mm", 12.5),
    ],
)  # fmt: skip
def test_as_people_write_it(text, name, diameter_mm):
    drill = find_drill(text)
    assert drill.name == name
    assert drill.diameter_mm == pytest.approx(diameter_mm, abs=1e-9)
    assert drill.diameter_in == pytest.approx(diameter_mm / 25.4, abs=1e-9)


@pytest.mark.parametrize("drill", all_drills(), ids=lambda drill: drill.name)
def test_every_drill_is_found_by_its_own_name(drill):
    assert find_drill(drill.name) == drill


def test_a_size_that_is_not_made_names_its_neighbours():
    with pytest.raises(InputError) as caught:
        find_drill("6.53", field="drills[2]")
    (fault,) = caught.value.faults
    assert fault.says == (
        "No drill of 6.53 is in the tables. The nearest are 6.5 mm and 6.6 mm. "
        "Write a drill as #7, F, 13/64 in or 5.1 mm."
    )
    assert (fault.field, fault.choices, fault.value, fault.unit) == (
        "drills[2]",
        ("6.5 mm", "6.6 mm"),
        6.53,
        "mm",
    )


@pytest.mark.parametrize(
    "text", ["", " ", "banana", "#200", "#0", "1/0", "1/2/3", "-3", "0", "99999999", "AA", "5..1"]
)
def test_nonsense_is_refused(text):
    with pytest.raises(InputError, match=r"Write a drill as #7, F, 13/64 in or 5\.1 mm"):
        find_drill(text)


def test_series_are_whole():
    assert [len(drills_of([series])) for series in ("number", "letter", "fractional")] == [97, 26, 96]
    metric = [drill.diameter_mm for drill in drills_of(["metric"])]
    assert {0.3, 1.05, 3.0, 3.1, 13.9, 14.0, 14.25, 32.0, 32.5, 51.0} <= set(metric)
    assert 3.05 not in metric
    sizes = [round(drill.diameter_mm, 6) for drill in all_drills()]
    assert sizes == sorted(sizes)


def test_equal_drills_are_the_larger_and_ties_go_up():
    metric = drills_of(["metric"])
    assert nearest_drill(5.25, among=metric).name == "5.3 mm"
    assert nearest_drill(0.01, among=metric).name == "0.3 mm"


@given(DIAMETERS)
def test_nearest_drill_against_a_plain_search(diameter_mm):
    gaps = [abs(drill.diameter_mm - diameter_mm) for drill in all_drills()]
    assert abs(nearest_drill(diameter_mm).diameter_mm - diameter_mm) <= min(gaps) + 1e-6


@given(st.floats(0.4, 90))
def test_up_and_down_enclose_the_diameter_with_nothing_between(diameter_mm):
    low, high = nearest_drill(diameter_mm, way="down"), nearest_drill(diameter_mm, way="up")
    assert low.diameter_mm <= diameter_mm + 1e-6
    assert high.diameter_mm >= diameter_mm - 1e-6
    between = [d for d in all_drills() if low.diameter_mm + 1e-5 < d.diameter_mm < high.diameter_mm - 1e-5]
    assert between == []


@pytest.mark.parametrize("diameter_mm", [0, -1, float("nan"), float("inf")])
def test_no_drill_for_a_diameter_out_of_range(diameter_mm):
    with pytest.raises(InputError, match="must be over 0 mm"):
        nearest_drill(diameter_mm)


def test_no_drill_that_way():
    owned = drill_set("1-6 by 0.5")
    with pytest.raises(
        InputError, match=r"^There is no drill as large as 8\.200 mm among the 11 to choose from\.$"
    ):
        nearest_drill(8.2, way="up", among=owned)
    with pytest.raises(InputError, match=r"^There is no drill as small as 0\.500 mm among the 11"):
        nearest_drill(0.5, way="down", among=owned)
    with pytest.raises(InputError, match=r"^There is no drill near 5\.000 mm among the 0"):
        nearest_drill(5, among=())


@pytest.mark.parametrize(
    ("text", "count", "first", "last"),
    [
        ("1.0-13.0 by 0.5", 25, "1 mm", "13 mm"),
        ("1.0-6.0 by 0.1", 51, "1 mm", "6 mm"),
        ("1 to 13 mm by 0.5 mm", 25, "1 mm", "13 mm"),
        ("1-13 in steps of 0.5", 25, "1 mm", "13 mm"),
        ("1,0–2,0 by 0,25", 5, "1 mm", "2 mm"),
        ("number 1-60", 60, "#60", "#1"),
        ("numbers 60 to 1", 60, "#60", "#1"),
        ("#1-#10", 10, "#10", "#1"),
        ("letter A-Z", 26, "A", "Z"),
        ("letters a-f", 6, "A", "F"),
        ("fractional 1/16-1/2 by 64ths", 29, "1/16 in", "1/2 in"),
        ("1/16 - 1/2 by 1/32", 15, "1/16 in", "1/2 in"),
        ('1/16"-1" by 16ths', 16, "1/16 in", "1 in"),
        ("#7", 1, "#7", "#7"),
        ("13/64 in", 1, "13/64 in", "13/64 in"),
    ],
)
def test_sets_as_people_write_them(text, count, first, last):
    drills = drill_set(text)
    assert (len(drills), drills[0].name, drills[-1].name) == (count, first, last)


def test_several_sets_hold_each_drill_once():
    owned = drill_set("1.0-13.0 by 0.5; 1.0-6.0 by 0.1; number 1-60")
    assert len(owned) == 25 + 51 - 11 + 60
    assert len({drill.name for drill in owned}) == len(owned)
    names = {drill.name for drill in owned}
    assert "8.5 mm" in names
    assert not {"6.9 mm", "8.2 mm"} & names


def test_an_owned_size_outside_the_tables_is_kept_and_says_so():
    (drill,) = [drill for drill in drill_set("6-7 by 0.25") if drill.diameter_mm == 6.25]
    assert drill.name == "6.25 mm"
    assert drill.source.confidence == "common practice"


@pytest.mark.parametrize(
    "text", ["5-3 by 0.1", "1-2 by 0", "0-2 by 0.1", "1-1000 by 0.001", "1/0-1 by 64ths", "1/4-1/2 by 0"]
)
def test_sets_that_hold_nothing(text):
    with pytest.raises(
        InputError, match=r"holds no drill: write the smaller end first, with a step over 0\."
    ):
        drill_set(text)


@pytest.mark.parametrize("text", ["", " ; ", "banana", "1-13", "number x", "1-13 by", "A-F by 2", "x" * 200])
def test_sets_that_cannot_be_read(text):
    with pytest.raises(InputError, match=r"Write a set as 1\.0-13\.0 by 0\.5, number 1-60, letter A-Z"):
        drill_set(text)


def test_more_drills_than_anybody_owns_are_not_made():
    sets = "; ".join(f"{i}.{i:03}-{i + 10} by 0.01" for i in range(1, 30))
    with pytest.raises(InputError, match=r"hold more than 20,000 drills, which nobody owns"):
        drill_set(sets)


@given(st.text(max_size=90) | st.text(alphabet='0123456789/#-. byAZnumbertofracl;,"', max_size=30))
def test_no_text_raises_anything_but_an_input_error(text):
    says = "."
    for read in (find_drill, drill_set):
        try:
            read(text)
        except InputError as error:
            says = error.faults[0].says
        assert says.endswith(".")
