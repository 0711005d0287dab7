"""The app of the builds."""

from django.apps import AppConfig


class BuildsConfig(AppConfig):
    """Builds; read from files, nothing is stored yet."""

    name = "buildlog.builds"
    label = "builds"
