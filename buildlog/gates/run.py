"""`manage.py check-all`: runs every gate, or those named, and says how each went."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

from buildlog.gates.gate import GATES, Gate, run_gate
from buildlog.gates.postgresql import CannotStart, temporary_server
from buildlog.setup.system import chromium


@dataclass(frozen=True)
class Verdict:
    """How a gate went: `pass`, `FAIL` or `skipped`, and what it printed or why it was skipped."""

    gate: Gate
    word: str
    seconds: float
    said: str = ""


def main(arguments: Sequence[str]) -> int:
    """Run the gates named, or all; the exit status is 0 only when none failed."""
    known = {gate.name: gate for gate in GATES}
    unknown = [name for name in arguments if name not in known]
    if unknown:
        print("usage: manage.py check-all [GATE ...]   (no gate named: all of them, in this order)\n")
        print("\n".join(f"  {gate.name:<12} {gate.says}" for gate in GATES))
        if set(unknown) & {"-h", "--help"}:
            return 0
        print(f"\nThere is no gate named {', '.join(unknown)}.", file=sys.stderr)
        return 2
    started = time.monotonic()
    gates = [known[name] for name in dict.fromkeys(arguments)] or list(GATES)
    verdicts: list[Verdict] = []
    with ThreadPoolExecutor(max_workers=2) as pool:
        for verdict in pool.map(judge, [gate for gate in gates if not gate.is_shown]):
            report(verdict)
            verdicts.append(verdict)
    for gate in gates:
        if gate.is_shown:
            print(f"\n---- {gate.name}: {gate.says}", flush=True)
            verdict = judge(gate)
            report(verdict)
            verdicts.append(verdict)
    return sum_up(verdicts, time.monotonic() - started)


def judge(gate: Gate) -> Verdict:
    """Run one gate and time it."""
    started = time.monotonic()
    try:
        status, said = _run(gate)
    except CannotStart as reason:
        # A missing server or browser is let pass on a person's machine, but not where changes are accepted.
        word = "FAIL" if os.environ.get("CI") else "skipped"
        return Verdict(gate, word, time.monotonic() - started, f"Not run: {reason}.")
    return Verdict(gate, "FAIL" if status else "pass", time.monotonic() - started, said if status else "")


def _run(gate: Gate) -> tuple[int, str]:
    if gate.name == "browser" and chromium() is None:
        raise CannotStart("Chromium is not installed")
    if gate.name == "postgresql":
        with temporary_server() as url:
            return run_gate(gate, extra={"DATABASE_URL": url})
    return run_gate(gate)


def report(verdict: Verdict) -> None:
    """Print one gate's line, after what it said."""
    if verdict.said:
        print(f"\n{verdict.said.rstrip()}")
    print(
        f"{verdict.word:<8} {verdict.gate.name:<12} {verdict.seconds:6.1f} s   {verdict.gate.says}",
        flush=True,
    )


def sum_up(verdicts: Sequence[Verdict], seconds: float) -> int:
    """Print every verdict once more and the last line; return the exit status."""
    print(f"\n---- {len(verdicts)} gates in {seconds:.0f} s")
    for verdict in verdicts:
        report(Verdict(verdict.gate, verdict.word, verdict.seconds))
    failed = [verdict.gate.name for verdict in verdicts if verdict.word == "FAIL"]
    skipped = [verdict.gate.name for verdict in verdicts if verdict.word == "skipped"]
    if failed:
        print(f"Not in order: {', '.join(failed)}.")
    elif skipped:
        print(f"In order, but {', '.join(skipped)} did not run.")
    else:
        print("All in order.")
    return 1 if failed else 0
