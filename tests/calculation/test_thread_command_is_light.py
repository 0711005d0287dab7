"""The command starts at once: identify-thread loads no drawing, no database and none of the larger packages."""

import subprocess
import sys

SCRIPT = """
import sys
from calculators.calculation.answering import answer, as_text
from calculators.catalogue import find_calculator
given = {"diameter": "4.70", "threads_per_inch": "32"}
calculator = find_calculator("identify-thread")
as_text(calculator, given, answer(calculator, given))
heavy = {"django", "numpy", "pint", "uncertainties", "weasyprint", "PIL"}
print(sorted(heavy & {name.split(".")[0] for name in sys.modules}))
print([name for name in sys.modules if name.startswith("calculators.drawing")])
"""


def test_identify_thread_loads_nothing_heavy():
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT], capture_output=True, text=True, check=True, timeout=60
    )
    assert done.stdout.split("\n") == ["[]", "[]", ""]
