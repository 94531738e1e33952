"""The course of the works: delays, what holds a task, what is done; labour against its rates; nothing gets earlier by delay."""

from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import sources as s
from calc import works
from calc.designs import for_gas, for_volume
from calc.errors import Missing, OutOfRange, Unknown
from calc.labour import days, labour
from calc.vessel import shape
from calc.works import Task

PLANTS = [
    for_gas(2.0),
    for_gas(2.0, dome="ferrocement"),
    for_volume(8.0, 24, form=shape("cylinder_cap", "flat"), dome="concrete"),
]


@st.composite
def plans(draw):
    """Tasks that come only after earlier ones, with waits."""
    count = draw(st.integers(1, 8))
    tasks = []
    for k in range(count):
        before = draw(st.lists(st.integers(0, k - 1), unique=True, max_size=3)) if k else []
        waits = {f"t{b}": draw(st.integers(0, 14)) for b in before if draw(st.booleans())}
        after = tuple(f"t{b}" for b in before if f"t{b}" not in waits or draw(st.booleans()))
        tasks.append(Task(f"t{k}", draw(st.integers(0, 12)), after, waits))
    return draw(st.permutations(tasks))


@given(plans(), st.data())
def test_only_a_delay_over_the_slack_moves_the_end(tasks, data):
    slots = works.schedule(tasks)
    late = data.draw(st.sampled_from(tasks))
    more = data.draw(st.integers(0, 20))
    moved = works.schedule([Task(t.name, t.days + more, t.after, t.waits) if t.name == late.name else t for t in tasks])
    assert works.finish_d(moved) == pytest.approx(works.finish_d(slots) + max(more - slots[late.name].slack_d, 0))


@given(plans())
def test_the_critical_tasks_reach_from_the_first_day_to_the_last(tasks):
    slots = works.schedule(tasks)
    critical = works.critical_path(slots)
    assert slots[critical[0]].start_d == 0
    assert max(slots[name].finish_d for name in critical) == works.finish_d(slots)


@given(plans(), st.integers(0, 40))
def test_nothing_undone_starts_before_today(tasks, today):
    slots = works.schedule(tasks, today_d=today)
    assert all(slot.start_d >= today for slot in slots.values())
    assert works.finish_d(slots) >= works.finish_d(works.schedule(tasks))


def test_what_holds_a_task_is_told():
    slots = works.schedule([Task("base", 1), Task("tank", 9), Task("wall", 2, ("tank",), {"base": 3})])
    assert (slots["wall"].held_by, slots["wall"].waiting_d) == ("tank", 0.0)
    slots = works.schedule([Task("base", 1), Task("tank", 2), Task("wall", 2, ("tank",), {"base": 3})])
    assert (slots["wall"].held_by, slots["wall"].waiting_d) == ("base", 3.0)
    assert (slots["base"].held_by, slots["base"].waiting_d) == (None, 0.0)


def test_a_task_done_stands_where_it_was_done_and_moves_the_rest():
    tasks = [Task("pit", 4), Task("base", 1, ("pit",)), Task("wall", 2, (), {"base": 3})]
    slots = works.schedule(tasks, {"pit": 10}, 12)
    assert slots["pit"].finish_d == 10
    assert (slots["base"].start_d, slots["base"].held_by) == (12, None)
    assert slots["wall"].start_d == 16
    assert works.schedule(tasks, {"pit": 10, "base": 11, "wall": 15}, 12)["wall"].finish_d == 15


def test_a_wait_already_over_does_not_hold():
    slots = works.schedule([Task("base", 1), Task("wall", 2, (), {"base": 3})], {"base": 1}, 20)
    assert slots["wall"].start_d == 20


def test_tasks_in_a_circle_are_refused():
    with pytest.raises(OutOfRange):
        works.schedule([Task("a", 1, ("b",)), Task("b", 1, ("a",))])


def test_a_task_after_nothing_known_is_refused():
    with pytest.raises(Unknown):
        works.schedule([Task("a", 1, ("b",))])


@pytest.mark.parametrize("task", [Task("a", -1), Task("a", nan), Task("a", inf)])
def test_days_that_cannot_be_are_refused(task):
    with pytest.raises(OutOfRange):
        works.schedule([task])


def test_a_wait_or_a_today_that_cannot_be_is_refused():
    with pytest.raises(OutOfRange):
        works.schedule([Task("a", 1), Task("b", 1, (), {"a": -1})])
    with pytest.raises(Missing):
        works.schedule([Task("a", 1)], today_d=None)


@pytest.mark.parametrize(("working", "week", "calendar"), [(6, 6, 7), (5, 5, 7), (0, 6, 0), (10, 7, 10)])
def test_working_days_on_the_calendar(working, week, calendar):
    assert works.calendar_days(working, week) == pytest.approx(calendar)


@pytest.mark.parametrize(("working", "week"), [(-1, 6), (1, 0), (1, 8), (nan, 6)])
def test_a_week_that_cannot_be_is_refused(working, week):
    with pytest.raises(OutOfRange):
        works.calendar_days(working, week)


# ---- labour


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: f"{plant.shape} {plant.dome}")
def test_every_stage_has_its_work(plant):
    work = labour(plant)
    assert {"layout", "pit", "base", "dome", "outlet", "plaster", "covers", "backfill", "pipe"} <= set(work)
    assert ("wall" in work) == (plant.vessel.wall_height_m > 0)
    assert all(skilled >= 0 and unskilled >= 0 and skilled + unskilled > 0 for skilled, unskilled in work.values())


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: f"{plant.shape} {plant.dome}")
def test_harder_ground_takes_longer_and_nothing_else_does(plant):
    soft, hard = labour(plant, "soft"), labour(plant, "very_hard")
    assert hard["pit"][1] > soft["pit"][1]
    assert {stage: work for stage, work in soft.items() if stage != "pit"} == {
        stage: work for stage, work in hard.items() if stage != "pit"
    }


@given(st.floats(0.8, 5))
def test_a_larger_plant_takes_more_work(gas_m3):
    small, large = labour(for_gas(gas_m3)), labour(for_gas(gas_m3 * 1.2))
    for side in (0, 1):
        assert sum(work[side] for work in large.values()) > sum(work[side] for work in small.values())


def test_concrete_of_the_base_by_its_rate():
    assert labour(PLANTS[0])["base"] == (pytest.approx(0.10 * PLANTS[0].base_volume_m3), pytest.approx(2.33 * PLANTS[0].base_volume_m3))


def test_ground_without_a_rate_is_refused():
    with pytest.raises(Unknown):
        labour(PLANTS[0], "lava")


@pytest.mark.parametrize(
    ("work", "crew", "took"),
    [
        ((1.0, 0.0), (1, 0), 1.0),
        ((1.01, 0.0), (1, 0), 1.5),
        ((0.0, 6.0), (0, 4), 1.5),
        ((2.0, 3.0), (1, 3), 2.0),
        ((0.0, 0.0), (0, 0), 0.0),
    ],
)
def test_a_crew_takes_half_days_rounded_up(work, crew, took):
    assert days(work, *crew) == took


@given(st.floats(0, 20), st.floats(0, 40), st.integers(1, 3), st.integers(1, 6))
def test_more_hands_are_never_later(skilled, unskilled, masons, labourers):
    work = (skilled, unskilled)
    assert days(work, masons + 1, labourers) <= days(work, masons, labourers)
    assert days(work, masons, labourers + 1) <= days(work, masons, labourers)


@pytest.mark.parametrize(("work", "crew"), [((1.0, 0.0), (0, 3)), ((0.0, 1.0), (1, 0)), ((0.0, 1.0), (1, -1)), ((1.0, 0.0), (nan, 1))])
def test_work_without_hands_is_refused(work, crew):
    with pytest.raises(OutOfRange):
        days(work, *crew)


def test_rates_are_above_zero():
    assert all(each > 0 for rate in (s.BRICKWORK_D_M3, s.CONCRETE_D_M3, s.SLAB_D_M3, s.PLASTER_D_M2) for each in rate)
