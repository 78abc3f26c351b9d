"""What the node does between turn-off and turn-on: plateau, demagnetisation, ring, mode."""
from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from teardowns.logs.waveforms.profile import Profile
from teardowns.logs.waveforms.ring import Ring, fit_ring

DISCONTINUOUS, CONTINUOUS, BOUNDARY, BURST = "discontinuous", "continuous", "boundary", "burst"
LEAVES = 0.03             # of the span: so far below the plateau, demagnetisation is over
SAGS = 0.07               # of the span: a fall by less is the drop of diode and winding
VALLEY = 0.65             # of a ring period since demagnetisation: turn-on in the first valley
NOISES = 6                # robust standard deviations
WHOLE = 1.2               # ring periods that a fit needs
POOR = 0.04               # of the span: a fit that leaves more does not describe the ring
FINE = 5                  # samples of a ring period


@dataclass(frozen=True, slots=True)
class Conduction:
    mode: str
    plateau: float | None     # V, on the capture's own scale; None: shorter than the first ringing
    plateau_u: float
    demagnetised: float | None        # s after the turn-off
    demagnetised_u: float
    valley: int               # number of the valley nearest to the turn-on, 0 none
    ring: Ring | None
    why_no_ring: str = ""


def conduction_of(profile: Profile, on_level: float) -> Conduction:
    v, first = profile.values, profile.blank
    window = v[first:first + max(3, int((len(v) - first) * 0.12))]
    start = float(np.median(window))
    quiet = max(NOISES * profile.noise, LEAVES * (start - on_level))
    if v[first:].max() > start + 2 * quiet:
        return Conduction(DISCONTINUOUS, None, 0.0, None, 0.0, 0, None, _TOO_EARLY)
    left = _leaves(v, first, np.full(len(v), start), quiet)
    line = _line(v, first, left)
    left = _leaves(v, first, np.minimum(line, start), quiet)
    fall = start - float(v[left:].min()) if left < len(v) else 0.0
    if fall < SAGS * (start - on_level) or _is_sag(v, line, left, fall):
        level = float(np.median(v[first:]))
        return Conduction(CONTINUOUS, level, _level_u(profile), None, 0.0, 0, None,
                          "In continuous conduction nothing rings between the pulses: capture "
                          "at a lower load.")
    return _with_ring(profile, on_level, first, left, quiet)


def _leaves(v, first, level, quiet):
    """The first of two samples together below the level; the length where there are none."""
    low = v[first:] < level[first:] - quiet
    both = np.flatnonzero(low[:-1] & low[1:])
    return first + int(both[0]) if len(both) else len(v)


def _line(v, first, left):
    place = np.arange(len(v))
    inside = slice(first, max(first + int(0.9 * (left - first)), first + 2))
    if inside.stop - first < 8:
        return np.full(len(v), float(np.median(v[inside])))
    return np.polyval(np.polyfit(place[inside], v[inside], 1), place)


def _is_sag(v, line, left, fall):
    """The fall goes on as the plateau began: it is the sag of the rectifier's drop."""
    return left < len(v) and line[-1] - v[-1] < 0.4 * fall and line[left] - line[-1] > 0.6 * fall


def _level_u(profile):
    return float(profile.noise + 0.003 * abs(np.ptp(profile.values)))


def _with_ring(profile, on_level, first, left, quiet):
    v, step = profile.values, profile.step
    seen = left - first >= 3
    plateau = float(np.median(v[first:max(first + int(0.9 * (left - first)), first + 2)]))
    low = _first_valley(v, left, profile.noise)
    half = 0.5 * (plateau - float(v[low])) if low is not None else (
        (plateau - on_level) * 0.3)
    ends = _began(v, left, plateau, half, quiet)
    ends_u = float(np.hypot(0.4 * step, 0.15 * (left - ends) * step))
    end = {"plateau": plateau if seen else None, "plateau_u": _level_u(profile),
           "demagnetised": ends * step if seen else None, "demagnetised_u": ends_u}
    if low is None:
        mode = DISCONTINUOUS if _has_settled(v, left) else BOUNDARY
        return Conduction(mode, **end, valley=0, ring=None, why_no_ring=_TOO_SHORT
                          if mode == BOUNDARY else _DAMPED)
    period = 2 * (low - ends)
    turns = (profile.length / step - ends) / period
    ring, why = _ring(profile, on_level, left, ends, period)
    if ring:
        turns = (profile.length - ends * step) * ring.frequency
        if seen:
            crest = _crest(v, ends, 1 / (ring.frequency * step), ring, step)
            end["demagnetised"], end["demagnetised_u"] = crest * step, float(
                np.hypot(0.3 * step, 0.03 / ring.frequency))
    mode = BOUNDARY if turns <= VALLEY else DISCONTINUOUS
    in_valley = abs(turns % 1 - 0.5) <= VALLEY - 0.5
    return Conduction(mode, **end, valley=int(turns) + 1 if in_valley else 0, ring=ring,
                      why_no_ring=why)


_TOO_SHORT = ("The switch turns on before the ring has gone through a whole period: capture at a "
              "lower load.")
_TOO_EARLY = ("The ring begins before the leakage inductance has stopped ringing: capture at a "
              "higher load.")
_DAMPED = "The ring dies before it has turned once: it is damped, and has no frequency to read."


def _first_valley(v, left, noise):
    rest = v[left:]
    lowest = np.minimum.accumulate(rest)
    back = rest - lowest > np.maximum(NOISES * noise, 0.12 * (v[left - 1] - lowest))
    if not back.any():
        return None
    return left + int(np.argmin(rest[:int(np.argmax(back)) + 1]))


def _began(v, left, plateau, half, quiet):
    """Where the ring began, before it was seen to leave the plateau.

    From its crest it falls by half·(1 − cos ωt): the time from leaving to 0.7 of an amplitude
    below gives ω.
    """
    share = min(quiet / half, 0.5)
    below = left + np.flatnonzero(v[left:] < plateau - 0.7 * half)
    if not len(below):
        return float(left)
    leaves, deep = (_passes(v, place, plateau - part * half)
                    for place, part in ((left, share), (int(below[0]), 0.7)))
    first, second = np.arccos(1 - share), np.arccos(0.3)
    return max(float(leaves - (deep - leaves) * first / (second - first)), 0.0)


def _passes(v, place, level):
    """Between the sample before and this one, by a straight line."""
    above, below = float(v[place - 1]), float(v[place])
    return place - np.clip((level - below) / max(above - below, 1e-12), 0, 1)


def _has_settled(v, left):
    """The fall came to rest and stayed there: no valley of a cosine is as flat for as long."""
    rest = v[left:]
    near = np.abs(rest - rest[-1]) < 0.08 * (rest[0] - rest[-1])
    return near.mean() > 0.45


def _ring(profile, on_level, left, ends, period):
    v, step = profile.values, profile.step
    if len(v) - ends < WHOLE * period:
        return None, _TOO_SHORT
    if period < FINE:
        return None, ("A period of the ring has fewer than 5 samples: capture a shorter time, or "
                      "with more samples.")
    ring = fit_ring(v[left:], step, 1 / (period * step))
    if ring.residual > POOR * (float(v[profile.blank:left + 1].max()) - on_level):
        return None, ("What follows the demagnetisation is no free ring that dies away: the probe "
                      "loads the node, or the ring is clamped. Use a 10 : 1 probe or more.")
    return ring, ""


def _crest(v, ends, period, ring, step):
    """Where the fitted ring stood still last before it was seen to fall, near `ends`."""
    time = np.arange(-0.25 * period, 0.25 * period, max(period / 400, 1e-3))
    start = int(np.ceil(ends + 0.2 * period))
    seen = v[start:]
    place = np.arange(len(seen)) * step
    angle, envelope = 2 * np.pi * ring.frequency * place, np.exp(-ring.decay * place)
    table = np.stack([envelope * np.cos(angle), envelope * np.sin(angle)], 1)
    (a, b), *_ = np.linalg.lstsq(table, seen - ring.centre, rcond=None)
    at = (ends + time - start) * step
    angle = 2 * np.pi * ring.frequency * at
    curve = np.exp(-ring.decay * at) * (a * np.cos(angle) + b * np.sin(angle))
    return float(ends + time[int(np.argmax(curve))])
