r"""How strongly an observation speaks, by the kind of its line of evidence.

With x = ln C the quantity asked about, :math:`\mu` the line's value and :math:`\sigma` its
standard uncertainty (both in ln), :math:`d = \mu - x`. Practice may whisper, physics may shout,
a test decides.
"""
import numpy as np
from scipy.special import log_ndtr, ndtr

TRUST = 0.9          # w: the share of observations that the model of a line describes
FLOOR = 1e-12        # no single line ever says more than this
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
    return _log((1 - TRUST) / 4 * ndtr(d / sigma) + TRUST * aimed)


def log_practice(d, sigma, margin=None):
    """A habit of the trade, w·exp(−d²/2σ²) + (1 − w)/4: about 30 : 1 at most."""
    z = d / sigma
    return _log((1 - TRUST) / 4 + TRUST * np.exp(-0.5 * z * z))


def log_passed(d, sigma, margin=None):
    """A test that was passed at μ: Φ(−d/σ)."""
    return np.maximum(log_ndtr(-d / sigma), LOG_FLOOR)


def log_failed(d, sigma, margin=None):
    """A test that was failed at μ: Φ(d/σ)."""
    return np.maximum(log_ndtr(d / sigma), LOG_FLOOR)


def log_switch(d, ratio, margin=None):
    """Values above μ are `ratio` times as well explained as those below.

    Normalised so that the better explained side stands at one.
    """
    ratio = np.clip(ratio, FLOOR, 1 / FLOOR)
    above, below = np.log(np.minimum(ratio, 1.0)), np.log(np.minimum(1 / ratio, 1.0))
    return np.where(d < 0, above, below)


def _log(likelihood):
    return np.log(np.maximum(likelihood, FLOOR))


LOG_LIKELIHOOD = {
    "limit": log_limit, "practice": log_practice, "passed": log_passed, "failed": log_failed,
    "switch": log_switch,
}
