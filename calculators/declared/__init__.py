"""The calculators, each declared in a file of its subject; `calculators.catalogue` lists them.

May import: everything of `calculators` but the catalogue.
"""
