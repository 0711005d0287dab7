"""What axe-core finds on a page that would keep somebody out."""

from __future__ import annotations

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

_AXE = Axe()
_ALL = {"resultTypes": ["violations"]}
_INKS = _ALL | {"runOnly": {"type": "rule", "values": ["color-contrast"]}}
"""The rule that the colour scheme matters to; all others are the same in the light and in the dark."""


def barriers(page: Page, scheme: str = "light") -> list[tuple[str, list[str]]]:
    """The rules that are broken, each with the first places; in the dark the inks alone are looked at."""
    found = _AXE.run(page, options=_INKS if scheme == "dark" else _ALL).response["violations"]
    return [(each["id"], [node["html"][:160] for node in each["nodes"][:3]]) for each in found]
