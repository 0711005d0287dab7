"""Wire and sheet gauges against tables as printed.

Sources:
- Machinery's Handbook, 31st edition, p. 1453, Table 20, sheet gauge conversion chart (steel; aluminium and
  brass), inch columns, numbers 3 to 22, read from the publisher's page viewer. Three printed inch values
  disagree with their own millimetres; the one that concerns the gauges here is listed as differing.
- American wire gauge, four-place table of sizes.com/materials/wire.htm, as stated by an open Python
  utilities library (gauge_sizes.py), read.
- SWG in inches, ministeam.net page30, read; its number 20 is listed as differing.
- SWG in inches, engineeringtoolbox.com/swg-standard-wire-gauge-d_1779.html, all 57 numbers, read. The first
  table of the data prints 0.0149 for No. 28 where this and the one before have 0.0148.
"""

from calculators.quantities.gauges import gauge, gauges_of

# Half of the last printed place of an inch table of four places.
HALF_PLACE = 0.00005

HANDBOOK_STEEL = {
    3: 0.2391, 4: 0.2242, 5: 0.2092, 6: 0.1943, 7: 0.1793, 8: 0.1644, 9: 0.1495, 11: 0.1196, 12: 0.1046,
    13: 0.0897, 14: 0.0747, 15: 0.0673, 16: 0.0598, 17: 0.0538, 18: 0.0478, 19: 0.0418, 20: 0.0359,
    21: 0.0329, 22: 0.0299,
}  # fmt: skip
HANDBOOK_BRASS = {
    3: 0.2294, 4: 0.2043, 5: 0.1819, 6: 0.1620, 7: 0.1443, 8: 0.1285, 9: 0.1144, 10: 0.1019, 11: 0.0907,
    12: 0.0808, 13: 0.0720, 14: 0.0641, 15: 0.0571, 16: 0.0508, 17: 0.0453, 18: 0.0403, 19: 0.0359,
    20: 0.0320, 21: 0.0285, 22: 0.0253,
}  # fmt: skip
AMERICAN_WIRE = {
    "3/0": 0.4096, "3": 0.2294, "5": 0.1819, "7": 0.1443, "8": 0.1285, "9": 0.1144, "12": 0.0808,
    "13": 0.072, "15": 0.0571, "19": 0.0359, "20": 0.032, "22": 0.0253, "23": 0.0226, "24": 0.0201,
    "25": 0.0179, "27": 0.0142, "28": 0.0126, "30": 0.01, "32": 0.008,
}  # fmt: skip
SHEET_OF_BRASS = {
    23: 0.0226, 24: 0.0201, 25: 0.0179, 26: 0.0159, 27: 0.0142, 28: 0.0126, 29: 0.0113, 30: 0.01,
    31: 0.0089, 32: 0.008, 33: 0.0071, 34: 0.0063, 35: 0.0056,
}  # fmt: skip
TOOLBOX_SWG = {
    "7/0": 0.5, "6/0": 0.464, "5/0": 0.432, "4/0": 0.4, "3/0": 0.372, "2/0": 0.348, "0": 0.324, "1": 0.3,
    "2": 0.276, "3": 0.252, "4": 0.232, "5": 0.212, "6": 0.192, "7": 0.176, "8": 0.16, "9": 0.144, "10": 0.128,
    "11": 0.116, "12": 0.104, "13": 0.092, "14": 0.08, "15": 0.072, "16": 0.064, "17": 0.056, "18": 0.048,
    "19": 0.04, "20": 0.036, "21": 0.032, "22": 0.028, "23": 0.024, "24": 0.022, "25": 0.02, "26": 0.018,
    "27": 0.0164, "28": 0.0148, "29": 0.0136, "30": 0.0124, "31": 0.0116, "32": 0.0108, "33": 0.01,
    "34": 0.0092, "35": 0.0084, "36": 0.0076, "37": 0.0068, "38": 0.006, "39": 0.0052, "40": 0.0048,
    "41": 0.0044, "42": 0.004, "43": 0.0036, "44": 0.0032, "45": 0.0028, "46": 0.0024, "47": 0.002,
    "48": 0.0016, "49": 0.0012, "50": 0.001,
}  # fmt: skip
MINISTEAM_SWG = {10: 0.128, 13: 0.092, 16: 0.064, 18: 0.048, 22: 0.028, 24: 0.022, 26: 0.018}


def test_steel_sheet_of_the_handbook(published):
    book = published("Machinery's Handbook, 31st edition, p. 1453, Table 20")
    for number, inches in HANDBOOK_STEEL.items():
        book.check(f"steel {number}", float(gauge("us-steel", number).inches), inches, 0, "in")
    book.differs(
        "steel 10",
        float(gauge("us-steel", 10).inches),
        0.1395,
        reason="misprint: the same line gives 3.416 mm, which is 0.1345 in",
    )
    book.check("steel 10 in mm", gauge("us-steel", 10).thickness_mm, 3.416, 0.0005, "mm")


def test_brass_sheet_of_the_handbook_by_the_formula(published):
    book = published("Machinery's Handbook, 31st edition, p. 1453, Table 20")
    for number, inches in HANDBOOK_BRASS.items():
        book.check(f"brass {number}", float(gauge("brown-sharpe", number).inches), inches, HALF_PLACE, "in")


def test_american_wire_by_the_formula(published):
    book = published("AWG 4-place table, sizes.com/materials/wire.htm by an open Python utilities library")
    for number, inches in AMERICAN_WIRE.items():
        book.check(f"AWG {number}", float(gauge("brown-sharpe", number).inches), inches, HALF_PLACE, "in")


def test_thin_brass_sheet_by_the_formula(published):
    book = published(
        "B&S gauge for non-ferrous sheet, R. Rowlett's table by an open Python utilities library"
    )
    for number, inches in SHEET_OF_BRASS.items():
        book.check(f"B&S {number}", float(gauge("brown-sharpe", number).inches), inches, HALF_PLACE, "in")


def test_ends_of_the_formula_from_memory(published):
    book = published("ASTM B258: 4/0 is 0.4600 in and 36 is 0.0050 in by definition", confidence="memory")
    book.check("4/0", float(gauge("brown-sharpe", "4/0").inches), 0.46, 0, "in")
    book.check("36", float(gauge("brown-sharpe", 36).inches), 0.005, 0, "in")


def test_imperial_standard_of_a_second_table(published):
    book = published("SWG in inches, ministeam.net page 30")
    for number, inches in MINISTEAM_SWG.items():
        book.check(f"SWG {number}", float(gauge("imperial-standard", number).inches), inches, 0, "in")
    twenty = float(gauge("imperial-standard", 20).inches)
    book.differs("SWG 20", twenty, 0.038, reason="slip: 0.036 in in every other source")
    book.check("SWG 28", float(gauge("imperial-standard", 28).inches), 0.0148, 0, "in")


def test_imperial_standard_of_a_third_table_from_end_to_end(published):
    book = published("SWG in inches, engineeringtoolbox.com SWG - Standard Wire Gauge")
    for number, inches in TOOLBOX_SWG.items():
        book.check(f"SWG {number}", float(gauge("imperial-standard", number).inches), inches, 0, "in")


def test_number_twenty_of_each_gauge_as_a_worked_example(published):
    book = published("sheet gauge worked example: number 20 of the manufacturers' standard, MH31 p. 1453")
    book.check("20 MSG in inches", float(gauge("us-steel", 20).inches), 0.0359, 0.0001, "in")
    book.check("20 MSG in mm", gauge("us-steel", 20).thickness_mm, 0.912, 0.0005, "mm")


def test_the_imperial_standard_falls_by_fixed_steps():
    """A second opinion on every row: from 7/0 to 26 each number is a whole multiple of 0.002 in."""
    rows = list(gauges_of("imperial-standard").values())
    coarse = rows[: [one.number for one in rows].index("26") + 1]
    assert len(coarse) == 33
    assert all(one.inches * 500 % 1 == 0 for one in coarse)
