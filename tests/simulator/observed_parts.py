"""What the parts of an opened unit tell: marks, and sizes that a caliper reaches."""
import numpy as np

from teardowns.engine.physics.cores import FAMILIES

from . import cores
from .observed import Observed
from .output_side import POLYMER

MISSED = np.array([0.6, 0.4, 0.05])     # a part that is there, by sides of the board photographed
TRACE_MISSED = 0.1      # the connection from protocol chip to feedback node
MARKING = 0.20 / np.sqrt(3)         # ±20 % printed, all values alike likely
LCR = 0.02              # reading of a bridge at 100 Hz


def observe_parts(chargers, who, habits):
    return (*_bulk(chargers, who, habits), *_lead(chargers, who), *_primary(chargers, who),
            *_core(chargers, who), *_output(chargers, who), *_feedback(chargers, who))


def _bulk(c, who, habits):
    mains = c.mains_side
    looked, bench = who.looks() & who.opened, who.rng.random(who.n) < 0.3
    marked = np.where(looked & ~bench, mains.bulk_nominal, np.nan)
    reading = mains.bulk * who.rng.normal(1, LCR, who.n)
    bridge = np.where(who.rng.random(who.n) < habits.miscounted, 0.0, 1.0)
    return (Observed("bulk_capacitance_marked", marked, MARKING * mains.bulk_nominal),
            Observed("bulk_capacitance", np.where(looked & bench, reading, np.nan), LCR * reading),
            who.reads("rectifier_full_wave", np.where(mains.full_wave, bridge, 0.0), 0.85,
                      who.opened),
            who.reads("power_factor_corrector", np.where(mains.corrector, 1.0, 0.0), 1.0,
                      who.opened))


def _lead(c, who):
    mains = c.mains_side
    return (who.reads("fuse_rating", mains.fuse_rating, 0.8, who.opened),
            who.measures("fusible_resistance", mains.fusible, 0.7, who.opened, relative=0.05),
            # from its size
            who.measures("fusible_power_rating", mains.fusible_rating, 0.5, who.opened,
                         relative=0.25),
            who.reads("bridge_current_rating", mains.bridge_rating, 0.6, who.opened))


def _primary(c, who):
    stage, listed = c.converter, who.looks(0.8) & who.opened
    data_sheet = who.opened & ~stage.oscillates & (who.rng.random(who.n) < 0.4)
    return (Observed("controller_power_wide", np.where(listed, c.published_wide, np.nan), 0.0),
            Observed("controller_power_high", np.where(listed, c.published_high, np.nan), 0.0),
            who.measures("current_sense_resistance", stage.sense, 0.7, who.opened, relative=0.02),
            who.measures("current_sense_threshold", stage.threshold, 1.0, data_sheet,
                         relative=0.03),
            who.reads("maximum_duty", stage.drive.maximum_duty, 1.0, data_sheet),
            who.reads("controller_supply_low", stage.supply_low, 1.0, data_sheet),
            who.reads("controller_supply_high", stage.supply_high, 1.0, data_sheet),
            who.reads("switch_voltage_rating", stage.switch_rating, 0.6, who.opened))


def _core(c, who):
    """Sizes over the tape, as far as the bobbin shows them; the centre leg only once unwound."""
    index, seen = c.converter.core_index, who.looks(0.7) & who.opened
    each = 1 / who.regime.seen
    place = np.array([FAMILIES.index(name) for name in cores.FAMILIES], float)
    return (who.reads("core_family", place[cores.FAMILY[index]], each * 0.8, seen),
            who.measures("core_width", cores.WIDTH[index], each, seen, absolute=0.3e-3),
            who.measures("core_height", cores.HEIGHT[index], each, seen, absolute=0.3e-3),
            who.measures("core_depth", cores.DEPTH[index], each, seen, absolute=0.3e-3))


def _output(c, who):
    out, diode = c.output_side, ~c.output_side.synchronous
    listed = np.where(out.capacitor_kind == POLYMER, 0.3, 0.4)
    series = who.opened & (who.rng.random(who.n) < listed)
    return (who.reads("output_capacitor_rating", out.capacitor_rating, 1.0, who.opened),
            who.measures("output_ripple_rating", out.ripple_rating, 1.0, series, relative=0.03),
            who.measures("output_capacitor_diameter", out.capacitor_diameter, 0.7, who.opened,
                         absolute=0.1e-3),
            who.measures("output_capacitor_length", out.capacitor_length, 0.7, who.opened,
                         absolute=0.3e-3),
            who.reads("output_capacitor_count", out.capacitor_count, 0.9, who.opened),
            who.reads("rectifier_current_rating", out.rectifier_rating, 0.7, who.opened & diode),
            who.reads("rectifier_voltage_rating", out.rectifier_voltage, 0.6, who.opened),
            who.measures("synchronous_on_resistance", out.on_resistance, 0.4,
                         who.opened & out.synchronous, relative=0.1))


def _feedback(c, who):
    n, rng = who.n, who.rng
    sides = rng.choice([0, 1, 2], n, p=[0.05, 0.3, 0.65])

    def flag(code, present, missed=MISSED[sides]):
        noticed = np.where(rng.random(n) < missed, 0.0, 1.0)
        return who.reads(code, np.where(present, noticed, 0.0), 1.0, who.opened)

    primary = rng.random(n) < np.where(c.target < 15, 0.6, 0.0)
    decodes = c.switchable & primary & (rng.random(n) < 0.15)
    primary = decodes | (primary & ~c.switchable)
    converter = c.switchable & ~primary & (rng.random(n) < 0.1)
    chip = c.switchable & ~decodes | ~c.switchable & ~c.fixed_barrel & (rng.random(n) < 0.5)
    node = c.switchable & ~decodes & ~converter
    regulator = flag("bias_regulator", c.converter.bias_regulator)
    photographed = np.where((sides > 0) & who.opened, sides, np.nan)
    return (Observed("photographed_sides", photographed, 0.0),
            flag("isolated_feedback", ~primary), flag("primary_feedback", primary),
            flag("primary_decodes_requests", decodes), flag("protocol_controller", chip),
            flag("feedback_node_driven", node, TRACE_MISSED), flag("port_converter", converter),
            regulator)
