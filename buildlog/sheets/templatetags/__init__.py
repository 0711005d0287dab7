"""Filters of the sheets' pages."""
