"""The app that holds the calculators' command and pages."""

from django.apps import AppConfig


class BenchConfig(AppConfig):
    """The bench; it stores nothing."""

    name = "buildlog.bench"
    label = "bench"
