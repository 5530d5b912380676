"""Refuses loops of waiting, over assemblies and steps, with the order of tree and steps; sides do not count."""

from collections import defaultdict

from sqlmodel import col

from buildlog.errors import LoopRefused
from buildlog.methods.closure import find_loop
from buildlog.record.tables.bench import Step, Wait
from buildlog.record.tables.tree import Assembly
from buildlog.record.writer import Work
from buildlog.terms import StepKind

Node = tuple[int, int | None]
"""(assembly, step of it), or (assembly, None) where it is ready."""


def refuse_loops(work: Work) -> None:
    """Refuse when an assembly or a step would wait for itself; without waits there is no loop."""
    waits = work.all(Wait, retired_at=None)
    if not waits:
        return
    needs: defaultdict[Node, list[Node]] = defaultdict(list)
    for wait in waits:
        needs[wait.assembly_id, wait.step_id].append((wait.on_assembly_id, wait.on_step_id))
    assemblies = work.all(Assembly, retired_at=None)
    steps = work.all(Step, retired_at=None, order_by=col(Step.place))
    _add_tree_and_steps(needs, assemblies, steps)
    loop = find_loop(list(needs), lambda node: needs.get(node, ()))
    if loop:
        codes = {row.id: row.code for row in assemblies}
        step_codes = {row.id: row.code for row in steps}
        names = [
            f"{codes[assembly]} ready" if step is None else f"{codes[assembly]} step {step_codes[step]}"
            for assembly, step in loop
        ]
        raise LoopRefused((*names, names[0]))


def _add_tree_and_steps(needs: defaultdict[Node, list[Node]], assemblies: list[Assembly], steps: list[Step]) -> None:
    """Ready needs what is below and every step; a step needs the one before; the first that holds slots needs
    what is below."""
    below: defaultdict[int, list[Node]] = defaultdict(list)
    for assembly in assemblies:
        if assembly.parent_id is not None:
            below[assembly.parent_id].append((assembly.id or 0, None))
    for parent_id, ready in below.items():
        needs[parent_id, None].extend(ready)
    last: dict[int, Node] = {}
    holding: set[int] = set()
    for step in steps:
        if step.assembly_id is None:
            continue
        node = (step.assembly_id, step.id)
        needs[step.assembly_id, None].append(node)
        if step.assembly_id in last:
            needs[node].append(last[step.assembly_id])
        last[step.assembly_id] = node
        if StepKind(step.kind).holds_slots and step.assembly_id not in holding:
            holding.add(step.assembly_id)
            needs[node].extend(below[step.assembly_id])
