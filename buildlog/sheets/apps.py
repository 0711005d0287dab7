"""The app of the sheets."""

from django.apps import AppConfig


class SheetsConfig(AppConfig):
    """Sheets; what takes long to print is kept for a day."""

    name = "buildlog.sheets"
    label = "sheets"
