"""Winding sections of several units at one scale."""
import re

from teardowns.presenting.compare_windings import compared_windings

from .compared import columns, compared, layer


def wound(position, turns):
    return layer(position, kind="winding", winding="primary", wire_insulation="enamel",
                 turns=turns, bare_diameter=3e-4)


def windings(*stacks):
    return compared_windings(columns(*(compared(pk=pk, stacklayer=list(stack))
                                       for pk, stack in enumerate(stacks, start=1))))


def ruler(one):
    return re.search(r'class="wd-ruler" d="([^"]+)"', one.section.figure)[1]


def test_five_millimetres_are_as_long_in_each_section():
    small, large = windings([wound(1, 20.0)], [wound(1, 60.0)])
    assert ruler(small) == ruler(large)


def test_every_drawing_has_its_own_ids():
    small, large = windings([wound(1, 20.0)], [wound(1, 60.0)])
    assert 'id="wd-a-t"' in small.section.figure and 'id="wd-b-t"' in large.section.figure


def test_a_unit_without_layers_says_how_it_was_looked_for():
    unfound = layer(1, kind="winding", state="not_found")
    _, looked, nothing = windings([wound(1, 20.0)], [unfound], [])
    assert (looked.section, looked.states) == (None, "looked, not found")
    assert (nothing.section, nothing.states) == (None, "nothing recorded")


def test_without_any_layer_there_is_no_section():
    assert windings([], []) == []
