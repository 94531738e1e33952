"""The course of the works against the longest paths of the library `networkx`."""

from itertools import pairwise

import networkx
import pytest
from hypothesis import given

from calc import works
from calc.designs import for_gas
from calc.labour import days, labour
from calc.works import Task
from tests.calc.test_works import plans


def drawn(tasks):
    """The works as a graph from begin to end: an edge carries the wait and the days of the task it leads to."""
    graph = networkx.DiGraph()
    for task in tasks:
        graph.add_edge("begin", task.name, weight=task.days)
        graph.add_edge(task.name, "end", weight=0)
        for before in {*task.after, *task.waits}:
            graph.add_edge(before, task.name, weight=task.waits.get(before, 0) + task.days)
    assert networkx.is_directed_acyclic_graph(graph)
    return graph


def longest(graph, nodes):
    return networkx.dag_longest_path_length(graph.subgraph(nodes))


def finishes(tasks):
    """{task: longest path to its finish}."""
    graph = drawn(tasks)
    return {task.name: longest(graph, networkx.ancestors(graph, task.name) | {task.name}) for task in tasks}


def through(tasks):
    """{task: longest path of the whole works that leads through it}."""
    graph, before = drawn(tasks), finishes(tasks)
    return {name: finish_d + longest(graph, networkx.descendants(graph, name) | {name}) for name, finish_d in before.items()}


@given(plans())
def test_finishes_are_the_longest_paths(tasks):
    slots = works.schedule(tasks)
    assert {name: slot.finish_d for name, slot in slots.items()} == pytest.approx(finishes(tasks))
    assert works.finish_d(slots) == networkx.dag_longest_path_length(drawn(tasks))


@given(plans())
def test_a_task_may_slip_by_what_the_longest_way_through_it_is_short_of_the_whole(tasks):
    slots, whole = works.schedule(tasks), networkx.dag_longest_path_length(drawn(tasks))
    for name, path_d in through(tasks).items():
        assert slots[name].slack_d == pytest.approx(whole - path_d)
        assert slots[name].critical is (abs(whole - path_d) < 1e-9)


@given(plans())
def test_the_longest_path_of_the_library_is_critical_from_end_to_end(tasks):
    assert set(networkx.dag_longest_path(drawn(tasks))[1:-1]) <= set(works.critical_path(works.schedule(tasks)))


@pytest.mark.parametrize("dome", ["brick", "ferrocement", "concrete"])
@pytest.mark.parametrize(("masons", "labourers"), [(1, 2), (2, 4)])
def test_the_works_of_a_plant_end_on_the_day_of_its_longest_path(dome, masons, labourers):
    work = labour(for_gas(2.0, dome=dome))
    takes = {stage: works.calendar_days(days(work[stage], masons, labourers), 6) for stage in work}
    order = [stage for stage in ("layout", "pit", "base", "wall", "dome", "plaster", "backfill") if stage in takes]
    tasks = [Task(order[0], takes[order[0]])]
    for before, stage in pairwise(order):
        tasks.append(Task(stage, takes[stage], (before,), {before: 3} if before in ("base", "dome") else {}))
    tasks += [Task(stage, takes[stage], ("base",)) for stage in ("outlet", "covers")] + [Task("pipe", takes["pipe"], ("dome",))]
    slots = works.schedule(tasks)
    assert works.finish_d(slots) == pytest.approx(networkx.dag_longest_path_length(drawn(tasks)))
    assert {name: slots[name].slack_d for name in slots} == pytest.approx(
        {name: works.finish_d(slots) - path_d for name, path_d in through(tasks).items()}, abs=1e-9
    )
    # on the chain nothing slips: days and two waits of three days
    assert works.finish_d(slots) == pytest.approx(sum(takes[stage] for stage in order) + 6)
