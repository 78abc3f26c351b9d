"""The controller lives on an auxiliary winding, whose voltage follows that of the output.

Without a regulator behind that winding the output may rise only until the controller's supply
leaves its window.
"""
import numpy as np

from teardowns.engine.mathml import EQ, MINUS, PLUS, equation, frac, num, op, paren, row, sym, word
from teardowns.engine.physics.flyback import supplied_voltage, window_limited_voltage
from teardowns.engine.rule import Worked, limit

AUXILIARY_DROP, DROP = 0.7, 0.45      # V, of a silicon and of a Schottky diode

# Of regulators, a transistor and a diode among the small parts; with one the controller allows
# several times the voltage.
OVERLOOKED, THEN = 0.1, 4.0


def overlooked(bias_regulator, *others):
    return np.full(bias_regulator.shape, OVERLOOKED), np.full(bias_regulator.shape, THEN)


_SUPPLY = row(sym("V", "CC,max"), PLUS, num(AUXILIARY_DROP), word(" V"))


@limit(
    on="voltage",
    title="Controller's supply",
    model_error=0.08,
    doubt=overlooked,
    margin=0.6,        # usual supplies keep a third below the highest that the chip allows
    source="Both windings have the same volts a turn. Supply window of the controller: its data "
           "sheet; leakage lifts the supply under load by several per cent (from memory).",
    validity="Flyback converters whose controller is supplied by one auxiliary winding, where a "
             "bias regulator or a second tap was looked for and not found with both sides of the "
             "board photographed (one in ten is overlooked even so, our own choice), and without "
             "a DC-DC converter at the port. Not for controllers that supply themselves from the "
             "bus. Without the turns, the voltage measured at the port without load stands for the "
             "lowest at which the unit works.",
    silent="The line holds where a bias regulator or second tap was looked for and not found, "
           "both sides of the board photographed, and there is no converter at the port; it "
           "takes the turns of both windings, or the supply window and the output voltage "
           "without load.",
    formula=equation(
        sym("U", "max"), EQ, frac(sym("N", "s"), sym("N", "a")), paren(_SUPPLY), MINUS, num(DROP),
        word(" V, "), word("turns unknown: "), frac(sym("N", "s"), sym("N", "a")), op("≤"),
        frac(row(sym("U", "0"), PLUS, num(DROP), word(" V")),
             row(sym("V", "CC,min"), PLUS, num(AUXILIARY_DROP), word(" V")))),
    symbols={"controller_supply_high": sym("V", "CC,max"),
             "controller_supply_low": sym("V", "CC,min"), "output_voltage_no_load": sym("U", "0"),
             "secondary_turns": sym("N", "s"), "auxiliary_turns": sym("N", "a"),
             "photographed_sides": sym("s"), "bias_regulator": word("regulator"),
             "port_converter": word("converter")},
    optional=("controller_supply_low", "output_voltage_no_load", "secondary_turns",
              "auxiliary_turns", "port_converter"),
    asks={
        "bias_regulator": "Was a bias regulator or a second auxiliary tap at the controller's "
                          "supply looked for?",
        "controller_supply_high": "Supply voltage window of the primary controller: look it up in "
                                  "its data sheet.",
    },
    worked=(
        # 28.7 V · 5/12 − 0.45 V = 11.51 V.
        Worked({"bias_regulator": 0.0, "controller_supply_high": 28.0,
                "controller_supply_low": 8.0, "output_voltage_no_load": 5.0,
                "secondary_turns": 5.0, "auxiliary_turns": 12.0, "port_converter": 0.0,
                "photographed_sides": 2.0},
               11.51, 1e-3, "Worked by hand: 28 V, 5 and 12 turns."),
    ),
)
def auxiliary_supply(bias_regulator, controller_supply_high, controller_supply_low,
                     output_voltage_no_load, secondary_turns, auxiliary_turns, port_converter,
                     photographed_sides):
    by_turns = supplied_voltage(controller_supply_high, AUXILIARY_DROP, DROP, secondary_turns,
                                auxiliary_turns)
    by_window = window_limited_voltage(output_voltage_no_load, controller_supply_low,
                                       controller_supply_high, AUXILIARY_DROP, DROP)
    by_window = np.where(controller_supply_low < controller_supply_high, by_window, np.nan)
    highest = np.where(np.isnan(by_turns), by_window, by_turns)
    none = (bias_regulator == 0) & (photographed_sides >= 2)
    return np.where(none & (port_converter != 1), highest, np.nan)
