"""The build file: one declaration of its records, from which reading, writing and its JSON Schema follow.

May import: calculators.quantities, calculators.hardware and `calculators.planning.model`, `tree`.
The door to it is `calculators.planning.files`.
"""
