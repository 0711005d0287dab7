"""The journal of a build: its dated entries with their photographs.

The entries are records of the build, so this app stores nothing itself. May import `builds`, `pictures` and
what lies below them.
"""
