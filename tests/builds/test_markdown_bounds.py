"""Markdown that is made to be slow or to run in a browser."""

from __future__ import annotations

import time

import pytest

from buildlog.builds.templatetags.written import DEEPEST_MARKDOWN, LONGEST_MARKDOWN, markdown
from tests.benchmarks.yardstick import yardstick

PIECES = (
    "a\n",
    "[",
    "![",
    "[a](",
    "*a ",
    "a*b_",
    "- a\n",
    "# a\n",
    "|a|b\n|-|-\n",
    "a\n=\n",
    "[[",
    "*_",
    "> ",
)


@pytest.mark.parametrize("piece", PIECES)
@pytest.mark.parametrize("length", [LONGEST_MARKDOWN, 200_000])
def test_no_text_takes_long(length: int, piece: str) -> None:
    text = ("> " * 20 + piece * length)[:length]
    start = time.process_time()
    markdown(text)
    assert (time.process_time() - start) / yardstick() < 40


def test_a_longer_text_stands_as_it_was_typed_and_says_so() -> None:
    text = "**bold** <b>\n\n" + "x" * LONGEST_MARKDOWN
    shown = markdown(text)
    assert (
        f"This text has {len(text):,} characters. It stands as it was typed: Markdown is set in texts of up to 20,000."
        in (shown)
    )
    assert "<p>**bold** &lt;b&gt;</p>" in shown
    assert "<strong>bold</strong>" in markdown(text[:500])


def test_quotes_in_quotes_are_set_as_deep_as_anybody_writes() -> None:
    assert markdown("> > > a").count("<blockquote>") == 3
    assert markdown("> " * 40 + "a").count("<blockquote>") <= DEEPEST_MARKDOWN


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        "[x](javascript:alert(1))",
        "[x](JaVaScRiPt:alert(1))",
        "[x](data:text/html;base64,PHNjcmlwdD4=)",
        "![x](javascript:alert(1))",
        '[x](http://e "onmouseover=alert(1)")',
        "<javascript:alert(1)>",
        "[x]: javascript:alert(1)\n\n[x]",
        '<img src=x onerror="alert(1)">',
        "`<script>`",
        "[x](vbscript:a)",
    ],
)
def test_nothing_in_it_runs(text: str) -> None:
    shown = markdown(text).lower()
    assert "<script" not in shown
    assert "<img src=x" not in shown
    assert 'href="javascript' not in shown
    assert 'href="data' not in shown
    assert 'href="vbscript' not in shown
    assert 'src="javascript' not in shown
