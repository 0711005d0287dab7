"""The app of the photographs."""

from django.apps import AppConfig


class PicturesConfig(AppConfig):
    """Photographs of a workshop."""

    name = "buildlog.pictures"
    label = "pictures"
