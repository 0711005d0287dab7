"""The addresses of sheets."""

from django.urls import path

from buildlog.sheets import views

app_name = "sheets"
urlpatterns = [path("<str:kind>.pdf", views.sheet, name="sheet")]
