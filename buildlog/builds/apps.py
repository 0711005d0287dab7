"""The app of the builds."""

from django.apps import AppConfig


class BuildsConfig(AppConfig):
    """Builds: their records and every change of them."""

    name = "buildlog.builds"
    label = "builds"
