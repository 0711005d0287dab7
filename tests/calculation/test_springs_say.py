"""What the spring calculators answer and how they refuse.

The expected numbers are worked out here from the formulas by hand, or follow from round inputs.
"""

import math

import pytest

from calculators.calculation.answering import answer, as_text, pictures_of
from calculators.catalogue import find_calculator
from calculators.declared.spring import CAUTION, GUIDE
from calculators.quantities.errors import InputError

PRESSED = {
    "wire": "2 mm", "mean_diameter": "16 mm", "active_coils": "8", "material": "en-10270-1-sh", "free_length": "50 mm",
}  # fmt: skip
PULLED = {
    "kind": "extension", "wire": "1 mm", "mean_diameter": "8 mm", "total_coils": "20", "material": "music-wire",
    "initial_tension": "5 N",
}  # fmt: skip
WOUND = {
    "kind": "torsion",
    "wire": "2 mm",
    "mean_diameter": "16 mm",
    "active_coils": "8",
    "material": "en-10270-1-sh",
}
# k = G d^4/(8 D^3 n) = 81 500 x 16/(8 x 4096 x 8)
RATE = 81_500 * 16 / (8 * 4096 * 8)


def worked(name, base, **change):
    given = {key: value for key, value in {**base, **change}.items() if value is not None}
    return answer(find_calculator(name), given)


def values(found):
    return {name: one.value for name, one in found.results.items()}


def warned(found):
    return [says for says in found.warnings if says not in (CAUTION, GUIDE)]


def refused(name, base, **change):
    with pytest.raises(InputError) as caught:
        worked(name, base, **change)
    return [fault.says for fault in caught.value.faults]


def test_a_compression_spring_at_work():
    found = worked("spring", PRESSED, working_length="35 mm")
    assert values(found) | {
        "rate": pytest.approx(RATE, rel=1e-11), "load": pytest.approx(15 * RATE, rel=1e-11),
        "solid_length": 20, "buckles": False, "working_travel": 15, "travel_left": 15, "travel_left_percent": 50,
        "spring_index": 8, "outside_diameter": 18, "inside_diameter": 14, "total_coils": 10, "coil_pitch": 5.75,
        "solid_load": pytest.approx(30 * RATE, rel=1e-11), "slenderness": 1.5625,
    } == values(found)  # fmt: skip
    # K = 31/28 + 0.615/8; tau = K 8 F D/(pi d^3); R_m = 2220 - 820 lg 2, of which 45 % may be borne.
    stress = (31 / 28 + 0.615 / 8) * 8 * 15 * RATE * 16 / (math.pi * 8)
    limit = 0.45 * (2220 - 820 * math.log10(2))
    assert values(found)["stress"] == pytest.approx(stress)
    assert values(found)["stress_share"] == pytest.approx(100 * stress / limit)
    assert values(found)["stress_factor_name"] == "Wahl"
    assert found.warnings[-2:] == (CAUTION, GUIDE)


def test_the_units_of_the_three_kinds():
    assert worked("spring", PRESSED).results["rate"].unit == "N/mm"
    assert worked("spring", PULLED).results["rate"].unit == "N/mm"
    assert worked("spring", WOUND).results["rate"].unit == "N mm/deg"


def test_the_factor_is_named_and_changes_the_stress():
    stress = {
        factor: values(worked("spring", PRESSED, working_length="35", factor=factor))["stress"]
        for factor in ("wahl", "bergstrasser", "en-13906")
    }
    assert stress["bergstrasser"] == stress["en-13906"]
    assert stress["wahl"] / stress["en-13906"] == pytest.approx((31 / 28 + 0.615 / 8) / (34 / 29))
    sources = worked("spring", PRESSED, factor="en-13906").sources
    assert "stress: factor of EN 13906-1, the same as Bergsträsser's" in sources


@pytest.mark.parametrize(
    ("change", "same"),
    [
        ({"mean_diameter": None, "outside_diameter": "18 mm"}, {}),
        ({"mean_diameter": None, "inside_diameter": "14 mm"}, {}),
        ({"active_coils": None, "total_coils": "10"}, {}),
        ({"material": None, "shear_modulus": "81.5 GPa"}, {}),
        ({"material": "sh"}, {}),
    ],
    ids=str,
)
def test_the_same_spring_said_otherwise_has_the_same_rate(change, same):
    assert values(worked("spring", PRESSED, **change))["rate"] == pytest.approx(RATE)


def test_with_neither_length_it_gives_what_is_known():
    found = values(worked("spring", PRESSED, free_length=None))
    assert found["rate"] == pytest.approx(RATE)
    assert found["solid_length"] == 20
    assert "load" not in found


def test_spread_of_the_wire_goes_into_the_rate_four_times():
    found = worked("spring", PRESSED, wire="2 ± 0.01 mm").results["rate"]
    assert found.spread / found.value == pytest.approx(4 * 0.005, rel=1e-3)


def test_the_rate_when_something_is_off():
    rows = values(
        worked("spring", PRESSED, wire_tolerance="0.02", diameter_tolerance="0.16", coils_tolerance="1")
    )
    assert rows["sensitivity"] == [
        {"name": "wire", "off_by": "0.02 mm",
         "rate_percent_if_less": pytest.approx(100 * (0.99**4 - 1)), "rate_percent_if_more": pytest.approx(100 * (1.01**4 - 1))},
        {"name": "mean diameter", "off_by": "0.16 mm",
         "rate_percent_if_less": pytest.approx(100 * (0.99**-3 - 1)), "rate_percent_if_more": pytest.approx(100 * (1.01**-3 - 1))},
        {"name": "active coils", "off_by": "1",
         "rate_percent_if_less": pytest.approx(100 * (8 / 7 - 1)), "rate_percent_if_more": pytest.approx(100 * (8 / 9 - 1))},
    ]  # fmt: skip


SOLID = (
    "Pressed solid it comes to 899.89 MPa, over the 887.92 MPa that the wire may bear: it takes a set if the coils "
    "ever close."
)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"working_length": "35"}, [SOLID]),
        ({"working_length": "22"}, [
            "The stress is at 94.591 % of its limit; little is in hand.",
            "Only 6.6667 % of the travel is left before the coils close; leave 10 % or more.", SOLID,
        ]),
        ({"working_length": "42", "travel": "10"}, [
            "It goes slack: it is set by 8 mm and moves 10 mm back; set it by 12 mm (1.2 times the movement) or more.", SOLID,
        ]),
        ({"working_length": "39", "travel": "10"}, [
            "It nearly goes slack: it is set by 11 mm and moves 10 mm back; set it by 12 mm (1.2 times the movement) or more.",
            SOLID,
        ]),
        ({"working_length": "30", "travel": "10"}, [
            "It goes solid: it moves 10 mm further and only 10 mm of travel are left.", SOLID,
        ]),
        ({"free_length": None, "mean_diameter": "40"}, [
            "The index D/d is 20, outside the usual 4 to 12: hardly any winder can make it.",
        ]),
        ({"free_length": None, "mean_diameter": "7"}, [
            "The index D/d is 3.5, outside the usual 4 to 12: it is hard to wind and to keep true.",
        ]),
        ({"free_length": None, "active_coils": "1.5"}, [
            "With 1.5 active coils the rate is uncertain; two or more are usual.",
        ]),
        ({"material": None, "shear_modulus": "80 GPa", "working_length": "35"}, [
            "No material is named, so the stress has no limit here; write a material or tensile_strength.",
        ]),
        ({"material": "beryllium-copper", "working_length": "35"}, [
            "No strength is listed for beryllium-copper, which depends on its temper; write a tensile_strength.",
        ]),
        ({"material": "music-wire", "wire": "8", "mean_diameter": "60", "free_length": "160", "working_length": "150"}, [
            "No strength is listed for music-wire of this diameter (it is for 0.1 to 6.5 mm); write a tensile_strength.",
        ]),
    ],
)  # fmt: skip
def test_a_compression_spring_warns(change, says):
    assert warned(worked("spring", PRESSED, **change)) == says


def test_a_long_spring_buckles_unless_it_is_guided():
    free = worked("spring", PRESSED, free_length="120", working_length="90")
    assert values(free)["buckles"] is True
    critical = values(free)["critical_travel"]
    assert (
        f"It buckles at a travel of {critical:.3f} mm and is pressed by 30 mm: guide it over a rod or in a bore, or "
        "take a shorter or wider spring."
    ) in free.warnings
    guided = worked("spring", PRESSED, free_length="120", working_length="90", guided="yes")
    assert guided.results["buckles"].shown == "no: it is guided"
    assert guided.results["buckles"].value is False
    hardly = worked("spring", PRESSED, free_length="120", working_length="95")
    assert values(hardly)["buckles"] is False
    pivoted = worked("spring", PRESSED, free_length="120", working_length="95", seating="both-pivoted")
    assert values(pivoted)["buckles"] is True


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"working_length": "19"}, "The spring is solid at 20 mm, before it comes to 19 mm; write a working length from 20 to 50 mm."),
        ({"working_length": "51"}, "A compression spring of 50 mm cannot work at 51 mm; write a working length from 20 to 50 mm."),
        ({"free_length": "20"}, "The free length of 20 mm is not over the solid length of 20 mm; write a longer one, thinner wire or fewer coils."),
        ({"free_length": None, "working_length": "30"}, "The input free_length is missing; without it the load at a working length is not known."),
        ({"mean_diameter": "2"}, "A mean diameter of 2 mm cannot be wound of wire of 2 mm; write one over 2 and up to 1000 mm."),
        ({"mean_diameter": None, "outside_diameter": "4"}, "An outside diameter of 4 mm cannot be wound of wire of 2 mm; write one over 4 mm."),
        ({"outside_diameter": "18"}, "Write one of mean_diameter, outside_diameter and inside_diameter; mean_diameter and outside_diameter are given."),
        ({"mean_diameter": None}, "Write one of mean_diameter, outside_diameter and inside_diameter; none is given."),
        ({"wire": "-1"}, "'-1' is below the least allowed here; write a length of at least 0.02 mm."),
        ({"wire": "2 N"}, None),
        ({"active_coils": "-1"}, "'-1' is too little; write more than 0."),
        ({"active_coils": None}, "Write one of active_coils and total_coils; neither is given."),
        ({"total_coils": "10"}, "Write one of active_coils and total_coils; both are given."),
        ({"active_coils": None, "total_coils": "2"}, "That leaves 0 active coils, since ends that are closed and ground take 2 coils; write more coils."),
        ({"material": None}, "Nothing says how stiff the wire is; write its material, or its shear_modulus."),
        ({"ends": "half-hook"}, "A spring of kind compression has no ends half-hook; write one of closed-and-ground, closed, open-and-ground, open."),
        ({"shear_modulus": "300 GPa"}, "The shear modulus of 300 GPa is not under the modulus of 206 GPa; for metals it is about 0.38 of it."),
        ({"free_length": "50 N"}, None),
    ],
    ids=str,
)  # fmt: skip
def test_a_compression_spring_refuses(change, says):
    found = refused("spring", PRESSED, **change)
    assert len(found) == 1
    assert says is None or found == [says]


def test_inputs_of_another_kind_are_refused_each():
    assert refused("spring", PRESSED, initial_tension="3 N", working_angle="4 deg") == [
        "The input initial_tension is of no use for a spring of kind compression; it is for extension.",
        "The input working_angle is of no use for a spring of kind compression; it is for torsion.",
    ]
    assert refused("spring", WOUND, working_length="10") == [
        "The input working_length is of no use for a spring of kind torsion; it is for compression and extension."
    ]


def test_an_extension_spring_at_work():
    """Body 20 coils and one wire, 21 mm; hooks of 7 mm inside each: 35 mm; G/E = 81.7/200 more coils."""
    found = values(worked("spring", PULLED, working_length="45 mm"))
    rate = 81_700 / (8 * 512 * (20 + 81.7 / 200))
    assert found["solid_length"] == 21
    assert found["free_length"] == 35
    assert found["rate"] == pytest.approx(rate)
    assert found["load"] == pytest.approx(5 + 10 * rate)
    assert found["buckles"] is False
    assert found["longest_length"] > 45
    assert found["hook_bending_stress"] > found["stress"]


FREE = "No free length was given: 35 mm inside the hooks is reckoned, with loops of the coil's size."


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"working_length": "30"}, [FREE, "It is slack: it works at 30 mm and is 35 mm long without load."]),
        ({"working_length": "45", "travel": "10"}, [
            FREE,
            "It goes slack: it is set by 10 mm and moves 10 mm back; set it by 12 mm (1.2 times the movement) or more.",
        ]),
        ({"working_length": "42", "travel": "6"}, [
            FREE,
            "It nearly goes slack: it is set by 7 mm and moves 6 mm back; set it by 7.2 mm (1.2 times the movement) or more.",
        ]),
        ({"free_length": "35", "initial_tension": "20", "working_length": "40"}, [
            "The initial tension of 20 N is outside the 3.801 to 5.9895 N that is usually wound at this index.",
        ]),
        ({"free_length": "35", "initial_tension": None}, [
            "No initial tension was given, so none is reckoned; a close-wound spring of this index usually has 3.801 to 5.9895 N.",
        ]),
        ({"free_length": "35", "working_length": "40", "ends": "side-hook"}, [
            "A hook at the side pulls off the axis: the stress in the body rises towards twice that given.",
        ]),
    ],
)  # fmt: skip
def test_an_extension_spring_warns(change, says):
    assert warned(worked("spring", PULLED, **change)) == says


def test_an_overstretched_extension_spring_warns_of_body_and_hooks():
    found = warned(worked("spring", PULLED, free_length="35", working_length="90"))
    assert [says.split(":")[0].split(" of ")[0] for says in found] == [
        "The stress", "The hook is over its limit in bending", "The hook is over its limit in torsion",
    ]  # fmt: skip
    further = warned(worked("spring", PULLED, free_length="35", working_length="60", travel="20"))
    assert further[-1].endswith("which overstretches the body.")


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"free_length": "20"}, "The free length of 20 mm is under the 21 mm of the closed body; write the length inside the hooks, thinner wire or fewer coils."),
        ({"total_coils": None, "active_coils": "0.3"}, "That leaves -0.1085 total coils, since the hooks count as 0.4085 coils; write more coils."),
        ({"hook_bend_radius": "0.5", "working_length": "45"}, "A hook bend radius of 0.5 mm is too sharp for wire of 1 mm; write 0.75 mm or more, to the middle of the wire."),
        ({"initial_tension": "-1"}, "'-1' is below the least allowed here; write at least 0 N."),
    ],
    ids=str,
)  # fmt: skip
def test_an_extension_spring_refuses(change, says):
    assert refused("spring", PULLED, **change) == [says]


def test_a_torsion_spring_at_work():
    found = values(worked("spring", WOUND, working_angle="90 deg", arm="25 mm", mandrel="12 mm"))
    rate = 206_000 * 16 / (64 * 16 * 8) * math.pi / 180
    assert found["rate"] == pytest.approx(rate)
    assert found["winding_moment"] == pytest.approx(90 * rate)
    assert found["load"] == pytest.approx(90 * rate / 25)
    # K_i = (4 x 64 - 8 - 1)/(4 x 8 x 7) = 247/224
    assert found["stress"] == pytest.approx(247 / 224 * 32 * 90 * rate / (math.pi * 8))
    assert found["inside_diameter_wound"] == pytest.approx(16 * 8 / 8.25 - 2)
    assert found["mandrel_clearance"] == pytest.approx(16 * 8 / 8.25 - 14)
    assert found["wound_length"] == pytest.approx(18.5)
    assert found["turns"] == 0.25
    assert found["buckles"] is None


def test_a_torsion_spring_warns_and_refuses():
    assert warned(worked("spring", WOUND, working_angle="60", mandrel="13.6"))[0] == (
        "Only 0.073469 mm of room is left about the rod; it may bind."
    )
    assert warned(worked("spring", WOUND, working_angle="100", mandrel="13.6"))[0].startswith(
        "It binds on the rod"
    )
    assert refused("spring", WOUND, mandrel="14") == [
        "A rod of 14 mm does not go into the coil of 14 mm inside; write a mandrel under 14 mm."
    ]
    assert refused("spring", WOUND, free_length="10") == [
        "The free length of 10 mm is under the 18 mm of the closed coils; write a longer one, thinner wire or fewer coils."
    ]
    assert refused("spring", WOUND, legs="2000") == [
        "That leaves -5.2629 total coils, since the legs count as 13.263 coils; write more coils."
    ]
    assert warned(worked("spring", WOUND, working_angle="180"))[0].endswith("it takes a set or breaks.")


def test_a_stated_strength_and_share_set_the_limit():
    found = values(
        worked("spring", PRESSED, working_length="35", tensile_strength="1000 MPa", allowed_share="40 %")
    )
    assert found["stress_limit"] == pytest.approx(400)
    assert values(worked("spring", PRESSED, working_length="35", cycles="1000000"))["stress_limit"] < 700


PAIR = {"springs": "2, 0, 40, 22, outer; 1.5, 0, 35, 20, inner"}


def test_springs_side_by_side():
    found = worked("spring-pair", PAIR, load="38 N")
    assert values(found) == {
        "load": 38, "working_travel": 13, "rate": 3.5,
        "springs_shared": [
            {"name": "outer", "load": 26, "working_travel": 13, "load_percent": pytest.approx(2600 / 38), "state": "bears"},
            {"name": "inner", "load": 12, "working_travel": 8, "load_percent": pytest.approx(1200 / 38), "state": "bears"},
        ],
        "first_solid": "outer", "first_solid_load": 69.5,
    }  # fmt: skip
    assert warned(worked("spring-pair", PAIR, travel="3")) == [
        "inner bears nothing yet.",
        "Side by side they share a plate that must stay level: place them evenly about the load.",
    ]


def test_springs_pulled_side_by_side_begin_with_the_shorter():
    found = worked("spring-pair", PAIR, travel="3", kind="extension")
    assert [row["state"] for row in values(found)["springs_shared"]] == ["slack", "bears"]


def test_springs_end_to_end():
    rows = [{"rate": 2, "most_travel": 5}, {"rate": 1, "most_travel": 5}]
    found = worked("spring-pair", {"springs": rows, "arrangement": "end-to-end"}, travel="9")
    assert values(found)["load"] == 8
    assert values(found)["rate"] == 2
    assert values(found)["first_solid"] == "spring 2"
    assert warned(found) == ["spring 2 is solid: from here it bears without giving."]
    assert "none, since no greatest travel is stated" in values(
        worked("spring-pair", {"springs": "2; 1"}, load="3")
    ).values()  # fmt: skip


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"load": "100"}, "outer is solid at a travel of 22 mm, where all bear 69.5 N; write a travel of up to 22 mm or a load of up to 69.5 N."),
        ({"springs": "2, 0, 40, 22, outer; 1.5, 0, , 20, inner", "load": "9"}, "Springs, row 2 has no free_length, but others have; write it for all or for none: it says which bears first."),
        ({"load": "10", "travel": "3"}, "Write one of load and travel; both are given."),
        ({}, "Write one of load and travel; neither is given."),
        ({"springs": "2, most_travel=5; 1, most_travel=5", "arrangement": "end-to-end", "travel": "11"}, "All springs are solid after 10 mm; write a travel of up to 10 mm."),
        ({"springs": "0", "load": "1"}, "Springs, row 1: '0' is below the least allowed here; write at least 0.000001 N/mm."),
    ],
    ids=str,
)  # fmt: skip
def test_springs_together_refuse(change, says):
    assert refused("spring-pair", PAIR, **change) == [says]


TEST = {"readings": "2.1 N, 8 mm; 5.2 N, 24 mm", "free_length": "0"}


def test_two_weights():
    assert values(worked("spring-rate-test", TEST)) == {"rate": 0.19375, "initial_tension": 0.55}


def test_two_weights_within_their_spreads():
    """The law of propagation for F_i = F1 - x1 (F2 - F1)/(x2 - x1): 1.5 and -0.5 times the two loads' spreads."""
    found = worked("spring-rate-test", TEST, readings="2.1 ± 0.1 N, 8 mm; 5.2 ± 0.1 N, 24 mm").results
    assert found["rate"].spread == pytest.approx(0.1 * math.sqrt(2) / 16)
    assert found["initial_tension"].spread == pytest.approx(0.1 * math.hypot(1.5, 0.5))


def test_a_hung_mass_is_weighed_by_standard_gravity():
    found = worked("spring-rate-test", {"readings": "length=10, weight=100 g; length=20, weight=300 g"})
    assert values(found)["rate"] == pytest.approx(0.2 * 9.80665 / 10)
    assert warned(found) == [
        "Without a free_length the initial tension is not known; write the length without load."
    ]


def test_a_compression_spring_is_read_from_the_other_side():
    found = worked(
        "spring-rate-test",
        {"readings": "2 N, 40 mm; 6 N, 30 mm", "free_length": "45 mm", "kind": "compression"},
    )
    assert values(found) == {"rate": 0.4, "initial_tension": 0}


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"readings": "1 N, 10; 2.4 N, 20; 3 N, 30"}, "One reading lies 0.26667 N off the straight line: read it again, or some coils close."),
        ({"readings": "1 N, 10; 3 N, 20"}, "The line meets no load 5 mm beyond the free length: measure the free length again, or some coils rest on one another."),
        ({"readings": "2.1 N, 40 mm; 5.2 N, 24 mm", "free_length": "45", "kind": "compression"}, "A compression spring has no initial tension; 1.1313 N points to a wrong free length."),
        ({"wire": "0.5", "mean_diameter": "6", "active_coils": "10", "shear_modulus": "80 GPa"}, "The rate is 33 % under the one that wire and coils give: measure the wire again (9.54 % thinner would do it), count the coils, or it is another material."),
    ],
    ids=str,
)  # fmt: skip
def test_a_rate_test_warns(change, says):
    assert warned(worked("spring-rate-test", TEST, **change)) == [says]


def test_the_modulus_that_the_rate_needs():
    """k of 2/16/8 wire at 81.5 GPa is 4.974365234375 N/mm: two readings on that line give it back."""
    found = values(
        worked(
            "spring-rate-test",
            {
                "readings": f"{RATE} N, 49 mm; {10 * RATE} N, 40 mm", "free_length": "50", "kind": "compression",
                "wire": "2", "mean_diameter": "16", "active_coils": "8", "material": "sh",
            },
        )
    )  # fmt: skip
    assert found["shear_modulus_found"] == pytest.approx(81.5)
    assert found["rate_off"] == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"readings": "2.1 N, 8 mm; 5.2 N, 8 mm"}, "All readings are at one length; write two that differ, the further apart the better."),
        ({"readings": "5.2 N, 8 mm; 2.1 N, 24 mm"}, "By these readings more load moves the spring less; check them, and whether kind says pulled or pressed."),
        ({"readings": "2.1 N, 8 mm, 100 g; 3 N, 24"}, "Readings, row 1: write one of load and weight; both are given."),
        ({"readings": "2.1 N, 8 mm; length=24"}, "Readings, row 2: write one of load and weight; neither is given."),
        ({"free_length": "10"}, "Readings, row 1: under load it must be longer than the 10 mm without."),
        ({"wire": "0.5"}, "The input mean_diameter is missing; with wire it checks the rate against the wire."),
        ({"readings": "2.1 N, 8 mm"}, "The input readings has 1 rows; write 2 to 20."),
    ],
    ids=str,
)  # fmt: skip
def test_a_rate_test_refuses(change, says):
    assert refused("spring-rate-test", TEST, **change) == [says]


WISH = {
    "rate": "2 N/mm",
    "load": "30 N",
    "largest_outside": "14",
    "longest_free": "45",
    "smallest_inside": "6",
}


def test_springs_are_offered_with_the_reason_of_their_rank():
    found = worked("spring-choice", WISH)
    first = values(found)["spring_choices"][0]
    assert list(first) == [
        "name", "wire_diameter", "mean_diameter", "active_coils", "rate", "stress_percent", "solid_length",
        "free_length", "outside_diameter", "inside_diameter", "working_travel", "mass",
    ]  # fmt: skip
    assert values(found)["ranking"] == "the least stressed first: it keeps its length and lasts longest"
    assert values(found)["sizes_excluded"][0]["reason"] == "does not go into the space at an index of 4 to 12"
    assert "spring choices" in as_text(find_calculator("spring-choice"), WISH, found)


def test_a_spread_of_the_rate_is_the_allowance():
    tight = values(worked("spring-choice", WISH, rate="2 ± 0.01 N/mm"))["spring_choices"]
    wide = values(worked("spring-choice", WISH, rate="2 ± 0.1 N/mm"))["spring_choices"]
    assert all(abs(each["rate"] - 2) <= 0.01 for each in tight)
    assert len(tight) <= len(wide)
    assert "The spread of load is not used here; that of the rate alone is." in warned(
        worked("spring-choice", WISH, load="30 ± 1 N")
    )


def test_wire_at_hand_is_taken_instead():
    found = values(worked("spring-choice", WISH, own_wires="1.2, 1 mm, 18 SWG, 1.2"))["spring_choices"]
    assert [each["name"] for each in found] == ["18 SWG", "1.2", "1 mm"]


def test_nothing_fits():
    assert warned(worked("spring-choice", WISH, rate="2000 N/mm")) == [
        "No size of wire gives 2000 N/mm in this space; see why each drops out, and allow more room, less load, a larger "
        "spread of the rate or a stronger wire."
    ]


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"smallest_inside": "14"}, "The smallest inside of 14 mm is not under the largest outside of 14 mm."),
        ({"working_travel": "3"}, "Write one of load and working_travel, at work; both are given."),
        ({"load": None}, "Write one of load and working_travel, at work; neither is given."),
        ({"ends": "plug"}, "A spring of kind compression has no ends plug; write one of closed-and-ground, closed, open-and-ground, open."),
        ({"own_wires": ","}, "own_wires names 0 sizes; write 1 to 40, with commas between."),
        ({"largest_outside": "0"}, "'0' is too little; write more than 0 mm."),
    ],
    ids=str,
)  # fmt: skip
def test_a_choice_refuses(change, says):
    assert refused("spring-choice", WISH, **change) == [says]


@pytest.mark.parametrize("name", ["spring", "spring-pair", "spring-rate-test", "spring-choice"])
def test_springs_fly_says_each(name):
    assert CAUTION in find_calculator(name).cautions
    assert find_calculator(name).purpose == "Springs, pivots and strings"


@pytest.mark.parametrize("name", ["spring", "spring-pair", "spring-choice"])
def test_each_draws_its_example(name):
    calculator = find_calculator(name)
    found = pictures_of(calculator, calculator.example, answer(calculator, calculator.example))
    assert found
    assert all(each.svg and each.narrow and each.caption for each in found)
