"""What a contributor writes down: noisy, with gaps, and now and then mistaken.

Each clue is an `Observed` column: NaN where nothing was recorded. Flags are 1 (seen) or 0
(looked and not found), so a part that was overlooked is a wrong 0.
"""
from .observed import Contributor
from .observed_bench import observe_bench
from .observed_outside import observe_outside, observe_plate
from .observed_parts import observe_parts
from .observed_windings import observe_windings


def draw_observations(chargers, plates, rng, regime, habits):
    who = Contributor(chargers.target.size, rng, regime)
    seen = (*observe_plate(plates, chargers, who), *observe_outside(chargers, who))
    if regime.opened:
        seen += (*observe_parts(chargers, who, habits), *observe_windings(chargers, who))
    return seen + observe_bench(chargers, plates, who) if regime.tested else seen
