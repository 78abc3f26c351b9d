r"""How much an observation that is not made yet is expected to say about a claim, in bits.

The claim H is true with probability p. An observation Y has the chances P(y | H) and P(y | not H)
over its possible outcomes. Before it is made, what it will say is the mutual information

.. math:: I(H;Y) = h(p) - \sum_y P(y)\,h(P(H\mid y)),\quad h(q) = -q\log_2 q-(1-q)\log_2(1-q)

at most h(p), which is one bit at even odds. D. V. Lindley, Ann. Math. Statist. 27, 986 (1956).
Distributions over ln of a capability are kept as NODES values of equal probability.
"""
import numpy as np
from scipy.special import entr, ndtr, rel_entr

from .likelihoods import HABIT_TRUST, TRUST
from .posterior import ABOVE, BELOW, BEYOND, FAR, MET
from .voltages import EDGES

NODES = 24          # values of equal probability that stand for each hypothesis
OUTCOMES = 48       # steps of an outcome that is a number
# In ln from the claim. What lies farther off tells the hypotheses apart no better.
REACH = (-2.5, 1.5)
TAILS = 4.0         # standard uncertainties


def outcomes(p, met, unmet):
    """Chance of each outcome, and the claim's probability once it is seen.

    p : (k,) float; met, unmet : (k, outcomes) float, chances if the claim is true, untrue
    """
    p = np.asarray(p, float)[..., None]
    chance = p * met + (1 - p) * unmet
    after = np.where(chance > 0, p * met / np.where(chance > 0, chance, 1.0), p)
    return chance, after


def gains(p, met, unmet):
    """(k, outcomes) what each outcome adds to the expected information: its chance times the
    divergence of what is known after it from what is known before. [bits]"""
    p = np.asarray(p, float)[..., None]
    chance, after = outcomes(p[..., 0], met, unmet)
    return chance * (rel_entr(after, p) + rel_entr(1 - after, 1 - p)) / np.log(2)


def bits(p, met, unmet):
    """(k,) expected information about the claim; 0 where nothing is open."""
    return np.maximum(gains(p, met, unmet).sum(-1), 0.0)


def entropy(q):
    """Bits that are open while something is true with probability q."""
    return (entr(q) + entr(1 - q)) / np.log(2)


def power_nodes(points, likelihood, claim):
    """(2, NODES) ln of capability where the claim is untrue and where it is met.

    points, likelihood : (grid,) float, ln W and the likelihood of all evidence; claim in W
    """
    edges = np.log(claim) + np.log([1 / FAR, 1 / BELOW, MET, ABOVE, FAR])
    share = np.array([BEYOND, 1 - BEYOND, 1 - BEYOND, BEYOND]) / np.diff(edges)
    inside = points[(points > edges[0]) & (points < edges[-1])]
    x = np.sort(np.concatenate([edges, inside]))
    middle = (x[1:] + x[:-1]) / 2
    curve = np.interp(middle, points, likelihood)            # constant beyond the grid
    mass = share[np.searchsorted(edges, middle) - 1] * np.diff(x) * curve
    cut = int(np.searchsorted(x, edges[2]))
    return np.stack([equal_nodes(x[:cut + 1], mass[:cut]), equal_nodes(x[cut:], mass[cut:])])


def voltage_nodes(points, likelihood, stays):
    """(2, NODES) ln of the highest voltage where the claimed one is not available and where it is.

    points, likelihood : (voltages.EDGES[-1],) float; stays : share of the first that is 5 V
    """
    sizes = np.diff(EDGES)
    shares = np.array([stays, 1 - stays, 1 - BEYOND, BEYOND]) / (sizes - 1)
    mass = np.repeat(shares, sizes)[:-1] * (likelihood[1:] + likelihood[:-1]) / 2
    mass[EDGES[1:-1] - 1] = 0.0                              # from one part to the next
    cut = EDGES[2]
    return np.stack([equal_nodes(points[:cut], mass[:cut - 1]),
                     equal_nodes(points[cut:], mass[cut:])])


def equal_nodes(x, mass):
    """(NODES,) values of equal probability; mass : (len(x) − 1,), between neighbours."""
    below = np.concatenate([[0.0], np.cumsum(mass + 1e-300)])
    return np.interp((np.arange(NODES) + 0.5) / NODES, below / below[-1], x)


def line_chances(nodes, claim, is_test, sigma, margin):
    """(2, k, OUTCOMES) as `number_chances`; of a test, the chances that a load at the claim is
    held and that it is not.

    is_test : (k,) bool
    """
    chances = number_chances(nodes, claim, sigma, margin)
    for j in np.flatnonzero(is_test):
        held = held_chances(nodes, claim, sigma[j])
        chances[:, j] = 0.0
        chances[:, j, :2] = np.stack([held, 1 - held], 1)
    return chances


def number_chances(nodes, claim, sigma, margin):
    """(2, k, OUTCOMES) chances of a line's value, where the claim is untrue and where it is met.

    ln value = x + half-normal margin + normal error; a share 1 − w of observations is not described
    by that and says nothing.

    nodes : (2, NODES) ln of capability; claim : ln of the claim
    sigma : (k,) float, standard uncertainty in ln; margin : (k,) float, scale in ln, 0 for none
    """
    sigma, margin = (np.asarray(part, float)[:, None] for part in (sigma, margin))
    x = np.clip(nodes, claim + REACH[0], claim + REACH[1])
    start = claim + REACH[0] - TAILS * sigma
    stop = claim + REACH[1] + TAILS * np.hypot(sigma, margin)
    y = start + (stop - start) * (np.arange(OUTCOMES) + 0.5) / OUTCOMES         # (k, OUTCOMES)
    d = y[None, :, :, None] - x[:, None, None, :]
    chance = _normalised(skew_normal(d, sigma[:, :, None], margin[:, :, None]), axis=2).mean(-1)
    trust = _trust(margin)
    return trust * chance + (1 - trust) / OUTCOMES


def _trust(margin):
    """w of likelihoods.log_limit and log_practice: a habit has no margin."""
    return np.where(margin > 0, TRUST, HABIT_TRUST)


def skew_normal(d, sigma, margin):
    """Density of a half-normal margin of scale s plus a normal error."""
    t = np.hypot(sigma, margin)
    z = d / t
    return 2 / (t * np.sqrt(2 * np.pi)) * np.exp(-0.5 * z * z) * ndtr(z * (margin / sigma))


def input_chances(nodes, value, sigma, margin, part):
    """(2, k, OUTCOMES) chances of what measuring one input of a line that speaks will show.

    Given the capability, the line's value already tells how far off the input may be: the error z
    of the input has N(0, part²), and what is left of ln value − x − z is the margin and the rest
    of the uncertainty.

    value : (k,) float, ln of the line's value; sigma : (k,) float, in ln, with the input's part
    part : (k,) float, how much of sigma the measurement takes away, in ln
    """
    value, sigma, margin, part = (
        np.asarray(each, float)[:, None, None] for each in (value, sigma, margin, part))
    rest = np.sqrt(np.maximum(sigma**2 - part**2, 1e-12))
    z = part * TAILS * (2 * (np.arange(OUTCOMES) + 0.5) / OUTCOMES - 1)[:, None]
    d = value - nodes[:, None, None, :]
    trust = _trust(margin)
    mistaken = (1 - trust) / 4 / (sigma * np.sqrt(2 * np.pi))       # as in likelihoods.log_limit
    described = trust * skew_normal(d - z, rest, margin) + mistaken
    return _normalised(np.exp(-0.5 * (z / part) ** 2) * described, axis=2).mean(-1)


def _normalised(chance, axis):
    total = chance.sum(axis=axis, keepdims=True)
    # A node so far away that no step reaches it: every outcome alike.
    return np.where(total > 0, chance / np.where(total > 0, total, 1.0), 1 / OUTCOMES)


def held_chances(nodes, load, sigma):
    """(2,) chance that a load, ln W, is held: where the claim is untrue and where it is met."""
    return ndtr((nodes - load) / sigma).mean(axis=-1)
