"""Which way up a winding was probed: its dot may lie at either end of the probe."""
from __future__ import annotations

import numpy as np

from teardowns.logs.waveforms.profile import Profile, profile_of
from teardowns.logs.waveforms.pulses import Pulses, pulses_of
from teardowns.logs.waveforms.rhythm import Rhythm, rhythm_of
from teardowns.logs.waveforms.trace import Trace, Unreadable

CLEAR = 0.03              # relative: by so much the farthest rise and fall must differ
EDGE = 0.12e-6            # s: what an edge and the first swing of the leakage inductance take

Seen = tuple[Trace, Pulses, Rhythm, Profile]


def seen_upright(trace: Trace) -> Seen:
    """The capture as the switch has it, low while it conducts; raises Unreadable."""
    if not trace.is_winding:
        return _seen(trace)
    tried = [_tried(trace), _tried(trace.upside_down())]
    read = [one for one in tried if not isinstance(one, Unreadable)]
    if not read:
        raise tried[0]
    rise, fall = _swings(trace, min(float(np.quantile(one[1].periods, 0.25)) for one in read))
    if max(rise, fall) < (1 + CLEAR) * min(rise, fall):
        raise Unreadable("It does not show which half of the period is the on-time: capture the "
                         "switch, or the winding at a load at which it rings between the pulses.")
    upright = tried[0] if rise > fall else tried[1]
    if isinstance(upright, Unreadable):
        raise upright
    return upright


def _seen(trace):
    pulses = pulses_of(trace)
    rhythm = rhythm_of(trace, pulses)
    return trace, pulses, rhythm, profile_of(trace, pulses, rhythm)


def _tried(trace):
    try:
        return _seen(trace)
    except Unreadable as reason:
        return reason


def _swings(trace, period):
    """How far an edge rises and how far one falls. [V]

    The turn-off swings farthest, from the on level to the spike of the leakage inductance; a
    turn-on comes from the plateau at most, without a spike.
    """
    reach = max(2, int(EDGE / trace.step)) + trace.width
    change = trace.values[reach:] - trace.values[:-reach]
    length = int(1.2 * period)
    blocks = change[:len(change) // length * length].reshape(-1, length)
    # Blocks within the pause between two bursts hold no edge.
    return tuple(float(np.quantile(swing, 0.95))
                 for swing in (blocks.max(axis=1), -blocks.min(axis=1)))
