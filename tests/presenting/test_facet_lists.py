"""What a list can be narrowed by, as markup."""
import re

from teardowns.presenting.facet_lists import SHOWN, facet_lists

VALUE = re.compile(r'value="([^"]*)"( checked)?><span>([^<]*)</span><b>(\d+)</b>')


def lists(counts, chosen=(), codes=("a", "b", "c")):
    return facet_lists({"kind": "Kind"}, {"kind": [(code, code.upper()) for code in codes]},
                       {"kind": counts}, {"kind": chosen})


def parts(markup):
    """Codes in sight, and those in the fold."""
    seen, _, fold = markup.partition('class="fold"')
    return [[found[0] for found in VALUE.findall(part)] for part in (seen, fold)]


def test_values_stand_in_their_order_with_their_number():
    assert VALUE.findall(lists({"b": 7, "a": 2, "c": 1})) == [
        ("a", "", "A", "2"), ("b", "", "B", "7"), ("c", "", "C", "1")]


def test_what_no_unit_has_waits_in_the_fold_unless_it_is_chosen():
    assert parts(lists({"b": 7}, chosen=("c",))) == [["b", "c"], ["a"]]
    assert "1 with no unit" in lists({"b": 7, "c": 1})


def test_of_many_values_the_most_frequent_are_in_sight_with_the_chosen_ones():
    codes = [f"m{number}" for number in range(30)]
    counts = {code: number + 1 for number, code in enumerate(codes)}
    seen, fold = parts(lists(counts, chosen=("m3",), codes=codes))
    assert "m3" in seen and seen[-1] == "m29" and len(seen) <= SHOWN + 1
    assert sorted(seen + fold) == sorted(codes)
    assert "21 more" in lists(counts, chosen=("m3",), codes=codes)


def test_a_facet_that_is_in_use_is_open_and_says_so():
    assert '<details class="facet"><summary>Kind</summary>' in lists({"a": 1})
    assert '<details class="facet" open><summary>Kind <small>1 chosen' in lists({"a": 1}, ("a",))


def test_a_facet_of_which_nothing_is_known_says_so():
    assert "Not known of any of these units." in lists({}, codes=())


def test_codes_and_labels_are_escaped():
    markup = lists({'"><i>': 1}, codes=('"><i>',))
    assert "<i>" not in markup and "&quot;&gt;&lt;i&gt;" in markup


def test_measured_power_says_how_it_was_found():
    shown = facet_lists({"measured": "Measured power"}, {"measured": []}, {}, {})
    assert "middle between the highest load that it held" in shown
