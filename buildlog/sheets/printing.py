"""The one door to the printer: HTML in, PDF bytes out. Nothing else in Oddleg imports WeasyPrint."""

from __future__ import annotations

import logging
from hashlib import sha256
from pathlib import Path
from typing import Any

from django.conf import settings
from weasyprint import HTML
from weasyprint.text.fonts import FontConfiguration
from weasyprint.urls import URLFetcher, URLFetcherResponse

BASE = "file:///sheet/"
"""A made-up folder for a sheet's style and type, which `OwnFiles` serves; any other address is refused."""

_KINDS = {".css": "text/css", ".woff2": "font/woff2", ".svg": "image/svg+xml"}

# Unknown properties in a style sheet are no event for the person who prints.
logging.getLogger("weasyprint").setLevel(logging.ERROR)
logging.getLogger("fontTools").setLevel(logging.ERROR)


class OwnFiles(URLFetcher):
    """Gives the project's own static files and refuses every other address."""

    def fetch(self, url: str, headers: dict[str, str] | None = None) -> URLFetcherResponse:
        """Return one of our own files; ValueError for anything else."""
        root = Path(settings.STATICFILES_DIRS[0]).resolve()
        if not url.startswith(BASE):
            raise ValueError(f"A sheet fetches nothing from outside: {url[:80]}")
        path = (root / url.removeprefix(BASE).lstrip("/")).resolve()
        if not path.is_relative_to(root) or path.suffix not in _KINDS or not path.is_file():
            raise ValueError(f"There is no such file for sheets: {url[:80]}")
        return URLFetcherResponse(url, path.read_bytes(), {"Content-Type": _KINDS[path.suffix]})


def print_pdf(html: str) -> bytes:
    """Print a sheet. Equal HTML gives equal bytes: the file's identifier is worked out from it."""
    fonts = FontConfiguration()
    document: Any = HTML(string=html, base_url=BASE, url_fetcher=OwnFiles())
    pdf: bytes = document.write_pdf(
        font_config=fonts, pdf_identifier=sha256(html.encode()).digest()[:16], pdf_tags=True
    )
    return pdf
