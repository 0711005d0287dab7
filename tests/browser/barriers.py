"""What axe-core finds on a page that would keep somebody out."""

from __future__ import annotations

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

_AXE = Axe()


def barriers(page: Page) -> list[tuple[str, list[str]]]:
    """The rules that are broken, each with the first places."""
    found = _AXE.run(page).response["violations"]
    return [(each["id"], [node["html"][:160] for node in each["nodes"][:3]]) for each in found]
