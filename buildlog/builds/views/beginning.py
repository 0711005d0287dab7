"""Beginning a build."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from buildlog.builds.actions import begin_build
from buildlog.builds.forms import add_faults
from buildlog.builds.header_forms import BeginForm
from buildlog.builds.numbers import next_number
from buildlog.builds.page import of_workshop
from calculators.quantities.errors import InputError


@require_http_methods(["GET", "HEAD", "POST"])
def new(request: HttpRequest, workshop: str) -> HttpResponse:
    """Begin a build, and go on to its first parts."""
    here = of_workshop(request).workshop
    form = BeginForm(request.POST or None, initial={"number": next_number(here)})
    if request.method == "POST" and form.is_valid():
        build = form.build(here, of_workshop(request).user)
        try:
            row = begin_build(here, of_workshop(request).user, build, f"Begun: {build.number} {build.title}")
        except InputError as error:
            add_faults(form, error)
        else:
            says = f"{row.number} is begun. Write its parts, one a line."
            messages.success(request, says, extra_tags="new-build")
            return HttpResponseRedirect(
                reverse("builds:parts", args=(here.slug, row.number)) + "#entry-parts-new"
            )
    status = 422 if request.method == "POST" else 200
    return render(request, "builds/build_new.html", {"form": form}, status=status)
