"""Inside the transformer, in words."""
from teardowns.models import StackLayer
from teardowns.presenting.links import Links
from teardowns.presenting.winding_section import winding_section_of


def layer(position, **fields):
    return StackLayer(pk=position, key=f"l{position}", position=position, **fields)


def wound(position, role, **fields):
    return layer(position, kind="winding", winding=role,
                 **{"wire_insulation": "enamel", "turns": 10.0, "bare_diameter": 3e-4} | fields)


def tape(position, **fields):
    return layer(position, kind="insulation", **fields)


STACK = [wound(1, "primary"), tape(2, tape_layers=1), wound(3, "secondary")]


def result(subject, grade, low, high, *evidence):
    return {"rule": "safety/winding_layers", "on": "adjacency", "subject": subject, "grade": grade,
            "reason": "One layer is basic insulation at most.", "evidence": list(evidence),
            "numbers": {"layers_low": low, "layers_high": high}}


def report(*results):
    weakest = {"subject": results[0]["subject"]} if results else None
    return {"safety": {"results": list(results), "stack": {"weakest": weakest}}}


ONE = result("primary to secondary, layers 1 and 3", "falls short", 1.0, 1.0,
             "stacklayer/l1", "stacklayer/l3", "claim/input")


def section(stack=STACK, made=None):
    return winding_section_of(made or report(ONE), {"stacklayer": stack}, Links(7))


def test_a_transformer_of_which_nothing_was_recorded_is_not_drawn():
    assert section([]) is None
    assert section([tape(1, state="not_found")]) is None


def test_layers_stand_outward_whatever_the_order_of_the_rows():
    assert [item.name for item in section(STACK[::-1]).items] == [
        "Primary", "Insulation", "Secondary"]


def test_each_layer_is_named_and_leads_to_its_row():
    primary, insulation, _ = section().items
    assert primary.words == "10\u202fturns, 0.3\u202fmm bare, enamel"
    assert (insulation.words, insulation.evidence) == ("1 layer", "#stacklayer-l2")


def test_neighbours_bear_their_letters_grade_and_working():
    one, = section().neighbours
    assert (one.name, one.layers) == ("A to C: primary to secondary", "1 layer counts")
    assert "falls short" in one.mark and one.least
    assert one.working == "/units/7/working/safety/winding_layers/low/?of=1"


def test_the_core_is_a_side_without_a_letter():
    made = report(result("secondary to core, layer 3", "cannot tell", None, 0.0, "stacklayer/l3"))
    one, = section(made=made).neighbours
    assert one.name == "C to core: secondary to core"
    assert one.layers == "not known how many layers count"


def test_counts_are_said_at_both_ends():
    said = [section(made=report(result(ONE["subject"], "cannot tell", low, high, *ONE["evidence"])
                                )).neighbours[0].layers
            for low, high in ((2.0, 0.0), (None, 2.0), (0.0, 0.0))]
    assert said == ["0 to 2 layers count", "at least 2 layers count", "0 layers count"]


def test_what_needs_a_look_is_said_beside_its_layer():
    spoilt = [wound(1, "primary", sleeved=False), tape(2, tape_layers=2, damage="melted"),
              tape(3, state="not_readable"), tape(4, tape_layers=1, review_state="disputed")]
    assert [item.remarks for item in section(spoilt, report()).items] == [
        "leads without a sleeve", "melted or burnt through", "not readable",
        "disputed, and left out of the grades"]


def test_whether_the_type_of_a_better_wire_is_documented_is_said():
    both = [wound(1, "secondary", wire_insulation="triple", documented=seen)
            for seen in (True, False)]
    said = [item.words.rsplit(", ", 1)[1] for item in section(both, report()).items]
    assert said == ["type documented", "type not documented"]


def test_the_drawing_names_the_least_insulated_neighbours():
    drawn = section().figure
    assert "least: A to C" in drawn and "Least insulated: A to C" in drawn


def test_a_unit_that_was_not_assessed_is_drawn_without_grades():
    found = winding_section_of(None, {"stacklayer": STACK}, Links(7))
    assert found.neighbours == [] and "least" not in found.figure
