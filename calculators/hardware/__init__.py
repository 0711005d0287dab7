"""Threads, drills, heads, nuts, washers, inserts and wood screws, and the trade's way of writing them.

May import: calculators.tables, calculators.quantities.
"""
