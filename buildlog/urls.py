"""Every address of Oddleg; each app brings its own list. A workshop's pages have it in their address."""

from django.urls import include, path

from buildlog.builds.look import look
from buildlog.builds.views.start import start

BUILD = "workshops/<slug:workshop>/builds/<str:number>/"

urlpatterns = [
    path("", start, name="start"),
    path("look/", look, name="look"),
    path("", include("buildlog.calculations.urls")),
    path("bench/", include("buildlog.bench.urls")),
    path("paper/", include("buildlog.sheets.paper_urls")),
    path("", include("buildlog.workshops.urls")),
    path("workshops/<slug:workshop>/pictures/", include("buildlog.pictures.urls")),
    path("workshops/<slug:workshop>/", include("buildlog.builds.workshop_urls")),
    path(BUILD, include("buildlog.sheets.urls")),
    path(f"{BUILD}journal/", include("buildlog.journal.urls")),
    path(BUILD, include("buildlog.builds.urls")),
]
