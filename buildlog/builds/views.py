"""The pages of a build. Every one comes in by the one door, `access.build_of`."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from buildlog.builds.access import build_of, builds_of
from buildlog.builds.showing import SIDES, counts_of, joint_context, side_context


@require_safe
def start(request: HttpRequest) -> HttpResponse:
    """Show the person's builds and what the check says of each."""
    builds = [{"build": worked.build, "counts": counts_of(worked)} for worked in builds_of(request.user)]
    return render(request, "builds/start.html", {"builds": builds})


@require_safe
def side(request: HttpRequest, number: str, side: str = "check") -> HttpResponse:
    """Show one side of a build."""
    worked = build_of(request.user, number)
    context = {
        "build": worked.build,
        "counts": counts_of(worked),
        "sides": SIDES,
        "side": side,
        **side_context(worked, side),
    }
    return render(request, f"builds/{side}.html", context)


@require_safe
def joint(request: HttpRequest, number: str, mark: str) -> HttpResponse:
    """Show one joint: its section beside its numbers, and what is wrong with it."""
    worked = build_of(request.user, number)
    context = {"build": worked.build, "sides": SIDES, "side": "joints", **joint_context(worked, mark)}
    return render(request, "builds/joint.html", context)
