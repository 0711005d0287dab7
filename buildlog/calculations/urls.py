"""The addresses of a build's kept calculations, and of the page that takes one there from the bench."""

from django.urls import path

from buildlog.calculations.views import changing, keeping, reading

BUILD = "workshops/<slug:workshop>/builds/<str:number>/"
KEPT = f"{BUILD}calculations/"

app_name = "calculations"
urlpatterns = [
    path("bench/<str:name>/keep/", keeping.keep, name="keep"),
    path(KEPT, reading.calculations, name="calculations"),
    path(f"{KEPT}<str:mark>/", reading.calculation, name="calculation"),
    path(f"{KEPT}<str:mark>/change/", changing.change, name="change"),
    path(f"{KEPT}<str:mark>/copy/", changing.copy, name="copy"),
    path(f"{KEPT}<str:mark>/remove/", changing.take_out, name="remove"),
    path(f"{BUILD}new-calculation/", changing.choose, name="choose"),
    path(f"{BUILD}new-calculation/<str:name>/", changing.new, name="new"),
]
