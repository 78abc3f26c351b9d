"""The shortest way through air from the mains side to what a hand can touch.

Air holds off the mains' own transients and the repetitive peaks of the converter; the larger of
both procedures of the standard decides, lengthened for thin air.
"""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, MEETS, grade_span, graded
from teardowns.engine.mathml import EQ, TIMES, equation, fn, op, sym
from teardowns.engine.requirements.barriers import (
    BASIC,
    EARTHED_PLUGS,
    OPEN_PATHS,
    REINFORCED,
    UNEARTHED,
    required_distances,
    supply,
)
from teardowns.engine.requirements.legacy_clearance import legacy_clearance
from teardowns.engine.requirements.surface_path import GROOVES, lengths_at_ends, with_others
from teardowns.engine.rule import safety

SHAPE = ("width", "depth", "straight", "from_x", "from_y", "to_x", "to_y", "start", "end",
         "gap_1", "gap_2", "gap_3", "particle", "particle_loose")
COATED, FUNCTIONAL, UNREAD, BELOW_LEGACY, NO_EARTH, AT_ODDS, JOINT, MOVED = range(1, 9)


@safety(
    on="path", hazard="shock", confidence="A", measure="m",
    title="Clearance",
    source="IEC 62368-1:2018, 5.4.2, tables 10, 11, 14 and 16, by procedures 1 and 2; 3.0 mm for "
           "reinforced insulation at 240 V as a test report on a charger prints, 2021, p. 43 to "
           "45. A maker may justify a shorter way by an electric strength test (5.4.2.4).",
    validity="The shortest way that was found, parts pushed into their worst position. Mains up to "
             "600 V a.c.; not through potting, coating or cement.",
    formula=equation(
        sym("d", "req"), EQ,
        fn("max", sym("d", "slow"), op(","), sym("d", "fast"), op(","), sym("d", "transient")),
        TIMES, sym("k", "altitude")),
    symbols={"distance": sym("d")},
    reasons=(
        "",
        "In the unit examined this path is potted, coated or cemented over: distances through air "
        "are not graded there.",
        "This path lies inside one circuit: no distance is required of it here.",
        "The evidence does not decide this path: its length was not recorded, or the shape that "
        "it crosses was not measured.",
        "It meets the tabulated figure; it is below the usual figure of the withdrawn standard "
        "that the label names.",
        *OPEN_PATHS,
    ),
    optional=("situation", "distance_u", "distance_assumed", "other_least", "other_most",
              "pollution_degree", "coated", "contaminated", *SHAPE,
              "rated_voltage_high", "overvoltage_category", "rated_altitude",
              "working_voltage_rms", "working_voltage_peak", "working_voltage_frequency",
              "claims_60950"),
)
def clearance(barrier, path, site, situation, shape, distance, distance_u, distance_assumed,
              other_least, other_most, pollution_degree, coated, contaminated,
              width, depth, straight, from_x, from_y, to_x, to_y, start, end, gap_1, gap_2,
              gap_3, particle, particle_loose, plug,
              rated_voltage_high, overvoltage_category, rated_altitude, working_voltage_rms,
              working_voltage_peak, working_voltage_frequency, claims_60950):
    mains = supply(rated_voltage_high, plug, overvoltage_category)
    reinforced = np.isin(barrier, REINFORCED)
    need = required_distances(
        mains, reinforced=reinforced, transformer=site == "transformer",
        working_voltage_rms=working_voltage_rms, working_voltage_peak=working_voltage_peak,
        working_voltage_frequency=working_voltage_frequency, rated_altitude=rated_altitude,
        pollution_degree=pollution_degree, contaminated=contaminated)
    low, high = need.clearance
    earthless = (barrier == "PRI_PE") & np.isin(plug, UNEARTHED)
    longest, shortest = lengths_at_ends(
        need, False, distance=distance, shape=shape, width=width, depth=depth,
        straight=straight, from_x=from_x, from_y=from_y, to_x=to_x, to_y=to_y, start=start,
        end=end, gap_1=gap_1, gap_2=gap_2, gap_3=gap_3, particle=particle,
        particle_loose=particle_loose)
    alone = grade_span(shortest, longest, distance_u, low, high)
    longest, shortest = with_others(longest, shortest, other_least, other_most)
    known = grade_span(shortest, longest, distance_u, low, high)
    # How far it falls short goes by the length that it falls short by.
    length = np.where(known == FALLS_SHORT, longest, shortest)
    length = np.where((alone != CANNOT_TELL) & (known == CANNOT_TELL), distance, length)
    functional = ~np.isin(barrier, REINFORCED + BASIC)
    low, high = (np.where(functional, np.nan, end) for end in (low, high))
    why = np.select(
        [earthless, coated == 1, functional, np.isnan(shortest) | np.isnan(longest),
         (alone != CANNOT_TELL) & (known == CANNOT_TELL)],
        [NO_EARTH, COATED, FUNCTIONAL, UNREAD, AT_ODDS], 0)
    # Line to neutral ahead of the fuse was functional there, with the figure of today.
    legacy = np.where(barrier == "L_N", np.nan,
                      legacy_clearance(mains.high, need.peak[1], reinforced))
    grade = np.where(why > 0, CANNOT_TELL, known)
    why = np.select(
        [(grade == MEETS) & (claims_60950 == 1) & (shortest < legacy),
         (grade == FALLS_SHORT) & (situation == "joint_open"),
         (grade == FALLS_SHORT) & (situation == "metal_moved")], [BELOW_LEGACY, JOINT, MOVED], why)
    return graded(
        grade, value=length, u=distance_u, low=low, high=high,
        applies=path == "clearance", why=why,
        assumed=need.assumed | {
            "uncertainty": distance_assumed == 1,
            "straight_path": np.isin(shape, GROOVES) & np.isnan(straight),
            "earthed": (barrier == "PRI_PE") & ~earthless & ~np.isin(plug, EARTHED_PLUGS),
            "bare_path": np.isnan(coated), "plain_path": shape == "",
            "clean_path": np.isnan(contaminated), "no_particle": np.isnan(particle)},
        numbers={"transient_low": need.transient[0], "transient_high": need.transient[1],
                 "peak_low": need.peak[0], "peak_high": need.peak[1], "legacy_clearance": legacy})
