r"""How strongly an observation speaks, by the kind of its line of evidence.

With x = ln C the quantity asked about, :math:`\mu` the line's value and :math:`\sigma` its
standard uncertainty (both in ln), :math:`d = \mu - x`. Practice may whisper, physics may shout,
a test decides.
"""
import numpy as np
from scipy.special import ndtr

TRUST = 0.9          # w: the share of observations that the model of a line describes
# Of habits fewer: their middles and spreads are from memory, and makers go their own ways.
HABIT_TRUST = 0.85
# A limit rests on what somebody read. One measurement in fifty is a slipped digit, a wrong part, a
# bad contact (`suspects`), and a second look misses one in four of these: one in two hundred says
# nothing of the unit (common practice, no source). A slip by ten or a thousand is hardly rarer
# than one by three, so that this falls off slowly with its size.
MISREAD, TAPER = 0.005, 0.1
# A load may be lost by a bad cable or contact, at the wrong port or by a slipped digit: one test
# in fifty (`suspects`; common practice, no source), and the unit may then hold up to so many times
# as much. None of these makes a unit hold a load, so that a test that was passed needs no such
# share; a slipped digit of one shows in what it contradicts.
SPOILT, ELSEWHERE = 0.02, 30.0
# No test says more than this. A larger mistake is less likely, in proportion to its factor:
# without that, what lies far beyond a result on both sides of a claim would say nothing.
FLOOR = 1e-12
LOG_FLOOR = float(np.log(FLOOR))


def log_limit(d, sigma, margin):
    r"""A physical limit: parts are chosen with a margin above what the maker aims at.

    .. math:: \frac{1-w}{4}\left(\Phi(d/\sigma) + \frac{m}{1 + k|d|}\right)
              + w\frac{2\sigma}{t}e^{-d^2/2t^2}\,\Phi\!\left(\frac{d s}{\sigma t}\right)

    with :math:`t^2 = s^2 + \sigma^2`: a half-normal margin of scale s, seen with a normal
    error (the skew normal density), and a share m of readings that are gross mistakes. It refutes
    as far as one reading can and supports mildly.
    """
    t = np.sqrt(margin * margin + sigma * sigma)
    z = d / t
    aimed = 2 * sigma / t * np.exp(-0.5 * z * z) * ndtr(z * (margin / sigma))
    mistaken = MISREAD / (1 + TAPER * np.abs(d))
    return np.log((1 - TRUST) / 4 * (ndtr(d / sigma) + mistaken) + TRUST * aimed)


def log_practice(d, sigma, margin=None):
    """A habit of the trade, w·exp(−d²/2σ²) + (1 − w)/4: 24 : 1 at most."""
    z = d / sigma
    return np.log((1 - HABIT_TRUST) / 4 + HABIT_TRUST * np.exp(-0.5 * z * z))


def log_passed(d, sigma, margin=None):
    """A test that was passed at μ: Φ(−d/σ)."""
    return _log_share(-d / sigma, d)


def log_failed(d, sigma, margin=None):
    """A test that was failed at μ: Φ(d/σ)."""
    return _log_share(d / sigma, d)


def _log_share(z, d):
    """ln Φ(z), by way of Φ: above the floor its logarithm has lost no digit."""
    with np.errstate(divide="ignore"):
        return np.maximum(np.log(ndtr(z)), LOG_FLOOR - np.abs(d))


def log_switch(d, ratio, margin=None):
    """Values above μ are `ratio` times as well explained as those below.

    Normalised so that the better explained side stands at one.
    """
    ratio = np.clip(ratio, FLOOR, 1 / FLOOR)
    above, below = np.log(np.minimum(ratio, 1.0)), np.log(np.minimum(1 / ratio, 1.0))
    return np.where(d < 0, above, below)


LOG_LIKELIHOOD = {
    "limit": log_limit, "practice": log_practice, "passed": log_passed, "failed": log_failed,
    "switch": log_switch,
}


def log_likelihood(kind, d, sigma, margin, share=0.0, factor=1.0):
    """The likelihood of a line of any kind.

    share : how likely the line rests on a part overlooked or taken for another
    factor : how many times the value would be if it does
    """
    log = LOG_LIKELIHOOD[kind](d, sigma, margin)
    if not np.any(share):
        return log
    other = LOG_LIKELIHOOD[kind](d + np.log(factor), sigma, margin)
    both = np.log((1 - share) * np.exp(log) + share * np.exp(other))
    return np.where(share > 0, both, log)     # where nothing is doubted, to the same bit as alone
