"""The browser itself finds nothing to refuse on the first page."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page

from buildlog.workshops.models import Person

pytestmark = pytest.mark.browser


def test_the_first_page_breaks_no_policy_and_loads_all_it_names(
    page: Page, live_server: object, demonstration: Person
) -> None:
    refused: list[str] = []
    page.on("console", lambda message: refused.append(message.text) if message.type == "error" else None)
    page.on("response", lambda answer: refused.append(answer.url) if answer.status >= 400 else None)
    answer = page.goto(f"{live_server}/")
    assert answer is not None
    assert answer.status == 200
    assert page.locator("h1").count() == 1
    assert refused == []
