"""From a chain of probabilities and a severity to a level, as the EU guidelines on products for
consumers compute it. An illustration with their arithmetic, no act of an authority."""
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

BANDS = (Fraction(1, 2), *(Fraction(1, 10**n) for n in range(1, 7)))    # strictly exceeded
BAND_WORDS = ("more than 50 %", *(f"more than 1/{10**n:,}".replace(",", "\u202f")
                                  for n in range(1, 7)), "at most 1/1\u202f000\u202f000")
# By severity, the most probable band first. From memory; all 32 cells remain to be compared with
# the guidelines' table 4.
MATRIX = {1: "HMMLLLLL", 2: "SSSHMLLL", 3: "SSSSHMLL", 4: "SSSSSHML"}
LEVELS = {"S": "serious", "H": "high", "M": "medium", "L": "low"}
ORDER = ("", "low", "medium", "high", "serious")      # from none to the gravest
SEVERITIES = {
    1: "first aid is enough, no lasting harm",
    2: "treatment in an emergency ward, affected for up to six months",
    3: "stay in hospital, affected for more than six months or for good",
    4: "fatal, or could be",
}
CONFIDENCE = "C"             # of the matrix, see grading.CONFIDENCE
BESIDE = "illustration, by a table from memory"      # stands beside every level
ILLUSTRATION = ("A level is an illustration with the arithmetic of the EU guidelines on consumer "
                "products, no act of an authority. Its table is from memory (confidence C): all "
                "32 cells remain to be compared.")
SOURCE = ("Method: Commission Implementing Decision (EU) 2019/417, guidelines, and Delegated "
          "Regulation (EU) 2024/3173, annex II. Bands read in excerpts; the matrix from memory, "
          "consistent with the one worked example that was read.")


@dataclass(frozen=True, slots=True)
class Risk:
    p: Fraction                 # that the harm happens during the life of one such unit
    band: int                   # index into BAND_WORDS
    severity: int               # 1 to 4
    level: str                  # a value of LEVELS
    levels: tuple[str, str, str]        # one band more probable, this one, one less probable

    @property
    def is_robust(self) -> bool:
        """Whether one band up or down changes nothing."""
        return len(set(self.levels)) == 1


def risk(severity: int, steps: Sequence[Fraction | str]) -> Risk:
    """The level of a scenario.

    severity : 1 to 4
    steps : probability of each step, exact fractions or texts such as "1/20"
    """
    p = Fraction(1)
    for step in steps:
        p *= Fraction(step)
    band = band_of(p)
    row = MATRIX[severity]
    around = (row[max(band - 1, 0)], row[band], row[min(band + 1, len(BANDS))])
    up, here, down = (LEVELS[letter] for letter in around)
    return Risk(p, band, severity, here, (up, here, down))


def band_of(p: Fraction) -> int:
    """The first band whose threshold is strictly exceeded, else the last."""
    return next((index for index, limit in enumerate(BANDS) if p > limit), len(BANDS))


def highest(levels: Sequence[str]) -> str:
    """The gravest of several levels, "" of none: never a sum."""
    return max(levels, key=ORDER.index, default="")
