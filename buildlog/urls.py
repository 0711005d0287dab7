"""Every address of Oddleg; each app brings its own list."""

from django.urls import include, path

from buildlog.builds.views import start

urlpatterns = [
    path("", start, name="start"),
    path("builds/", include("buildlog.builds.urls")),
    path("sheets/", include("buildlog.sheets.urls")),
]
