import pytest

from teardowns.engine.quantities import CODES
from teardowns.forms.items import Entry, Parts, UnitFields
from teardowns.forms.sections import SECTIONS, STATED_BY_ROWS
from teardowns.models import Role, Unit

ENTRIES = [item for section in SECTIONS for item in section.items if isinstance(item, Entry)]


def test_every_quantity_has_its_one_place_on_the_sheet():
    asked = [entry.code for entry in ENTRIES]
    assert len(asked) == len(set(asked))
    assert set(asked) | STATED_BY_ROWS == set(CODES)
    assert not set(asked) & STATED_BY_ROWS


def test_every_kind_of_part_has_its_one_place():
    roles = [role for section in SECTIONS for item in section.items
             if isinstance(item, Parts) for role in item.roles]
    assert sorted(roles) == sorted(Role)


@pytest.mark.parametrize("section", SECTIONS, ids=lambda section: section.slug)
def test_the_names_of_a_section_s_fields_do_not_collide(section):
    prefixes = [item.prefix for item in section.items if not isinstance(item, UnitFields)]
    assert len(prefixes) == len(set(prefixes))


def test_unit_fields_exist_and_are_asked_once():
    names = [name for section in SECTIONS for item in section.items
             if isinstance(item, UnitFields) for name in item.names]
    assert len(names) == len(set(names))
    assert all(Unit._meta.get_field(name) for name in names)


def test_sections_that_touch_the_board_say_so_and_ask_for_the_discharge():
    for section in SECTIONS:
        touched = section.slug in ("case", "mains-side", "output-side", "transformer", "barrier")
        assert section.discharge is touched
        assert not touched or "discharge it through a resistor" in section.cautions[0]


def test_powered_steps_forbid_to_create_faults():
    load = next(section for section in SECTIONS if section.slug == "load")
    assert any("Do not create faults" in caution for caution in load.cautions)
