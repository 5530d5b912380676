"""What the keys of Mirror do with all that is beneath the row under the cursor."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.screens.acts.bench import fits_to_test, open_steps, record_fit, tick_step, told_of_doable, told_of_fit
from buildlog.screens.dialogs.choose import Choice

if TYPE_CHECKING:
    from buildlog.screens.mirror_keys import MirrorKeys

NO_STEP = "No step is open here: the list below says what holds each, {edit_here} adds one."
NO_FIT = "No fit is to be tested here now: Fits ({go_fits}) has all of them, Things ({go_things}) adds one."


async def tick_here(screen: MirrorKeys) -> None:
    """One of the steps open beneath the row, nearest first and left before right, or the one of the blocker."""
    status, order = screen.status, {place: i for i, place in enumerate(screen.positions_here())}
    if status is None:
        return
    leaf = screen.leaf_here()
    step_id = leaf.about.id if leaf is not None and leaf.about.noun == "step" else None
    here = []
    for doable in open_steps(status):
        places = [order[place] for place in doable.position_ids if place in order]
        if places and step_id in (None, doable.about.id):
            here.append((min(places), doable))
    here.sort(key=lambda pair: pair[0])
    choices = [Choice(doable, doable.text, told_of_doable(status, doable)) for _, doable in here]
    chosen = await screen.choose("Tick which step?", choices, empty=NO_STEP)
    if chosen is not None:
        await tick_step(screen, chosen.position_id, chosen.about.id)


async def fit_here(screen: MirrorKeys) -> None:
    """One of the fits that ask for something beneath the row."""
    status, places = screen.status, set(screen.positions_here())
    if status is None:
        return
    names = {test.id: test.name for test in status.snapshot.fit_tests}
    here = [state for state in fits_to_test(status) if state.position_id in places]
    choices = [Choice(state, names[state.test_id], told_of_fit(status, state)) for state in here]
    chosen = await screen.choose("Which fit was tried?", choices, empty=NO_FIT)
    if chosen is not None:
        await record_fit(screen, chosen.position_id, chosen.test_id)


async def start_here(screen: MirrorKeys) -> None:
    """A ready file that serves what is beneath the row, in allotment order; the likeliest of all where none does."""
    from buildlog.screens.acts.starting import of_offer, start, start_print, what_to_start

    status, places = screen.status, set(screen.positions_here())
    if status is None:
        return
    keys = {(slot.part, slot.side) for place in places for slot in status.needs.by_position.get(place, ())}
    files = {file_id for key, file_id in status.hours.ready_file.items() if key in keys}
    free = {machine.printer_id for machine in status.machines.printers if machine.is_free}
    offers = {o.print_file_id: o for o in status.machines.offers if o.printer_id in free and o.print_file_id in files}
    if not offers or not what_to_start(status):
        await start_print(screen)
        return
    here = [of_offer(status, offer) for offer in sorted(offers.values(), key=lambda offer: offer.rank)]
    chosen = await screen.pick("Start which for this?", [Choice(one, one.name, one.told, one.tone) for one in here])
    if chosen is not None:
        await start(screen, chosen)


async def answer_here(screen: MirrorKeys) -> None:
    from buildlog.screens.acts.questions import answer_question

    status = screen.status
    if status is None:
        return
    held = [leaf for place in screen.positions_here() for leaf in status.blockers.leaves.get(place, ())]
    here = screen.leaf_here()
    if here is not None and here.about.noun == "question":
        await answer_question(screen, here.about.id)
    else:
        await answer_question(screen, *dict.fromkeys(leaf.about.id for leaf in held if leaf.about.noun == "question"))
