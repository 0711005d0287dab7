"""The calculations that are kept with a build: their pages, and how one comes from the bench into a build.

They are records of a build (`calculators.planning.model.Calculation`), worked in `calculators.planning`. May
import: bench (its form and worked example), builds, workshops.
"""
