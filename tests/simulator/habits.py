"""How makers of the drawn population design, and how much of a unit a contributor records."""
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Habits:
    margin: float = 0.45        # ln, half-normal scale: by how much a part outdoes the aim
    makers: float = 0.0         # ln, by how much that scale differs between makers
    overstated: tuple = (0.05, 2.3)     # ln, of those that claim more than the unit reaches
    spread: float = 1.0         # widens what habit leaves free: copper, flux, mass, tables
    density: float = 1.0        # times the usual current density
    flux: float = 1.0           # times the usual flux density
    weight: float = 0.75        # times the usual mass of what is not transformer or capacitor
    corner: bool = False        # bulk capacitor chosen at 90 % of the mains, 47 Hz
    claim_first: bool = True    # what is claimed says nothing of honesty; else what is inside
    miscounted: float = 0.0     # of contributors, who take a bridge for half wave


@dataclass(frozen=True, slots=True)
class Regime:
    name: str
    seen: float                 # chance that a clue was looked at and recorded
    tested: float               # chance that the unit was on a load
    opened: bool = True
    unwound: float = 0.3        # chance that the transformer was taken apart


USUAL = Habits()
VARIANTS = {
    "margins ×0.6": Habits(margin=0.27),
    "margins ×1.5": Habits(margin=0.675),
    "habits ×1.5": Habits(spread=1.5),
    "corner design": Habits(corner=True),
    "inside first": Habits(claim_first=False),
    "miscounts 1 %": Habits(miscounted=0.01),
    "1.3 to 5 times": Habits(overstated=(0.26, 1.61)),
    "maker by maker": Habits(margin=0.4, makers=0.5),
}
# Makers whom nobody tuned anything to, each with habits of their own; drawn together.
UNSEEN = (
    Habits(margin=0.3, makers=0.6, density=0.85, weight=1.2, overstated=(0.26, 1.61)),
    Habits(margin=0.6, spread=1.4, density=1.15, flux=0.9, claim_first=False),
    Habits(margin=0.4, makers=0.3, corner=True, flux=1.08, miscounted=0.004),
    Habits(margin=0.5, spread=1.2, weight=0.85, overstated=(0.1, 1.2)),
)
REGIMES = (
    Regime("scale, caliper", 0.85, 0.0, opened=False, unwound=0.0),
    Regime("opened", 0.7, 0.0, unwound=0.0),
    Regime("instrumented", 0.8, 0.6, unwound=0.7),
)
