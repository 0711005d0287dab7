"""The addresses of a workshop's builds as a whole, under `workshops/<workshop>/`."""

from django.urls import path

from buildlog.builds.views import beginning, habits, keeping, rules

app_name = "builds-of"
urlpatterns = [
    path("new-build/", beginning.new, name="new"),
    path("habits/", habits.habits, name="habits"),
    path("habits/rules/", rules.habits, name="rules"),
    path("read-build/", keeping.read, name="read"),
]
