"""The pure core of Oddleg: everything that is worked out, with no database, no request and no clock.

May import: the standard library and the general libraries named in pyproject.toml; never Django, buildlog or
WeasyPrint.
"""
