"""The build as plain data: its model, its file, its schedules and its findings.

May import: everything below it in calculators. Offers the records of `model.py`, `read_build`, `write_build`.
"""
