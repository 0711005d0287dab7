"""The whole-build check: every rule of it, a small pure function each, one file a subject.

May import: everything in planning but the edits, and below it in calculators. Offers `check_build`,
`RULES`, and the records of `rule.py` and `site.py` by their modules. To add a rule: a function in its
subject's file with `part_rule`, `joint_rule` or `build_rule` above it, that file's `RULES`, its test with a
worked case just inside and just outside its limits, and a planted build in `tests/planning/checks/planted/`.
"""

from calculators.planning.checks.rules import RULES
from calculators.planning.checks.running import check_build

__all__ = ["RULES", "check_build"]
