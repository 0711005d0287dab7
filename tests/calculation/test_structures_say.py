"""What the calculators of beams, struts, strings and shelves answer and refuse."""

import pytest

from calculators.calculation.answering import answer
from calculators.catalogue import find_calculator
from calculators.quantities.errors import InputError


def answered(calculator, **given):
    return answer(find_calculator(calculator), given)


def results(calculator, **given):
    return {name: one.value for name, one in answered(calculator, **given).results.items()}


def refusals(calculator, **given):
    with pytest.raises(InputError) as caught:
        answered(calculator, **given)
    return [(fault.field, fault.says) for fault in caught.value.faults]


RAIL = {"span": "600 mm", "section": "20 x 35 mm", "material": "oak"}


def test_a_beam_gives_what_its_formula_gives():
    found = answered("beam", load="100 N", span="600 mm", section="200 x 12", modulus="12.3 GPa")
    # P L^3 / (48 E I), I = 200 x 12^3 / 12; P L / 4; and that over 200 x 12^2 / 6, by hand
    assert found.results["deflection"].value == pytest.approx(100 * 600**3 / (48 * 12300 * 28800), rel=1e-9)
    assert found.results["bending_moment"].value == pytest.approx(15)
    assert found.results["bending_stress"].value == pytest.approx(3.125)
    assert found.results["reactions"].shown == "50 N up at 0 mm\n50 N up at 600 mm"
    assert any(step.formula == "P L^3 / (48 E I)" for step in found.working)


def test_the_deflection_in_the_working_is_that_of_the_results():
    for given in (
        {"support": "cantilever"},
        {"support": "propped", "load_kind": "spread"},
        {"support": "fixed-ends", "at": "150"},
        {"support": "overhanging", "overhang": "200", "load_kind": "end"},
        {"support": "propped", "at": "150"},
        {"with_self_weight": "yes"},
    ):
        found = answered("beam", load="80 N", **RAIL, **given)
        step = next(each for each in found.working if each.symbol == "d")
        assert step.value == pytest.approx(found.results["deflection"].value, rel=1e-7)


def test_a_beam_says_what_depth_would_do_and_that_depth_does():
    given = {"load": "400 N", "span": "1200 mm", "material": "Sitka spruce"}
    first = answered("beam", **given, section="60 x 25")
    needed = first.results["depth_needed"].value
    assert any(f"{first.results['deflection_limit'].value:g} mm; " in says for says in first.warnings)
    second = answered("beam", **given, section="rectangle", width="60", depth=f"{needed:.9f}")
    assert second.results["deflection_long_term"].value == pytest.approx(4.0, rel=1e-6)


def test_a_depth_is_also_that_of_the_stress():
    given = {"load": "3 kN", "span": "200 mm", "material": "mild steel"}
    first = answered("beam", **given, section="10 x 20")
    assert first.results["stress_share"].value > 100
    needed = first.results["depth_needed"].value
    second = results("beam", **given, section="rectangle", width="10", depth=f"{needed:.9f}")
    assert second["stress_share"] == pytest.approx(100, rel=1e-6)


def test_several_loads_are_rows_and_so_is_one():
    one = results("beam", **RAIL, loads="100 N, 200 mm")
    assert one["deflection"] == pytest.approx(
        results("beam", **RAIL, load="100 N", at="200 mm")["deflection"]
    )
    spread = results("beam", **RAIL, loads=[{"load": 60, "at": 0, "to": 600}])
    assert spread["deflection"] == pytest.approx(
        results("beam", **RAIL, load="60 N", load_kind="uniform")["deflection"]
    )


def test_a_typed_second_moment_stands_for_a_section():
    found = results("beam", load=100, span=600, second_moment="28800 mm4", outermost="6", modulus="12.3")
    assert found["deflection"] == pytest.approx(100 * 600**3 / (48 * 12300 * 28800), rel=1e-9)
    assert found["bending_stress"] == pytest.approx(3.125)
    without = results("beam", load=100, span=600, second_moment="28800 mm4", modulus="12.3")
    assert "bending_stress" not in without


def test_pieces_make_the_section_that_a_shape_makes():
    shaped = results("section-properties", section="T 60 x 60 x 20 x 20")
    pieced = results("section-properties", pieces="rectangle, 20, 40; rectangle, 60, 20")
    for name in ("section_area", "centroid_up", "second_moment", "second_moment_side", "section_modulus_top"):
        assert pieced[name] == pytest.approx(shaped[name])


def test_a_spread_of_the_depth_comes_through_threefold():
    found = answered("beam", load="100 N", span="600", section="rectangle", width="200", depth="12 ± 0.1",
                     material="oak").results["deflection"]  # fmt: skip
    assert found.spread == pytest.approx(3 * 0.1 / 12 * found.value, rel=0.01)


def test_what_to_mind_about_a_beam():
    says = answered("beam", load="100 N", span="600 mm", section="200 x 12", material="oak").warnings
    assert "It bends 2.55 mm in the long run, more than span/300, 2 mm; 13.1 mm deep would do." in says
    says = answered(
        "beam", load="50 N", **RAIL, support="overhanging", overhang="300", load_kind="end"
    ).warnings
    assert "At 0 mm it pulls up with 25 N: it must be held down there." in says
    says = answered("beam", load="50 N", span=600, section="10 x 60", material="oak").warnings
    assert (
        "It is 6 times as deep as wide: without a hold on its upper edge it may lean over sideways before it breaks."
    ) in says
    says = answered("beam", load="50 N", span=600, section="angle 30 x 30 x 3", material="steel").warnings
    assert (
        "The section is not alike left and right: the load twists it or bends it sideways too, unless it is held "
        "upright."
    ) in says
    says = answered("beam", load="100 N", span="600", at="0", section="200 x 12", material="oak").warnings
    assert "The load stands over a support: the beam does not bend under it." in says
    says = answered("beam", load="4 kN", span=100, section="20 x 40", material="oak").warnings
    assert any(each.startswith("It is stubby: shearing adds ") for each in says)


@pytest.mark.parametrize(
    ("given", "field", "says"),
    [
        ({"load": "5 N"} | RAIL | {"section": ""}, "section",
         "Give a section, as rectangle 20 x 35 mm (width x depth), or the second moment of area."),
        ({"load": "5 N"} | RAIL | {"material": ""}, "material",
         "Give a material, as European oak or mild steel, or the modulus of elasticity."),
        ({"load": "5 N"} | RAIL | {"material": "hardwood"}, "modulus",
         "No modulus of elasticity is known here of hardwood; give the modulus."),
        (RAIL, "load", "The load is missing; give it, as 100 N, or several loads in rows."),
        ({"load": "5 N", "at": "601"} | RAIL, "at",
         "The load at 601 mm is outside the beam; write a place from 0 to 600 mm."),
        ({"load": "5 N", "load_kind": "end"} | RAIL, "load_kind",
         "A simply-supported beam has no free end; write the load's place as at, or take a cantilever."),
        ({"load": "5 N", "support": "overhanging"} | RAIL, "overhang",
         "An overhanging beam needs the length of its overhang."),
        ({"load": "5 N", "overhang": "10"} | RAIL, "overhang",
         "A simply-supported beam has no overhang; take support overhanging, or leave it out."),
        ({"load": "5 N", "loads": "5 N, 10 mm"} | RAIL, "loads",
         "Give either one load or several loads in rows, not both."),
        ({"loads": "5 N, 10 mm, 5 mm"} | RAIL, "loads[0].to",
         "A load spread from 10 mm ends beyond that; it is said to end at 5 mm."),
        ({"loads": "0 N, 10 mm"} | RAIL, "loads", "All of the loads are nought; give one that is not."),
        ({"loads": "5 N, 700 mm"} | RAIL, "loads[0].at",
         "The load at 700 mm is outside the beam; write a place from 0 to 600 mm."),
        ({"load": "5 N", "load_kind": "moment"} | RAIL, "moment",
         "With load kind moment give the moment, as 5 N m, and no load."),
        ({"load": "5 N", "load_kind": "centre", "at": "10"} | RAIL, "at",
         "A load of kind centre takes no place; leave at out, or take load kind at."),
        ({"load": "5 N m"} | RAIL, "load",
         "'5 N m' is a torque, not a force; write a number with one of N, kN, lbf, ozf, kgf."),
        ({"load": "5 N"} | RAIL | {"section": "tube 20 x 10"}, "section",
         "The wall of the tube is 10 mm; it must be under 10 mm, so that a hollow is left."),
        ({"load": "5 N", "second_moment": "100"} | RAIL, "second_moment",
         "Give either a section or a second moment, not both."),
        ({"load": "5 N", "pieces": "rectangle, 10, 10"} | RAIL, "pieces",
         "Give either a section or pieces of which it is put together, not both."),
        ({"load": "5 N"} | RAIL | {"section": "rectangle"}, "width",
         "The section lacks its width; write rectangle width x depth, or give the width."),
        ({"load": "5 N"} | RAIL | {"section": "", "pieces": "rectangle, 10"}, "pieces[0].height",
         "Pieces, row 1: a rectangle needs its height; write width and height."),
    ],
)  # fmt: skip
def test_a_beam_refuses(given, field, says):
    assert refusals("beam", **given) == [(field, says)]


def test_a_support_without_meaning_is_refused():
    ((field, says),) = refusals("beam", load="5 N", support="floating", **RAIL)
    assert field == "support"
    assert says.startswith("'floating' is not a choice for support; ")
    assert says.endswith("write one of simply-supported, cantilever, fixed-ends, propped, overhanging.")


def test_a_strut_gives_eulers_load_and_johnsons():
    slender = results("strut", length="500", section="round 10", material="mild steel")
    assert slender["buckling_rule"] == "Euler"
    # pi^2 x 205000 x 490.874 / 500^2 by hand
    assert slender["buckling_load"] == pytest.approx(3972.7, abs=0.05)
    stout = results("strut", length="200", section="round 10", material="mild steel", load="5 kN")
    assert stout["buckling_rule"] == "Johnson"
    # lambda = 80; 19635 x (1 - 250 x 6400 / (4 pi^2 x 205000)) by hand
    assert stout["buckling_load"] == pytest.approx(15753, abs=1)
    assert stout["load_share"] == pytest.approx(100 * 5000 / (stout["buckling_load"] / 2))


def test_a_strut_bends_out_about_its_weakest_axis():
    upright = results("strut", length="900", section="20 x 35", material="oak")
    flat = results("strut", length="900", section="35 x 20", material="oak")
    assert upright["buckling_load"] == pytest.approx(flat["buckling_load"])
    angle = results("strut", length="900", section="angle 30 x 30 x 3", material="steel")
    assert angle["second_moment_least"] == pytest.approx(5947.46, abs=0.01)


def test_a_strut_says_and_refuses():
    says = answered("strut", length="500", section="round 10", material="mild steel", load="2.5 kN").warnings
    assert says[0] == "The load of 2500 N is more than the 1986 N allowed."
    assert refusals("strut", length="500", section="round 10", modulus="70") == [
        (
            "strength",
            "No strength is known here of that material; give its yield or crushing strength as strength.",
        )
    ]
    assert refusals("strut", length="500", material="steel") == [
        ("section", "Give a section, as round 10 mm or rectangle 20 x 35 mm.")
    ]


STRING = {"length": "650 mm", "material": "steel"}


def test_a_string_finds_any_one_of_three():
    tension = results("string-tension", note="A3", diameter="0.4 mm", **STRING)
    # 7850 x pi / 4 x 0.0004^2 kg/m x (2 x 0.65 x 220)^2 by hand
    assert tension["tension"] == pytest.approx(80.69, abs=0.005)
    assert tension["stress"] == pytest.approx(642.1, abs=0.05)
    pitch = results("string-tension", tension=tension["tension"], diameter="0.4 mm", **STRING)
    assert pitch["frequency"] == pytest.approx(220)
    assert pitch["note_name"] == "A3 +0.0 cents"
    size = results("string-tension", tension=tension["tension"], frequency="220 Hz", **STRING)
    assert size["string_diameter"] == pytest.approx(0.4)


def test_a_string_at_its_highest_pitch_and_longest_length_is_at_its_limit():
    found = results("string-tension", note="A3", diameter="0.4 mm", **STRING)
    at_limit = results("string-tension", frequency=found["highest_frequency"], diameter="0.4 mm", **STRING)
    assert at_limit["breaking_share"] == pytest.approx(70)
    longer = results(
        "string-tension", note="A3", diameter="0.4", length=f"{found['longest_string']:.7f}", material="steel"
    )
    assert longer["breaking_share"] == pytest.approx(70, rel=1e-6)


def test_a_change_of_pitch_takes_its_change_of_tension():
    found = results("string-tension", frequency="220", diameter="0.4", cents="8", count="6", **STRING)
    sharper = results("string-tension", frequency=220 * 2 ** (8 / 1200), diameter="0.4", **STRING)
    assert found["tension_change"] == pytest.approx(sharper["tension"] - found["tension"])
    assert found["total_tension"] == pytest.approx(6 * found["tension"])


def test_a_wound_string_is_its_mass_and_its_core():
    bare = answered("string-tension", frequency="80", mass_per_length="6 g/m", **STRING)
    assert "stress" not in bare.results
    assert bare.warnings[0].startswith(
        "Without the diameter (of a wound string its core) the stress is not known: "
    )
    cored = results("string-tension", frequency="80", mass_per_length="6 g/m", diameter="0.4", **STRING)
    assert cored["tension"] == bare.results["tension"].value
    assert cored["stress"] == pytest.approx(cored["tension"] / 0.125664, rel=1e-5)


def test_a_string_that_breaks_is_said_to_break():
    says = answered("string-tension", note="C5", diameter="0.4 mm", **STRING).warnings[0]
    assert says.endswith("over the limit of 70 %. It will break.")
    says = answered("string-tension", note="F4", diameter="0.4 mm", **STRING).warnings
    # 642.1 x (349.23 / 220)^2 = 1618 of 2525 MPa is 64 %
    assert says == find_calculator("string-tension").cautions
    says = answered("string-tension", note="G4", diameter="0.4 mm", **STRING).warnings[0]
    assert says == "The stress is 80.7 % of the least tensile strength, over the limit of 70 %."


@pytest.mark.parametrize(
    ("given", "field", "says"),
    [
        ({}, "frequency", "With less than two there is nothing to work out; give two of pitch (frequency or note), "
         "tension, and mass (mass per length, or diameter)."),
        ({"note": "A3", "frequency": "220", "diameter": "0.4"}, "note",
         "Give either the frequency or the note, not both."),
        ({"note": "A3", "tension": "80", "diameter": "0.4"}, "tension",
         "With more than two there is nothing to work out; give two of pitch (frequency or note), tension, and mass "
         "(mass per length, or diameter)."),
        ({"note": "X", "diameter": "0.4"}, "note",
         "'X' is not a note; write a letter, # or b, and the octave, as A4, C#3 or Bb2."),
    ],
)  # fmt: skip
def test_a_string_refuses(given, field, says):
    assert refusals("string-tension", **given, **STRING) == [(field, says)]


def test_a_tension_that_no_string_could_have_at_that_pitch_is_refused():
    # d = sqrt(4 x 100000 / (2 x 0.65 x 20)^2 / (pi x 7850)) = 0.1549 m, by hand
    assert refusals("string-tension", tension="100 kN", frequency="20 Hz", **STRING) == [
        ("tension", "That tension would need a string of 155 mm; strings of 0.02 to 20 mm are worked with: change "
         "tension, length or pitch.")
    ]  # fmt: skip


def test_a_string_frame_says_what_its_board_needs():
    given = {
        "strings": "22, 52 N", "length": "600", "offset": "23.5", "rails": "2", "section": "20 x 35",
        "material": "oak", "down_angle": "10", "board_span": "250", "board_width": "60", "board_thickness": "3",
    }  # fmt: skip
    found = answered("string-frame", **given)
    needed = found.results["board_thickness_needed"].value
    again = results("string-frame", **(given | {"board_thickness": f"{needed:.9f}"}))
    assert again["board_sag_long_term"] == pytest.approx(250 / 300, rel=1e-6)
    assert any(says.startswith("After years the board sags ") for says in found.warnings)
    balanced = found.results["offset_balanced"].value
    at_limit = results("string-frame", **(given | {"offset": f"{balanced:.9f}"}))
    assert at_limit["bow_long_term"] == pytest.approx(2.0, rel=1e-6)


def test_a_string_frame_that_folds():
    says = answered("string-frame", strings="40, 200 N", length="1500", offset="20", section="20 x 15",
                    material="spruce").warnings  # fmt: skip
    assert any(each.endswith(" N at which the frame buckles: it folds.") for each in says)


def test_a_string_frame_refuses_half_a_board():
    assert refusals("string-frame", strings="2, 50", length="600", offset="20", section="20 x 35",
                    material="oak", down_angle="5") == [
        ("board_span", "For the board give all of board span, board width, board thickness, down angle; board span is "
         "missing.")
    ]  # fmt: skip


def test_a_shelf_takes_its_load_in_one_way():
    given = {"span": "800", "width": "250", "thickness": "18", "material": "oak"}
    says = "Give the load in one way: contents (books and the like), mass per metre, mass in all, or load."
    assert refusals("shelf-sag", **given) == [("contents", says)]
    assert refusals("shelf-sag", **given, contents="books", mass="20 kg") == [("mass", says)]
    ways = [
        {"contents": "books"}, {"mass_per_metre": "30 kg/m"}, {"mass": "24 kg"}, {"load": f"{24 * 9.80665} N"},
    ]  # fmt: skip
    sags = {round(results("shelf-sag", **given, **way)["deflection"], 9) for way in ways}
    assert len(sags) == 1
    assert refusals("shelf-sag", **given, contents="books", strip_depth="40") == [
        ("strip_thickness",
         "A strip along the edge needs both its depth, top to bottom, and its thickness, front to back.")
    ]  # fmt: skip


def test_a_shelf_says_what_thickness_would_do():
    says = answered("shelf-sag", span="600", width="200", thickness="12", material="oak", load="100",
                    load_place="centre").warnings  # fmt: skip
    assert says[0] == (
        "After years it sags 2.55 mm, more than span/300, 2 mm: make it 13.1 mm thick, or shorter, or with a deeper "
        "strip."
    )


@pytest.mark.parametrize("name", ["beam", "strut", "shelf-sag", "string-tension", "string-frame"])
def test_each_says_its_caution(name):
    calculator = find_calculator(name)
    words = " ".join(calculator.cautions)
    assert ("eye" in words) if name.startswith("string") else ("people" in words)


def test_the_further_results_of_a_beam_by_hand():
    found = results(
        "beam", support="cantilever", load="200 N", span="400", section="20 x 40", material="mild steel"
    )
    # 6/5 P L / (G A) with G = 80 GPa; 60 strips of the section's integral come within a thousandth
    assert found["shear_deflection"] == pytest.approx(1.2 * 200 * 400 / (80000 * 800), rel=1.5e-3)
    weight = 7850 * 800e-6 * 0.4 * 9.80665
    assert found["self_weight"] == pytest.approx(weight)
    stiffness = 205000 * 20 * 40**3 / 12
    assert found["self_weight_deflection"] == pytest.approx(weight * 400**3 / (8 * stiffness))
    assert found["allowed_stress"] == pytest.approx(250 / 1.67)
    assert found["stress_share"] == pytest.approx(100 * (200 * 400 / (20 * 40**2 / 6)) / (250 / 1.67))
    assert found["shear_force"] == pytest.approx(200)
    assert found["deflection_long_term"] == found["deflection"]
    assert found["second_moment_needed"] == pytest.approx(20 * 40**3 / 12 * found["deflection"] / (400 / 300))


def test_own_weight_counts_where_it_is_asked_for():
    plain = results("beam", load="80 N", load_kind="spread", **RAIL)
    weighed = results("beam", load="80 N", load_kind="spread", with_self_weight="yes", **RAIL)
    assert weighed["deflection"] == pytest.approx(plain["deflection"] + plain["self_weight_deflection"])
    assert weighed["deflection"] == pytest.approx(plain["deflection"] * (1 + plain["self_weight"] / 80))


def test_the_depth_of_a_round_follows_other_powers():
    given = {"load": "100 N", "span": "900", "material": "oak"}
    needed = results("beam", **given, section="round 20")["depth_needed"]
    again = results("beam", **given, section="round", width=f"{needed:.9f}")
    assert again["deflection_long_term"] == pytest.approx(3.0, rel=1e-6)


def test_the_further_results_of_a_string_by_hand():
    found = results("string-tension", frequency="220", diameter="0.4", **STRING)
    area = 3.141592653589793 * 0.4**2 / 4
    assert found["stretch"] == pytest.approx(found["tension"] * 650 / (203000 * area))
    assert found["breaking_tension"] == pytest.approx(2211 / 0.4**0.145 * area)
    assert found["inharmonicity"] == pytest.approx(
        3.141592653589793**3 * 203000 * 0.4**4 / (64 * found["tension"] * 650**2)
    )
    assert found["mass_per_length"] == pytest.approx(7850 * area * 1e-3)


def test_the_stress_of_a_frame_is_of_pull_and_bending():
    found = results("string-frame", strings="10, 60 N; 4, 100", length="500", offset="20", rails="2",
                    section="20 x 30", material="hard maple")  # fmt: skip
    assert found["total_tension"] == 1000
    assert found["bending_moment"] == pytest.approx(20)
    assert found["fibre_stress"] == pytest.approx(1000 / 1200 + 20000 / (2 * 20 * 30**2 / 6))


def test_a_strut_of_wood_is_crushed_at_a_share_of_its_rupture():
    found = results("strut", length="100", section="20 x 20", material="white oak")
    assert found["squash_load"] == pytest.approx(0.45 * 104.8 * 400)
    assert found["allowed_load"] == pytest.approx(found["buckling_load"] / 3)
    assert results("strut", length="100", section="20 x 20", material="white oak", strength="50")[
        "squash_load"
    ] == pytest.approx(20000)
    # theory 0.5, advised 0.65
    held = {"length": "900", "section": "20 x 20", "material": "white oak", "ends": "fixed"}
    assert results("strut", **held)["effective_length"] == 450
    assert results("strut", **held, effective="advised")["effective_length"] == pytest.approx(585)
