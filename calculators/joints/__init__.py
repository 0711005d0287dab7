"""The joint: from a fastener and its stack to every hole, the length, what holds, and what is wrong.

May import: tables, quantities, calculation, hardware, materials. Offers `work_joint` and the records of
`model.py`; `read_joint` (reading.py), `apply_mend` (mending.py), `LIMITS` (limits.py) and `RULES` (rules/) by
module.
"""

from calculators.joints.model import Finding, JointInput, JointResult, Layer, Mend, StackItem
from calculators.joints.work import work_joint

__all__ = ["Finding", "JointInput", "JointResult", "Layer", "Mend", "StackItem", "work_joint"]
