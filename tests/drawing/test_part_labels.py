"""Over 200 random parts no two words of a part drawing overprint each other, and none the part's outline."""

from __future__ import annotations

from collections import defaultdict

import pytest

from calculators.drawing.part_sheet import draw_part
from tests.drawing.part_parts import random_part
from tests.drawing.part_read import Word, crosses, lines_of, meets, words_of

_PAPERS = ((273.0, 148.0), (186.0, 225.0), (90.0, 140.0))


@pytest.mark.parametrize("tens", range(20))
def test_no_words_overprint_each_other_or_the_outline(tens: int) -> None:
    for seed in range(tens * 10, tens * 10 + 10):
        drawing = draw_part(
            random_part(seed),
            "first" if seed % 2 else "third",
            paper=_PAPERS[seed % 3],
            with_table=seed % 4 == 0,
        )
        words = words_of(drawing.svg)
        assert words, seed
        assert _overprinted(words) == [], seed
        outline = lines_of(drawing.svg, "outline")
        assert outline, seed
        over = [word.says for word in words if any(crosses(word.box, line) for line in outline)]
        assert over == [], seed
        beyond = [
            word.says
            for word in words
            if word.box[0] < -0.1
            or word.box[1] < -0.1
            or word.box[2] > drawing.width_mm + 0.1
            or word.box[3] > drawing.height_mm + 0.1
        ]
        assert beyond == [], seed


def _overprinted(words: list[Word]) -> list[tuple[str, str]]:
    cells: dict[tuple[int, int], list[int]] = defaultdict(list)
    found = set()
    for index, word in enumerate(words):
        for x in range(int(word.box[0] // 10), int(word.box[2] // 10) + 1):
            for y in range(int(word.box[1] // 10), int(word.box[3] // 10) + 1):
                for other in cells[x, y]:
                    if meets(word.box, words[other].box):
                        found.add((words[other].says, word.says))
                cells[x, y].append(index)
    return sorted(found)
