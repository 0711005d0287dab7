"""What tightening-torque, thread-strip, screw-twist-off, grub-screw-hold and washer-bearing answer and refuse."""

from math import pi

import pytest

from calculators.calculation.answering import answer, pictures_of
from calculators.catalogue import find_calculator
from calculators.quantities.errors import InputError


def results(calculator, **given):
    found = answer(find_calculator(calculator), given)
    return {name: one.value for name, one in found.results.items()}


def warnings(calculator, **given):
    found = find_calculator(calculator)
    return [says for says in answer(found, given).warnings if says not in found.cautions]


def refusals(calculator, **given):
    with pytest.raises(InputError) as caught:
        answer(find_calculator(calculator), given)
    return [fault.says for fault in caught.value.faults]


def test_torque_from_grade_from_preload_and_back():
    by_grade = results("tightening-torque", designation="M8", grade="8.8")
    force = by_grade["preload"]
    assert force == pytest.approx(0.75 * 580 * 36.61, rel=1e-4)
    assert by_grade["torque"] == pytest.approx(0.2 * force * 8 / 1000)
    by_load = results("tightening-torque", designation="M8", preload=f"{force} N")
    assert by_load["torque"] == pytest.approx(by_grade["torque"])
    back = results("tightening-torque", designation="M8", torque=f"{by_grade['torque']} N m")
    assert back["preload"] == pytest.approx(force)
    assert "proof_share" not in back
    assert results("tightening-torque", designation="M8", torque="25 N m", grade="8.8")[
        "proof_share"
    ] == pytest.approx(100 * 25_000 / 1.6 / (580 * 36.61), rel=1e-4)


def test_the_scatter_is_that_of_the_method():
    for method, share in (
        ("by hand", 0.35),
        ("torque wrench", 0.25),
        ("torque wrench dry", 0.30),
        ("angle of turn", 0.15),
    ):
        found = results("tightening-torque", designation="M8", preload="10 kN", method=method)
        assert found["preload_least"] == pytest.approx(10_000 * (1 - share))
        assert found["preload_most"] == pytest.approx(10_000 * (1 + share))


def test_the_torque_by_friction_stands_beside_k():
    """M8 by hand: 10 kN, friction 0.15, bearing (13 + 9)/2 = 11 mm."""
    found = results("tightening-torque", designation="M8", preload="10 kN")
    climb, thread, head = 1.25 / (2 * pi), 0.15 * 7.188 / (2 * 0.8660254), 0.15 * 11 / 2
    assert found["torque_by_friction"] == pytest.approx(10 * (climb + thread + head), rel=1e-4)
    assert found["nut_factor_by_friction"] == pytest.approx((climb + thread + head) / 8, rel=1e-4)


def test_a_proof_fraction_is_a_share_however_it_is_written():
    written = [
        results("tightening-torque", designation="M8", grade="8.8", proof_fraction=text)
        for text in ("0.6", "60 %")
    ]
    assert written[0] == written[1]
    assert refusals("tightening-torque", designation="M8", grade="8.8", proof_fraction="60") == [
        "'60' is above the most allowed here; write at most 1."
    ]


def test_too_much_torque_is_minded():
    """2 BA by hand: F 4255 N on 12.38 mm2, 2.018 N m in a shank of 3.971 mm: 343.7 and 164.1 MPa."""
    assert warnings("tightening-torque", designation="2 BA", grade="brass", torque="4 N m") == [
        "Pulled and twisted at once the screw has 446 MPa, over its yield of 250 MPa: it stretches for good or snaps. "
        "Use less torque."
    ]
    assert warnings("tightening-torque", designation="M8", grade="8.8", proof_fraction="0.8") == [
        "At the upper end of the scatter the preload is 22082 N, over the proof load of 21233 N."
    ]
    assert warnings("tightening-torque", designation="M8", grade="8.8", proof_fraction="0.5") == []


def test_a_thin_nut_strips():
    says = warnings("tightening-torque", designation="M8", grade="8.8", nut="thin", proof_fraction="0.7")
    assert [each.partition(" of ")[0] for each in says] == ["A half nut"]
    says = warnings(
        "tightening-torque",
        designation="M8",
        preload="20 kN",
        grade="8.8",
        nut="half",
        method="angle of turn",
    )
    assert any(
        each.startswith("The preload of 20000 N is more than the thread in a half nut bears, ")
        for each in says
    )


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({"designation": "M8", "torque": "5 N m", "preload": "5 kN"},
         "Give the torque or the preload, not both: the one follows from the other."),
        ({"designation": "M8"},
         "Give the preload, the torque, or the grade, such as 8.8; grades are 4.6, 4.8, 5.6, 5.8, 6.8, 8.8, 9.8, 10.9, "
         "12.9, SAE 2, SAE 5, SAE 8, A2-50, A2-70, A2-80, A4-50, A4-70, A4-80, brass."),
        ({"designation": "M8", "preload": "5 kN", "hole": "7"},
         "A hole of 7 mm does not lie between the screw's 8 mm and the head's 13 mm."),
    ],
)  # fmt: skip
def test_tightening_torque_refuses(given, says):
    assert refusals("tightening-torque", **given) == [says]


def test_strip_loads_break_load_and_what_is_first():
    found = results(
        "thread-strip", designation="M5", engagement="5 mm", bolt_strength="800 MPa", nut_strength="310 MPa"
    )
    assert found["break_load"] == pytest.approx(800 * 14.18, rel=1e-3)
    assert found["strip_load_bolt"] == pytest.approx(0.5 * 800 * found["shear_area_bolt"])
    assert found["strip_load_nut"] == pytest.approx(0.5 * 310 * found["shear_area_nut"])
    assert found["fails_first"] == "the nut's thread strips"
    assert found["engagement_needed"] == pytest.approx(5 * found["break_load"] / found["strip_load_nut"])
    assert found["engagement_in_diameters"] == pytest.approx(found["engagement_needed"] / 5)
    assert "engagement_rule" not in found


def test_a_metal_stands_for_its_strength():
    by_name = results(
        "thread-strip", designation="M5", engagement="5 mm", bolt_grade="8.8", nut_material="aluminum"
    )
    by_number = results(
        "thread-strip", designation="M5", engagement="5 mm", bolt_strength="800", nut_strength="310"
    )
    assert by_name["strip_load_nut"] == by_number["strip_load_nut"]
    assert by_name["engagement_rule"] == 10  # 2 D
    assert list(by_name["engagements"]) == ["steel", "brass", "aluminium", "cast iron", "threaded insert"]
    assert by_name["engagements"]["aluminium"] == pytest.approx(by_name["engagement_needed"])


def test_alexanders_factors_are_taken_where_they_are_asked_for():
    given = {"designation": "M8", "engagement": "6.5", "bolt_grade": "8.8", "nut_strength": "800"}
    plain = results("thread-strip", **given)
    bent = results("thread-strip", **given, alexander="yes", nut_width="13")
    widening = -(1.625**2) + 3.8 * 1.625 - 2.61
    assert bent["strip_load_nut"] == pytest.approx(0.897 * widening * plain["strip_load_nut"])
    ratio = plain["shear_area_nut"] / plain["shear_area_bolt"]
    c2 = 5.594 - 13.682 * ratio + 14.107 * ratio**2 - 6.057 * ratio**3 + 0.9353 * ratio**4
    assert bent["strip_load_bolt"] == pytest.approx(c2 * widening * plain["strip_load_bolt"])


def test_too_little_thread_is_minded():
    assert warnings(
        "thread-strip", designation="M5", engagement="0.7", bolt_grade="8.8", nut_material="steel"
    ) == [
        "0.7 mm of thread strips before the bolt breaks, which gives no warning; 5.28 mm is needed.",
        "Less than one turn of thread is engaged.",
        "The bench rule asks 1 D of thread in this metal, 5 mm; here it is 0.14 D.",
    ]
    assert warnings(
        "thread-strip", designation="M5", engagement="7.5", bolt_grade="8.8", nut_material="insert"
    ) == ["This is the thread inside the insert; its outside thread in the piece about it must hold as well."]


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({"engagement": "0", "bolt_strength": "800", "nut_strength": "400"}, "'0' is too little; write more than 0 mm."),
        ({"engagement": "5", "nut_strength": "400"},
         "Give the bolt_strength in MPa or the bolt_grade; grades are 4.6, 4.8, 5.6, 5.8, 6.8, 8.8, 9.8, 10.9, 12.9, "
         "SAE 2, SAE 5, SAE 8, A2-50, A2-70, A2-80, A4-50, A4-70, A4-80, brass."),
        ({"engagement": "5", "bolt_strength": "800", "bolt_grade": "8.8", "nut_strength": "400"},
         "Give the bolt_strength or the bolt_grade, not both."),
        ({"engagement": "5", "bolt_strength": "800"}, "Give the nut_strength in MPa or the nut_material."),
        ({"engagement": "5", "bolt_strength": "800", "nut_strength": "400", "nut_material": "brass"},
         "Give the nut_strength or the nut_material, not both."),
        ({"engagement": "5", "bolt_strength": "800", "nut_strength": "400", "alexander": "yes", "nut_width": "6"},
         "The nut is 6 mm wide, 1.20 of the diameter; the rule holds from 1.4, 7 mm."),
    ],
)  # fmt: skip
def test_thread_strip_refuses(given, says):
    assert refusals("thread-strip", designation="M5", **given) == [says]


def test_twist_off_of_a_wood_screw_and_of_its_metals():
    """No. 4: 0.112 in, root 2/3 of it."""
    root = 0.112 * 25.4 * 2 / 3
    for metal, shear in (("brass", 222), ("steel", 420), ("stainless", 300)):
        found = results("screw-twist-off", gauge="No. 4", metal=metal)
        assert found["twist_off_torque"] == pytest.approx(pi * root**3 * shear / 16 / 1000)
        assert found["twist_off_most"] == pytest.approx(pi * root**3 * shear / 12 / 1000)
        assert found["driving_torque_most"] == pytest.approx(found["twist_off_torque"] * 2 / 3)
    assert results("screw-twist-off", root=f"{root} mm", metal="brass")["twist_off_torque"] == pytest.approx(
        results("screw-twist-off", diameter=f"{0.112 * 25.4} mm", metal="brass")["twist_off_torque"]
    )


def test_driving_torque_is_compared():
    assert warnings("screw-twist-off", gauge="8", metal="brass", driving_torque="1 N m")[0] == (
        "1 N m twists the screw off: its root goes at 0.93 N m."
    )
    assert warnings("screw-twist-off", designation="M5", grade="8.8", driving_torque="5 N m") == [
        "5 N m is 82 % of the twist-off torque; two thirds, 4.1 N m, leaves a margin."
    ]
    assert warnings("screw-twist-off", gauge="4", metal="brass") == [
        "At 0.3 N m it takes no more than the fingers: drive it by hand, never with a powered driver.",
        "In hardwood drive a steel screw of the same size first, take it out, wax, then this one by hand.",
    ]


def test_twist_off_of_a_machine_screw_shows_the_standard_where_there_is_one():
    assert results("screw-twist-off", designation="M5", grade="A2-70")["breaking_torque"] == 7.8
    assert "breaking_torque" not in results("screw-twist-off", designation="M8 x 1", grade="8.8")
    weakest = results("screw-twist-off", designation="M5")
    assert weakest["twist_off_torque"] == pytest.approx(
        results("screw-twist-off", designation="M5", grade="4.6")["twist_off_torque"]
    )


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({}, "Give one of gauge (wood screw), designation (machine screw), diameter (shank) or root."),
        ({"gauge": "8", "root": "3"}, "Give one of gauge (wood screw), designation (machine screw), diameter (shank) or root."),
        ({"gauge": "8", "grade": "8.8"}, "A grade is of machine screws; give the metal of a wood screw."),
    ],
)  # fmt: skip
def test_screw_twist_off_refuses(given, says):
    assert refusals("screw-twist-off", **given) == [says]


def test_a_grub_screw_by_torque_and_by_force():
    by_force = results("grub-screw-hold", designation="M4", shaft="6 mm", force="600 N")
    assert by_force["holding_torque"] == pytest.approx((0.25 + 0.15) * 600 * 3 / 1000)
    assert by_force["holding_force"] == pytest.approx(0.4 * 600)
    by_torque = results("grub-screw-hold", designation="M4", shaft="6 mm", torque="0.48 N m")
    assert by_torque["point_force"] == pytest.approx(600)
    two = results("grub-screw-hold", designation="M4", shaft="6 mm", force="600 N", count="2")
    assert two["holding_torque"] == pytest.approx((2 * 0.25 + 0.15 * 2**0.5) * 600 * 3 / 1000)
    pad = results("grub-screw-hold", designation="M4", shaft="6 mm", force="600 N", point="brass pad")
    assert pad["holding_torque"] < by_force["holding_torque"]


def test_a_point_in_a_hole_is_held_until_it_shears():
    found = results(
        "grub-screw-hold", designation="M4", shaft="6 mm", force="600 N", point="dog", seat="dimple"
    )
    assert found["seated_torque"] == pytest.approx(420 * pi / 4 * 2**2 * 3 / 1000)


def test_what_is_asked_of_a_grub_screw_is_compared():
    given = {"designation": "M4", "shaft": "6 mm", "force": "600 N", "point": "flat"}
    assert warnings("grub-screw-hold", **given, torque_needed="1 N m") == [
        "It slips: 1 N m is asked and friction holds 0.68 N m at best. File a flat, drill a hole for a dog point, or "
        "pin it."
    ]
    assert warnings("grub-screw-hold", **given, torque_needed="0.5 N m") == [
        "0.5 N m is asked and friction holds 0.68 N m at best: less than the factor of 2 that steady loads want (4 "
        "where they shake)."
    ]
    assert warnings("grub-screw-hold", **given, torque_needed="0.3 N m") == []


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({"designation": "M8", "shaft": "6", "force": "600"},
         "A grub screw of 8 mm is thicker than the shaft of 6 mm; take one of about half the shaft."),
        ({"designation": "M4", "shaft": "6"}, "Give the torque or the point's force."),
        ({"designation": "M4", "shaft": "6", "force": "600", "torque": "1"}, "Give the torque or the point's force, not both."),
        ({"designation": "M4", "shaft": "6", "force": "600", "seat": "hole", "point_diameter": "5"},
         "The point of 5 mm is wider than its screw of 4 mm."),
    ],
)  # fmt: skip
def test_grub_screw_hold_refuses(given, says):
    assert refusals("grub-screw-hold", **given) == [says]


def test_a_washer_on_oak():
    """ISO 7089 M6: 12 by 6.4, white oak 7.4 MPa, three quarters of it allowed."""
    found = results("washer-bearing", designation="M6", torque="6 N m", species="white oak")
    area = pi / 4 * (12**2 - 6.4**2)
    assert found["bearing_area"] == pytest.approx(area)
    assert found["bearing_pressure"] == pytest.approx(5000 / area)
    assert found["bearing_share"] == pytest.approx(100 * 5000 / area / 7.4)
    assert found["preload_allowed"] == pytest.approx(0.75 * 7.4 * area)
    assert found["torque_allowed"] == pytest.approx(0.2 * 0.75 * 7.4 * area * 6 / 1000)
    assert found["washer_that_bears"] == "none of the tables"
    wide = found["washer_outside_needed"]
    assert 0.75 * 7.4 * pi / 4 * (wide**2 - 6.4**2) == pytest.approx(5000)
    gentle = results("washer-bearing", designation="M6", preload="1000", species="white oak")
    assert gentle["washer_that_bears"] == "repair"
    assert (
        results("washer-bearing", designation="M6", preload="400", species="white oak")["washer_that_bears"]
        == "plain"
    )


def test_a_washer_that_crushes_or_dishes_is_minded():
    season = "Wood creeps and moves: tighten again after the first heating season."
    assert warnings(
        "washer-bearing", designation="M6", torque="6 N m", species="white oak", outside="25", thickness="1"
    ) == [
        "The washer presses with 10.9 MPa, 147 % of the 7.4 MPa that the wood bears: it crushes, and the joint goes "
        "loose. Use 3.1 N m at most.",
        "The washer is 1.00 mm thick; 25 mm wide it needs 1.25 mm, or it dishes and presses at its hole alone.",
        season,
    ]
    assert warnings("washer-bearing", designation="M6", torque="0.5 N m", species="white oak") == [season]


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({"torque": "6"}, "Give the species, such as white oak, or its strength across the grain in MPa."),
        ({"species": "white oak"}, "Give the torque or the preload."),
        ({"species": "white oak", "torque": "6", "preload": "600"}, "Give the torque or the preload, not both."),
        ({"species": "MDF", "torque": "6"}, "No strength across the grain is known for MDF; give the strength in MPa."),
        ({"species": "white oak", "torque": "6", "hole": "5"}, "A screw of 6 mm does not pass a hole of 5 mm."),
        ({"species": "white oak", "torque": "6", "inside": "5"},
         "A washer's hole lies between the screw of 6 mm and its own outside of 12 mm; 5 mm does not."),
        ({"species": "white oak", "torque": "6", "hole": "13"},
         "The hole of 13 mm leaves nothing of a washer of 12 mm to bear; give a larger washer."),
    ],
)  # fmt: skip
def test_washer_bearing_refuses(given, says):
    assert refusals("washer-bearing", designation="M6", **given) == [says]


@pytest.mark.parametrize(
    ("name", "given", "words"),
    [
        ("tightening-torque", {"designation": "M8", "grade": "8.8"}, ["preload, least", "11100 N", "proof load", "21200 N"]),
        ("thread-strip", {"designation": "M5", "engagement": "5", "bolt_grade": "8.8", "nut_material": "brass"},
         ["the bolt breaks", "11300 N", "the nut's thread strips"]),
        ("screw-twist-off", {"gauge": "8", "metal": "brass", "driving_torque": "1 N m"}, ["driving torque", "1 N m", "0.934 N m"]),
        ("grub-screw-hold", {"designation": "M4", "shaft": "6", "force": "600", "torque_needed": "1 N m"},
         ["held by friction", "0.72 N m", "asked of it"]),
        ("washer-bearing", {"designation": "M6", "torque": "6 N m", "species": "oak"}, ["pressure on the wood", "61.8 MPa", "7.4 MPa"]),
    ],
)  # fmt: skip
def test_pictures_say_the_numbers(name, given, words):
    found = find_calculator(name)
    (picture,) = pictures_of(found, given, answer(found, given))
    for svg in (picture.svg, picture.narrow):
        for each in words:
            assert each in svg
        assert svg.count("<desc>") == 1


def test_cautions_defer_to_codes_and_guard_the_eyes():
    for name in ("wood-screw-strength", "tightening-torque", "thread-strip", "washer-bearing"):
        said = " ".join(find_calculator(name).cautions)
        assert "not for lifting, people" in said
        assert "local codes" in said
    for name in ("tightening-torque", "screw-twist-off", "grub-screw-hold"):
        assert "eyes" in " ".join(find_calculator(name).cautions)


def test_the_working_of_a_torque_is_set_out_with_numbers_and_units():
    lines = [
        step.line
        for step in answer(
            find_calculator("tightening-torque"), {"designation": "M6", "torque": "6 N m"}
        ).working
    ]
    assert lines[0] == "F = T / (K d) = 6 N m / (0.2 x 6 mm) = 5000 N (Machinery's Handbook (from memory))"
    assert (
        lines[3]
        == "climbing the thread = F p / (2 pi) = 5000 N x 1 mm / (2 pi) = 0.795775 N m (ISO 16047 and VDI 2230 (from memory))"
    )


def test_the_lengths_of_a_stripping_thread_are_set_out():
    given = {
        "designation": "1/2-13 UNC",
        "engagement": "1 in",
        "bolt_strength": "120 ksi",
        "nut_strength": "60 ksi",
    }
    found = answer(find_calculator("thread-strip"), given)
    symbols = [step.symbol for step in found.working]
    assert symbols == [
        "break load", "K_n", "E_s", "D_s", "E_n", "A_bolt", "A_nut", "strip load, bolt", "strip load, nut", "engagement needed",
    ]  # fmt: skip
    assert found.results["engagement_needed"].value == pytest.approx(0.5052 * 25.4, abs=0.002)


def test_a_spread_of_the_torque_is_carried_to_the_preload():
    found = answer(find_calculator("tightening-torque"), {"designation": "M6", "torque": "6 ± 0.6 N m"})
    assert found.results["preload"].spread == pytest.approx(500)
