"""Nothing at the bench is slow: ratios within one run, never seconds (`tests/benchmarks/calculators.py` shows all)."""

from __future__ import annotations

from statistics import median

import pytest
from django.test import Client

from calculators.catalogue import all_calculators
from tests.benchmarks.calculators import MOST, ratios, starting

pytestmark = pytest.mark.database


def test_a_calculator_s_page_is_no_slower_than_a_few_empty_pages(client: Client) -> None:
    _, found = ratios(client, 2, all_calculators())
    assert median(page.first for page in found.values()) <= MOST
    assert median(page.again for page in found.values()) <= MOST
    # The longest tables and the most inputs of all; twice, since the machine does other things too.
    slow = {name: page for name, page in found.items() if page.again > 1.5 * MOST or page.first > 3 * MOST}
    assert slow == {}


def test_calc_starts_in_no_more_than_three_imports_of_the_framework_it_does_without() -> None:
    took = starting(5)
    assert took["calc drill name=#7"] <= MOST * took["import django"]
