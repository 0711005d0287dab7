"""The outline of a component as its page shows it and takes it: one line, and what it comes to."""

from __future__ import annotations

from dataclasses import dataclass, replace

from buildlog.builds.drawings import plan_of
from calculators.drawing.face_plan import Plan
from calculators.planning.edits import find, put
from calculators.planning.lines import read_outline_line, write_outline_line
from calculators.planning.model import Build, Component, Size
from calculators.planning.outlining import count_words, sized_by
from calculators.quantities.errors import InputError


@dataclass(frozen=True, slots=True)
class OutlineShown:
    """The outline as it stands: its line, of how many corners and arcs it is, drawn broad and narrow.

    `text`, `fits` and `faults` are what was typed and what is wrong with it.
    """

    line: str
    words: str
    broad: Plan | None
    narrow: Plan | None
    text: str
    seen: str
    fits: bool = False
    faults: tuple[str, ...] = ()


class OutlineOvertaken(Exception):
    """Somebody else changed the outline; `theirs` is its line now."""

    def __init__(self, theirs: str) -> None:
        self.theirs = theirs
        super().__init__(theirs)


def outline_line(build: Build, one: Component) -> str:
    """The outline of a component on a line; nothing for a rectangle."""
    return write_outline_line(one.outline, build.unit)


def outline_shown(build: Build, one: Component) -> OutlineShown:
    """The outline of a component as it stands."""
    line = outline_line(build, one)
    broad = plan_of(one, "top", ()) if line else None
    narrow = plan_of(one, "top", (), width_mm=84.0) if line else None
    return OutlineShown(line, count_words(one.outline), broad, narrow, line, line)


def change_outline(build: Build, mark: str, line: str, seen: str, *, fits: bool) -> Build:
    """The build with the outline of a part as its line says; an empty line makes it a rectangle again.

    With `fits` the part takes its length and width from the outline. `seen` is the line that the person had
    before them. Raises InputError, OutlineOvertaken.
    """
    one: Component = find(build, "component", mark)
    now = outline_line(build, one)
    if now != seen:
        raise OutlineOvertaken(now)
    if line.strip() == now and not fits:
        return build
    outline = read_outline_line(line, build.unit) if line.strip() else ()
    if outline and one.size.shape == "round":
        raise InputError.of(f"{mark} is a round; an outline is that of a block seen from its top.")
    size = sized_by(outline, replace(one.size, length=None, width=None) if fits else one.size)
    return put(build, "component", replace(one, outline=outline, size=_kept(one.size, size)), key=mark)


def _kept(was: Size, new: Size) -> Size:
    """The new size; a length that is the same keeps its writing."""
    same = {
        name: old
        for name in ("length", "width")
        if (old := getattr(was, name)) is not None and (now := getattr(new, name)) and old.ticks == now.ticks
    }
    return replace(new, **same)
