"""Tightening, stripping, breaking torques and grub screws against standards' tables and worked examples.

Sources:
- Torque tables in open Python utilities plib (commit 2a04bb02), credited there to a supplier (SAE grades) and
  to engineeringtoolbox.com (metric): read; K and the share of proof are inferred from them.
- EN ISO 898-1 proof and ultimate loads by a supplier's table: read.
- FED-STD-H28/2B (1991) stress areas and stripping lengths of 1/2-13, as a general library works them: read.
- Machinery's Handbook 24th ed., formula for the length of engagement: read as quoted.
- Austenitic stainless fasteners, preload and tightening torque at friction 0.1, 0.2 and 0.3, and breaking
  torques of ISO 3506-1, by a supplier: read.
- ISO 898-7:1992 breaking torques; Alexander's curves; Shigley Table 7-4: from memory.
"""

import pytest

from calculators.calculation.answering import answer
from calculators.catalogue import find_calculator
from calculators.hardware.threads import find_thread
from calculators.materials import strength_of
from calculators.mechanics.bolts import combined_stress_mpa, preload_n, torque_parts
from calculators.mechanics.set_screws import holding_row, holding_torque_nm, point_row
from calculators.mechanics.stripping import alexander, shear_area_per_mm, stripping, widening
from calculators.mechanics.thread_extremes import thread_extremes
from calculators.mechanics.twisting import breaking_row, twist_off_most_nm, twist_off_nm

LBF_FT = 4.4482216152605 * 0.3048
KSI = 6.894757293168


def tightened(**given):
    return answer(find_calculator("tightening-torque"), given).results


@pytest.mark.parametrize(
    ("thread", "grade", "pounds_feet", "tolerance"),
    [("1/4-20", "SAE 5", 6.3, 0.04), ("5/16-18", "SAE 5", 13, 0.02), ("3/4-10", "SAE 5", 200, 0.02),
     ("1/2-13", "SAE 8", 80, 0.02), ("1/4-20", "SAE 2", 4, 0.04)],
)  # fmt: skip
def test_torques_of_sae_grades_slightly_oiled(published, thread, grade, pounds_feet, tolerance):
    book = published("SAE torque table in open Python utilities plib (commit 2a04bb02)")
    found = tightened(designation=thread, grade=grade, nut_factor="0.15", proof_fraction="75 %")[
        "torque"
    ].value
    book.check(f"{thread} {grade}", found / LBF_FT, pounds_feet, tolerance * pounds_feet, "lbf ft")


@pytest.mark.parametrize(
    ("thread", "grade", "newton_metres"),
    [("M8", "8.8", 28.8), ("M10", "8.8", 57.3), ("M20", "8.8", 500), ("M8", "9.8", 32.3)],
)
def test_torques_of_metric_classes(published, thread, grade, newton_metres):
    book = published("metric torque table in open Python utilities plib (commit 2a04bb02)")
    found = tightened(designation=thread, grade=grade, nut_factor="0.2", proof_fraction="0.85")[
        "torque"
    ].value
    book.check(f"{thread} {grade}", found, newton_metres, 0.01 * newton_metres, "N m")


@pytest.mark.parametrize(
    ("thread", "grade", "load"),
    [("M4", "8.8", 5100), ("M5", "8.8", 8230), ("M8", "8.8", 21200), ("M10", "8.8", 33700), ("M16", "8.8", 91000),
     ("M20", "8.8", 147000), ("M10", "10.9", 48100), ("M12", "12.9", 81800), ("M6", "4.6", 4520)],
)  # fmt: skip
def test_proof_loads(published, thread, grade, load):
    book = published("EN ISO 898-1, a supplier's table of proof loads")
    found = tightened(designation=thread, grade=grade)["proof_load"].value
    book.check(f"{thread} {grade}", found, load, 0.005 * load, "N")


@pytest.mark.parametrize(
    ("thread", "grade", "load"), [("M10", "10.9", 60300), ("M12", "12.9", 103000), ("M20", "8.8", 203000)]
)
def test_ultimate_loads(published, thread, grade, load):
    book = published("EN ISO 898-1, a supplier's table of ultimate loads")
    given = {"designation": thread, "engagement": "10 mm", "bolt_grade": grade, "nut_material": "steel"}
    found = answer(find_calculator("thread-strip"), given).results["break_load"].value
    book.check(f"{thread} {grade}", found, load, 0.005 * load, "N")


@pytest.mark.parametrize(
    ("given", "newton_metres", "tolerance"),
    [({"designation": "M5", "grade": "8.8"}, 6.2, 0.05),
     ({"designation": "2 BA", "grade": "brass", "proof_fraction": "60 %"}, 1.7, 0.05)],
)  # fmt: skip
def test_worked_torques_of_small_screws(published, given, newton_metres, tolerance):
    book = published("bench figures: how tight: worked figures", "common practice")
    book.check(given["designation"], tightened(**given)["torque"].value, newton_metres, tolerance, "N m")


HALF = find_thread("1/2-13 UNC")


def test_fed_std_h28_areas(published):
    book = published("FED-STD-H28/2B, 1/2-13 2A/2B, as a general library works it")
    screw, nut = (each / 25.4 for each in shear_area_per_mm(HALF, thread_extremes(HALF)))
    book.check("stress area, eq. 1a", HALF.tensile_stress_area_mm2 / 25.4**2, 0.14190, 0.00005, "in2")
    book.check("screw thread, eq. 4a", screw, 0.7789, 0.00005, "in2/in")
    book.check("nut thread, eq. 2a", nut, 1.1235, 0.00005, "in2/in")


@pytest.mark.parametrize(
    ("label", "screw_ksi", "nut_ksi", "length"),
    [("eq. 14, screw strips", 120, 120, 0.3643), ("eq. 16, nut strips", 120, 60, 0.5052)],
)
def test_fed_std_h28_lengths(published, label, screw_ksi, nut_ksi, length):
    book = published("FED-STD-H28/2B, 1/2-13 2A/2B, lengths of engagement")
    found = stripping(HALF, 25.4, screw_ksi * KSI, nut_ksi * KSI).needed_mm / 25.4
    book.check(label, found, length, 0.00005, "in")


def test_fed_std_h28_length_at_the_pitch_line(published):
    """Eq. 13: both threads of one strength shear at the pitch line, 4 A / (pi E)."""
    book = published("FED-STD-H28/2B, 1/2-13, eq. 13")
    found = 4 * HALF.tensile_stress_area_mm2 / (3.14159265 * HALF.pitch_diameter_mm) / 25.4
    book.check("eq. 13", found, 0.4015, 0.00005, "in")
    # It lies between the screw's own and the nut's at half the strength, as a bolt of 120 and nut of 60 ksi.
    assert stripping(HALF, 1, 800, 800).needed_mm < found * 25.4 < stripping(HALF, 1, 800, 400).needed_mm


def test_limits_of_the_example(published):
    book = published("ASME B1.1-2019 limits of 1/2-13 in a general library's tables")
    found = thread_extremes(HALF)
    book.check("K_n max", found.minor_nut_mm / 25.4, 0.434, 1e-9, "in")
    book.check("E_s min", found.pitch_screw_mm / 25.4, 0.4435, 1e-9, "in")
    quarter = thread_extremes(find_thread("1/4-20 UNC"))
    book.check("1/4-20 E_s min", quarter.pitch_screw_mm / 25.4, 0.2127, 0.0001, "in")
    book.check("1/4-20 K_n max", quarter.minor_nut_mm / 25.4, 0.2074, 0.0005, "in")


def test_the_handbook_formula_for_the_length_of_engagement(published):
    """Le = 2 At / (3.1416 Kn (1/2 + 0.57735 n (Es - Kn))) with the limits as printed, worked here apart."""
    book = published("Machinery's Handbook 24th ed. formula 1, as quoted")
    printed = 2 * 0.1419 / (3.1416 * 0.434 * (0.5 + 0.57735 * 13 * (0.4435 - 0.434)))
    book.check("1/2-13", stripping(HALF, 1, 800, 800).needed_mm / 25.4, printed, 0.0002, "in")
    book.check("as tabled", printed, 0.3643, 0.0037, "in")


@pytest.mark.parametrize(
    ("metal", "strength", "diameters"), [("mild steel", 430, 0.92), ("6082 at 290 MPa", 290, 1.36)]
)
def test_engagement_of_an_m5_bolt_by_von_mises_shear(published, metal, strength, diameters):
    book = published("bench figures: how much engagement: worked figures", "common practice")
    found = stripping(find_thread("M5"), 5, 800, strength, shear_share=0.577)
    book.check(metal, found.needed_mm / 5, diameters, 0.01, "D")
    book.check("break", found.break_n, 11300, 60, "N")


def test_washers_under_an_m6_bolt_on_oak(published):
    book = published("bench figures: washers on wood: worked figures", "common practice")
    book.check("preload", preload_n(6, 0.2, 6), 5000, 1, "N")
    calculator = find_calculator("washer-bearing")
    common = {"designation": "M6", "species": "white oak", "torque": "6 N m"}
    for label, more, printed, tolerance in (
        ("ISO 7089", {}, 62, 0.5), ("ISO 7093", {"washer": "repair"}, 22, 0.6),
        ("25 mm", {"outside": "25"}, 10.9, 0.05), ("25 mm, half", {"outside": "25", "torque": "3 N m"}, 5.5, 0.06),
    ):  # fmt: skip
        found = answer(calculator, {**common, **more}).results["bearing_pressure"].value
        book.check(label, found, printed, tolerance, "MPa")


@pytest.mark.parametrize(
    ("wood", "strength"),
    [
        ("white oak", 7.4),
        ("black walnut", 7.0),
        ("black cherry", 4.8),
        ("hard maple", 10.1),
        ("American beech", 7.0),
        ("Sitka spruce", 4.0),
    ],
)
def test_strength_across_the_grain(published, wood, strength):
    book = published("USDA Wood Handbook Table 5-3 as bench figures", confidence="memory")
    given = {"designation": "M6", "torque": "1 N m", "species": wood}
    found = answer(find_calculator("washer-bearing"), given).results["bearing_strength"].value
    book.check(wood, found, strength, 0, "MPa")


# Austenitic screws tightened to 90 % of the 0.2 % stress: size, across flats, hole (mm), then for each grade the
# preload (kN) and torque (N m) at friction 0.1, 0.2 and 0.3.
STAINLESS = [
    ("M5", 8, 5.3, {"A2-70": ((4.85, 3.4), (3.93, 5.1), (3.19, 6.1)), "A2-50": ((2.26, 1.6), (1.83, 2.4), (1.49, 2.8))}),
    ("M6", 10, 6.4, {"A2-70": ((6.85, 5.9), (5.54, 8.8), (4.49, 10.4)), "A2-50": ((3.2, 2.8), (2.59, 4.1), (2.09, 4.8))}),
    ("M8", 13, 8.4, {"A2-70": ((12.6, 14.5), (10.2, 21.4), (8.85, 25.5)), "A2-50": ((5.86, 6.8), (4.75, 10.1), (4.85, 11.9))}),
    ("M10", 17, 10.5, {"A2-70": ((20, 30), (16.2, 44), (13.1, 51)), "A2-50": ((9.32, 13.7), (7.58, 20.3), (6.14, 24))}),
    ("M12", 19, 13, {"A2-70": ((29.1, 50), (23.7, 74), (19.2, 88)), "A2-50": ((13.6, 23.6), (11.1, 34.8), (9, 41))}),
    ("M16", 24, 17, {"A2-70": ((55, 121), (44.9, 183), (36.4, 218)), "A2-50": ((25.7, 56), (20.9, 86), (17, 102))}),
]  # fmt: skip
CASES = [
    (size, flats, hole, grade, friction, *printed)
    for size, flats, hole, grades in STAINLESS
    for grade, rows in grades.items()
    for friction, printed in zip((0.1, 0.2, 0.3), rows, strict=True)
]
SUPPLIER = (
    "austenitic stainless fasteners (A1 or A2-50, A2-70), preload and torque by friction, a supplier's table"
)


def at_nine_tenths_of_yield(size, grade, friction, bearing):
    """The preload at which tension and twisting together reach 0.9 of the 0.2 % stress, and its torque."""
    thread = find_thread(size)

    def parts(force):
        sizes = (thread.pitch_mm, thread.pitch_diameter_mm, 60)
        return torque_parts(force, *sizes, friction, friction, bearing)

    unit = combined_stress_mpa(1.0, parts(1.0).shank_nm, thread.tensile_stress_area_mm2)[2]
    force = 0.9 * strength_of(grade, thread.major_mm).yield_mpa / unit
    return force / 1000, parts(force).total_nm


@pytest.mark.parametrize(("size", "flats", "hole", "grade", "friction", "kilonewtons", "torque"), CASES)
def test_stainless_screws_tightened_to_nine_tenths_of_yield(
    published, size, flats, hole, grade, friction, kilonewtons, torque
):
    book = published(SUPPLIER)
    force, turned = at_nine_tenths_of_yield(size, grade, friction, (flats + hole) / 2)
    label = f"{size} {grade} friction {friction}"
    if (size, friction) == ("M8", 0.3):
        reason = "misprint: its torque, and the row's other sizes, belong to 8.36 and 3.90 kN"
        book.differs(f"{label}, preload", force, kilonewtons, reason, 0.05 * kilonewtons)
    else:
        # two or three figures printed, and areas rounded
        book.check(f"{label}, preload", force, kilonewtons, 0.02 * kilonewtons, "kN")
    # two figures in places, and the face that turns is not stated: taken across flats and washer hole
    book.check(f"{label}, torque", turned, torque, 0.035 * torque, "N m")


@pytest.mark.parametrize(("friction", "kilonewtons"), [(0.1, 88.6), (0.2, 72.4), (0.3, 58.7)])
def test_m20_is_tabled_a_little_larger_throughout(published, friction, kilonewtons):
    book = published(SUPPLIER)
    force, _ = at_nine_tenths_of_yield("M20", "A2-70", friction, 25.5)
    reason = "all M20 figures are 2 to 3 % above the rule that the other sizes follow, as of 252 mm2 for 245"
    book.differs(f"M20 friction {friction}", force, kilonewtons, reason, 0.02 * kilonewtons)


@pytest.mark.parametrize(
    ("size", "torque"), [("M3", 1.5), ("M4", 3.6), ("M5", 7.6), ("M6", 13), ("M8", 33), ("M10", 66)]
)
def test_breaking_torques_of_8_8_lie_between_our_two(published, size, torque):
    """ISO 898-7 has 0.84 R_m pi d3^3 / 16 at the least core: 0.63 R_m by the fully plastic section."""
    book = published("ISO 898-7:1992 Table 2", confidence="memory")
    thread = find_thread(size)
    first = twist_off_nm(thread.core_diameter_mm, 0.6 * 800)
    most = twist_off_most_nm(thread.core_diameter_mm, 0.6 * 800)
    assert first < torque < most
    book.check(f"8.8 {size}", breaking_row("8.8", size).number("torque"), torque, 0, "N m")
    # by its own ratio, at the least core of 6g; how the standard rounds the root is not known
    least_core = thread_extremes(thread).pitch_screw_mm - thread.pitch_diameter_mm + thread.core_diameter_mm
    book.check(
        f"8.8 {size}, by its ratio", twist_off_nm(least_core, 0.84 * 800), torque, 0.07 * torque, "N m"
    )


@pytest.mark.parametrize("grade", ["A2-50", "A2-70", "A4-80"])
def test_breaking_torques_of_stainless_screws_grow_with_strength_and_cube(published, grade):
    book = published("ISO 3506-1 breaking torques, a supplier's table")
    printed = {"A2-50": (1.1, 5.5, 23, 80), "A2-70": (1.6, 7.8, 32, 110), "A4-80": (1.8, 8.8, 37, 130)}[grade]
    for size, torque in zip(("M3", "M5", "M8", "M12"), printed, strict=True):
        book.check(f"{grade} {size}", breaking_row(grade, size).number("torque"), torque, 0, "N m")
        first = twist_off_nm(find_thread(size).core_diameter_mm, 0.6 * strength_of(grade, 5).tensile_mpa)
        assert first < torque < 1.75 * first


@pytest.mark.parametrize(("number", "brass", "steel"), [("No. 4", 0.29, 0.56), ("No. 6", 0.55, 1.05)])
def test_small_brass_and_steel_wood_screws_twist_off(published, number, brass, steel):
    book = published("bench figures: brass screws in oak: worked figures", "common practice")
    for metal, printed in (("brass", brass), ("steel", steel)):
        given = {"gauge": number, "metal": metal}
        found = answer(find_calculator("screw-twist-off"), given).results["twist_off_torque"].value
        # two figures, and the shear strength of brass is about half that of steel
        book.check(f"{number} {metal}", found, printed, 0.03 * printed, "N m")


def test_alexanders_curves_join(published):
    book = published("Alexander, SAE 770420, the curves as VDI 2230 has them", confidence="memory")
    for ratio in (1.0, 1.0 + 1e-9, 1.0 - 1e-9):
        for value in alexander(ratio):
            book.check(f"R {ratio}", value, 0.897, 0.001)
    book.check("narrowest nut", widening(14, 10), 0.75, 1e-9)
    book.check("wide nut", widening(19, 10), 1.0, 1e-9)


def test_a_grub_screw_on_a_small_shaft(published):
    book = published("bench figures: grub screws: worked figure", "common practice")
    book.check(
        "M4, 600 N, 6 mm", holding_torque_nm(600, 6, point_row("cup").number("friction")), 0.7, 0.03, "N m"
    )


@pytest.mark.parametrize(
    ("point", "share"), [("cup", 1), ("cone", 1.07), ("flat", 0.92), ("dog", 0.92), ("oval", 0.90)]
)
def test_points_beside_the_cup(published, point, share):
    book = published("a maker's catalogue of socket screws, yumpu.com 46387953, page 23")
    book.check(point, point_row(point).number("share"), share, 0)


@pytest.mark.parametrize(
    ("size", "torque"),
    [("1/4", 87), ("5/16", 165), ("3/8", 290), ("1/2", 620), ("5/8", 1325), ("#4", 5), ("#6", 10)],
)
def test_seating_torques(published, size, torque):
    book = published("seating torques of socket set screws on two suppliers' pages")
    book.check(size, holding_row(size).number("torque"), torque, 0, "lbf in")


@pytest.mark.parametrize("size", ["#4", "#6", "#8", "#10", "1/4", "5/16", "3/8", "1/2"])
def test_friction_holds_less_than_the_tabled_power(published, size):
    """With K = 0.2 the tabled power is 0.5 to 0.7 of the point's force; we count on 0.4, on the safe side."""
    book = published("Shigley Table 7-4, holding power of cup points", confidence="memory")
    row = holding_row(size)
    diameter = 0.060 + 0.013 * int(size[1:]) if size.startswith("#") else fraction(size)
    force = row.number("torque") / (0.2 * diameter)
    ours = holding_torque_nm(force, 2, 0.25) * 1000
    book.check(size, ours / row.number("holding"), 0.72, 0.2)
    assert ours < row.number("holding")


def fraction(text):
    top, _, bottom = text.partition("/")
    return int(top) / int(bottom)
