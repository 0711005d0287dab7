"""Wood screws against charts as printed.

Sources (all in data/wood_screws_printed.csv):
- ASME rule: American screw gauge, open Python utilities plib (commit 2a04bb02) sizes.py and asme.py, read.
- ASME table: ANSI/ASME B18.6.1, open CAD part tables (commit ae90a869) asmeb18.6.1.2def.csv, read.
- second chart: wood screw chart of ASME B18.6.1 figures, paradisearticle.com, basic skills, read.
- British rule: furnituremaking.us/making-3/wood-screws.html, d = 0.066 + 0.014 (n - 1) inch, read.
- BS 1210: shank diameters, from memory.
- plate 6B: drills of a boat plan, glenlarchive.com wl60-bb-plate6b.html, read; no standard named.
- merchant, web chart: two merchants' charts, read; no standard named, their pitches are machine screws'.
- DIN 7996 against GOST 1144-1, open CAD part tables (commit ae90a869) gost1144def.csv, read.
"""

import csv
from pathlib import Path

from calculators.hardware.heads import head_of
from calculators.hardware.wood_screws import wood_screw
from calculators.tables import load

DATA = Path(__file__).parent / "data" / "wood_screws_printed.csv"


def chart(name):
    with DATA.open(encoding="utf-8") as file:
        return [row for row in csv.DictReader(file) if row["chart"] == name]


def test_american_shanks(published):
    for name, source in (
        ("ASME rule", "American screw gauge, open Python utilities plib (commit 2a04bb02)"),
        ("ASME table", "ANSI/ASME B18.6.1, open CAD part tables (commit ae90a869)"),
    ):
        book = published(source)
        for row in chart(name):
            # printed in mm to three places
            book.check(
                f"No. {row['number']}", wood_screw(row["number"]).shank_mm, row["shank_mm"], 0.0005, "mm"
            )


def test_heads_and_threads_against_a_second_chart(published):
    book = published("wood screw chart of ASME B18.6.1 figures, paradisearticle.com")
    for row in chart("second chart"):
        screw = wood_screw(row["number"])
        book.check(f"No. {screw.number} tpi", screw.threads_per_inch, row["tpi"], 0, "1/in")
        if screw.number == 0:
            book.differs("No. 0 head", screw.head_diameter_mm, row["head_mm"], "slip: .199 in for .119 in")
        else:
            book.check(f"No. {screw.number} head", screw.head_diameter_mm, row["head_mm"], 0.0005, "mm")


def test_british_shanks_and_heads(published):
    book = published("British screw gauge rule, furnituremaking.us/making-3/wood-screws.html")
    for row in chart("British rule"):
        screw = wood_screw(row["number"], "inch-british")
        book.check(f"No. {screw.number} shank", screw.shank_mm, row["shank_mm"], 0.0005, "mm")
        book.check(f"No. {screw.number} head", screw.head_diameter_mm, row["head_mm"], 0.0005, "mm")


def test_british_shanks_as_remembered(published):
    book = published("BS 1210:1963 shank diameters", confidence="memory")
    for row in chart("BS 1210"):
        screw = wood_screw(row["number"], "inch-british")
        if screw.number <= 2:
            book.differs(
                f"No. {screw.number}", screw.shank_mm, row["shank_mm"], "the rule bends below No. 3", 0.01
            )
        else:
            book.check(f"No. {screw.number}", screw.shank_mm, row["shank_mm"], 0.0055, "mm")


def test_clearance_drills_of_plate_6b(published):
    book = published("boat plan plate 6B, glenlarchive.com wl60-bb-plate6b.html")
    for row in chart("plate 6B"):
        screw = wood_screw(row["number"])
        # ours goes by 0.1 mm drills, the plate by number drills about 0.13 apart
        book.check(f"No. {screw.number}", screw.clearance_hole_mm, row["clearance_mm"], 0.13, "mm")


def test_charts_disagree_on_pilots(published):
    plate = published("boat plan plate 6B, glenlarchive.com wl60-bb-plate6b.html")
    web = published("a web wood screw chart (hardwood pilots)")
    reason = "charts disagree with 90 and 70 % of a root of 2/3 of the shank; the basis stands beside ours"
    for row in chart("plate 6B"):
        screw = wood_screw(row["number"])
        plate.differs(
            f"No. {screw.number} hardwood", screw.pilot_hardwood_mm, row["hardwood_mm"], reason, 0.05
        )
    for row in chart("web chart"):
        screw = wood_screw(row["number"])
        web.differs(f"No. {screw.number} hardwood", screw.pilot_hardwood_mm, row["hardwood_mm"], reason, 0.05)


def test_softwood_pilots_of_plate_6b(published):
    book = published("boat plan plate 6B, glenlarchive.com wl60-bb-plate6b.html")
    for row in chart("plate 6B"):
        screw = wood_screw(row["number"])
        name = f"No. {screw.number}"
        if screw.number <= 14:
            # the plate goes by number drills, which lie about 0.1 mm apart
            book.check(name, screw.pilot_softwood_mm, row["softwood_mm"], 0.1, "mm")
        else:
            reason = "the plate's large sizes are nearer 76 % of the root"
            book.differs(name, screw.pilot_softwood_mm, row["softwood_mm"], reason, 0.1)


def test_a_merchants_pitches_are_those_of_machine_screws(published):
    book = published("a fastener merchant's wood screw chart")
    for row in chart("merchant"):
        screw = wood_screw(row["number"])
        if screw.threads_per_inch is not None:
            book.differs(f"No. {screw.number} tpi", screw.threads_per_inch, row["tpi"], "machine-screw pitch")
        book.check(f"No. {screw.number} shank", screw.shank_mm, row["shank_mm"], 0.0005, "mm")


def test_metric_round_heads_and_cores(published):
    book = published("GOST 1144-1, open CAD part tables (commit ae90a869) gost1144def.csv")
    printed = {"2": (4, 1.4, 1.4), "2.5": (5, 1.7, 1.7), "3": (6, 2.1, 2.1), "3.5": (7, 2.4, 2.4),
               "4": (8, 2.8, 2.8), "5": (10, 3.5, 3.5), "6": (12, 4.2, 4.2), "8": (16, 5.6, 5.6)}  # fmt: skip
    for size, (wide, high, core) in printed.items():
        head = head_of("round", size, family="wood", series="metric")
        book.check(f"{size} head", head.diameter_mm, wide, 0, "mm")
        book.check(f"{size} core", wood_screw(size, "metric").root_mm, core, 1e-9, "mm")
        if size == "3.5":
            book.differs("3.5 height", head.height_mm, high, "DIN 7996 prints 2.35")
        else:
            book.check(f"{size} height", head.height_mm, high, 0, "mm")


def test_the_root_is_about_two_thirds_of_the_shank(published):
    """Wood Handbook ch. 8 says that the root of most sizes averages about two thirds of the shank."""
    book = published("USDA Wood Handbook ch. 8, by engineersedge.com wood screw page")
    for row in load("wood_screws").where("standard", "DIN 7996"):
        if row.has("root"):
            # 'about': within 5 % of the shank
            book.check(f"metric {row['size']}", row.number("root") / float(row["size"]), 2 / 3, 0.05)
