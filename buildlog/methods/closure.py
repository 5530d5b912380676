"""All that can be reached in a directed graph, and a loop in it if there is one.

Depth-first search with an own stack, so that long chains meet no recursion limit: textbook, from memory.
Nodes are hashable; `successors` gives the nodes that follow one node and may be a mapping's `get` with a
default.
"""

from collections.abc import Callable, Hashable, Iterable, Iterator
from typing import TypeVar

Node = TypeVar("Node", bound=Hashable)


def reachable(starts: Iterable[Node], successors: Callable[[Node], Iterable[Node]]) -> set[Node]:
    """Every node that follows one of `starts`, near or far; a start belongs only when a loop leads back to
    it."""
    found: set[Node] = set()
    waiting = [node for start in starts for node in successors(start)]
    while waiting:
        node = waiting.pop()
        if node not in found:
            found.add(node)
            waiting.extend(successors(node))
    return found


def find_loop(nodes: Iterable[Node], successors: Callable[[Node], Iterable[Node]]) -> tuple[Node, ...]:
    """A loop that can be met from `nodes`, each node once, in the order in which it is walked; empty if none.

    The last node leads back to the first.
    """
    finished: set[Node] = set()
    for start in nodes:
        if start in finished:
            continue
        path: dict[Node, Iterator[Node]] = {start: iter(successors(start))}
        while path:
            node, following = next(reversed(path.items()))
            for next_node in following:
                if next_node in path:
                    walked = tuple(path)
                    return walked[walked.index(next_node) :]
                if next_node not in finished:
                    path[next_node] = iter(successors(next_node))
                    break
            else:
                del path[node]
                finished.add(node)
    return ()
