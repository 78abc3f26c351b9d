r"""How strongly an observation speaks, by the kind of its line of evidence.

With x = ln C the quantity asked about, :math:`\mu` the line's value and :math:`\sigma` its
standard uncertainty (both in ln), :math:`d = \mu - x`. Practice may whisper, physics may shout,
a test decides.
"""
import numpy as np
from scipy.special import log_ndtr, ndtr

TRUST = 0.9          # w: the share of observations that the model of a line describes
# Of habits fewer: their middles and spreads are from memory, and makers go their own ways.
HABIT_TRUST = 0.85
# No single line says more than this, for any reading may be a gross mistake. A larger mistake is
# less likely, in proportion to its factor: without that, what lies far beyond a limit on both
# sides of a claim would say nothing.
FLOOR = 1e-12
LOG_FLOOR = float(np.log(FLOOR))


def log_limit(d, sigma, margin):
    r"""A physical limit: parts are chosen with a margin above what the maker aims at.

    .. math:: \frac{1-w}{4}\Phi(d/\sigma)
              + w\frac{2\sigma}{t}e^{-d^2/2t^2}\,\Phi\!\left(\frac{d s}{\sigma t}\right)

    with :math:`t^2 = s^2 + \sigma^2`: a half-normal margin of scale s, seen with a normal
    error (the skew normal density). It refutes without bound and supports mildly.
    """
    t = np.sqrt(margin * margin + sigma * sigma)
    z = d / t
    aimed = 2 * sigma / t * np.exp(-0.5 * z * z) * ndtr(z * (margin / sigma))
    return _log((1 - TRUST) / 4 * ndtr(d / sigma) + TRUST * aimed, d)


def log_practice(d, sigma, margin=None):
    """A habit of the trade, w·exp(−d²/2σ²) + (1 − w)/4: 24 : 1 at most."""
    z = d / sigma
    return _log((1 - HABIT_TRUST) / 4 + HABIT_TRUST * np.exp(-0.5 * z * z), d)


def log_passed(d, sigma, margin=None):
    """A test that was passed at μ: Φ(−d/σ)."""
    return np.maximum(log_ndtr(-d / sigma), LOG_FLOOR - np.abs(d))


def log_failed(d, sigma, margin=None):
    """A test that was failed at μ: Φ(d/σ)."""
    return np.maximum(log_ndtr(d / sigma), LOG_FLOOR - np.abs(d))


def log_switch(d, ratio, margin=None):
    """Values above μ are `ratio` times as well explained as those below.

    Normalised so that the better explained side stands at one.
    """
    ratio = np.clip(ratio, FLOOR, 1 / FLOOR)
    above, below = np.log(np.minimum(ratio, 1.0)), np.log(np.minimum(1 / ratio, 1.0))
    return np.where(d < 0, above, below)


def _log(likelihood, d):
    return np.maximum(np.log(np.maximum(likelihood, 1e-300)), LOG_FLOOR - np.abs(d))


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
    with np.errstate(divide="ignore"):
        return np.logaddexp(np.log1p(-share) + log, np.log(share) + other)
