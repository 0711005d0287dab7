"""A hole or a place of a joint is moved on a drawing, or a place is added there: each one change."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from django import forms
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.views.decorators.http import require_POST

from buildlog.builds.actions import Edit, changed_last_by
from buildlog.builds.conflicts import Conflict, ConflictField
from buildlog.builds.features import feature_lines
from buildlog.builds.forms import add_faults, length_as_typed
from buildlog.builds.models import Build
from buildlog.builds.page import row_of, show
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.saying import keeps_theirs, save_and_say
from buildlog.builds.views.changes import back_to
from calculators.geometry.frames import FACES
from calculators.planning import model as plain
from calculators.planning.edits import find
from calculators.planning.edits.hole_moves import (
    Follower,
    add_place,
    hole_of,
    is_at,
    move_hole,
    move_place,
    on_home,
    place_of,
    place_words,
    read_spot,
)
from calculators.planning.lines.places import write_spot
from calculators.planning.lines.spots import Spot
from calculators.planning.tree import split_copy
from calculators.quantities import Length
from calculators.quantities.errors import InputError
from calculators.quantities.numbers import decimal_text


class MoveForm(forms.Form):
    """Which hole it is, where it was seen, where it shall be. Of a joint, without a place: one more."""

    u = forms.CharField(max_length=64, help_text="Along u, from the datum of the face.")
    v = forms.CharField(max_length=64, help_text="Along v; on a side the angle in degrees.")
    part = forms.CharField(max_length=40, widget=forms.HiddenInput)
    face = forms.ChoiceField(choices=[(face, face) for face in FACES], widget=forms.HiddenInput)
    key = forms.CharField(max_length=40, required=False, widget=forms.HiddenInput)
    joint = forms.CharField(max_length=40, required=False, widget=forms.HiddenInput)
    place = forms.CharField(max_length=40, required=False, widget=forms.HiddenInput)
    was_u = forms.FloatField(required=False, widget=forms.HiddenInput)
    was_v = forms.FloatField(required=False, widget=forms.HiddenInput)
    back = forms.CharField(max_length=2_000, required=False, widget=forms.HiddenInput)


class MovedMeanwhile(Exception):
    """Somebody else moved it, or took it out."""


@dataclass(frozen=True, slots=True)
class Move:
    """What a form of a move asks for."""

    part: str
    face: str
    key: str
    joint: str
    place: str
    was: tuple[float, float] | None
    u: str
    v: str
    seen: str

    @property
    def title(self) -> str:
        """What is done, for a heading."""
        if not self.joint:
            return f"Move hole {self.key} of {self.part}"
        return f"Move place {self.place} of {self.joint}" if self.place else f"One more place of {self.joint}"

    def seen_now(self, build: plain.Build) -> str:
        """What a person would see of it now; nothing where it is gone."""
        if not self.joint:
            part: plain.Component = find(build, "component", self.part)
            return next((one.line for one in feature_lines(build, part, "hole") if one.key == self.key), "")
        found = place_of(build, self.joint, self.place)
        return place_words(find(build, "joint", self.joint), found, build.unit) if found else ""

    def to_do(self, build: plain.Build) -> plain.Build:
        """The build with it moved. Raises InputError, MovedMeanwhile."""
        to = read_spot(self.u, self.v, self.face, build.unit)
        if self.joint and not self.place:
            return add_place(build, self.joint, to)
        now = self.seen_now(build)
        if not now or (self.seen and now != self.seen):
            raise MovedMeanwhile
        if not self.joint:
            hole = hole_of(build, self.part, self.key)
            if hole is None or hole.face != self.face:
                raise MovedMeanwhile
            return move_hole(build, self.part, self.key, to)
        if not self.is_at_home(build):
            to = on_home(build, self.follower(), to)
        return move_place(build, self.joint, self.place, to)

    def is_on_home(self, build: plain.Build) -> bool:
        """Whether the drawing is of the face that the joint is placed on."""
        joint: plain.Joint = find(build, "joint", self.joint)
        return split_copy(joint.home)[0] == self.part and joint.face == self.face

    def is_at_home(self, build: plain.Build) -> bool:
        """Whether it is the place itself, and not the hole that follows in another copy of the same part."""
        place = place_of(build, self.joint, self.place)
        return self.is_on_home(build) and (self.was is None or place is None or is_at(place, *self.was))

    def follower(self) -> Follower:
        """The hole that follows from the joint, as it was seen."""
        return Follower(self.joint, self.place, self.part, self.face, *(self.was or (0.0, 0.0)))

    def told(self, before: plain.Build, after: plain.Build) -> str:
        """The sentence of the log."""
        if not self.joint:
            hole = hole_of(after, self.part, self.key)
            assert hole is not None
            spot = write_spot(hole.u, hole.v, hole.angle_deg, after.unit)
            return f"{self.part} hole {self.key} moved to {spot} on the {hole.face}"
        joint: plain.Joint = find(after, "joint", self.joint)
        if not self.place:
            place = joint.places[-1]
            return f"{self.joint} place {place.id} added on {place_words(joint, place, after.unit)}"
        return f"{self.joint} place {self.place} moved to {self.seen_now(after)}"


@require_POST
def move(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Move a hole, or a joint's place, to where it was put on a drawing; or add a place there."""
    row = row_of(request, number)
    back = HttpResponseRedirect(back_to(request, number))
    if keeps_theirs(request):
        return back
    form = MoveForm(request.POST)
    if not form.is_valid():
        return _show(request, row, form, "Move a hole")
    asked = _asked(form, request.POST.get("seen", ""))
    edit: Edit = asked.to_do
    try:
        save_and_say(request, row, edit, asked.told)
    except InputError as error:
        add_faults(form, error)
        return _show(request, row, form, asked.title)
    except MovedMeanwhile:
        return _overtaken(request, row_of(request, number), form, asked)
    return back


def _asked(form: MoveForm, seen: str) -> Move:
    data = form.cleaned_data
    seen_at = data["was_u"], data["was_v"]
    was = None if None in seen_at else seen_at
    return Move(
        data["part"], data["face"], data["key"], data["joint"], data["place"], was, data["u"], data["v"], seen
    )


def _overtaken(request: HttpRequest, row: Build, form: MoveForm, asked: Move) -> HttpResponse:
    """Show where others have put it meanwhile, and where one put it oneself."""
    build = plain_of(row)
    by = changed_last_by(row, "joint" if asked.joint else "component", asked.joint or asked.part)
    now = _now(row, build, asked)
    if now is None:
        form.add_error(None, f"{by} took it out while you had it open; there is nothing to move any more.")
        return _show(request, row, form, asked.title, status=409)
    sent = request.POST.copy()
    sent["was_u"], sent["was_v"] = str(now[2]), str(now[3])
    form = MoveForm(sent)
    fields = tuple(
        ConflictField(name, theirs, form[name].as_widget(attrs={"aria-label": f"Your {name}"}))
        for name, theirs in zip(("u", "v"), now[:2], strict=True)
    )
    what = asked.title.removeprefix("Move ")
    says = f"{what[0].upper()}{what[1:]} was changed by {by} while you had it open."
    conflict = Conflict(
        f"{says} Nothing of yours is saved yet.", fields, tuple(form.hidden_fields()), asked.seen_now(build)
    )
    return _show(request, row, form, asked.title, conflict=conflict, status=409)


def _now(row: Build, build: plain.Build, asked: Move) -> tuple[str, str, float, float] | None:
    """Where the hole lies now on the face that it was moved on: as it is written, and in millimetres."""
    if not asked.seen_now(build):
        return None
    spot: plain.Hole | plain.Place | Spot | None
    if not asked.joint:
        spot = hole_of(build, asked.part, asked.key)
    else:
        lie = min(_lie(row, asked), key=lambda one: math.dist(one, asked.was or one), default=None)
        spot = Spot(Length.of_mm(lie[0]), Length.of_mm(lie[1])) if lie else None
        place = place_of(build, asked.joint, asked.place)
        if place is not None and asked.is_on_home(build) and (lie is None or is_at(place, *lie)):
            spot = place
    if spot is None:
        return None
    u = length_as_typed(spot.u, build.unit)
    if spot.angle_deg is not None:
        return u, f"{decimal_text(Fraction(spot.angle_deg))} deg", spot.u.mm, 0.0
    v = length_as_typed(spot.v, build.unit) if spot.v else "0"
    return u, v, spot.u.mm, spot.v.mm if spot.v else 0.0


def _lie(row: Build, asked: Move) -> list[tuple[float, float]]:
    wanted = (asked.joint, asked.place, asked.part, asked.face)
    return [
        (one.u_mm, one.v_mm)
        for one in worked_of(row).holes
        if (one.joint, one.place, one.part, one.face) == wanted
        and one.u_mm is not None
        and one.v_mm is not None
    ]


def _show(
    request: HttpRequest, row: Build, form: MoveForm, title: str, *, status: int = 422, **more: Any
) -> HttpResponse:
    context = {
        "form": form,
        "heading": title,
        "seen": request.POST.get("seen", ""),
        "leave": back_to(request, row.number),
        "conflict": None,
    }
    return show(request, row, "holes", "builds/move.html", context | more, status=status)
