"""The addresses of a build's journal."""

from django.urls import path

from buildlog.journal import views

app_name = "journal"
urlpatterns = [
    path("", views.entries, name="entries"),
    path("decisions/", views.decisions, name="decisions"),
    path("entries/<str:key>/", views.entry, name="entry"),
    path("entries/<str:key>/delete/", views.delete, name="delete"),
]
