"""The short code that stands on a sheet: worked out of what the sheet says, read as people copy it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from hashlib import sha256

from calculators.quantities.errors import InputError

SIGNS = "23456789ACDEFGHJKMNPQRTUVWXY"
"""Figures and letters of which none is taken for another: without 0, 1, B, I, L, O, S and Z."""

LENGTH = 8
_MEANT = str.maketrans({"S": "5", "B": "8", "Z": "2", "O": "Q", "0": "Q"})
"""Signs that stand in no code, each with the one that it is taken for."""


def paper_code(
    number: str, kind: str, digest: str, component: str = "", options: Mapping[str, str] | None = None
) -> str:
    """Work out the code of a sheet: the same for the same sheet of the same build with the same content.

    The first 64 bits of a SHA-256 digest, written in the 28 signs and cut to eight: one of 3.8e11.

    Args:
        number: the build's number.
        kind: the kind of sheet.
        digest: the digest of its facts, as `digest_of` gives it.
        component: the mark of the component that it is of; nothing: the whole build.
        options: what else was chosen, by name.

    Returns:
        Eight signs.

    Source: this project.

    Example:
        >>> code = paper_code("TW-31", "drilling", "0123456789abcdef", "P01")
        >>> len(code), code == paper_code("TW-31", "drilling", "0123456789abcdef", "P02")
        (8, False)
    """
    said = [number, kind, digest, component, sorted((options or {}).items())]
    left = int.from_bytes(sha256(json.dumps(said, ensure_ascii=False).encode()).digest()[:8], "big")
    signs = []
    for _ in range(LENGTH):
        left, sign = divmod(left, len(SIGNS))
        signs.append(SIGNS[sign])
    return "".join(signs)


def code_shown(code: str) -> str:
    """Write a code as it is printed: in two groups.

    Args:
        code: the code.

    Returns:
        The code with a hyphen in its middle.

    Source: this project.

    Example:
        >>> code_shown("7KQ2M4XD")
        '7KQ2-M4XD'
    """
    half = LENGTH // 2
    return f"{code[:half]}-{code[half:]}"


def read_code(text: str) -> str:
    """Read a code as somebody copied it from the paper.

    Capitals or small letters, with the hyphen, with spaces or without; 5 for S, 8 for B, 2 for Z and Q for O
    or nought are taken as meant, since those stand in no code.

    Args:
        text: what was typed.

    Returns:
        The eight signs.

    Raises:
        InputError: where it is no code.

    Source: this project.

    Example:
        >>> read_code(" 7kq2 m4xd "), read_code("7KO2-M4XD")
        ('7KQ2M4XD', '7KQ2M4XD')
    """
    bare = "".join(sign for sign in text if not sign.isspace() and sign not in "-\u2010\u2011\u2013\u2014_")
    read = bare.upper().translate(_MEANT) if bare.isascii() else ""
    if len(read) != LENGTH or any(sign not in SIGNS for sign in read):
        raise InputError.of(
            "The code on a sheet has eight figures and letters in two groups, such as 7KQ2-M4XD;"
            " it stands in the title block.",
            field="code",
        )
    return read
