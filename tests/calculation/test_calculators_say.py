"""What the calculators answer and how they refuse, one by one."""

import pytest

from calculators.calculation.answering import answer
from calculators.catalogue import find_calculator
from calculators.quantities.errors import InputError


def results(calculator: str, **given: object) -> dict[str, object]:
    found = answer(find_calculator(calculator), given)
    return {name: one.value for name, one in found.results.items()}


def refusals(calculator: str, **given: object) -> list[str]:
    with pytest.raises(InputError) as caught:
        answer(find_calculator(calculator), given)
    return [fault.says for fault in caught.value.faults]


def test_convert_a_length_gives_the_fraction_and_its_error():
    assert results("convert", value="31.75 mm", to="in") == {
        "value": 1.25,
        "fraction": "1 1/4 in",
        "error": 0.0,
    }
    assert results("convert", value="5", to="inches", denominator="16") == {
        "value": pytest.approx(5 / 25.4, rel=1e-11),
        "fraction": "3/16 in",
        "error": -0.2375,
    }
    assert results("convert", value="20 SWG", to="thou")["value"] == 36


def test_convert_other_quantities_gives_the_value_alone():
    assert results("convert", value="2 kN", to="N") == {"value": 2000}


def test_convert_refuses():
    assert refusals("convert", value="5", to="N m") == [
        "'5' has no unit; write it with one of N m, N mm, N cm, lbf in, lbf ft, ozf in, kgf cm, kgf m."
    ]
    assert refusals("convert", value="5 mm", to="kgs") == [
        "'kgs' is not a unit; write one such as kg, ksi, kgf."
    ]
    assert refusals("convert", value="5 mm", to="in", denominator="10") == [
        "'10' is not a choice for denominator; did you mean 1; write one of 1, 2, 4, 8, 16, 32, 64, 128."
    ]


def test_nearest_drill_on_either_side():
    assert results("nearest", length="5.1", kind="drill") == {
        "below": {"name": "#8", "size": 5.0546, "error": -0.0454},
        "nearest": {"name": "5.1 mm", "size": 5.1, "error": 0},
        "above": {"name": "#7", "size": 5.1054, "error": 0.0054},
    }


def test_nearest_of_one_system():
    assert results("nearest", length="5.1", kind="drill", system="letter")["below"] is None
    assert results("nearest", length="5", kind="fraction", system="1/16")["nearest"] == {
        "name": "3/16 in",
        "size": 4.7625,
        "error": -0.2375,
    }
    assert results("nearest", length="0.9", kind="gauge", system="SWG")["nearest"]["name"] == "20 SWG"
    assert results("nearest", length="1/4 in", kind="cutter")["nearest"] == {
        "name": "1/4 in",
        "size": 6.35,
        "error": 0,
    }


def test_of_two_sizes_equally_near_the_larger_is_nearest():
    assert results("nearest", length="11", kind="cutter", system="metric")["nearest"]["name"] == "12 mm"


def test_nearest_refuses():
    assert refusals("nearest", length="0.9", kind="gauge") == [
        "The input system is missing; a gauge number needs one of brown-sharpe, imperial-standard, "
        "birmingham-wire, us-steel, us-steel-wire, stubs-steel-wire, music-wire."
    ]
    assert refusals("nearest", length="5", kind="drill", system="wooden") == [
        "'wooden' is not a system for drill; write one of all, number, letter, fractional, metric."
    ]
    assert refusals("nearest", length="0") == ["'0' is too little; write more than 0 mm."]


def test_thread_warns_of_what_looks_alike():
    found = answer(find_calculator("thread"), {"designation": "M5"})
    assert found.warnings == (
        "M5 is easily taken for 10-32 UNF, 3/16 BSF, 2 BA: it starts, then jams or strips.",
    )


def test_thread_tells_what_goes_in_from_what_jams():
    """1/4 BSW and 1/4-20 UNC have one diameter and one pitch, with flanks at 55 and 60 degrees."""
    found = answer(find_calculator("thread"), {"designation": "1/4 BSW"})
    assert found.warnings == (
        "1/4 BSW is easily taken for 1/4-20 UNC: it goes in, but the flanks differ and hold less.",
    )
    found = answer(find_calculator("thread"), {"designation": "1/8 BSW"})
    assert "1/8 BSW is easily taken for 1/8 x 40 ME: it is the same thread by another name." in found.warnings


def test_tapping_drill_at_an_engagement():
    found = results("tapping-drill", designation="1/4-20", engagement="75 %")
    assert found["drill"] == "#7"
    assert found["hole"] == pytest.approx(6.35 - 0.75 * 1.2990381 * 1.27, abs=1e-6)
    assert refusals("tapping-drill", designation="M5", engagement="101") == [
        "'101' is above the most allowed here; write at most 100 %."
    ]


def test_drill_and_gauge():
    assert results("drill", name="#7") == {"drill": "#7", "diameter": 5.1054, "diameter_inches": 0.201}
    assert results("drill", name=5.1)["diameter"] == 5.1
    assert results("gauge", system="swg", number=24) == {"thickness": 0.5588, "thickness_inches": 0.022}
    assert refusals("gauge", system="swg", number="99") == [
        "There is no number '99' in the SWG gauge; it runs from 7/0 to 50."
    ]


def test_wood_screw_of_each_series():
    assert results("wood-screw", gauge="8")["head_angle"] == 82
    assert results("wood-screw", gauge="No. 8", standard="inch-british")["head_angle"] == 90
    assert results("wood-screw", gauge="4", standard="metric")["shank_diameter"] == 4
    assert refusals("wood-screw", gauge="25") == ["There is no wood screw No. 25; numbers run from 0 to 24."]


def test_countersink_below_flush_is_deeper_and_wider():
    flush = results("countersink", head_diameter="10", hole="5", thickness="6")
    assert flush == {"depth": 2.5, "diameter": 10, "left": 3.5, "breaks_through": False}
    below = results("countersink", head_diameter="10", hole="5", thickness="6", below="1")
    assert below == {"depth": 3.5, "diameter": 12, "left": 2.5, "breaks_through": False}


def test_countersink_through_the_part():
    found = answer(find_calculator("countersink"), {"head_diameter": "10", "hole": "5", "thickness": "2.5"})
    assert found.results["breaks_through"].value is True
    assert found.warnings == (
        "The cone comes out at the other face: it needs 2.5 mm and the part is 2.5 mm thick. "
        "Take a smaller head, a thicker part, or a cup washer.",
    )


def test_countersink_refuses_a_hole_as_wide_as_the_head():
    assert refusals("countersink", head_diameter="5", hole="5") == [
        "The hole of 5 mm is not smaller than the head of 5 mm; write a hole smaller than the head."
    ]


def test_a_bare_number_says_which_number_drill_it_is_not():
    """#7 is 0.201 in (ASME B94.11M): 5.1054 mm."""
    assert answer(find_calculator("drill"), {"name": "7"}).warnings == (
        "7 is read as 7 mm; the number drill #7 is 5.1054 mm.",
    )
    assert answer(find_calculator("drill"), {"name": "#7"}).warnings == ()
    assert answer(find_calculator("drill"), {"name": "7 mm"}).warnings == ()
