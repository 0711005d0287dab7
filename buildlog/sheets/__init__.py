"""Sheets: paper for the bench, printed from a build worked out. Printing has one door, `printing.py`."""
