"""Every figure says its unit, what it is, where it stands and how well it is known."""

from math import isfinite

import pytest

from calc import sources as s
from calc.units import si

MARKS = {s.FOUND, s.MEMORY, s.PRACTICE}
PLAIN = {"deg", "1", "s2", "C", "y", "J", "mol", "N", "months"}  # units of figures that nobody sends in a message


def figures(held, name):
    if isinstance(held, s.Figure):
        yield name, held
    elif isinstance(held, dict):
        for key, value in held.items():
            yield from figures(value, f"{name}[{key}]")
    elif isinstance(held, tuple | list):
        for place, value in enumerate(held):
            yield from figures(value, f"{name}[{place}]")


FIGURES = [pair for name, held in vars(s).items() if not name.startswith("_") for pair in figures(held, name)]


def named(wrong):
    return [name for name, figure in FIGURES if wrong(figure)]


def test_the_search_finds_figures_alone_in_tuples_and_in_tables():
    names = {name for name, _ in FIGURES}
    assert {"GRAVITY_M_S2", "DUNG[cow][1]", "MIXES[base][2]", "RETENTION[0][1]", "STRIP_D[slab props][1][1]"} <= names


def test_every_figure_says_what_it_is():
    assert named(lambda figure: not figure.what.strip()) == []


@pytest.mark.parametrize("unit", sorted({figure.unit for _, figure in FIGURES}))
def test_every_unit_of_a_figure_is_one_of_the_list_or_plain(unit):
    for part in unit.split("/"):
        assert part in PLAIN or si(1, part) > 0


def test_every_figure_is_a_number():
    assert named(lambda figure: not isfinite(figure)) == []


def test_every_figure_has_a_known_book_and_a_known_mark():
    assert named(lambda figure: figure.book not in s.BOOKS) == []
    assert named(lambda figure: figure.mark not in MARKS) == []
    assert {figure.mark for _, figure in FIGURES} == MARKS


def test_what_was_found_was_found_in_a_book():
    found = [figure for _, figure in FIGURES if figure.mark == s.FOUND]
    assert named(lambda figure: figure.mark == s.FOUND and figure.book == "-") == []
    assert all(figure.source.startswith(s.BOOKS[figure.book]) and "memory" not in figure.source for figure in found)


def test_a_choice_of_this_house_is_never_shown_with_a_source():
    chosen = {figure.source for _, figure in FIGURES if figure.mark == s.PRACTICE}
    assert chosen == {"practice value, no source"}


def test_what_was_recalled_says_so():
    assert named(lambda figure: figure.mark == s.MEMORY and not figure.source.endswith("(from memory)")) == []


def test_a_figure_of_a_book_that_is_not_listed_cannot_be_written():
    with pytest.raises(KeyError):
        s.Figure(1, "m", "anything", "NO BOOK")


def test_a_figure_is_an_ordinary_number_in_a_formula():
    length = s.Figure(2.5, "m", "anything")
    assert length * 2 == 5
    assert type(length * 2) is float


def test_books_have_names_of_their_own():
    assert len(set(s.BOOKS.values())) == len(s.BOOKS)


@pytest.mark.parametrize("name", ["CEMENT_LOOSE_KG_M3", "MIXING_TANK_DAYS", "PERSON_GAS_M3_D", "STOVE_GAS_M3_H", "ADDITIVE_SHARE"])
def test_pairs_of_low_and_high_stand_in_that_order(name):
    low, high = getattr(s, name)
    assert low < high
