"""Results about safety written by hand in the engine's form."""


def result(rule="clearance", grade="meets", value=0.0034, low=0.003, high=0.003, **changed):
    """One result; without `changed` a clearance of 3.4 ± 0.1 mm where 3 mm are required."""
    return {
        "rule": f"safety/{rule}", "title": rule.capitalize(), "on": "path", "subject": "slot",
        "barrier": "PRI_SEC", "hazard": "shock", "hazard_words": "electric shock",
        "grade": grade, "flagged": False, "as_tabulated": grade,
        "value": value, "u": 0.0001, "low": low, "high": high, "unit": "m", "largest": False,
        "ratio": None if None in (value, low) else value / low,
        "shortfall": [0.0, 0.0], "why": 0, "reason": "", "sentence": "What was found.",
        "confidence": "A", "assumed": [], "asks": [], "numbers": {}, "governs": False,
        "evidence": ["insulationobservation/slot", "claim/input"],
    } | changed


def safety(*results, assumptions=None):
    return {"results": list(results), "assumptions": assumptions or {}, "findings": [],
            "level": "", "without_scenario": [], "stack": None, "bench_card": {}}
