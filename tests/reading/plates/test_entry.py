from teardowns.reading.plates.entry import Entry, agrees, input_fields, output_fields
from teardowns.reading.plates.items import items_of
from teardowns.reading.plates.tokens import tokenise


def entry_of(text, kind="output", **fields):
    entry = Entry(kind, **fields)
    for item in items_of(tokenise(text)):
        if item.parts:
            entry.take(item)
    return entry


def test_lists_of_equal_length_are_paired():
    levels = [(f["voltage"], f["current"]) for f in output_fields(entry_of("5/9/12V 3/2/1.5A"))]
    assert levels == [(5, 3), (9, 2), (12, 1.5)]


def test_lists_of_different_length_are_doubtful_and_not_paired():
    entry = entry_of("5/9/12V 3/2A")
    assert entry.doubt()
    assert all("current" not in fields for fields in output_fields(entry))


def test_watts_stay_with_the_level_they_agree_with():
    # 5 × 3 = 15, 9 × 2 = 18, 20 × 2.25 = 45
    powers = [f.get("power") for f in output_fields(entry_of("5/9/20V 3/2/2.25A 45W"))]
    assert powers == [None, None, 45]


def test_pps_does_not_describe_a_fixed_level():
    (fixed,) = output_fields(entry_of("20V 3A", protocol=("PPS", "")))
    (ranged,) = output_fields(entry_of("3.3-11V 3A", protocol=("PPS", "")))
    assert (fixed["protocol"], ranged["protocol"]) == ("", "PPS")


def test_ranges_of_an_input_become_claims_of_their_own():
    fields = input_fields(entry_of("100-120/200-240V 1.5/0.8A", kind="input"))
    assert [(f["voltage_high"], f["current"]) for f in fields] == [(120, 1.5), (240, 0.8)]


def test_agreement_is_within_five_per_cent():
    assert agrees(9 * 2.22, 20)  # 19.98 W
    assert not agrees(9 * 2, 20)  # 18 W
