"""The addresses of the bench. What has a fixed name stands before what is named in the address."""

from django.urls import path

from buildlog.bench.views.calculators import calculator, index
from buildlog.bench.views.finding import search, words
from buildlog.bench.views.tables import table, tables

app_name = "bench"
urlpatterns = [
    path("", index, name="index"),
    path("find/", search, name="find"),
    path("words/", words, name="words"),
    path("tables/", tables, name="tables"),
    path("tables/<str:name>/", table, name="table"),
    path("<str:name>/", calculator, name="calculator"),
]
