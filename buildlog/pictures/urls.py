"""The addresses of photographs, below `workshops/<workshop>/pictures/`."""

from django.urls import re_path

from buildlog.pictures.views import picture

app_name = "pictures"
urlpatterns = [
    re_path(r"^(?P<digest>[0-9a-f]{64})-(?P<size>full|small)\.jpg$", picture, name="picture"),
]
