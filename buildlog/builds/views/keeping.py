"""A build into a file and out of one."""

from __future__ import annotations

from tempfile import TemporaryFile
from typing import Any

from django.contrib import messages
from django.core.files.uploadedfile import UploadedFile
from django.http import FileResponse, HttpRequest, HttpResponse, HttpResponseBase, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.utils.http import content_disposition_header
from django.views.decorators.http import require_http_methods, require_safe
from django_htmx.http import HttpResponseClientRedirect

from buildlog.builds.archive import MOST_BYTES, digests_of
from buildlog.builds.keeping import ReadIn, read_in, says_of, write_zip
from buildlog.builds.page import of_workshop, row_of, show
from buildlog.builds.queries import plain_of
from buildlog.pictures.queries import missing_digests
from buildlog.plain_command import sentence
from calculators.planning.files import write_build
from calculators.quantities.errors import InputError

IN_MEMORY = 8 * 1024 * 1024
"""An archive up to this size is sent from memory, a larger one from a temporary file [bytes]."""


@require_safe
def keeping(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Offer the build as a file."""
    row = row_of(request, number)
    digests = digests_of(plain_of(row))
    context = {"photographs": len(digests), "missing": missing_digests(row.workshop, digests)}
    return show(request, row, "keeping", "builds/keeping.html", context)


@require_safe
def as_file(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Give the build file."""
    row = row_of(request, number)
    answer = HttpResponse(write_build(plain_of(row)), content_type="application/json")
    answer["Content-Disposition"] = content_disposition_header(True, f"{row.number}.json")
    return answer


@require_safe
def as_archive(request: HttpRequest, workshop: str, number: str) -> HttpResponseBase:
    """Give the build file with its photographs."""
    row = row_of(request, number)
    name = f"{row.number}.zip"
    out = TemporaryFile()  # noqa: SIM115 (the answer closes a large one when it has been sent)
    try:
        write_zip(row, out)
        if out.seek(0, 2) > IN_MEMORY:
            out.seek(0)
            return FileResponse(out, as_attachment=True, filename=name, content_type="application/zip")
        out.seek(0)
        data = out.read()
    except BaseException:
        out.close()
        raise
    out.close()
    answer = HttpResponse(data, content_type="application/zip")
    answer["Content-Disposition"] = content_disposition_header(True, name)
    return answer


@require_http_methods(["GET", "HEAD", "POST"])
def read(request: HttpRequest, workshop: str) -> HttpResponse:
    """Read a build from a file; where its number is taken, ask what shall be done."""
    if request.method != "POST":
        return render(request, "builds/keeping_read.html", {})
    try:
        done = _read_in(request)
    except InputError as error:
        return render(request, "builds/keeping_read.html", _faults(request, error), status=422)
    says = says_of(done)
    (messages.warning if done.missing or done.anew else messages.success)(request, says)
    address = reverse("builds:check", args=(done.row.workshop.slug, done.row.number))
    if getattr(request, "htmx", False):
        return HttpResponseClientRedirect(address)
    return HttpResponseRedirect(address)


def _read_in(request: HttpRequest) -> ReadIn:
    upload = request.FILES.get("file")
    if not isinstance(upload, UploadedFile):
        raise InputError.of("Choose a file: a build file (.json) or an archive (.zip) that was kept before.")
    if (upload.size or 0) > MOST_BYTES:
        raise InputError.of(f"The file has {upload.size:,} bytes; at most {MOST_BYTES:,} are read.")
    here, person = of_workshop(request).workshop, of_workshop(request).user
    do = request.POST.get("do", "")
    number = request.POST.get("number", "").strip() if do == "as" else ""
    assert upload.file is not None
    return read_in(
        here, person, upload.file, upload.name or "a file", number=number, replace_it=do == "replace"
    )


def _faults(request: HttpRequest, error: InputError) -> dict[str, Any]:
    """What the page shows: each fault with its place, and what may be done about a number that is taken."""
    taken = error.faults[0] if error.faults[0].field == "number" and error.faults[0].choices else None
    return {
        "faults": [sentence(fault) for fault in error.faults],
        "free": taken.choices[0] if taken else "",
        "number": request.POST.get("number", ""),
    }
