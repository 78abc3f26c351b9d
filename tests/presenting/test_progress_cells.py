from teardowns.presenting.progress_cells import progress_cells


def test_what_is_done_stands_first():
    assert [cell["cls"] for cell in progress_cells(2, 3)] == ["done", "done", "todo"]


def test_the_cells_share_the_width_with_a_gap_around_each():
    # Four cells of 25 %, each narrowed by 1.2 %: they begin half of that after each quarter.
    cells = progress_cells(0, 4)
    assert [cell["x"] for cell in cells] == ["0.60%", "25.60%", "50.60%", "75.60%"]
    assert {cell["width"] for cell in cells} == {"23.80%"}


def test_where_nothing_is_asked_there_are_none():
    assert progress_cells(0, 0) == []
