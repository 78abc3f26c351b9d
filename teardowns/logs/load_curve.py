"""How an output's voltage gives way under load: voltage over current, as a log shows it."""
from __future__ import annotations

import numpy as np

from teardowns.logs.channels import Channels

BINS = 40                 # of the current, from none to the largest
FEWEST = 3                # readings that make a point
LOST = 0.8                # of the voltage at the least load: below it the output is gone


def load_curve(channels: Channels) -> tuple[tuple[float, float], ...]:
    """(A, V) by rising current; () where the log has no voltage beside a current, or one load only.

    Readings from the first loss on, of which there may be many kinds, are left out.
    """
    volts, amperes = channels.of("output_voltage"), channels.of("output_current")
    if volts is None or amperes is None:
        return ()
    known = np.isfinite(volts.values) & np.isfinite(amperes.values)
    v, i = volts.values[known], amperes.values[known]
    if not len(i) or not i.max() > 0:
        return ()
    v, i = _before_loss(v, i)
    place = np.minimum((i / i.max() * BINS).astype(int), BINS - 1)
    found = [(float(np.median(i[here])), float(np.median(v[here])))
             for at in range(BINS) if (here := place == at).sum() >= FEWEST]
    return tuple(found) if len(found) > 1 else ()


def _before_loss(volts, amperes):
    unloaded = np.median(volts[amperes <= np.quantile(amperes, 0.1)])
    lost = np.flatnonzero(volts < LOST * unloaded)
    end = int(lost[0]) if len(lost) else len(volts)
    kept = volts[:end], amperes[:end]
    return kept if end and kept[1].max() > 0 else (volts, amperes)
