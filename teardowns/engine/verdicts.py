"""From odds to words."""
import numpy as np

from .rule import FAILED, LIMIT, PASSED, PRACTICE, SWITCH

WORDS = ("no evidence", "supported", "possible", "doubtful", "implausible",
         "not attainable on this evidence", "evidence contradicts itself")
(NO_EVIDENCE, SUPPORTED, POSSIBLE, DOUBTFUL, IMPLAUSIBLE, NOT_ATTAINABLE,
 CONTRADICTION) = range(len(WORDS))
DECISIVE = (LIMIT, FAILED, SWITCH)     # what a "not attainable" must rest on
WEAK = 3.0                             # decibans; below, a weight is no evidence
STRONG = 10.0                          # decibans that a decisive line must carry
CONFLICT = 3.0                         # combined standard uncertainties
# Of the claim: a test that was passed there is one of the claim itself. Of a power, a tenth below
# it the largest share of what is missing may lie in meter and cable; our own choice.
NEAR = 0.9
ENOUGH = 10 * np.log10(9.0)            # decibans; "supported" begins at 9 : 1


def plausibility(odds):
    return odds / (1 + odds)


# How a claim of voltage and power is untrue, when it is: by the voltage alone, by the power
# alone, by both. An output that is switched can miss any of them; an adapter of one voltage is
# built for that voltage, so that it is nearly always the power. Our own choice.
WAYS = {True: (1 / 3, 1 / 3, 1 / 3), False: (0.05, 0.9, 0.05)}


def joint_odds(power, voltage, switched):
    """Odds that the voltage is available and the power reached; even before any evidence.

    switched : (m,) bool, the output has to be switched to the voltage
    NaN stands for a claim that says nothing about the one or the other.
    """
    by_voltage, by_power, by_both = (
        np.where(switched, *pair) for pair in zip(WAYS[True], WAYS[False], strict=True))
    both = power * voltage / (by_voltage * power + by_power * voltage + by_both)
    return np.where(np.isnan(voltage), power, np.where(np.isnan(power), voltage, both))


def decibans(odds):
    return 10 * np.log10(odds)


def verdict_words(low, high, total, weights, kinds, conflict, lesser=False, power=np.nan,
                  of_power=None, less_was_lost=False, far_below=False, unseen=False):
    """(m,) index into WORDS.

    low, high : (m,) float, plausibility at the two mains ends
    total : (m,) float, decibans; weights : (m, lines) float, decibans, NaN where unused
    kinds : (lines,) str; conflict : (m,) bool
    lesser : (m,) bool, a claim at a lower voltage than the unit's highest
    power : (m,) float, plausibility of the power alone at the low end; NaN: none is stated
    of_power : (lines,) bool, lines about the power, not the voltage; None: all are
    less_was_lost : (m,) bool, less than is claimed was lost, perhaps at another output
    far_below : (m, lines) bool, tests passed, or voltages in a list, below NEAR of the claim
    unseen : (m,) bool, a voltage that has to be switched to, which nobody saw or read in a list
    """
    of_power = np.ones(len(kinds), bool) if of_power is None else of_power
    watts = ~np.isnan(power)
    word = np.select([low >= 0.9, low >= 0.5, low >= 0.1],
                     [SUPPORTED, POSSIBLE, DOUBTFUL], IMPLAUSIBLE)
    decisive = np.isin(kinds, DECISIVE)
    against = (np.nan_to_num(weights)[:, decisive] <= -STRONG).any(axis=1)
    word = np.where((low < 0.01) & (high < 0.01) & against, NOT_ATTAINABLE, word)
    # What a unit gives at a lower voltage is a matter of current, which no bound on its power
    # shows: there a load has to be held, for a voltage that was seen shows no watts.
    passed = (kinds == PASSED) & (np.nan_to_num(weights) >= WEAK)
    shown = np.where(watts, (passed & of_power).any(axis=1), passed.any(axis=1))
    word = np.where(lesser & ~shown & (word == SUPPORTED), POSSIBLE, word)
    # Practice may whisper: habits of the trade alone neither support a claim nor condemn it.
    firm = (np.abs(np.nan_to_num(weights)[:, kinds != PRACTICE]) >= WEAK).any(axis=1)
    word = np.where(firm, word, np.where(word == SUPPORTED, POSSIBLE,
                                         np.where(word == IMPLAUSIBLE, DOUBTFUL, word)))
    # Nor do they support watts beside a voltage that somebody saw, for a voltmeter loads nothing;
    # and where half of the watts was drawn, the voltage says nothing of the other half.
    loaded = (np.abs(np.nan_to_num(weights)[:, (kinds != PRACTICE) & of_power]) >= WEAK).any(axis=1)
    word = np.where(watts & (~loaded | (power < 0.9)) & (word == SUPPORTED), POSSIBLE, word)
    word = np.where(less_was_lost & (word == SUPPORTED), POSSIBLE, word)
    # A test below the claim shows that the unit is no worse, not that it gives what is claimed.
    lifted = np.where(far_below, np.fmax(np.nan_to_num(weights), 0), 0).sum(axis=1)
    word = np.where((unseen | (lifted > 0) & (total - lifted < ENOUGH)) & (word == SUPPORTED),
                    POSSIBLE, word)
    quiet = (np.abs(np.nan_to_num(weights)) < WEAK).all(axis=1) & (np.abs(total) < WEAK)
    word = np.where(quiet, NO_EVIDENCE, word)
    return np.where(conflict, CONTRADICTION, word)
