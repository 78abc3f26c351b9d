"""The hazards on a terminal: the answer, every path, and no open question passed over."""
from teardowns.management.terminal_figures import columns_of
from teardowns.management.terminal_hazards import hazards
from tests.presenting.sample_safety import result, safety

WIDTH = 66


def printed(*results, **changed):
    lines = list(hazards(safety(*results) | changed, WIDTH))
    assert all(columns_of(line) <= WIDTH for line in lines)
    return " ".join(" ".join(lines).split())


def test_it_answers_first():
    text = printed(result(grade="falls short", value=0.0018), result())
    assert text.startswith("In the unit examined 1 of the 2 points")


def test_every_path_has_its_line_with_what_is_required_and_its_grade():
    text = printed(result(subject="pins", grade="falls short", value=0.0018),
                   result(subject="seam", grade="cannot tell", value=None, barrier="PRI_ENC",
                          low=0.005, high=0.0058))
    assert "to output pins 1.80 ± 0.10 mm 3 mm ✕" in text
    assert "to case seam not known 5–5.8 mm ?" in text


def test_without_a_path_it_says_that_none_was_recorded():
    assert "No distance across a barrier was recorded." in printed()


def test_what_falls_short_and_what_is_flagged_is_said_in_full():
    text = printed(result(grade="falls short", sentence="It is short."),
                   result(grade="cannot tell", flagged=True, sentence="It may be short."))
    assert "falls short: It is short." in text and "flag: It may be short." in text


def test_open_questions_that_are_no_paths_are_named():
    text = printed(result("touch_current", "cannot tell", None, on="unit", subject=""))
    assert "not decided, open: Touch_current" in text


def test_a_risk_level_never_stands_without_its_scenario():
    finding = {"level": "high", "title": "Unclassified capacitor", "injury": "electrocution",
               "steps": [{"text": "it fails short", "p": "1/100"},
                         {"text": "touched", "p": "1/2"}],
               "p": "1/200", "band_words": "more than 1/1000"}
    assert ("risk high: Unclassified capacitor, electrocution. Steps: it fails short 1/100; "
            "touched 1/2; together 1/200, more than 1/1000.") in printed(
                result(), findings=[finding])


def test_what_was_typed_cannot_steer_the_terminal():
    assert "\x1b" not in printed(result(subject="\x1b[31mslot"))
