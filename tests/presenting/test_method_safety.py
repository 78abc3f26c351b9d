"""The safety chapter of the method: nothing that grades is left unprinted."""
from teardowns.engine import rulebook
from teardowns.engine.assumptions import ASSUMPTIONS
from teardowns.engine.requirements import clearance, creepage
from teardowns.presenting.method_safety import requirement_tables, safety_chapter

CHAPTER = safety_chapter(rulebook.load())


def test_every_rule_stands_with_its_source_and_how_well_its_figure_is_known():
    printed = {rule.id: rule for rule in CHAPTER["safety_rules"]}
    for rule in rulebook.load().safety:
        assert printed[rule.id].source == rule.source
        assert printed[rule.id].confidence.startswith(f"{rule.confidence}: ")


def test_every_input_of_every_rule_has_a_name_and_a_meaning():
    for rule in CHAPTER["safety_rules"]:
        for one in rule.inputs:
            assert one.name and one.meaning, rule.id


def test_every_assumption_is_printed():
    assert CHAPTER["assumptions"] == list(ASSUMPTIONS.values())


def test_every_table_of_the_standards_is_printed_once_with_its_source():
    tables = list(requirement_tables())
    assert len({id(table) for _, table in tables}) == len(tables)
    assert {clearance.SLOW.title, creepage.CREEPAGE.title} <= {
        table.title for _, table in tables}
    for one in CHAPTER["requirements"]:
        assert one.source and one.confidence[0] in "ABC"


def test_a_row_has_a_cell_for_each_head():
    for table in CHAPTER["requirements"]:
        assert {len(cells) + 1 for _, cells in table.rows} == {len(table.heads)}, table.title


def test_a_figure_is_printed_as_the_standard_prints_it():
    table = next(one for one in CHAPTER["requirements"] if one.title == clearance.WITHSTAND.title)
    # IEC 62368-1:2018, table 14, 2500 V peak: basic 1.5, reinforced 3.0 mm at pollution degree 2
    cells = dict(table.rows)["2500"]
    assert (cells[1], cells[4]) == ("1.5", "3")
