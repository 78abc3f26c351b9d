"""The report is the contract with pages, figures and files."""
import json

import pytest

from teardowns.engine import rulebook
from teardowns.engine.physics.feedback import FLAGS
from teardowns.engine.quantities import QUANTITIES
from teardowns.engine.report import claim_text, report
from teardowns.engine.verdicts import WORDS
from tests.engine.make import NAN, WIDE, claim_table, judge, watts

KEYS = {"rulebook", "mains", "capability", "lines", "unmeasured", "claims", "headline", "checks",
        "feedback", "open_questions", "next_steps", "safety"}
BENCH = (*WIDE, ("bulk_capacitance", 15e-6, 3e-7), ("mass_total", 0.0462, 1e-4),
         ("failed_power", 13.1, 0.1, 100.0, 5.0), ("protocol_controller", 1.0, 0.0),
         ("rated_input_current", 0.6, 0.0))
# Of each part; what pages, figures and files may rely on.
PARTS = {
    "mains": {"low", "high"}, "feedback": {"row", "switchable", "note"},
    "lines": {"id", "target", "kind", "title", "unit", "ends", "detail", "evidence", "used",
              "why_not"},
    "unmeasured": {"id", "title", "reads"},
    "claims": {"ref", "text", "kind", "voltage", "current", "power", "plausibility",
               "plausibility_power", "plausibility_voltage", "verdict", "verdict_note", "weights",
               "total_decibans", "ends", "contradiction", "suspects"},
    "checks": {"id", "title", "claim", "port", "outcome", "sentence", "numbers"},
    "open_questions": {"text", "reads", "rule"},
}
VERDICTS = {"supported", "possible", "doubtful", "implausible", "not attainable on this evidence",
            "no evidence", "evidence contradicts itself"}
CLAIMS = ((5.0, 3.0, NAN, "usb_c"), (20.0, 2.25, 45.0, "usb_c"))


@pytest.fixture(scope="module")
def made():
    return report(judge(BENCH, CLAIMS), 0)


def plain(text):
    return text.replace("\u202f", " ")


def line(made, rule_id):
    return next(line for line in made["lines"] if line["id"] == rule_id)


def test_it_has_the_keys_that_pages_read_and_is_json(made):
    assert set(made) == KEYS
    assert json.loads(json.dumps(made, allow_nan=False)) == made


@pytest.mark.parametrize("part", PARTS)
def test_each_part_has_the_keys_that_pages_read(made, part):
    found = made[part] if isinstance(made[part], list) else [made[part]]
    assert found and all(set(one) == PARTS[part] for one in found)


def test_a_page_may_rely_on_the_keys_of_ends_weights_and_capability(made):
    for end in ("low", "high"):
        assert set(made["mains"][end]) == {"voltage", "frequency", "assumed"}
        assert set(made["capability"][end]) == {"median", "low", "high", "density"}
        assert set(line(made, "power/bulk_capacitor")["ends"][end]) == {
            "value", "low", "high", "u_ln"}
    for claim in made["claims"]:
        assert claim["weights"] and set(claim["ends"]) == {"low", "high"}
        assert all(set(w) == {"line", "decibans", "kind"} for w in claim["weights"])


def test_there_are_seven_verdict_words_and_no_other(made):
    assert set(WORDS) == VERDICTS and len(WORDS) == 7
    assert {claim["verdict"] for claim in made["claims"]} <= VERDICTS


def test_every_line_is_there_or_listed_as_unmeasured(made):
    listed = [part["id"] for part in (*made["lines"], *made["unmeasured"])]
    assert sorted(listed) == sorted(rule.id for rule in rulebook.load().lines)


def test_every_open_question_is_of_a_rule_and_of_quantities(made):
    for question in made["open_questions"]:
        assert question["text"] and set(question["reads"]) <= set(QUANTITIES)
        assert set(question["reads"]) <= set(rulebook.load()[question["rule"]].reads)


def test_a_protocol_chip_with_nothing_to_move_is_row_f2_with_its_note():
    flags = zip(FLAGS, (0, 1, 0, 1, 0, 0, 0), strict=True)
    rows = [*WIDE, *((name, float(flag), 0.0) for name, flag in flags),
            ("photographed_sides", 2.0, 0.0)]
    made = report(judge(rows, [(20.0, 2.25, NAN, "usb_c")]), 0)
    assert made["feedback"]["row"] == "F2" and made["feedback"]["switchable"] < 0.5
    assert "nothing to move" in made["feedback"]["note"]
    assert made["claims"][0]["plausibility"] < 0.5


def test_a_line_names_its_value_its_interval_and_its_evidence(made):
    bulk = line(made, "power/bulk_capacitor")
    low = bulk["ends"]["low"]
    assert low["low"] < low["value"] < low["high"] < bulk["ends"]["high"]["value"]
    assert plain(bulk["detail"]).startswith("15 µF")
    assert bulk["used"] and bulk["why_not"] == "" and bulk["unit"] == "W"


def test_a_line_that_does_not_speak_of_the_headline_says_why(made):
    lost = line(made, "power/failed_power")
    assert not lost["used"] and lost["ends"] == {"low": None, "high": None}
    assert "says nothing about the claim" in lost["why_not"]


def test_what_nobody_measured_is_listed_and_asked_for(made):
    missing = {gap["id"]: gap["reads"] for gap in made["unmeasured"]}
    assert missing["power/sustained_power"] == ["sustained_power"]
    asked = {question["rule"] for question in made["open_questions"]}
    assert {"power/sustained_power", "voltage/output_capacitor"} <= asked
    assert "power/bulk_capacitor" not in missing


def test_a_missing_capacitance_is_asked_for_in_plain_words():
    asked = report(judge(WIDE, [watts(12.0)]), 0)["open_questions"]
    assert ("Capacitance of the bulk capacitor was not recorded: read its marking or measure it."
            in [question["text"] for question in asked])


def test_an_unread_plate_is_marked_as_assumed_and_asked_for():
    made = report(judge([("mass_total", 0.05, 1e-4)], [watts(12.0)]), 0)
    assert made["mains"]["low"]["assumed"] and made["mains"]["high"]["assumed"]
    assert made["open_questions"][0]["reads"] == ["rated_voltage_low", "rated_voltage_high"]


def test_the_headline_is_the_claim_of_most_power(made):
    assert made["headline"] == 1
    assert report(judge(WIDE, []), 0)["headline"] is None


def test_weights_stand_the_heaviest_first(made):
    for claim in made["claims"]:
        sizes = [abs(weight["decibans"]) for weight in claim["weights"]]
        assert sizes == sorted(sizes, reverse=True)


def test_a_lost_load_at_5_volts_weighs_on_the_5_volt_claim_alone(made):
    used = [{weight["line"] for weight in claim["weights"]} for claim in made["claims"]]
    assert "power/failed_power" in used[0] and "power/failed_power" not in used[1]


def test_what_is_so_at_the_low_end_only_is_said(made):
    claim = made["claims"][1]
    assert claim["verdict"] == "implausible"
    assert claim["ends"]["low"] < 0.01 < claim["ends"]["high"]
    assert "At the low end of the rated mains range only" in claim["verdict_note"]


def test_a_contradiction_names_both_lines():
    bench = [*WIDE, ("bulk_capacitance", 4.7e-6, 1e-7), ("rectifier_full_wave", 1.0, 0.0),
             ("sustained_power", 30.0, 0.3, 100.0, 20.0)]
    (claim,) = report(judge(bench, [(20.0, 1.5, NAN)]), 0)["claims"]
    assert claim["contradiction"] == ["power/sustained_power", "power/bulk_capacitor"]
    assert "one of the two observations" in claim["verdict_note"]


def test_capability_is_absent_without_a_line():
    assert report(judge(WIDE, [watts(12.0)]), 0)["capability"] == {"low": None, "high": None}


def test_capability_comes_with_its_interval_and_density(made):
    low = made["capability"]["low"]
    assert low["low"] < low["median"] < low["high"]
    powers, heights = zip(*low["density"], strict=True)
    assert list(powers) == sorted(powers) and min(heights) >= 0 and max(heights) <= 1
    assert len(powers) <= 60


def test_checks_name_their_claim(made):
    outcomes = {(check["id"], check["claim"]): check["outcome"] for check in made["checks"]}
    assert outcomes["checks/plate_arithmetic", "1"] == "consistent"
    assert outcomes["checks/plate_input_balance", "1"] == "cannot tell"      # 45 W of 60 VA


def test_refs_lose_the_index_of_their_document():
    names = [f"0:measurement/m{i}" for i in range(20)]
    made = report(judge(BENCH, CLAIMS), 0, names)
    assert line(made, "power/mass_per_watt")["evidence"][0].startswith("measurement/m")
    assert made["claims"][0]["ref"] == "measurement/m0"


def test_the_same_evidence_gives_the_same_bytes():
    first, second = (json.dumps(report(judge(BENCH, CLAIMS), 0)) for _ in range(2))
    assert first == second


@pytest.mark.parametrize("claim, text", [
    ((20.0, 2.25, 45.0), "20 V ⎓ 2.25 A (45 W)"), ((5.0, 3.0, NAN), "5 V ⎓ 3 A (15 W)"),
    ((NAN, NAN, 65.0), "65 W"), ((9.0, NAN, NAN), "9 V"),
])
def test_a_claim_in_figures(claim, text):
    assert plain(claim_text(claim_table([claim]), 0)) == text
