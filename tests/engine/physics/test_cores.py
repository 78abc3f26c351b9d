"""The core library, against published data sheets and the magnetics library it was taken from."""
import numpy as np
import pytest

from teardowns.engine.physics.cores import (
    CORES,
    FAMILIES,
    FAMILY,
    core_mass,
    effective_area_from_dimensions,
    find_core,
    same_size,
    window_from_dimensions,
)
from tests.engine.make import NAN

by_core = pytest.mark.parametrize("core", CORES, ids=lambda core: core.name)


def area(family, width, depth, height=NAN, leg=NAN):
    """(mm², mm²) from millimetres."""
    place = FAMILIES.index(family) if family else NAN
    found = effective_area_from_dimensions(
        place, width * 1e-3, height * 1e-3, depth * 1e-3, leg * 1e-3)
    return tuple(float(part) * 1e6 for part in found)


# The order is stored with the evidence.
def test_the_places_of_the_families_stay():
    assert FAMILIES == ("E", "EI", "EFD", "EPC", "ETD", "ER", "EQ", "RM", "PQ", "EP")
    assert set(FAMILIES) == set(FAMILY) >= {core.family for core in CORES}


@pytest.mark.parametrize("name, square_mm", [
    ("EE16", 19.2), ("ee 16", 19.2), ("E16/7/5", 19.2), ("EF16", 20.1), ("EF-20", 32.0),
    ("EFD15", 15.0), ("PQ2620", 120.0), ("PQ 26/20", 120.0), ("RM6", 37.0), ("EER28", 82.0),
    ("EI12.5", 14.4)])
def test_a_core_is_found_by_any_of_its_names(name, square_mm):
    assert find_core(name).area == pytest.approx(square_mm * 1e-6)


@pytest.mark.parametrize("name", ["", "EE", "XX16", "2620"])
def test_an_unknown_name_is_no_core(name):
    assert find_core(name) is None


def test_no_two_cores_share_a_name():
    names = [name.replace(" ", "") for core in CORES for name in (core.name, *core.aliases)]
    assert len(set(names)) == len(names)


@by_core
def test_a_row_has_a_size_an_area_and_a_source(core):
    assert 5e-3 < core.width < 0.036 and 1e-3 < core.depth < 0.025 and core.height < 0.04
    assert 4e-6 < core.area < 200e-6 and core.area_u in (0.03 * core.area, 0.06 * core.area)
    assert core.source.endswith(".")


def test_n_2_the_volume_is_area_times_length():
    assert find_core("EFD15").volume == pytest.approx(510e-9)     # EPCOS B66413: 510 mm³


@pytest.mark.parametrize("name, cubic_mm", [("EI12.5", 308), ("EI16", 685)])
def test_the_volume_of_the_ei_cores(name, cubic_mm):
    # TDK catalogue: EI12.5 308 mm³; EI16 19.8 mm² · 34.6 mm = 685 mm³.
    assert find_core(name).volume == pytest.approx(cubic_mm * 1e-9, rel=5e-3)


# EPCOS B66413: EFD 15/8/5, 2.8 g a set; TDK catalogue: EI12.5, 1.9 g.
@pytest.mark.parametrize("name, grams", [("EFD15", 2.8), ("EI12.5", 1.9)])
def test_the_mass_of_a_set_tells_its_volume(name, grams):
    assert core_mass(find_core(name).volume) == pytest.approx(grams * 1e-3, rel=0.1)


@pytest.mark.parametrize("name", ["RM4", "RM5", "RM6", "RM10", "EPC25", "PQ32/20"])
def test_the_makers_area_is_taken_where_the_computed_one_lies_more_than_5_percent_off(name):
    core = find_core(name)
    assert abs(core.computed_area / core.maker_area - 1) > 0.05
    assert core.area == core.maker_area and core.area_u == pytest.approx(0.03 * core.area)


def test_a_row_without_a_makers_figure_is_worth_6_percent():
    core = find_core("EQ25")
    assert core.area == core.computed_area and core.area_u == pytest.approx(0.06 * core.area)


@by_core
def test_the_dimensions_of_a_standard_size_give_its_area_and_window(core):
    family = FAMILIES.index(core.family)
    found, u = effective_area_from_dimensions(family, core.width, core.height, core.depth, NAN)
    assert (found, u) == pytest.approx((core.area, core.area_u))
    window = window_from_dimensions(family, core.width, core.height, core.depth)[0]
    assert np.isnan(core.window_area) or window == pytest.approx(core.window_area)


@by_core
def test_the_outline_alone_comes_within_three_uncertainties_of_a_standard_size(core):
    found, u = area(core.family, core.width * 1e3, core.depth * 1e3)
    assert abs(found - core.area * 1e6) < 3 * u


def test_the_height_tells_an_ee16_from_an_ef16():
    assert area("E", 16.0, 4.7, height=14.4)[0] == pytest.approx(19.2)
    assert area("E", 16.1, 4.55, height=16.0)[0] == pytest.approx(20.1)


# k of the statistics: E 0.277 ± 0.024 of A·C, PQ 0.223 ± 0.022; RM 0.12 of A².
@pytest.mark.parametrize("family, width, depth, expected, u", [
    ("E", 22.0, 6.0, 36.56, 3.17), ("PQ", 23.0, 16.0, 82.06, 8.10), ("RM", 20.0, 9.0, 48.0, 5.2)])
def test_a_core_of_no_standard_size_goes_by_its_outline(family, width, depth, expected, u):
    assert area(family, width, depth) == pytest.approx((expected, u), rel=1e-3)


def test_a_centre_leg_is_better_than_the_outline():
    # E: F·C ± 5 %, 5.5 · 6 · 0.998 = 32.93 mm².
    assert area("E", 22.0, 6.0, leg=5.5) == pytest.approx((32.93, 1.65), rel=2e-3)


def test_a_round_post_counts_as_a_circle():
    # π·9.9²/4 = 76.98 mm² ± 6 %.
    assert area("ER", 30.0, 12.0, leg=9.9) == pytest.approx((76.98, 4.62), rel=1e-3)


def test_an_rm_core_goes_by_its_width_whatever_the_leg():
    assert area("RM", 20.0, 9.0, leg=6.0) == area("RM", 20.0, 9.0)


@pytest.mark.parametrize("core", [core for core in CORES if core.family != "EP"],
                         ids=lambda core: core.name)
def test_a_core_of_unknown_family_lies_within_two_wide_uncertainties(core):
    found, u = area("", core.width * 1e3, core.depth * 1e3)
    assert u > 0.2 * found
    assert abs(found - core.area * 1e6) < 2 * u


@pytest.mark.parametrize("width, depth", [(NAN, 5.0), (16.0, NAN)])
def test_without_width_or_depth_there_is_no_area(width, depth):
    assert np.isnan(area("E", width, depth)).all()


def test_a_window_of_no_standard_size_is_the_family_share_of_the_outline():
    # E rows of the table: A_w over A·2B is 0.10 to 0.22, mean 0.170. 22 · 22 mm · 0.170 = 82 mm².
    window, u = window_from_dimensions(0.0, 22e-3, 22e-3, 6e-3)
    assert (window * 1e6, u / window) == pytest.approx((82.3, 0.18), rel=0.03)
    assert np.isnan(window_from_dimensions(NAN, 22e-3, 22e-3, 6e-3)).all()


@pytest.mark.parametrize("name, shape", [
    ("E 16/8/5", "E 16/8/5"), ("E 13/6/6", "E 13/6/6.15"), ("EFD 15/8/5", "EFD 15/8/5"),
    ("EPC 17", "EPC 17"), ("RM 6/I", "RM 6/I"), ("PQ 26/20", "PQ 26/20"), ("EP 13", "EP 13"),
    ("ER 28", "ER 28"), ("EQ 20 low", "EQ 20/14/5")])
def test_the_computed_rows_are_those_of_the_library(name, shape):
    library = pytest.importorskip("PyOpenMagnetics")
    done = library.calculate_core_data({"functionalDescription": {
        "name": "x", "type": "two-piece set", "shape": shape, "material": "N87",
        "numberStacks": 1, "gapping": [{"type": "residual", "length": 5e-6}] * 3}}, False)
    found, core = done["processedDescription"], find_core(name)
    effective = found["effectiveParameters"]
    assert core.computed_area == pytest.approx(effective["effectiveArea"], rel=6e-3)
    assert core.computed_length == pytest.approx(effective["effectiveLength"], rel=6e-3)
    assert core.window_area == pytest.approx(found["windingWindows"][0]["area"], rel=6e-3)


def test_one_gives_the_bits_of_many():
    rng = np.random.default_rng(1)
    family, leg = rng.integers(-1, 11, 301).astype(float), rng.uniform(3e-3, 9e-3, 301)
    width, height, depth = rng.uniform(10e-3, 30e-3, (3, 301))
    for formula, columns in ((effective_area_from_dimensions, (family, width, height, depth, leg)),
                             (window_from_dimensions, (family, width, height, depth))):
        one = formula(*(column[[150]] for column in columns))
        assert one.tobytes() == np.ascontiguousarray(formula(*columns)[:, [150]]).tobytes()


def test_same_size_names_the_nearest_row():
    place = same_size(np.array([0.0]), np.array([16e-3]), np.array([14.3e-3]), np.array([4.8e-3]))
    assert CORES[place[0]].name == "E 16/7/5"
