"""The papers that sheets are printed on, by the names that people give."""

from __future__ import annotations

from typing import Literal

Paper = Literal["a4", "letter"]

PAPERS: dict[Paper, str] = {"a4": "A4", "letter": "letter"}
"""Each paper with the name that CSS has for it."""
