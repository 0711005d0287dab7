"""The bench: the calculators at the command line, and later as pages.

May import: calculators and, of buildlog, workshops. Offers no names.
"""
