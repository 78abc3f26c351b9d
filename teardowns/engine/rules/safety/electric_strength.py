"""A test voltage between mains pins and output, as somebody equipped for it reported."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, MEETS, graded
from teardowns.engine.mathml import EQ, equation, fn, num, op, sym
from teardowns.engine.requirements.barriers import required_distances, supply
from teardowns.engine.requirements.electric_strength import (
    BY_OVERVOLTAGE,
    MINUTE,
    legacy_strength,
    required_strength,
)
from teardowns.engine.rule import safety

BROKE, HELD, SHORTER, AT_ODDS = 1, 2, 3, 4


@safety(
    on="unit", hazard="shock", confidence="B", measure="V",
    title="Electric strength of the barrier",
    source="IEC 62368-1:2018, 5.4.9.1, tables 25 to 27, read in one open-source library; 4000 V "
           "d.c. for reinforced insulation in a test report on a charger, 2021. 60 s from memory.",
    validity="Voltages as d.c. or peak; an r.m.s. value times √2. Such tests are recorded, never "
             "asked for: they deliver voltage that can kill.",
    formula=equation(sym("U"), EQ, fn("max", sym("U", "transient"), op(","), num("1.6"),
                                      sym("U", "pk"), op(","), sym("U", "overvoltage"))),
    symbols={"electric_strength_withstood": sym("U")},
    reasons=(
        "",
        "In the unit examined a breakdown was reported at a voltage that the barrier has to "
        "withstand.",
        "In the unit examined the barrier is reported to have withstood the required test voltage "
        "for a minute.",
        "The reported test was lower or shorter than the required one, or its duration was not "
        "noted: the evidence does not decide it.",
        "A breakdown is reported at less than the barrier is reported to have withstood for a "
        "minute: the evidence does not decide which of both holds of the unit as it was found.",
    ),
    optional=("electric_strength_withstood", "electric_strength_duration", "breakdown_voltage",
              "rated_voltage_high", "overvoltage_category", "working_voltage_rms",
              "working_voltage_peak", "working_voltage_frequency", "rated_altitude"),
)
def electric_strength(electric_strength_withstood, electric_strength_duration, breakdown_voltage,
                      plug, rated_voltage_high, overvoltage_category, working_voltage_rms,
                      working_voltage_peak, working_voltage_frequency, rated_altitude):
    mains = supply(rated_voltage_high, plug, overvoltage_category)
    need = required_distances(
        mains, reinforced=True, transformer=True, working_voltage_rms=working_voltage_rms,
        working_voltage_peak=working_voltage_peak,
        working_voltage_frequency=working_voltage_frequency, rated_altitude=rated_altitude)
    # Every consumer's mains is nominally 250 V at most, also where the plate was not read.
    most = np.where(need.assumed["mains_voltage"], BY_OVERVOLTAGE.rows[0][0], mains.high)
    low, high = (required_strength(transient, line, peak, True) for transient, line, peak in
                 zip(need.transient, (mains.low, most), need.peak, strict=True))
    broke = (breakdown_voltage <= low) & ~np.isnan(high)
    held = (electric_strength_withstood >= high) & (electric_strength_duration >= MINUTE) & (
        np.isnan(breakdown_voltage) | (breakdown_voltage > high)) & ~np.isnan(low)
    at_odds = broke & (electric_strength_withstood >= high) & (
        electric_strength_duration >= MINUTE)
    tested = ~np.isnan(electric_strength_withstood) | ~np.isnan(breakdown_voltage)
    return graded(
        np.select([at_odds, broke, held], [CANNOT_TELL, FALLS_SHORT, MEETS], CANNOT_TELL),
        value=np.where(np.isnan(breakdown_voltage), electric_strength_withstood,
                       breakdown_voltage),
        u=0.0, low=low, high=high, why=np.select([at_odds, broke, held], [AT_ODDS, BROKE, HELD],
                                               SHORTER),
        applies=tested, assumed={
            "no_breakdown": np.isnan(breakdown_voltage),
            **{name: need.assumed[name] for name in
               ("mains_voltage", "plug_mains", "plug_above_plate", "plug_fits_plate",
                "overvoltage_category", "working_peak")}},
        numbers={"transient_low": need.transient[0], "transient_high": need.transient[1],
                 "peak_low": need.peak[0], "peak_high": need.peak[1],
                 "legacy_strength": legacy_strength(need.peak[0])})
