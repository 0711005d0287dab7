"""The marks people type or paste: quotes, dashes, fraction signs and odd spaces, brought to plain ones."""

from __future__ import annotations

import re

LONGEST = 64
"""The longest text that is looked at; nobody writes a quantity in more characters."""

_INVISIBLE = dict.fromkeys(map(ord, "\u200b\u200c\u200d\u200e\u200f\u2060\ufeff\u00ad"))

_PLAIN = str.maketrans(
    {
        # minus, hyphen, non-breaking hyphen, figure dash, en dash
        "\u2212": "-",
        "\u2010": "-",
        "\u2011": "-",
        "\u2012": "-",
        "\u2013": "-",
        # fraction slash, division slash
        "\u2044": "/",
        "\u2215": "/",
        # double prime and the double quotes
        "\u2033": '"',
        "\u201c": '"',
        "\u201d": '"',
        "\u201f": '"',
        "\u02ba": '"',
        # prime and the single quotes
        "\u2032": "'",
        "\u2018": "'",
        "\u2019": "'",
        "\u02b9": "'",
        "\u00b4": "'",
        # micro sign and the Greek letter
        "\u00b5": "u",
        "\u03bc": "u",
        # degree, middle dot, multiplication dot, superscripts of units
        "\u00b7": ".",
        "\u22c5": ".",
    }
)

_VULGAR = {
    "¼": "1/4",
    "½": "1/2",
    "¾": "3/4",
    "⅓": "1/3",
    "⅔": "2/3",
    "⅕": "1/5",
    "⅖": "2/5",
    "⅗": "3/5",
    "⅘": "4/5",
    "⅙": "1/6",
    "⅚": "5/6",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
    "⅐": "1/7",
    "⅑": "1/9",
    "⅒": "1/10",
}
_VULGAR_SIGN = re.compile("-?(" + "|".join(_VULGAR) + ")")
_BUILT_FRACTION = re.compile("([⁰¹²³⁴⁵⁶⁷⁸⁹]+)/([₀₁₂₃₄₅₆₇₈₉]+)")
_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉", "01234567890123456789")


def tidy(text: str) -> str:
    """Return the text with runs of any kind of space made one space, and invisible marks taken out.

    Args:
        text: what a person wrote.

    Returns:
        The same writing, tidied; nothing else is changed.

    Source: this project.

    Example:
        >>> tidy("  1\u00a0¼   in ")
        '1 ¼ in'
    """
    return " ".join(text.translate(_INVISIBLE).split())


def plain(text: str) -> str:
    """Return the tidied text in plain signs: ASCII quotes and dashes, fraction signs spelt out.

    Args:
        text: what a person wrote.

    Returns:
        The text to be read by rule; signs that have no plain form stay as they are.

    Source: this project.

    Example:
        >>> plain("1¼″")
        '1 1/4"'
        >>> plain("−3 µm")
        '-3 um'
    """
    text = tidy(text).translate(_PLAIN)
    text = _VULGAR_SIGN.sub(lambda sign: _spelt(sign, text), text)
    text = _BUILT_FRACTION.sub(lambda sign: " " + sign[0].translate(_RAISED), text)
    return " ".join(text.replace("''", '"').split())


def _spelt(sign: re.Match[str], text: str) -> str:
    """Spell one fraction sign; a dash before it joins (`1-¼`) unless it stands first and is a minus."""
    fraction = _VULGAR[sign[1]]
    if sign[0][0] == "-":
        return ("-" if sign.start() == 0 else " ") + fraction
    return " " + fraction


def quoted(text: str) -> str:
    """Return the text in quotes for a sentence: shortened, and with unprintable signs shown as `?`.

    Args:
        text: what a person wrote, of any length.

    Returns:
        At most 34 characters, on one line.

    Source: this project.

    Example:
        >>> quoted("a" * 100)
        "'aaaaaaaaaaaaaaaaaaaaaaaaaaaa...'"
    """
    short = text[:200].strip()
    short = short[:28] + "..." if len(short) > 31 else short
    return "'" + "".join(sign if sign.isprintable() else "?" for sign in short) + "'"
