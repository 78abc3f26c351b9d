"""A report written by hand in the engine's form: an invented 45 W charger that gives about 15 W."""
from math import exp, log


def density(median, u):
    """A log-normal hill, 60 points over ±3.5 standard uncertainties."""
    steps = [-3.5 + 7 * i / 59 for i in range(60)]
    return [[median * exp(z * u), exp(-z * z / 2)] for z in steps]


def end(value, u):
    return {"value": value, "low": value * exp(-1.645 * u), "high": value * exp(1.645 * u),
            "u_ln": u}


def line(line_id, kind, title, detail, low, high, u, evidence, target="power"):
    return {
        "id": line_id, "target": target, "kind": kind, "title": title, "detail": detail,
        "unit": "W" if target == "power" else "V", "evidence": evidence, "used": True,
        "why_not": "", "ends": {"low": end(low, u), "high": end(high, u)},
    }


def capability(median, u):
    return {"median": median, "low": median * exp(-1.645 * u), "high": median * exp(1.645 * u),
            "density": density(median, u)}


LINES = [
    line("power/bulk_capacitor", "limit", "Bulk capacitor, half-cycle energy",
         "15 µF, 100 V 50 Hz", 14.7, 128.0, 0.18, ["measurement/bulk-capacitance"]),
    line("power/controller_table", "limit", "Controller’s published power", "VK3518, 18 W",
         18.0, 24.0, 0.10, ["component/controller"]),
    line("power/mass", "practice", "Mass per watt", "46.2 g without cable", 18.4, 18.4, 0.32,
         ["measurement/mass"]),
    line("power/load_passed", "passed", "Held regulation", "13.0 W for 30 min at 5 V", 13.0, 13.0,
         0.03, ["measurement/held-5v"]),
    line("power/load_failed", "failed", "Left regulation", "17.2 W at 5 V", 17.2, 17.2, 0.03,
         ["measurement/failed-5v"]),
    line("voltage/output_capacitor", "limit", "Output capacitor’s voltage rating", "16 V",
         16.0, 16.0, 0.02, ["component/output-capacitor"], "voltage"),
    line("voltage/offered", "passed", "Highest voltage seen", "11.9 V", 11.9, 11.9, 0.01,
         ["measurement/offered"], "voltage"),
]


def claim(ref, text, voltage, current, power, word, p_low, p_high, p_voltage, weights, total):
    return {
        "ref": ref, "printed": text,
        "text": f"{voltage:g} V ⎓ {current:g} A ({power:g} W)", "kind": "output",
        "voltage": voltage, "current": current, "power": power,
        "plausibility": min(p_low, p_high), "plausibility_power": p_low,
        "plausibility_voltage": p_voltage, "verdict": word, "verdict_note": "",
        "weights": [{"line": i, "decibans": d, "kind": k} for i, d, k in weights],
        "total_decibans": total, "ends": {"low": p_low, "high": p_high}, "contradiction": None,
    }


CLAIMS = [
    claim("claim/out-20", "20V⎓2.25A", 20.0, 2.25, 45.0, "not attainable on this evidence",
          2e-9, 3e-7, 0.004,
          [("power/load_failed", -342.0, "failed"), ("power/bulk_capacitor", -86.2, "limit"),
           ("power/controller_table", -40.3, "limit"), ("power/mass", -11.2, "practice"),
           ("voltage/output_capacitor", -22.0, "limit"), ("power/load_passed", 1.4, "passed")],
          -87.0),
    claim("claim/out-9", "9V⎓3A", 9.0, 3.0, 27.0, "not attainable on this evidence",
          4e-6, 2e-4, 0.97,
          [("power/load_failed", -210.0, "failed"), ("power/bulk_capacitor", -30.1, "limit"),
           ("voltage/offered", 14.0, "passed"), ("power/load_passed", 0.9, "passed")], -54.0),
    claim("claim/out-5", "5V⎓3A", 5.0, 3.0, 15.0, "supported", 0.91, 0.99, None,
          [("power/load_passed", 6.4, "passed"), ("power/bulk_capacitor", 2.1, "limit"),
           ("power/load_failed", 1.0, "failed")], 10.0),
]

REPORT = {
    "rulebook": "1+9c41e0d2",
    "evidence_digest": "4be107aa93c2" + "0" * 52,
    "mains": {"low": {"voltage": 100.0, "frequency": 50.0, "assumed": False},
              "high": {"voltage": 240.0, "frequency": 50.0, "assumed": False}},
    "capability": {"low": capability(log(2.2e6), 0.074), "high": capability(15.6, 0.06)},
    "lines": LINES,
    "unmeasured": [
        {"id": "power/sense_resistor", "title": "Sense resistor, peak current",
         "reads": ["current_sense_resistance", "switching_frequency"]},
    ],
    "claims": CLAIMS,
    "headline": 0,
    "checks": [
        {"id": "check/plate_arithmetic", "title": "Volts times amperes", "claim": "claim/out-20",
         "outcome": "consistent", "sentence": "20 V times 2.25 A is 45 W, as printed.",
         "numbers": {"product": 45.0, "printed": 45.0}},
        {"id": "check/input_balance", "title": "Input against output", "claim": "claim/out-20",
         "outcome": "inconsistent",
         "sentence": "The printed input of 100 V and 0.35 A carries at most 35 W, less than 45 W.",
         "numbers": {"input": 35.0, "output": 45.0}},
    ],
    "feedback": {"row": "F3", "switchable": 0.9, "note": "A protocol chip drives the divider."},
    "open_questions": [
        {"text": "Measure the current-sense resistor.", "reads": ["current_sense_resistance"],
         "rule": "power/sense_resistor"},
    ],
    "findings": [],
}
