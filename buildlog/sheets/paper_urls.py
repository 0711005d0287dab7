"""The short addresses that the square codes on paper hold, under `paper/`."""

from django.urls import path

from buildlog.sheets import paper_views

app_name = "paper"
urlpatterns = [
    path("", paper_views.find, name="find"),
    path("<str:code>/", paper_views.paper, name="paper"),
]
