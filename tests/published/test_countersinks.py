"""Depth of a countersink against ISO 10642.

Source: ISO 10642, hexagon socket countersunk head screws: theoretical sharp head diameter and greatest head
height k, as stated by open CAD part tables (iso10642def.csv), read. The standard's k is the height of the cone
from the sharp diameter to the thread's diameter, which is our depth with a hole of that diameter.
"""

from calculators.calculation.answering import answer
from calculators.catalogue import find_calculator

SHARP_HEADS = {4: (8.96, 2.48), 5: (11.2, 3.1), 6: (13.44, 3.72), 8: (17.92, 4.96)}


def test_head_heights_of_iso_10642(published):
    book = published("ISO 10642, as stated by open CAD part tables, iso10642def.csv")
    for size, (head, height) in SHARP_HEADS.items():
        given = {"head_diameter": head, "hole": size, "angle": 90}
        depth = answer(find_calculator("countersink"), given).results["depth"].value
        # Half of the last of the two printed places.
        book.check(f"M{size} k", depth, height, 0.005, "mm")
