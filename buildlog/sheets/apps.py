"""The app of the sheets."""

from django.apps import AppConfig


class SheetsConfig(AppConfig):
    """Sheets; nothing is stored."""

    name = "buildlog.sheets"
    label = "sheets"
