"""Captures of known truth, drawn at random, and the shares that are read right:
python -m tests.bench.waveforms [captures]"""
import sys
from collections import Counter

import numpy as np

from teardowns.logs.conditions import Conditions
from teardowns.logs.extracted import Unread
from teardowns.logs.waveforms.read_waveform import read_waveform
from tests.logs.captures import drawn

FREQUENCY, DUTY = 0.002, 0.005            # relative; absolute
BARS = {"frequency": 0.99, "duty cycle": 0.99, "mode": 0.99, "said to be unreadable": 0.99}


def scored(case):
    """(what, right) of one capture; an unread result of a readable capture is not right."""
    found = {one.code: one for one in read_waveform(case.channels(), Conditions())}
    mode = found["conduction_mode"]
    if not case.is_readable:
        yield "said to be unreadable", isinstance(mode, Unread)
        if case.kind != "cut off":
            yield "said to be unreadable", all(isinstance(one, Unread) for one in found.values())
            return
    else:
        yield "mode", getattr(mode, "word", "") == case.flyback.truth
    frequency = found.get("pulse_frequency") or found["switching_frequency"]
    true = case.frequency()
    yield "frequency", abs(getattr(frequency, "value", 0.0) / true - 1) <= FREQUENCY
    true *= case.flyback.duty / case.flyback.frequency
    yield "duty cycle", abs(getattr(found["duty_cycle"], "value", 0.0) - true) <= DUTY


def shares(count, seed=6):
    """{what: (right, of)}, and the captures that were misread."""
    random, right, total, misread = np.random.default_rng(seed), Counter(), Counter(), []
    for _ in range(count):
        case = drawn(random)
        for what, is_right in scored(case):
            right[what] += is_right
            total[what] += 1
            if not is_right:
                misread.append((what, case))
    return {what: (right[what], total[what]) for what in sorted(total)}, misread


def main(count=2000):
    found, misread = shares(count)
    missed = False
    for what, (right, of) in found.items():
        missed |= right < BARS[what] * of
        print(f"{what:24} {right} of {of} = {100 * right / of:.2f} %; bar {100 * BARS[what]:.0f} %")
    print("misread:", dict(Counter((what, case.kind) for what, case in misread)))
    return int(missed)


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
