"""Printing what takes long beside the pages: begun, watched, cancelled.

The printing runs in a thread of the process that was asked; how far it is stands in the database, where
any process can read it. It looks there between two pages whether it was cancelled.
"""

from __future__ import annotations

import logging
import time
from collections.abc import Mapping
from datetime import timedelta
from threading import Thread
from typing import Any

from django.db import close_old_connections, connection
from django.utils import timezone

from buildlog.builds.ids import new_id
from buildlog.builds.models import Build
from buildlog.builds.queries import worked_of
from buildlog.sheets.making import KINDS, make_sheet
from buildlog.sheets.models import Printing, State
from buildlog.sheets.papers import Paper
from buildlog.sheets.recording import last_change_of, record_printed
from buildlog.sheets.true_size import LaidOut, lay_out
from buildlog.workshops.models import Person
from calculators.drawing.template_paper import Stretch
from calculators.planning.schedules import cut_list, hole_schedule
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError

LONG_ROWS = 400
"""A sheet with more rows than this is printed beside the page."""

KEPT_FOR = timedelta(days=1)
SILENT_FOR = timedelta(minutes=2)
"""A printing that gave no sign of life for so long has lost its process."""

MOST_AT_ONCE = 4
"""The most sheets that a workshop prints beside its pages at once: each takes a thread and much memory."""

LOOK_EVERY_SECONDS = 0.3
_PROGRESS = logging.getLogger("weasyprint.progress")


class Cancelled(Exception):
    """The person has cancelled the printing."""


def rows_of(kind: str, worked: WorkedBuild, component: str) -> int:
    """About how many rows a sheet will have."""
    match kind:
        case "drilling":
            lines = hole_schedule(worked.build, worked)
            return sum(1 for line in lines if component in ("", line.part))
        case "cut":
            return 1 if component else len(cut_list(worked.build))
        case "template":  # a page of it takes as long as a dozen rows
            return 0 if component else 12 * sum(len(one.tiling.tiles) for one in _laid_out(worked))
        case "assembly":
            return 5 * len(worked.build.steps)
        case "check":
            return 2 * (len(worked.findings) + len(worked.accepted))
    return 2 * len(worked.joints)


def _laid_out(worked: WorkedBuild) -> list[LaidOut]:
    return lay_out(worked, "", "", "a4", Stretch(), mirrored=False)[0]


def begin_printing(
    row: Build,
    person: Person,
    kind: str,
    paper: Paper,
    component: str,
    options: Mapping[str, str] | None = None,
    address: str = "",
) -> Printing:
    """Begin to print a sheet beside the page, and forget the printings of the days before.

    `address` is where its square code leads.
    One that the person has begun already is given back. Raises InputError while the workshop has enough.
    """
    Printing.objects.filter(made_at__lt=timezone.now() - KEPT_FOR).delete()
    alive = Printing.objects.filter(
        build__workshop=row.workshop_id, state=State.WORKING, seen_at__gt=timezone.now() - SILENT_FOR
    )
    wanted: dict[str, Any] = {"kind": kind, "paper": paper, "component": component}
    wanted |= {"options": dict(options or {}), "address": address}
    same = alive.filter(build=row, person=person, **wanted).first()
    if same is not None:
        return same
    if alive.count() >= MOST_AT_ONCE:
        raise InputError.of(
            f"{MOST_AT_ONCE} sheets are being printed already; wait for one of them, or cancel it."
        )
    printing = Printing.objects.create(build=row, person=person, name=new_id(), **wanted)
    start(printing)
    return printing


def start(printing: Printing) -> None:
    """Start the thread."""
    Thread(target=_run, args=(printing.pk,), daemon=True).start()


def _run(pk: int) -> None:
    close_old_connections()
    try:
        print_now(pk)
    finally:
        connection.close()


def print_now(pk: int) -> None:
    """Print, telling how far it is; cancelled means that nothing is kept."""
    printing = Printing.objects.select_related("build", "person").filter(pk=pk).first()
    if printing is None:  # its build was deleted before its turn came
        return
    watcher = _Watcher(pk)
    level = _PROGRESS.level
    _PROGRESS.setLevel(logging.INFO)
    _PROGRESS.addHandler(watcher)
    try:
        watcher.tell("Working the build out")
        last_change = last_change_of(printing.build)
        worked = worked_of(printing.build)
        watcher.tell("Drawing")
        paper: Paper = "letter" if printing.paper == "letter" else "a4"
        pdf = make_sheet(
            printing.kind, worked, paper=paper, component=printing.component, options=printing.options,
            address=printing.address,
        )  # fmt: skip
        watcher.tell("Done")
        record_printed(
            printing.build, printing.person, worked, printing.kind, KINDS[printing.kind].title, paper=paper,
            component=printing.component, options=printing.options, last_change=last_change,
        )  # fmt: skip
    except Cancelled:
        return
    except InputError as error:
        _close(pk, State.FAILED, says=str(error)[:200])
    except Exception:
        logging.getLogger("django.request").exception("a sheet could not be printed")
        _close(pk, State.FAILED, says="The sheet could not be printed; the fault is in the log.")
    else:
        _close(pk, State.DONE, pdf=pdf, says="Done")
    finally:
        _PROGRESS.removeHandler(watcher)
        _PROGRESS.setLevel(level)


def _close(pk: int, state: State, **more: object) -> None:
    Printing.objects.filter(pk=pk, state=State.WORKING).update(state=state, seen_at=timezone.now(), **more)


class _Watcher(logging.Handler):
    """Hears from the printer which page it lays out, tells it, and stops it when it was cancelled."""

    def __init__(self, pk: int) -> None:
        super().__init__()
        self.pk, self.told_at = pk, 0.0
        from threading import get_ident

        self.thread = get_ident()

    def emit(self, record: logging.LogRecord) -> None:
        """Pass on a page of the layout; other threads print other sheets."""
        if record.thread != self.thread:
            return
        words = record.getMessage()
        if time.monotonic() - self.told_at > LOOK_EVERY_SECONDS:
            _, page, number = words.rpartition("Page ")
            self.tell(f"Laying out page {number}" if page and number.isdigit() else "Setting the type")

    def tell(self, says: str) -> None:
        """Write down how far it is; raise Cancelled where the row says so or is gone."""
        self.told_at = time.monotonic()
        still = Printing.objects.filter(pk=self.pk, state=State.WORKING)
        if not still.update(says=says, seen_at=timezone.now()):
            raise Cancelled


def cancel_printing(printing: Printing) -> bool:
    """Cancel a printing; False where it was over already."""
    return bool(Printing.objects.filter(pk=printing.pk, state=State.WORKING).update(state=State.CANCELLED))


def is_lost(printing: Printing) -> bool:
    """Whether a printing's process has gone."""
    return printing.state == State.WORKING and timezone.now() - printing.seen_at > SILENT_FOR
