"""What a unit is compared by."""
from teardowns.likeness.features import features, from_plain, plain
from tests.likeness.made import component, document, measured, winding


def slots(found):
    return {one.slot: one for one in found}


def test_a_marking_is_folded_and_kept_as_it_was_read():
    one = slots(features(document([component("primary_controller", "uwk-12 A")])))[
        "marking/primary_controller"]
    assert (one.text, one.shown, one.refs) == ("uwk12a", "uwk-12 A",
                                               ("component/primary-controller",))


def test_what_is_misread_on_a_worn_body_is_the_same_marking():
    texts = {slots(features(document([component("core", marking)])))["marking/core"].text
             for marking in ("EFD15/0", "EFD I5/O", "efd-15/0")}
    assert len(texts) == 1


def test_what_nobody_confirmed_says_nothing():
    row = component("primary_controller", "UWK-12", review_state="open")
    assert features(document([row])) == ()


def test_a_part_that_could_not_be_read_is_no_feature():
    row = component("primary_controller", "UWK-12", state="not_readable")
    assert features(document([row])) == ()


def test_a_capacitor_is_compared_by_its_rating():
    row = component("bulk_capacitor", "10µF 400V", nominal=1e-5, rated_voltage=400.0, count=2)
    assert slots(features(document([row])))["value/bulk_capacitor"].text == "1e-05 400 ? 2"


def test_turns_come_with_their_uncertainty():
    made = slots(features(document(stack=[winding("primary", 1, 100.0)])))
    assert made["size/primary_turns"].value == 100.0
    assert made["size/primary_turns"].u == 2.0       # 2 % of a count without its own uncertainty


def test_of_two_readings_of_one_size_the_surer_stands():
    rows = [measured("core_width", 0.0160, 0.0004), measured("core_width", 0.0161, 0.0001, key="b")]
    assert slots(features(document(measurements=rows)))["size/core_width"].value == 0.0161


def test_the_order_of_windings_needs_every_layer():
    seen = [winding("primary", 1, 60.0), winding("secondary", 3, 9.0)]
    unread = winding("primary", 5, 60.0) | {"state": "not_readable"}
    assert slots(features(document(stack=seen)))["winding_order"].text == "primary-secondary"
    assert "winding_order" not in slots(features(document(stack=[*seen, unread])))


def test_only_pictures_of_the_board_are_compared():
    found = features(document(), [("a", "component_side", 77), ("b", "plate", 77)])
    assert [(one.slot, one.picture) for one in found] == [("photo/component_side", 77)]


def test_a_plain_picture_has_nothing_to_compare():
    assert features(document(), [("a", "component_side", 0)]) == ()


def test_ports_are_compared_together_and_named_as_people_do():
    rows = [{"key": key, "label": key, "connector": connector, "review_state": "confirmed"}
            for key, connector in (("c1", "usb_c"), ("a", "usb_a"), ("dc", "barrel"))]
    one = slots(features(document(ports=rows)))["ports"]
    assert (one.text, one.shown) == ("barrel+usb_a+usb_c", "barrel, USB-A, USB-C")


def test_the_case_and_what_a_test_showed_are_left_out():
    rows = [measured("case_width", 0.05), measured("sustained_power", 12.0, duration=1800.0)]
    assert features(document(measurements=rows)) == ()


def test_features_come_back_from_json_as_they_were():
    made = features(document([component("core", "EE16")], [winding("primary", 1, 100.0)]),
                    [("a", "component_side", -5)])
    assert from_plain(plain(made)) == made
