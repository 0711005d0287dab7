"""The addresses of sheets and templates, under `workshops/<workshop>/builds/<number>/`."""

from django.urls import path

from buildlog.sheets import paper_views, template_views, views

app_name = "sheets"
urlpatterns = [
    path("sheets/printing/", views.ask, name="ask"),
    path("sheets/printing/begin/", views.begin, name="begin"),
    path("sheets/printing/<str:name>/", views.printing, name="printing"),
    path("sheets/printing/<str:name>/cancel/", views.cancel, name="cancel"),
    path("sheets/printing/<str:name>/sheet.pdf", views.printed, name="printed"),
    path("sheets/printed/<str:code>/gone/", paper_views.gone, name="gone"),
    path("sheets/<str:kind>.pdf", views.sheet, name="sheet"),
    path("sheets/<str:kind>.csv", views.spreadsheet, name="csv"),
    path("template/", template_views.template, name="templates"),
    path("parts/<str:mark>/template/", template_views.template, name="template"),
]
