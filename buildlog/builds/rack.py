"""The rack of a build: pieces of stock with what is cut from them, and what measuring one came to."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from buildlog.builds.models import Build, Change
from buildlog.builds.queries import worked_of, worked_then
from buildlog.builds.saying import change_of_check
from buildlog.builds.showing import ShownFinding, show_findings
from calculators.joints.model import Finding
from calculators.planning import model as plain
from calculators.planning.edits.measuring import could_be_cut, gauge_of
from calculators.planning.tree import split_copy
from calculators.planning.worked import WorkedBuild
from calculators.quantities.length import Length

MOST_FINDINGS = 40


@dataclass(frozen=True, slots=True)
class StockRow:
    """One piece: the size that is measured, the parts cut from it, and those that could be."""

    stock: plain.Stock
    gauge: str
    size: Length | None
    parts: tuple[plain.Component, ...]
    could_be: tuple[str, ...]

    @property
    def marks(self) -> str:
        """The parts cut from it, as they are typed."""
        return ", ".join(one.mark for one in self.parts)

    @property
    def all_marks(self) -> str:
        """These and those that could be, as they are typed."""
        return ", ".join([*(one.mark for one in self.parts), *self.could_be])

    def words(self) -> list[str]:
        """What is searched."""
        one = self.stock
        return [one.mark, one.called, one.material, one.form, one.note, *(each.mark for each in self.parts)]


def stock_rows(build: plain.Build) -> list[StockRow]:
    """Every piece, in the order of the build."""
    cut: dict[str, list[plain.Component]] = {}
    for one in build.components:
        if one.from_stock:
            cut.setdefault(one.from_stock, []).append(one)
    rows = []
    for stock in build.stock:
        gauge = gauge_of(stock)
        size: Length | None = getattr(stock, gauge)
        parts = tuple(cut.get(stock.mark, ()))
        rows.append(StockRow(stock, gauge, size, parts, could_be_cut(build, stock)))
    return rows


@dataclass(frozen=True, slots=True)
class Consequences:
    """What a change came to: parts of another size, released anew; joints looked at again; findings."""

    change: Change
    resized: tuple[str, ...]
    released: tuple[tuple[str, str], ...]
    joints: tuple[str, ...]
    mended: tuple[Finding, ...]
    new: list[ShownFinding]
    left_out: int


def consequences_of(row: Build, change_id: str) -> Consequences | None:
    """What a change of this build came to; None where there is no such change."""
    if not (change_id.isascii() and change_id.isdigit() and len(change_id) < 16):
        return None
    change = row.changes.filter(pk=int(change_id)).first()
    before = row.changes.filter(pk__lt=int(change_id)).order_by("-id").first()
    if change is None or before is None:
        return None
    last = row.changes.order_by("-id").values_list("pk", flat=True).first()
    old = worked_then(row, before)
    new = worked_of(row) if change.pk == last else worked_then(row, change)
    return _consequences(change, old, new)


def _consequences(change: Change, old: WorkedBuild, new: WorkedBuild) -> Consequences:
    were = {one.mark: one for one in old.build.components}
    changed = [one for one in new.build.components if one.mark in were and were[one.mark] != one]
    resized = tuple(one.mark for one in changed if _sizes(one) != _sizes(were[one.mark]))
    released = tuple((one.mark, one.revision) for one in changed if one.revision != were[one.mark].revision)
    marks = set(resized)
    joints = dict.fromkeys(
        each.joint.mark
        for each in new.joints
        if any(item.layer and split_copy(item.layer.part)[0] in marks for item in each.inputs.stack)
    )
    gone = change_of_check(new, old).new
    come = change_of_check(old, new).new
    shown = show_findings(new, come[:MOST_FINDINGS])
    left_out = max(0, len(come) - MOST_FINDINGS)
    return Consequences(change, resized, released, tuple(joints), tuple(gone), shown, left_out)


def _sizes(one: plain.Component) -> tuple[plain.Size, plain.Size | None]:
    return one.size, one.made_size


def marks_typed(text: str) -> tuple[str, ...]:
    """The marks in a text, parted by commas or spaces, each once."""
    return tuple(dict.fromkeys(word for word in text.replace(",", " ").replace(";", " ").split()))


def named(marks: Iterable[str], build: plain.Build) -> list[plain.Component]:
    """The components with these marks, in the order of the build."""
    wanted = set(marks)
    return [one for one in build.components if one.mark in wanted]
