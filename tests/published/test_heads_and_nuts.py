"""Heads, nuts and washers against a second printing of the same standards.

Sources:
- bd-warehouse 0.4.0, an open library of parts, its tables of heads, nuts and washers (data/*.csv), read. It
  names the ISO standards but mixes withdrawn DIN figures among them; each such figure is listed as differing.
- DIN 933 (withdrawn), an open library of parts, data/hex.blt (commit f8c8ad83), read.
- British Standard Fine, wikimili.com/en/British_Standard_Fine, spanner jaws, read.
- ISO 2009, the theoretical sharp diameters of open CAD part tables (commit ae90a869), read, against the
  geometry of a 90 degree cone.
"""

import csv
from pathlib import Path

from calculators.hardware.heads import head_of
from calculators.hardware.nuts import nut_of
from calculators.hardware.washers import washer_of
from calculators.quantities.errors import InputError

DATA = Path(__file__).parent / "data"
LIBRARY = "bd-warehouse 0.4.0 data tables of heads, nuts and washers"
OLD_DIN_WIDTHS = {"M10": 17, "M12": 19, "M14": 22, "M22": 32}


def rows(standard, size_in=lambda size: True):
    with (DATA / "heads_parts_library.csv").open(encoding="utf-8") as file:
        return [row for row in csv.DictReader(file) if row["standard"] == standard and size_in(row["size"])]


def ours(find, *args):
    """Our size, or None where our table does not list it; a thread that is not made is not compared."""
    try:
        return find(*args)
    except InputError:
        return None


def test_cheese_and_pan_heads(published):
    book = published(LIBRARY)
    for standard, head, drive in (("ISO 1207", "cheese", ""), ("ISO 1580", "pan", "slotted")):
        for row in rows(standard):
            found = head_of(head, row["size"], drive=drive)
            book.check(f"{standard} {row['size']} dk", found.diameter_mm, row["diameter"], 0, "mm")
            book.check(f"{standard} {row['size']} k", found.height_mm, row["height"], 0, "mm")


def test_socket_cap_heads(published):
    book = published(LIBRARY)
    for row in rows("ISO 4762"):
        found = head_of("socket cap", row["size"])
        book.check(f"{row['size']} k", found.height_mm, row["height"], 0, "mm")
        # our socket is the middle of its limits, theirs the nominal width: up to 0.15 apart (14 to 17 mm)
        book.check(f"{row['size']} socket", found.socket_mm, row["flats"], 0.155, "mm")
        book.differs(
            f"{row['size']} dk", found.diameter_mm, row["diameter"], "dk of a knurled head, ours plain"
        )


def test_countersunk_heads_that_carry_on_in_din_963(published):
    book = published(LIBRARY)
    for row in rows("ISO 2009", lambda size: size in ("M12", "M14", "M16", "M18", "M20")):
        found = head_of("csk", row["size"])
        book.check(f"{row['size']} dk", found.diameter_mm, row["diameter"], 0, "mm")
    # both call these ISO 2009: M2, M2.5 and M1.6 agree, the others are the smaller DIN 963 heads
    for row in rows("ISO 2009", lambda size: size in ("M1.6", "M2", "M2.5")):
        book.check(f"{row['size']} dk", head_of("csk", row["size"]).diameter_mm, row["diameter"], 0, "mm")
    for row in rows("ISO 2009", lambda size: size in ("M3", "M3.5", "M4", "M5", "M6", "M8", "M10")):
        found = head_of("csk", row["size"])
        book.differs(
            f"{row['size']} dk", found.diameter_mm, row["diameter"], "DIN 963 figure under the name ISO 2009"
        )


def test_the_cone_of_iso_2009_ends_in_its_sharp_diameter(published):
    book = published(
        "ISO 2009, theoretical sharp diameters, open CAD part tables (commit ae90a869) iso2009def.csv"
    )
    printed = {"M1.6": 3.6, "M2": 4.4, "M2.5": 5.5, "M3": 6.3, "M3.5": 8.2, "M4": 9.4, "M5": 10.4, "M6": 12.6,
               "M8": 17.3, "M10": 20.0}  # fmt: skip
    middle = {"M1.6": 2.8, "M2": 3.6, "M2.5": 4.5, "M3": 5.3, "M3.5": 7.1, "M4": 8.2, "M5": 9.2, "M6": 11.2,
              "M8": 15.6, "M10": 18.1}  # fmt: skip
    for size, sharp in printed.items():
        found = head_of("csk", size)
        # a 90 degree cone is as high as it is wider on each side: dk = d + 2 k; k of M2.5 is rounded to 0.1
        book.check(f"{size} sharp", float(size[1:]) + 2 * found.height_mm, sharp, 0.05, "mm")
        # the greatest actual head (remembered) is half the head's tolerance above the middle (read)
        book.check(f"{size} actual", found.diameter_mm, middle[size], 0.201, "mm")


def test_hexagon_heads(published):
    book = published(LIBRARY)
    for row in rows("ISO 4014"):
        found = head_of("hex", row["size"])
        book.check(f"{row['size']} s", found.across_flats_mm, row["flats"], 0, "mm")
        if row["size"] in ("M1.6", "M2", "M2.5", "M3.5"):
            book.differs(
                f"{row['size']} k", found.height_mm, row["height"], "an upper limit, ours is nominal"
            )
        else:
            book.check(f"{row['size']} k", found.height_mm, row["height"], 0, "mm")


def test_hexagon_heads_of_din_933(published):
    book = published("DIN 933 (withdrawn), open parts library data/hex.blt (commit f8c8ad83)")
    with (DATA / "heads_din_933.csv").open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            if (found := ours(head_of, "hex", row["size"])) is None:
                assert row["size"] == "M7"
                continue
            book.check(f"{row['size']} k", found.height_mm, row["height"], 0, "mm")
            if row["size"] in OLD_DIN_WIDTHS:
                book.differs(f"{row['size']} s", found.across_flats_mm, row["flats"], "DIN width, ours ISO")
            else:
                book.check(f"{row['size']} s", found.across_flats_mm, row["flats"], 0, "mm")


def test_full_and_thin_nuts(published):
    book = published(LIBRARY)
    for row in rows("ISO 4032"):
        found = nut_of(row["size"])
        book.check(f"ISO 4032 {row['size']} m", found.height_mm, row["thickness"], 0, "mm")
        book.check(f"ISO 4032 {row['size']} s", found.across_flats_mm, row["flats"], 0, "mm")
    for row in rows("ISO 4035", lambda size: size != "M1.8"):
        found = nut_of(row["size"], "half")
        book.check(f"ISO 4035 {row['size']} m", found.height_mm, row["thickness"], 0, "mm")
        if row["size"] in OLD_DIN_WIDTHS:
            book.differs(f"ISO 4035 {row['size']} s", found.across_flats_mm, row["flats"], "width of DIN 439")
        else:
            book.check(f"ISO 4035 {row['size']} s", found.across_flats_mm, row["flats"], 0, "mm")


def test_washers(published):
    book = published(LIBRARY)
    for standard, form in (("ISO 7089", "plain"), ("ISO 7093", "repair")):
        for row in rows(standard):
            found = ours(washer_of, row["size"], form)
            if found is None:
                continue
            name = f"{standard} {row['size']}"
            book.check(f"{name} outside", found.outside_mm, row["diameter"], 0, "mm")
            if (standard, row["size"]) in {("ISO 7093", "M18"), ("ISO 7093", "M20"), ("ISO 7093", "M24")}:
                book.differs(f"{name} hole", found.inside_mm, row["hole"], "hole of grade C, ours grade A")
                book.differs(
                    f"{name} h max", found.thickness_max_mm, row["thickness"], "limit of grade C, ours A"
                )
                continue
            book.check(f"{name} hole", found.inside_mm, row["hole"], 0, "mm")
            if (standard, row["size"]) == ("ISO 7093", "M5"):
                book.differs(
                    f"{name} h max", found.thickness_max_mm, row["thickness"], "1.2 nominal there, 1.0 here"
                )
            else:
                book.check(f"{name} h max", found.thickness_max_mm, row["thickness"], 0, "mm")


def test_spanner_jaws_of_british_hexagons(published):
    book = published("wikimili.com/en/British_Standard_Fine, spanner jaws")
    jaws = {"1/4": 11.3, "5/16": 13.35, "3/8": 15.24, "7/16": 18.03, "1/2": 20.83, "9/16": 23.37, "5/8": 25.65,
            "3/4": 30.48, "7/8": 33.02, "1": 37.59}  # fmt: skip
    for size, jaw in jaws.items():
        # the jaw is the greatest width across flats; 5/16 is printed rounded up to 13.35
        book.check(f"{size} BSF", head_of("hex", f"{size} BSF").across_flats_mm, jaw, 0.016, "mm")
        book.check(f"{size} BSF nut", nut_of(f"{size} BSF").across_flats_mm, jaw, 0.016, "mm")
