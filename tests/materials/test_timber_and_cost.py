"""Timber, coverage, cost: worked by hand, ways back, refusals."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.calculation.answering import answer
from calculators.catalogue import find_calculator
from calculators.materials.costs import read_money, rounded_money
from calculators.materials.volumes import quarters
from calculators.quantities.errors import InputError


def results(name, **inputs):
    return {key: one.value for key, one in answer(find_calculator(name), inputs).results.items()}


def refusals(name, **inputs):
    with pytest.raises(InputError) as caught:
        answer(find_calculator(name), inputs)
    return [(fault.field, fault.says) for fault in caught.value.faults]


def test_planing_and_trim_are_added_before_the_volume_and_waste_after_it():
    found = results(
        "timber", pieces=[{"count": 4, "length": 800, "width": 100, "thickness": 27}], planing="2.5", trim="12",
        waste="20 %",
    )  # fmt: skip
    sawn = 4 * 0.812 * 0.105 * 0.032
    assert found["volume"] == pytest.approx(sawn * 1.2)
    assert found["finished_volume"] == pytest.approx(4 * 0.8 * 0.1 * 0.027)
    assert found["board_feet"] == pytest.approx(sawn * 1.2 * 423.776, rel=1e-6)
    assert found["to_order"] == [
        {"name": "piece 1", "count": 4, "length": 812, "width": 105, "thickness": 32, "in_quarters": "6/4"}
    ]
    assert "mass" not in found


def test_the_mass_is_that_of_each_species():
    pieces = "a, 1, 1000, 100, 10, white oak\nb, 2, 1000, 100, 10, Sitka spruce"
    found = results("timber", pieces=pieces)
    assert found["finished_mass"] == pytest.approx(0.001 * 761.6 + 0.002 * 1000 * 0.40 * 1.12)


def test_quarters():
    assert [quarters(mm) for mm in (19, 25.4, 25.5, 31.75, 38.1, 50.8, 51)] == [4, 4, 5, 5, 6, 8, 9]


def test_timber_refuses():
    assert refusals("timber", pieces="a, 0, 100, 100, 10")[0][0] == "pieces[0].count"
    assert refusals("timber", pieces="")[0][0] == "pieces"
    assert refusals("timber", pieces="a, 1, 100, 100, 10 N")[0] == (
        "pieces[0].thickness",
        refusals("timber", pieces="a, 1, 100, 100, 10 N")[0][1],
    )
    assert refusals("timber", pieces="a, 1, 100, 100, 10", species="unobtainium")[0][0] == "species"


def test_finish_and_glue():
    found = results("finish", finish="varnish", area="6 m2", coats="3", waste="0 %", tin="1 l")
    assert found == {"area": 6, "litres": 1.5, "tins": 2}
    assert results("finish", finish="varnish", area="6 m2", coats="2", waste="0 %", tin="0.5 l")["tins"] == 2
    found = results("glue", glue="PVA glue", surfaces="a, 10, 100, 20", faces="2", waste="0")
    assert found == {"area": pytest.approx(0.02), "glue": pytest.approx(7.2), "rehearsal_longest": 8}
    assert refusals("finish", finish="oil") == [
        ("area", "Write the area, or the surfaces a row each; one of them is needed.")
    ]
    assert refusals("glue", glue="epoxy", area="1 m2", surfaces="a, 1, 10, 10") == [
        ("area", "Write the area, or the surfaces a row each; not both.")
    ]


@given(st.integers(0, 10**12), st.integers(1, 10**6))
def test_money_is_rounded_to_the_nearest_hundredth(numerator, denominator):
    amount = Fraction(numerator, denominator)
    assert abs(Fraction(rounded_money(amount)) - amount) <= Fraction(1, 200)


@pytest.mark.parametrize("text", ["", "-1", "1e3", "1,200.50", "NaN", "12.34567", "£5", "9999999999"])
def test_what_is_no_amount_is_refused(text):
    with pytest.raises(InputError):
        read_money(text)


def test_cost_by_what_stock_is_sold_by():
    def each(**row):
        return results("piece-cost", stock=[{"price": "10.00", **row}])["cost"]

    assert each() == "10.00"
    assert each(sold_by="metre", length="250 mm") == "2.50"
    assert each(sold_by="foot", length="6 in") == "5.00"
    assert each(sold_by="square metre", length="500 mm", width="200 mm", waste="10 %") == "1.10"
    assert each(sold_by="board foot", length="12 in", width="12 in", thickness="1 in") == "10.00"
    assert each(sold_by="cubic foot", length="1 ft", width="1 ft", thickness="1 ft") == "10.00"
    assert each(sold_by="kilogram", mass="250 g", count=2) == "5.00"
    assert each(sold_by="pound", mass="1 lb") == "10.00"


def test_hours_and_shares():
    found = results(
        "piece-cost", stock="a, 1, 100", added="25 %", hours="2 h", rate="30", contingency="10 %", pieces="2"
    )
    assert found["cost_of_material"] == "125.00"
    assert found["cost_of_work"] == "60.00"
    assert found["cost"] == "203.50"
    assert found["cost_each"] == "101.75"
    assert Decimal(found["cost"]) == Decimal("185") * Decimal("1.1")


def test_cost_refuses():
    assert refusals("piece-cost", stock=[{"price": "5", "sold_by": "metre"}]) == [
        ("stock[0].length", "Stock, row 1: What is sold by the metre needs its length; write it.")
    ]
    assert refusals("piece-cost", stock=[{"price": "five"}]) == [
        (
            "stock[0].price",
            "Stock, row 1: 'five' is not an amount of money; write a plain number such as 12.50.",
        )
    ]
    assert refusals("piece-cost", stock=[{"price": "1"}], rate="x")[0][0] == "rate"
