"""What a calculator is: its declaration, how its inputs are read, its result, and how that is written.

May import: the standard library and `calculators.quantities`. The calculators themselves are declared in
`calculators.declared`, one file each, and listed in `calculators.catalogue`.
"""

from calculators.calculation.declaration import Calculator, Given, Input
from calculators.calculation.picture import Picture
from calculators.calculation.result import Result, Step, Value, named

__all__ = ["Calculator", "Given", "Input", "Picture", "Result", "Step", "Value", "named"]
