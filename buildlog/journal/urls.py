"""The addresses of a build's journal."""

from django.urls import path

from buildlog.journal import views

app_name = "journal"
urlpatterns = [
    path("", views.entries, name="entries"),
]
