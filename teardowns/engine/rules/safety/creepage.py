"""The shortest way along an insulating surface from the mains side to what a hand can touch.

Dirt and moisture let current creep over a surface; how far it has to be depends on the voltage
that lasts, on the material and on the dirt. It is never taken as less than the clearance.
"""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, grade_span, graded
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
from teardowns.engine.requirements.surface_path import lengths_at_ends, with_others
from teardowns.engine.rule import safety

SHAPE = ("width", "depth", "straight", "from_x", "from_y", "to_x", "to_y", "start", "end",
         "gap_1", "gap_2", "gap_3", "particle", "particle_loose")
COATED, FUNCTIONAL, UNREAD, NO_EARTH, AT_ODDS, JOINT, MOVED = range(1, 8)


@safety(
    on="path", hazard="shock", confidence="A", measure="m",
    title="Creepage",
    source="IEC 62368-1:2018, 5.4.3, table 17 and annex O; 5.0 mm for reinforced insulation at "
           "250 V and 5.8 mm at 281 V as test reports on chargers print, IEC 60950-1, p. 42 to 47.",
    validity="The shortest way along surfaces that was found, over grooves and round slots as the "
             "standard measures them. Up to 1000 V; not under potting, coating or cement.",
    formula=equation(
        sym("d", "req"), EQ,
        fn("max", sym("k"), TIMES, sym("d", "table"), op(","), sym("d", "clearance"))),
    symbols={"distance": sym("d")},
    reasons=(
        "",
        "In the unit examined this path is potted, coated or cemented over: distances along "
        "surfaces are not graded there.",
        "This path lies inside one circuit: no distance is required of it here.",
        "The evidence does not decide this path: its length was not recorded, or the shape that "
        "it crosses was not measured.",
        *OPEN_PATHS,
    ),
    optional=("situation", "distance_u", "distance_assumed", "other_least", "other_most",
              "pollution_degree", "coated", "contaminated", "material_group", *SHAPE,
              "rated_voltage_high", "overvoltage_category", "rated_altitude",
              "working_voltage_rms", "working_voltage_peak", "working_voltage_frequency"),
)
def creepage(barrier, path, site, situation, shape, distance, distance_u, distance_assumed,
             other_least, other_most, pollution_degree, coated, contaminated, material_group,
             width, depth, straight, from_x, from_y, to_x, to_y, start, end, gap_1,
             gap_2, gap_3, particle, particle_loose, plug, rated_voltage_high,
             overvoltage_category, rated_altitude, working_voltage_rms, working_voltage_peak,
             working_voltage_frequency):
    mains = supply(rated_voltage_high, plug, overvoltage_category)
    need = required_distances(
        mains, reinforced=np.isin(barrier, REINFORCED), transformer=site == "transformer",
        working_voltage_rms=working_voltage_rms, working_voltage_peak=working_voltage_peak,
        working_voltage_frequency=working_voltage_frequency, rated_altitude=rated_altitude,
        pollution_degree=pollution_degree, contaminated=contaminated,
        material_group=material_group)
    low, high = need.creepage
    longest, shortest = lengths_at_ends(
        need, True, distance=distance, shape=shape, width=width, depth=depth,
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
    earthless = (barrier == "PRI_PE") & np.isin(plug, UNEARTHED)
    why = np.select(
        [earthless, coated == 1, functional, np.isnan(shortest) | np.isnan(longest),
         (alone != CANNOT_TELL) & (known == CANNOT_TELL)],
        [NO_EARTH, COATED, FUNCTIONAL, UNREAD, AT_ODDS], 0)
    grade = np.where(why > 0, CANNOT_TELL, known)
    short = grade == FALLS_SHORT
    why = np.select([short & (situation == "joint_open"), short & (situation == "metal_moved")],
                    [JOINT, MOVED], why)
    return graded(
        grade, value=length, u=distance_u, low=low, high=high,
        applies=path == "creepage", why=why,
        assumed=need.assumed | {
            "uncertainty": distance_assumed == 1,
            "earthed": (barrier == "PRI_PE") & ~earthless & ~np.isin(plug, EARTHED_PLUGS),
            "bare_path": np.isnan(coated), "plain_path": shape == "",
            "clean_path": np.isnan(contaminated), "no_particle": np.isnan(particle),
            "open_slot": (shape == "slot") & (np.isnan(start) | np.isnan(end))},
        numbers={"rms_low": need.rms[0], "rms_high": need.rms[1],
                 "clearance_low": need.clearance[0], "clearance_high": need.clearance[1]})
