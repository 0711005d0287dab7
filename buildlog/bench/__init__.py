"""The bench: the calculators at the command line and as pages, the published tables, the trade's words.

May import: calculators and, of buildlog, workshops. Offers no names.
"""
