"""The addresses of sheets, under `workshops/<workshop>/builds/<number>/sheets/`."""

from django.urls import path

from buildlog.sheets import views

app_name = "sheets"
urlpatterns = [
    path("printing/", views.ask, name="ask"),
    path("printing/begin/", views.begin, name="begin"),
    path("printing/<str:name>/", views.printing, name="printing"),
    path("printing/<str:name>/cancel/", views.cancel, name="cancel"),
    path("printing/<str:name>/sheet.pdf", views.printed, name="printed"),
    path("<str:kind>.pdf", views.sheet, name="sheet"),
    path("<str:kind>.csv", views.spreadsheet, name="csv"),
]
