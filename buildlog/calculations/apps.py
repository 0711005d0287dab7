"""The app of the kept calculations."""

from django.apps import AppConfig


class CalculationsConfig(AppConfig):
    """Kept calculations; they are records of a build."""

    name = "buildlog.calculations"
    label = "calculations"
