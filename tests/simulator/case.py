"""The box: how large a maker makes it for the heat, and what everything in it weighs."""
from dataclasses import dataclass

import numpy as np

from . import cores
from .output_side import POLYMER

MASS_OF = {"plastic": 1150.0, "board": 1850.0, "copper": 8960.0, "can": 1500.0}     # kg/m³

SOCKET = 5e-6       # m³, what plug, socket and board take at least
UNUSUAL = 0.1       # of the makers: a housing from stock, a weight, a filling, a metal shell


@dataclass(frozen=True, slots=True)
class Case:
    """(n,) each; SI."""

    area: np.ndarray            # m², outside
    free: np.ndarray            # part of it that sheds heat; the rest lies at the wall
    inside: np.ndarray          # W/(m² K), from the air inside to the case
    hot_spot: np.ndarray        # rise of the hottest spot over the mean rise
    shape: np.ndarray           # (n, 3) sides, as ratios

    @property
    def sides(self):
        """(n, 3) m"""
        a, b, c = self.shape.T
        return self.shape * np.sqrt(self.area / (2 * (a * b + b * c + c * a)))[:, None]

    @property
    def volume(self):
        return self.sides.prod(axis=1)


def draw_case(target, dense, rng):
    """Of a size to start from; `chargers` fits it to the heat."""
    n = target.size
    volume = 1e-6 * target / (0.3 * (target / 5) ** 0.5)
    shape = np.stack([np.ones(n), rng.uniform(0.6, 1.0, n), rng.uniform(0.4, 0.8, n)], axis=1)
    side = (volume / shape.prod(axis=1)) ** (1 / 3)
    a, b, c = shape.T
    return Case(area=2 * side**2 * (a * b + b * c + c * a),
                free=np.where(target < 40, rng.uniform(0.82, 0.97, n), rng.uniform(0.9, 1.0, n)),
                inside=np.where(dense | (target > 15) & (rng.random(n) < 0.3), 28.0, 14.0)
                * np.exp(rng.normal(0, 0.2, n)),
                hot_spot=1 / rng.uniform(np.where(dense, 0.8, 0.65), np.where(dense, 0.95, 0.9)),
                shape=shape)


def contents(mains_side, converter, output_side):
    """(n,) m³ of the large parts, and their mass [kg]."""
    index, turns = converter.core_index, converter.core.turns
    wire = np.pi / 4 * cores.TURN[index] * (
        turns * converter.primary_strands * converter.primary_wire**2
        + converter.secondary_turns * converter.secondary_strands * converter.secondary_wire**2)
    bulk = 0.13e-6 * mains_side.bulk_nominal * 1e6          # m³; 1.3 cm³ for 10 µF, 400 V
    cans = (np.pi / 4 * output_side.capacitor_diameter**2 * output_side.capacitor_length
            * output_side.capacitor_count)
    box = cores.WIDTH[index] * cores.HEIGHT[index] * np.maximum(
        cores.DEPTH[index], 0.7 * cores.WIDTH[index])
    dense = np.where(output_side.capacitor_kind == POLYMER, 1.3, 1.0)
    mass = (cores.MASS[index] * 1.25 + 1.1 * MASS_OF["copper"] * wire
            + MASS_OF["can"] * (bulk + dense * cans))
    return box + 1.3 * (bulk + cans) + SOCKET, mass


def draw_mass(target, case, parts, rng, habits):
    """kg of the unit without ballast; case, board, metal and small parts by its size."""
    n = target.size
    wall = rng.uniform(1.2e-3, 2.0e-3, n)
    shell = MASS_OF["plastic"] * wall * case.area
    board = MASS_OF["board"] * 1.5e-3 * rng.uniform(0.15, 0.25, n) * case.area
    metal = 1e-3 * (rng.uniform(2, 6, n) + np.where(target > 12, rng.uniform(0.1, 0.6, n), 0.05)
                    * target)
    small = 1e-3 * (1 + 0.15 * target) * rng.uniform(0.6, 1.4, n)
    filled = np.where(case.inside > 22, rng.uniform(0.05, 0.35, n) * 1500 * case.volume, 0.0)
    usual = np.where(rng.random(n) < UNUSUAL, 0.45, 0.1)
    rest = habits.weight * (shell + board + metal + small + filled)
    return (rest + parts) * np.exp(rng.normal(0, 1, n) * usual * habits.spread)
