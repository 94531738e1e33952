"""What a programme file must hold before it loads."""

import pytest

from bot import compare, programme
from tests.conftest import DEMO, NOON


def changed(tmp_path, *swaps):
    text = DEMO.read_text()
    for old, new in swaps:
        assert old in text, old
        text = text.replace(old, new)
    path = tmp_path / "changed.toml"
    path.write_text(text)
    return path


def refused(path):
    with pytest.raises(programme.Refused) as caught:
        programme.read(path)
    return "\n".join(caught.value.faults)


def test_the_demo_loads_with_six_sites_and_its_people(book):
    with book.page() as page:
        assert len(page.codes()) == 6
        assert page.person(short="mason").roles == (("TB07", "mason"),)
        assert page.site("TB07").design.pit_depth_m == 1.80
        assert page.site("KV12").design is None


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('source = "Sunbird site rules 2026"', 'source = ""', "source"),
        ("above = 0.05", "above = 0.10", "name the engineer"),
        ("uncertainty = 0.005", "uncertainty = 0.010", "nothing can be within"),
        ('roles = ["supervisor TB07", ', "roles = [", "TB07 has no supervisor"),
        ('code = "TB11"', 'code = "TB07"', "TB07 stands there twice"),
        ('code = "TB11"', 'code = "tb11"', "pattern"),
        ("emergency_text = \"Shout for help. Call rescue by voice.\"", f'emergency_text = "{"x" * 41}"', "emergency_text"),
        ("emergency_text = \"Shout for help. Call rescue by voice.\"", 'emergency_text = "Au secours é"', "emergency_text"),
        ("bag_kg = 50.0", "bag_kg = nan", "bag_kg"),
        ("monthly_mean_c = [23.0, ", "monthly_mean_c = [", "monthly_mean_c"),
        ("monthly_mean_c = [23.0, ", "monthly_mean_c = [23.0, 23.0, ", "monthly_mean_c"),
        ("monthly_mean_c = [23.0, ", "monthly_mean_c = [73.0, ", "monthly_mean_c"),
        ("monthly_mean_c = [23.0, ", "monthly_mean_c = [nan, ", "monthly_mean_c"),
        ("bag_kg = 50.0", "bag_kg = -1", "bag_kg"),
        ("bag_kg = 50.0", "bag_kilo = 50.0", "bag_kilo"),
        ('zone = "Africa/Nairobi"', 'zone = "Africa/Sunbird"', "no time zone"),
        ("gas_m3_per_day = 2.0, dome", "gas_m3_per_day = 2.0, volume_m3 = 8.0, dome", "give one of"),
        ('drawing = "sunbird 7"', 'drawing = "sunbird 8"', "no drawing sunbird 8"),
        ("volume_m3 = 8.0", "volume_m3 = 80.0", "KV03"),
        ('number = "+254700000107"', 'number = "107"', "number"),
        ("price = 750", "price = 0", "price"),
        ("at_least_m = 30.0", "at_least_m = 30.0\nat_most_m = 90.0", "give one of at_least_m, at_most_m"),
        ("at_least_m = 30.0", "at_least_m = -30.0", "siting.well_m"),
        ("[siting.well_m]", "[siting.mill_m]", "siting.mill_m"),
        ('[tolerance.pit_depth_m]', '[tolerance.pit_smell_m]', "no such reading"),
    ],
)  # fmt: skip
def test_a_file_with_a_fault_does_not_load_and_says_why(tmp_path, old, new, said):
    assert said in refused(changed(tmp_path, (old, new)))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("bag_kg = 50.0", "bag_kilo = 50.0"),
        ("above = 0.05", 'above = "5 cm"'),
        ("gas_m3_per_day = 2.0, dome", "gas_m3_per_dy = 2.0, dome"),
        ('name = "Amina"', "name = 3"),
        ('number = "+254700000312"', 'number = "312"'),
        ("price = 620", "price = -620"),
        ("[siting.tree_m]", "[siting.treee_m]"),
        ('roles = ["mason TB11"]', 'roles = ["mason TB99"]'),
        ("[tolerance.pit_dia_m]", "[tolerance.pit_diam_m]"),
    ],
)
def test_a_fault_is_told_with_its_line(tmp_path, old, new):
    path = changed(tmp_path, (old, new))
    lines = path.read_text().splitlines()
    there = next(number for number, line in enumerate(lines, 1) if new in line)
    (fault,) = refused(path).splitlines()
    assert fault.startswith(f"line {there}: ") or (new.startswith("roles") and fault.startswith(f"line {there - 2}: "))


@pytest.mark.parametrize(
    ("old", "new", "written"),
    [("bag_kg = 50.0", "bag_kilo = 50.0", "write bag_kg"), ("bag_kg = 50.0", 'bag_kg = "50 kg"', "number"),
     ('short = "mason"\n', "", "write it there"), ("crew_masons = 1", "crew_masons = 1.5", "whole number")],
)  # fmt: skip
def test_a_fault_says_what_to_write(tmp_path, old, new, written):
    assert written in refused(changed(tmp_path, (old, new)))


def test_what_a_file_changes_is_said_and_nothing_is_changed_by_looking(book, tmp_path):
    made, digest = programme.read(changed(tmp_path, ("bag_kg = 50.0", "bag_kg = 40.0"), ('name = "Amina"', 'name = "Amina A"')))
    with book.page() as page:
        before = compare.stands(page)
        programme.store(page, made, digest, NOON)
        after = compare.stands(page)
    assert list(compare.differences(before, after)) == ["setting bag_kg: 50.0 -> 40.0", "site BD03 name: Amina -> Amina A"]
    assert not list(compare.differences(after, after))


def test_all_faults_of_the_values_are_said_at_once(tmp_path):
    told = refused(changed(tmp_path, ("bag_kg = 50.0", "bag_kg = -1"), ('cow = "cow"', 'cow = "goat"')))
    assert "bag_kg" in told
    assert "cow" in told


def test_a_looser_limit_loads_with_the_name_of_an_engineer(tmp_path):
    path = changed(tmp_path, ("above = 0.05\nsource", 'above = 0.10\nengineer = "N. Mwangi"\nsource'))
    made, _ = programme.read(path)
    assert made.tolerance["pit_depth_m"].above == 0.10


def test_a_file_that_is_none_is_said(tmp_path):
    assert "No such file" in refused(tmp_path / "none.toml")
    bad = tmp_path / "bad.toml"
    bad.write_text("[programme")
    assert "bad.toml" in refused(bad)


def test_loading_again_changes_people_and_keeps_the_log(book, send, tmp_path):
    send("mason", "base 10.5 11 11 cm")
    made, digest = programme.read(changed(tmp_path, ('name = "Bholu"', 'name = "Bholu Ram"')))
    with book.page() as page:
        programme.store(page, made, digest, NOON)
        assert page.person(short="mason").name == "Bholu Ram"
        assert len(page.site("TB07").log) == 1
