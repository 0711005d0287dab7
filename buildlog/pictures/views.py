"""Showing a photograph to the people of its workshop; the door has proven that they are."""

from __future__ import annotations

from django.http import Http404, HttpResponse
from django.utils.cache import get_conditional_response
from django.views.decorators.http import require_safe

from buildlog.pictures.queries import Size, file_of
from buildlog.workshops.door import WorkshopRequest


@require_safe
def picture(request: WorkshopRequest, workshop: str, digest: str, size: Size) -> HttpResponse:
    """One file of one picture. It never changes, since its name is its digest, so browsers may keep it."""
    data = file_of(request.workshop, digest, size)
    if data is None:
        raise Http404("no such picture in this workshop")
    etag = f'"{digest}-{size}"'
    response = HttpResponse(data, content_type="image/jpeg")
    response["ETag"] = etag
    response["Cache-Control"] = "private, max-age=31536000, immutable"
    response["Content-Disposition"] = f'inline; filename="picture-{digest[:12]}-{size}.jpg"'
    response["X-Content-Type-Options"] = "nosniff"
    answer = get_conditional_response(request, etag=etag, response=response)
    assert isinstance(answer, HttpResponse)
    return answer
