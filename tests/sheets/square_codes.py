"""Reads a QR code back from the vectors of a page: written from the layout of ISO/IEC 18004, from memory.

It is not the way by which the code was drawn: modules are found by their places on the paper, the mask is
taken off, the code words are read along the columns and put in order. Nothing is mended, since vectors have
no dirt on them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

MASKS = (
    lambda i, j: (i + j) % 2,
    lambda i, j: i % 2,
    lambda i, j: j % 3,
    lambda i, j: (i + j) % 3,
    lambda i, j: (i // 2 + j // 3) % 2,
    lambda i, j: i * j % 2 + i * j % 3,
    lambda i, j: (i * j % 2 + i * j % 3) % 2,
    lambda i, j: ((i + j) % 2 + i * j % 3) % 2,
)
DATA_WORDS = {1: (16,), 2: (28,), 3: (44,), 4: (32, 32), 5: (43, 43), 6: (27,) * 4, 7: (31,) * 4}
"""The code words of data in each block, by version, at level M (ISO/IEC 18004, from memory)."""

LEVEL_M = 0b00
FORMAT_MASK = 0b101010000010010


def dark_rectangles(page: Any) -> list[dict[str, float]]:
    """The pure black filled rectangles of a PDF's page: ink is blue-black, a square code is black."""
    return [
        one for one in page.rects if one["fill"] and one["non_stroking_color"] in (0, (0,), (0, 0, 0), (0.0,))
    ]


def modules(rectangles: Iterable[dict[str, float]]) -> tuple[list[list[int]], float]:
    """The matrix of modules, and how large one is [points]: each rectangle is a run of one row."""
    runs = list(rectangles)
    left, top = min(one["x0"] for one in runs), min(one["top"] for one in runs)
    right, bottom = max(one["x1"] for one in runs), max(one["bottom"] for one in runs)
    size = min(one["bottom"] - one["top"] for one in runs)
    count = round((right - left) / size)
    assert round((bottom - top) / size) == count
    matrix = [[0] * count for _ in range(count)]
    for one in runs:
        row = round((one["top"] - top) / size)
        for column in range(round((one["x0"] - left) / size), round((one["x1"] - left) / size)):
            matrix[row][column] = 1
    return matrix, size


def decode(matrix: list[list[int]]) -> str:
    """The text in a QR code of level M whose text is held byte by byte."""
    count = len(matrix)
    version = (count - 17) // 4
    level, mask = _format(matrix)
    assert level == LEVEL_M
    bits = [matrix[i][j] ^ (MASKS[mask](i, j) == 0) for i, j in _path(count, version)]
    words = [int("".join(map(str, bits[at : at + 8])), 2) for at in range(0, len(bits) // 8 * 8, 8)]
    return _text(_in_order(words, DATA_WORDS[version]))


def _format(matrix: list[list[int]]) -> tuple[int, int]:
    """Level and mask; the two copies must be equal."""
    last = len(matrix) - 1
    first = [matrix[8][j] for j in (0, 1, 2, 3, 4, 5, 7, 8)] + [matrix[i][8] for i in (7, 5, 4, 3, 2, 1, 0)]
    second = [matrix[last - i][8] for i in range(7)] + [matrix[8][last - 7 + j] for j in range(8)]
    assert first == second
    bits = int("".join(map(str, first)), 2) ^ FORMAT_MASK
    return bits >> 13, bits >> 10 & 7


def _path(count: int, version: int) -> Iterator[tuple[int, int]]:
    """The places of data, two columns at a time from the right, up and down; column 6 is left out."""
    upwards, right = True, count - 1
    while right > 0:
        right -= right == 6
        for i in range(count - 1, -1, -1) if upwards else range(count):
            for j in (right, right - 1):
                if not _is_function(i, j, count, version):
                    yield i, j
        upwards, right = not upwards, right - 2


def _is_function(i: int, j: int, count: int, version: int) -> bool:
    """Whether a module belongs to a finder with its margin and format, a timing line or an alignment."""
    if i == 6 or j == 6 or (i < 9 and j < 9) or (i < 9 and j >= count - 8) or (i >= count - 8 and j < 9):
        return True
    centre = count - 7
    if version >= 7:
        raise NotImplementedError("larger ones have version information and more alignment patterns")
    return version >= 2 and abs(i - centre) <= 2 and abs(j - centre) <= 2


def _in_order(words: list[int], blocks: tuple[int, ...]) -> list[int]:
    """The data of all blocks, one after the other: they are laid down word by word in turn."""
    found: list[list[int]] = [[] for _ in blocks]
    laid = iter(words)
    for at in range(max(blocks)):
        for block, length in zip(found, blocks, strict=True):
            if at < length:
                block.append(next(laid))
    return [word for block in found for word in block]


def _text(data: list[int]) -> str:
    bits = "".join(f"{word:08b}" for word in data)
    assert bits[:4] == "0100", "not held byte by byte"
    length = int(bits[4:12], 2)
    return bytes(int(bits[12 + 8 * at : 20 + 8 * at], 2) for at in range(length)).decode("utf-8")
