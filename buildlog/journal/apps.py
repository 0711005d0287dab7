"""The app of the journal."""

from django.apps import AppConfig


class JournalConfig(AppConfig):
    """The journal; its entries are records of a build."""

    name = "buildlog.journal"
    label = "journal"
