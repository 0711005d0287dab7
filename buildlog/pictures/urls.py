"""The addresses of photographs, below `workshops/<workshop>/pictures/`."""

from django.urls import path, register_converter
from django.urls.converters import StringConverter

from buildlog.pictures.views import picture


class Digest(StringConverter):
    """A SHA-256 in hexadecimal."""

    regex = "[0-9a-f]{64}"


class Size(StringConverter):
    """One of the two sizes that are kept."""

    regex = "full|small"


register_converter(Digest, "digest")
register_converter(Size, "size")

app_name = "pictures"
urlpatterns = [
    path("<digest:digest>-<size:size>.jpg", picture, name="picture"),
]
