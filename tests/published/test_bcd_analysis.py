"""Analysis of rates (BCD 2114) for cement mortar and 12 mm plaster, as worked on an Indian engineering page."""

import pytest

from calc import mix


@pytest.mark.parametrize(("sand", "cement_m3"), [(3, 0.357), (4, 0.2675), (5, 0.214)])
def test_2114_cement_and_sand_in_mortar(sand, cement_m3):
    found = mix.mortar_materials(1, sand)
    assert found.cement_kg / 1440 == pytest.approx(cement_m3, rel=0.006)  # 1:3 is capped: 0.355
    assert found.sand_m3 == pytest.approx(1.07, rel=0.006)


@pytest.mark.parametrize(("sand", "total_m3"), [(4, 1.3375), (5, 1.284)])
def test_2114_dry_volume(sand, total_m3):
    assert mix.mortar_dry_volume(sand) == pytest.approx(total_m3, abs=0.00005)


@pytest.mark.parametrize(("sand", "cement_m3", "sand_m3"), [(4, 0.003859, 0.01541), (5, 0.00308, 0.01541), (6, 0.00257, 0.01542)])
def test_12_mm_plaster_on_a_square_metre_of_brick(sand, cement_m3, sand_m3):
    found = mix.mortar_materials(mix.plaster_volume(1, 0.012, "brick"), sand)
    assert found.cement_kg / 1440 == pytest.approx(cement_m3, rel=0.0025)  # the sheet rounds its dry volume to 1.34, 1.25
    assert found.sand_m3 == pytest.approx(sand_m3, rel=0.0025)
