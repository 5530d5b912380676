"""The garbage collector left out of the way while many rows are made that all stay."""

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def no_collection() -> Iterator[None]:
    """A hundred thousand new rows that all stay would set the garbage collector off in vain again and again.

    Frozen and thawed they count as old, and the next round does not look through all of them either.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            if not gc.get_freeze_count():  # to thaw would thaw what is kept for good too
                gc.freeze()
                gc.unfreeze()
            gc.enable()


RARELY = 1000
"""Our choice: of so many rounds of the garbage collector over what is younger, one looks at all (usual 10)."""


def keep_for_good() -> None:
    """What is there by now is not looked at again by the garbage collector, and what comes later is as a whole only
    when `look_at_all` asks: of a big record such a round takes longer than a key may. What nobody holds any more goes
    at once as before; only rings that nobody holds wait.
    """
    first, second, _ = gc.get_threshold()
    gc.set_threshold(first, second, RARELY)
    gc.freeze()


def look_at_all() -> None:
    gc.collect()


def keep_no_longer() -> None:
    """As it was before `keep_for_good`."""
    first, second, _ = gc.get_threshold()
    gc.set_threshold(first, second, USUAL_THRESHOLDS[2])
    gc.unfreeze()


USUAL_THRESHOLDS = gc.get_threshold()
