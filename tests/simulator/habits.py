"""How makers of the drawn population design, and how much of a unit a contributor records."""
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Habits:
    margin: float = 0.45        # ln, half-normal scale: by how much a part outdoes the aim
    spread: float = 1.0         # widens what habit leaves free: mass, published power tables
    corner: bool = False        # bulk capacitor chosen at 90 % of the mains, 47 Hz
    claim_first: bool = True    # what is claimed says nothing of honesty; else what is inside
    miscounted: float = 0.0     # of contributors, who take a bridge for half wave


@dataclass(frozen=True, slots=True)
class Regime:
    name: str
    seen: float                 # chance that a clue was looked at and recorded
    tested: float               # chance that the unit was on a load


USUAL = Habits()
VARIANTS = {
    "margins ×0.6": Habits(margin=0.27),
    "margins ×1.5": Habits(margin=0.675),
    "habits ×1.5": Habits(spread=1.5),
    "corner design": Habits(corner=True),
    "inside first": Habits(claim_first=False),
    "miscounts 1 %": Habits(miscounted=0.01),
}
REGIMES = (
    Regime("few clues", 0.3, 0.0),
    Regime("all clues", 1.0, 0.0),
    Regime("with tests", 0.5, 0.6),
)
