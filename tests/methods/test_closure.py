from hypothesis import given
from hypothesis import strategies as st

from buildlog.methods.closure import find_loop, reachable

GRAPHS = st.dictionaries(st.integers(0, 8), st.lists(st.integers(0, 8), max_size=4), max_size=9)


def followers(graph: dict[int, list[int]]):
    return lambda node: graph.get(node, ())


def test_everything_downstream_is_reached_and_the_start_is_not() -> None:
    graph = {1: [2, 3], 2: [4], 3: [4], 4: [], 9: [1]}

    assert reachable([1], followers(graph)) == {2, 3, 4}


def test_a_start_is_reached_when_a_loop_leads_back() -> None:
    assert reachable([1], followers({1: [2], 2: [1]})) == {1, 2}


def test_a_loop_is_told_in_the_order_in_which_it_is_walked() -> None:
    graph = {0: [5, 1], 1: [2], 2: [3], 3: [1], 5: []}

    assert find_loop([0], followers(graph)) == (1, 2, 3)


def test_a_node_that_follows_itself_is_a_loop() -> None:
    assert find_loop([7], followers({7: [7]})) == (7,)


def test_two_ways_to_one_node_are_no_loop() -> None:
    assert find_loop([1], followers({1: [2, 3], 2: [4], 3: [4]})) == ()


def test_a_chain_of_a_hundred_thousand_meets_no_recursion_limit() -> None:
    length = 100_000

    def chain(node: int) -> list[int]:
        return [(node + 1) % length]

    assert len(reachable([0], chain)) == length
    assert find_loop([0], chain) == tuple(range(length))


@given(GRAPHS)
def test_a_loop_is_found_exactly_when_some_node_reaches_itself(graph: dict[int, list[int]]) -> None:
    follow = followers(graph)
    loop = find_loop(graph, follow)

    assert bool(loop) == any(node in reachable([node], follow) for node in graph)


@given(GRAPHS)
def test_each_node_of_a_loop_really_follows_the_one_before(graph: dict[int, list[int]]) -> None:
    follow = followers(graph)
    loop = find_loop(graph, follow)

    assert len(set(loop)) == len(loop)
    assert all(after in follow(before) for before, after in zip(loop, loop[1:] + loop[:1], strict=True))
