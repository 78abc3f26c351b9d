"""What a load, a meter, an oscilloscope and a thermometer tell."""
import numpy as np

from .observed import Observed

METER = 0.01            # power by voltmeter and ammeter


def observe_bench(chargers, plates, who):
    """Loads in steps, up to what is claimed or to where it gives way; and a protocol scan."""
    c, n, rng, tested = chargers, who.n, who.rng, who.tested
    bench = np.where(c.wide & (rng.random(n) < 0.4), rng.choice([100.0, 115.0], n), 230.0)
    at_5v = rng.random(n) < 0.25
    output = np.where(at_5v & plates.several, 5.0, np.minimum(c.top_voltage, plates.voltage))
    asked = np.where(at_5v & plates.several, 5 * plates.current_5v, plates.power)
    can = c.capability_at(bench, output)
    onward = rng.random(n) < 0.3                    # past the claim until it gives way
    gave_way = (can < asked) | onward
    held = np.where(gave_way, can * np.exp(-rng.uniform(0, 0.06, n)), asked)
    lost = can * np.exp(rng.uniform(0, 0.06, n))
    stated = np.where(rng.random(n) < 0.9, bench, np.nan)
    conditions = {"mains": stated, "output": output}

    def meter(value, on):
        return np.where(tested & on, value * rng.normal(1, METER, n), np.nan)

    return (Observed("sustained_power", meter(held, True), METER * held, **conditions),
            Observed("failed_power", meter(lost, gave_way), METER * lost, **conditions),
            *_overload(c, who, bench, output, can, conditions),
            *_input_side(c, who, held, bench, meter, conditions),
            *_temperatures(c, who, held, bench, conditions), *_waveform(c, who, conditions),
            *_scan(c, plates, who))


def _overload(c, who, bench, output, can, conditions):
    """Seconds are too short to warm up, so that more comes out than for good."""
    short = np.fmax(can, np.where(c.switchable & (output == 5), can,
                                  c.capability(bench, warm=False)))
    more = who.tested & (who.rng.random(who.n) < 0.4)
    folded = who.tested & (who.rng.random(who.n) < 0.4)
    return (who.measures("peak_power", 0.97 * short, 1.0, more, relative=METER, **conditions),
            who.measures("overcurrent_point", short / output, 1.0, folded, relative=METER,
                         **conditions))


def _input_side(c, who, held, bench, meter, conditions):
    on, watts = who.rng.random(who.n) < 0.4, who.rng.random(who.n) < 0.5
    state = c.warm(held, bench)
    current = c.mains_side.current(bench, state.bus_power)
    efficient = meter(held / state.input_power, on)
    mains = {"mains": conditions["mains"]}
    return (Observed("efficiency", np.minimum(efficient, 0.98), METER * held / state.input_power,
                     **mains),
            Observed("input_power_full_load", meter(state.input_power, on & watts),
                     METER * state.input_power, **mains),
            Observed("input_current_full_load", meter(current, on), METER * current, **mains))


def _temperatures(c, who, held, bench, conditions):
    """After an hour at the load that held; a thermocouple on a winding misses its hottest turn."""
    state = c.warm(held, bench)
    warm = who.tested & (who.rng.random(who.n) < 0.4)
    inside = warm & who.opened & (who.rng.random(who.n) < 0.5)
    kelvin = {"absolute": 1.5, **conditions}
    return (who.measures("ambient_temperature", np.full(who.n, 25.0), 1.0, warm, absolute=0.5),
            who.measures("temperature_load", held, 1.0, warm, relative=METER, **conditions),
            who.measures("case_temperature", state.hot_spot, 0.9, warm, **kelvin),
            who.measures("transformer_temperature", state.winding - 5, 0.7, inside, **kelvin),
            who.measures("switch_temperature", state.switch - 8, 0.6, inside, **kelvin),
            who.measures("output_rectifier_temperature", state.rectifier - 8, 0.6, inside,
                         **kelvin))


def _waveform(c, who, conditions):
    scope = who.tested & (who.rng.random(who.n) < 0.5)
    drive = c.converter.drive
    return (who.measures("switching_frequency", 1 / drive.period, 1.0, scope, relative=0.01),
            who.measures("reflected_voltage", drive.reflected, 0.6, scope & ~c.switchable,
                         absolute=4.0))


def _scan(c, plates, who):
    scanned = who.tested & (who.rng.random(who.n) < 0.5)
    offered = np.where(scanned, c.top_voltage * who.rng.normal(1, METER, who.n), np.nan)
    over = scanned & (plates.voltage > 1.02 * c.top_voltage)
    refused = np.where(over, plates.voltage, np.nan)
    return (Observed("offered_voltage", offered, METER * c.top_voltage),
            Observed("refused_voltage", refused, METER * plates.voltage))
