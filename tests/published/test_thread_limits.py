"""Limits of screw threads, wires for measuring them and room for plating, against tables as printed.

Sources, with what was read where:

- ISO 965 limits of 6g and 6h, M1 to M6: a tool maker's table, mastik.pt/wa_files/files/basic-html/page711.html.
- ASME B1.13M limits of 6h: amesweb.info/screws/metric-thread-chart.aspx.
- ISO 965 tolerances of the nut's pitch diameter: a tap maker's catalogue of 2021, "Comparison of pitch
  diameter tolerance", docs.steelcam.org/yamawa/obshij-katalog-yamawa-2021-page656.
- ASME B1.1 limits of 2A and 2B: efunda.com/DesignStandards/screws/unified.cfm; 5/8 in sizes:
  huatuo6.cn/wenku/rgsvc/oK0rbdV5Xb; 10-24 to 1-12: screw-thread-lib 0.0.6 (ASME B1.1-2019); 1/4-20:
  self-test values of an open Python library (commit 2a04bb02), asme.py.
- ASME B1.13M-2005 limits of 6H in inches: screw-thread-lib 0.0.6.
- BS 93:2008, Annex B, as quoted at jiaotongmap.com/bs-93-2008-pdf-free-download-british-association-b-a-
  screw-threads-requirements.html.
- BS 84:2007, Annex B, as quoted in a question at engineering.stackexchange.com/questions/60724.
- BS 84:2007 and BS 93:1951, tolerance formulas and allowance as an open thread-table generator gives them,
  docs/WHITWORTH_SPEC.md (commit 005801e3) and docs/BA_SPEC.md (commit 3a1fcf1c).
- Thread measuring wire formulas of a maker of gauges, scribd.com/document/582762296; ranges of wires:
  blog.threadcheck.com/2015/10; worked example: neme-s.org/images/PDF_Files/3WIRE.htm.
- ISO 4042, deviations for thick coatings: boltport.com/standards/iso-4042/guidance-on-procedures-that-may-
  be-adopted-to-accommodate-thick-coatings.
- ISO 965-2 limits of 6g and 6H, M6 to M24: from memory.

A limit printed to 0.001 mm is a basic size, rounded, and a tolerance, rounded: it is met to 0.001 mm. A
limit of ASME B1.1 is the sum of three terms, each rounded to 0.0001 in: it is met to 0.00015 in.
"""

import math

import pytest

from calculators.hardware.thread_limits import limits_of
from calculators.hardware.thread_plating import greatest_coating_mm, pitch_diameter_growth_mm
from calculators.hardware.thread_wires import (
    best_wire_mm,
    pitch_diameter_from_mm,
    reading_over_wires_mm,
    wire_range_mm,
)
from calculators.hardware.threads import find_thread

INCH = 25.4
SCREW = ("major most", "major least", "pitch most", "pitch least")
NUT = ("minor most", "minor least", "pitch most", "pitch least")


def screw_limits(name: str) -> dict[str, float]:
    limits = limits_of(find_thread(name))
    (least, most), (low, high) = limits.screw_major_mm, limits.screw_pitch_diameter_mm
    return dict(zip(SCREW, (most, least, high, low), strict=True))


def nut_limits(name: str) -> dict[str, float]:
    limits = limits_of(find_thread(name))
    (least, most), (low, high) = limits.nut_minor_mm, limits.nut_pitch_diameter_mm
    return dict(zip(NUT, (most, least, high, low), strict=True))


def cells(rows, names):
    return [
        pytest.param(row[0], name, printed, id=f"{row[0]} {name}")
        for row in rows
        for name, printed in zip(names, row[1:], strict=True)
        if printed is not None
    ]


ISO_SCREWS = (
    ("M1", 1.000, 0.933, 0.838, 0.785),
    ("M1.2", 1.200, 1.133, 1.038, 0.985),
    ("M1.4", 1.400, 1.325, 1.205, 1.149),
    ("M1.6", 1.581, 1.496, 1.354, 1.291),
    ("M1.8", 1.781, 1.696, 1.554, 1.491),
    ("M2", 1.981, 1.886, 1.721, 1.654),
    ("M2.5", 2.480, 2.380, 2.188, 2.117),
    ("M3", 2.980, 2.874, 2.655, 2.580),
    ("M3.5", 3.479, 3.354, 3.089, 3.004),
    ("M4", 3.978, 3.838, 3.523, 3.433),
    ("M5", 4.976, 4.826, 4.456, 4.361),
    ("M6", 5.974, 5.794, 5.324, 5.212),
)


@pytest.mark.parametrize(("name", "which", "printed"), cells(ISO_SCREWS, SCREW))
def test_iso_965_screws(published, name, which, printed):
    book = published("ISO 965 limits 6g and 6h, M1 to M6, a tool maker's table (mastik.pt page 711)")
    book.check(f"{name} {which}", screw_limits(name)[which], printed, 0.001, "mm")


TOLERANCES_6H = (
    ("M1.6", 1.600 - 1.515, 1.373 - 1.310),
    ("M2", 2.000 - 1.905, 1.740 - 1.673),
    ("M2.5", 2.500 - 2.400, 2.208 - 2.137),
    ("M3.5", 3.500 - 3.375, 3.110 - 3.025),
    ("M4", 4.000 - 3.860, 3.545 - 3.455),
    ("M5", 5.000 - 4.850, 4.480 - 4.385),
)


@pytest.mark.parametrize(("name", "which", "printed"), cells(TOLERANCES_6H, ("major", "pitch")))
def test_asme_b1_13m_tolerances_of_grade_6(published, name, which, printed):
    book = published("ASME B1.13M limits of 6h (amesweb.info metric thread chart)")
    limits = limits_of(find_thread(name))
    found = limits.screw_major_tolerance_mm if which == "major" else limits.screw_pitch_tolerance_mm
    book.check(f"{name} {which} tolerance", found, printed, 1e-6, "mm")


@pytest.mark.parametrize(
    ("name", "printed"),
    [("M1", 56), ("M1.1", 56), ("M1.2", 56), ("M1.6", 85), ("M1.8", 85), ("M2", 90), ("M2.5", 95),
     ("M3.5", 112), ("M4", 118), ("M4.5", 118), ("M5", 125)],
)  # fmt: skip
def test_iso_965_nuts_of_small_sizes(published, name, printed):
    book = published("ISO 965 tolerances of 5H (to M1.4) and 6H, a tap maker's catalogue of 2021, page 656")
    book.check(f"{name} TD2", 1000 * limits_of(find_thread(name)).nut_pitch_tolerance_mm, printed, 1e-6, "um")


ISO_FROM_MEMORY = (
    ("M8", 7.972, 7.760, 7.160, 7.042),
    ("M10", 9.968, 9.732, 8.994, 8.862),
    ("M12", 11.966, 11.701, 10.829, 10.679),
    ("M16", 15.962, 15.682, 14.663, 14.503),
    ("M20", 19.958, 19.623, 18.334, 18.164),
    ("M24", 23.952, 23.577, 22.003, 21.803),
)


@pytest.mark.parametrize(("name", "which", "printed"), cells(ISO_FROM_MEMORY, SCREW))
def test_iso_965_larger_screws(published, name, which, printed):
    book = published("ISO 965-2 limits of 6g, M8 to M24, from memory", confidence="memory")
    book.check(f"{name} {which}", screw_limits(name)[which], printed, 0.001, "mm")


NUTS_FROM_MEMORY = (
    ("M6", 5.153, 4.917, 5.500, 5.350),
    ("M8", 6.912, 6.647, 7.348, 7.188),
    ("M10", 8.676, 8.376, 9.206, 9.026),
    ("M12", 10.441, 10.106, 11.063, 10.863),
    ("M16", 14.210, 13.835, 14.913, 14.701),
    ("M20", 17.744, 17.294, 18.600, 18.376),
)


@pytest.mark.parametrize(("name", "which", "printed"), cells(NUTS_FROM_MEMORY, NUT))
def test_iso_965_nuts(published, name, which, printed):
    book = published("ISO 965-2 limits of 6H, M6 to M20, from memory", confidence="memory")
    book.check(f"{name} {which}", nut_limits(name)[which], printed, 0.001, "mm")


@pytest.mark.parametrize(
    ("name", "which", "printed"),
    cells((("M8", 0.27213, 0.26169, 0.28929, 0.28299), ("M24", 0.83669, 0.81701, 0.87858, 0.86815)), NUT),
)
def test_asme_b1_13m_nuts_in_inches(published, name, which, printed):
    """Worked out in the source from limits to 0.001 mm, hence 0.0005 mm and the last place."""
    book = published("ASME B1.13M-2005 limits of 6H in inches (screw-thread-lib 0.0.6)")
    book.check(f"{name} {which}", nut_limits(name)[which] / INCH, printed, 0.00003, "in")


UNIFIED_SCREWS = (
    ("0-80 UNF", 0.0595, 0.0563, 0.0514, 0.0496),
    ("1-64 UNC", 0.0724, 0.0686, 0.0623, 0.0603),
    ("1-72 UNF", 0.0724, 0.0689, 0.0634, 0.0615),
    ("2-56 UNC", 0.0854, 0.0813, 0.0738, 0.0717),
    ("2-64 UNF", 0.0854, 0.0816, 0.0753, 0.0733),
    ("3-48 UNC", 0.0983, 0.0938, 0.0848, 0.0825),
    ("10-24 UNC", 0.1890, 0.1818, 0.1619, 0.1586),
    ("1/4-28 UNF", 0.2490, 0.2425, 0.2258, 0.2225),
    ("1/4-20 UNC", None, None, 0.2164, 0.2127),
    ("5/8-11 UNC", 0.6234, 0.6113, None, None),
    ("5/8-18 UNF", 0.6236, 0.6149, None, None),
    ("5/8-24 UNEF", 0.6238, 0.6166, None, None),
    ("3/4-10 UNC", 0.7482, 0.7353, 0.6832, 0.6773),
    ("1-8 UNC", 0.9980, 0.9830, 0.9168, 0.9101),
    ("1-12 UNF", 0.9982, 0.9868, 0.9441, 0.9382),
)


@pytest.mark.parametrize(("name", "which", "printed"), cells(UNIFIED_SCREWS, SCREW))
def test_asme_b1_1_screws(published, name, which, printed):
    book = published(
        "ASME B1.1 limits of 2A (web table, screw-thread-lib 0.0.6, an open library's self-tests)"
    )
    book.check(f"{name} {which}", screw_limits(name)[which] / INCH, printed, 0.00015, "in")


UNIFIED_NUTS = (
    ("0-80 UNF", 0.0514, 0.0465, 0.0542, 0.0519),
    ("1-64 UNC", 0.0623, 0.0561, 0.0655, 0.0629),
    ("1-72 UNF", 0.0635, 0.0580, 0.0665, 0.0640),
    ("2-56 UNC", 0.0737, 0.0667, 0.0772, 0.0744),
    ("2-64 UNF", 0.0753, 0.0691, 0.0786, 0.0759),
    ("3-48 UNC", 0.0845, 0.0764, 0.0885, 0.0855),
    ("1/4-20 UNC", 0.2074, 0.1959, None, None),
    ("10-24 UNC", None, None, 0.1672, 0.1629),
    ("1/4-28 UNF", None, None, 0.2311, 0.2268),
    ("3/4-10 UNC", None, None, 0.6927, 0.6850),
    ("1-8 UNC", None, None, 0.9276, 0.9188),
    ("1-12 UNF", None, None, 0.9535, 0.9459),
)


@pytest.mark.parametrize(("name", "which", "printed"), cells(UNIFIED_NUTS, NUT))
def test_asme_b1_1_nuts(published, name, which, printed):
    book = published(
        "ASME B1.1 limits of 2B (web table, screw-thread-lib 0.0.6, an open library's self-tests)"
    )
    book.check(f"{name} {which}", nut_limits(name)[which] / INCH, printed, 0.00015, "in")


@pytest.mark.parametrize(
    ("name", "which", "printed"),
    cells(
        (("10-24 UNC", 0.155, 0.145), ("1/4-28 UNF", 0.220, 0.211), ("3/4-10 UNC", 0.663, 0.642),
         ("1-8 UNC", 0.890, 0.865), ("1-12 UNF", 0.928, 0.910)),
        NUT[:2],
    ),
)  # fmt: skip
def test_asme_b1_1_bores_to_three_places(published, name, which, printed):
    book = published("ASME B1.1-2019 minor diameters of 2B to 0.001 in (screw-thread-lib 0.0.6)")
    book.check(f"{name} {which}", nut_limits(name)[which] / INCH, printed, 0.0006, "in")


@pytest.mark.parametrize(
    ("name", "major", "nut_pitch", "nut_minor"),
    [("0 BA", 0.20, 0.12 + 0.03, 0.375), ("2 BA", 0.162, 0.1272, 0.30375), ("6 BA", 0.106, 0.0936, 0.19875),
     ("12 BA", 0.07, 0.0636, 0.105)],
)  # fmt: skip
def test_bs_93_formulas(published, name, major, nut_pitch, nut_minor):
    """B.4.1: 0.20 P to 10 BA, 0.25 P from 11 BA; B.3.2: 0.12 P + 0.03; B.5.2: 0.375 P; worked out by hand."""
    book = published("BS 93:2008, B.3.2, B.4.1 and B.5.2, as quoted at jiaotongmap.com")
    limits = limits_of(find_thread(name))
    book.check(f"{name} major", limits.screw_major_tolerance_mm, major, 1e-9, "mm")
    book.check(f"{name} nut pitch", limits.nut_pitch_tolerance_mm, nut_pitch, 1e-9, "mm")
    book.check(f"{name} nut minor", limits.nut_minor_tolerance_mm, nut_minor, 1e-9, "mm")


@pytest.mark.parametrize("name", ["0 BA", "2 BA", "10 BA"])
def test_bs_93_minor_tolerance_is_twice_that_of_the_pitch_diameter(published, name):
    """B.5.1 prints 0.20 P + 0.050 for the minor diameter of normal screws; 0.10 P + 0.025 is half of it."""
    book = published("BS 93:2008, B.5.1, as quoted at jiaotongmap.com")
    thread = find_thread(name)
    printed = 0.20 * thread.pitch_mm + 0.050
    book.check(f"{name} pitch", 2 * limits_of(thread).screw_pitch_tolerance_mm, printed, 1e-9, "mm")


@pytest.mark.parametrize("name", ["1/4 BSW", "1/2 BSW", "1 BSW", "3/16 BSF", "3/8 BSF"])
def test_bs_84_major_tolerance_is_that_of_the_pitch_diameter_and_a_hundredth_of_root_p(published, name):
    book = published("BS 84:2007, Annex B, as quoted at engineering.stackexchange.com/questions/60724")
    thread, limits = find_thread(name), limits_of(find_thread(name))
    more = (limits.screw_major_tolerance_mm - limits.screw_pitch_tolerance_mm) / INCH
    book.check(f"{name} major less pitch", more, 0.01 * math.sqrt(thread.pitch_mm / INCH), 1e-9, "in")


@pytest.mark.parametrize(
    ("name", "pitch", "major", "bore"),
    [("1/4 BSW", 0.0038779, 0.0061140, 0.017), ("1/2 BSW", 0.0051521, 0.0080389, 0.0236667),
     ("3/16 BSF", 0.0033276, 0.0050954, 0.01025), ("5/16 BSF", 0.0041003, 0.0062323, 0.0140909)],
)  # fmt: skip
def test_bs_84_formulas(published, name, pitch, major, bore):
    """Medium class: T = 0.002 D^(1/3) + 0.003 L^(1/2) + 0.005 p^(1/2), L = D, worked by hand.

    The bore of the nut: 0.2 p + 0.004 in from 26 to the inch, 0.005 at 24 and 22, 0.007 from 20.
    """
    book = published("BS 84:2007 tolerance formulas, open thread-table generator, docs/WHITWORTH_SPEC.md")
    limits = limits_of(find_thread(name))
    book.check(f"{name} effective", limits.screw_pitch_tolerance_mm / INCH, pitch, 1e-7, "in")
    book.check(f"{name} nut effective", limits.nut_pitch_tolerance_mm / INCH, pitch, 1e-7, "in")
    book.check(f"{name} major", limits.screw_major_tolerance_mm / INCH, major, 1e-7, "in")
    book.check(f"{name} bore", limits.nut_minor_tolerance_mm / INCH, bore, 1e-7, "in")


@pytest.mark.parametrize(
    ("name", "allowance", "pitch"),
    [
        ("0 BA", 0.025, 0.125),
        ("2 BA", 0.025, 0.106),
        ("10 BA", 0.025, 0.06),
        ("11 BA", 0, 0.056),
        ("16 BA", 0, 0.044),
    ],
)
def test_bs_93_allowance_and_pitch_diameter(published, name, allowance, pitch):
    """Normal bolts: 0.10 p + 0.025, worked by hand; an allowance of 0.025 mm from 0 to 10 BA."""
    book = published(
        "BS 93:1951 tolerance formulas and allowances, open thread-table generator, docs/BA_SPEC.md"
    )
    limits = limits_of(find_thread(name))
    book.check(f"{name} allowance", limits.allowance_mm, allowance, 1e-9, "mm")
    book.check(f"{name} effective", limits.screw_pitch_tolerance_mm, pitch, 1e-9, "mm")


@pytest.mark.parametrize(("angle", "printed"), [(60, 0.57735), (55, 0.56369), (47.5, 0.54626)])
def test_best_wires(published, angle, printed):
    book = published("Thread measuring wire formulas of a maker of gauges (scribd 582762296)")
    book.check(f"best wire at {angle}", best_wire_mm(1, angle), printed, 0.000006)


@pytest.mark.parametrize(
    ("angle", "of_wire", "of_pitch"), [(60, 3, 0.86603), (55, 3.16568, 0.96049), (47.5, 3.4829, 1.13634)]
)
def test_constants_of_the_three_wires(published, angle, of_wire, of_pitch):
    """E = M - (of_wire w - of_pitch p), the lead angle neglected, as that sheet says."""
    book = published("Thread measuring wire formulas of a maker of gauges (scribd 582762296)")
    book.check(f"wire at {angle}", reading_over_wires_mm(10, 1, 0, angle, lead=False) - 10, of_wire, 0.00006)
    book.check(
        f"pitch at {angle}", 10 - reading_over_wires_mm(10, 0, 1, angle, lead=False), of_pitch, 0.000006
    )


def test_ranges_of_wires(published):
    """The largest wire for 55 degrees is printed 0.82573 p: two places of 0.85273 have changed seats."""
    book = published("Range of measuring wires, blog.threadcheck.com/2015/10")
    metric, whitworth = find_thread("M6"), find_thread("1/2 BSW")
    least, most = wire_range_mm(metric)
    book.check("60 least", least / metric.pitch_mm, 0.505182, 0.000001)
    book.check("60 most", most / metric.pitch_mm, 1.010362, 0.000003)
    least, most = (each / whitworth.pitch_mm for each in wire_range_mm(whitworth))
    book.check("55 least", least, 0.50568, 0.00001)
    book.differs("55 most", round(most, 5), 0.82573, reason="misprint of 0.85273: figures changed places")


def test_wires_in_a_seven_sixteenths_thread(published):
    """7/16-14, wires 0.045 in: M = D + 3 W - 1.5155/N = 0.464 in (the lead angle neglected)."""
    book = published("Three wire thread measuring, worked example, neme-s.org")
    thread = find_thread("7/16-14")
    found = reading_over_wires_mm(thread.pitch_diameter_mm, 0.045 * INCH, thread.pitch_mm, 60, lead=False)
    book.check("M", found / INCH, 0.464, 0.0005, "in")


def test_wires_over_a_quarter_twenty(published):
    """1/4-20 2A, best wire 0.028868 in: M from 0.2560 to 0.2597 in (the lead angle neglected)."""
    book = published("ASME B1.1 limits of 1/4-20 2A, M = E + 3 W - 0.86603 P, open Python library (2a04bb02)")
    low, high = limits_of(find_thread("1/4-20")).screw_pitch_diameter_mm
    for size, printed in ((low, 0.2560), (high, 0.2597)):
        found = reading_over_wires_mm(size, 0.028868 * INCH, 1.27, 60, lead=False)
        book.check("M", found / INCH, printed, 0.0002, "in")
        book.check(
            "E", pitch_diameter_from_mm(found, 0.028868 * INCH, 1.27, 60, lead=False), size, 1e-9, "mm"
        )


def test_a_whitworth_reading_with_the_constant_of_60_degrees_is_wrong(published):
    """1 5/8 in, 11 to the inch: printed with three wires' diameters where 55 degrees wants 3.16568."""
    book = published("Whitworth three-wire verification, industrialmonitordirect.com")
    found = reading_over_wires_mm(1.566788, 0.055, 1 / 11, 55, lead=False)
    book.differs("M", round(found, 4), 1.6445, reason="3 W is for 60 degrees; W (1 + 1/sin 27.5) is 3.1657 W")
    book.check("what is wrong with it", found - 0.16568 * 0.055, 1.644471, 0.00001, "in")


@pytest.mark.parametrize(
    ("coating", "printed"),
    [(3, 12), (5, 20), (8, 32), (10, 40), (12, 48), (15, 60), (20, 80), (25, 100), (30, 120)],
)
def test_deviations_that_coatings_take(published, coating, printed):
    book = published("ISO 4042, least fundamental deviation for a local thickness (boltport.com)")
    book.check(f"{coating} um", 1000 * pitch_diameter_growth_mm(coating / 1000, 60), printed, 1e-9, "um")
    book.check(f"{printed} um of room", 1000 * greatest_coating_mm(printed / 1000, 60), coating, 1e-9, "um")
