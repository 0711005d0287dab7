"""Every address of Oddleg; each app brings its own list."""

from django.urls import path

from buildlog.workshops.views import start

urlpatterns = [
    path("", start, name="start"),
]
