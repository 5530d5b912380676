"""The garbage collector left out of the way while many rows are made that all stay."""

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def no_collection() -> Iterator[None]:
    """A hundred thousand new rows that all stay would set the garbage collector off in vain again and again.

    Nor does the next round look through them: frozen and thawed they count as old. Where something is kept for good
    they are kept with it, since that round would keep a key waiting; `look_at_all` thaws them now and then.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.freeze()
            if _kept.for_good:
                _kept.times += 1
            else:
                gc.unfreeze()
            gc.enable()


class _Kept:
    """Whether something is kept for good, and how often more was since all of it was looked at."""

    for_good, times = False, 0


_kept = _Kept()
RARELY = 1000
"""Our choice: of so many rounds of the garbage collector over what is younger, one looks at all (usual 10)."""
THAWED_AFTER = 20
"""Our choice: so often may more be kept, with the rings that nobody holds any more, before all of it is looked at."""


def keep_for_good() -> None:
    """What is there by now is not looked at again by the garbage collector, and what comes later is as a whole only
    when `look_at_all` asks: of a big record such a round takes longer than a key may. What nobody holds any more goes
    at once as before; only rings that nobody holds wait.
    """
    first, second, _ = gc.get_threshold()
    gc.set_threshold(first, second, RARELY)
    gc.freeze()
    _kept.for_good = True


def look_at_all() -> None:
    """What is kept for good only where much was kept since: that takes a moment on a big record."""
    if _kept.times < THAWED_AFTER:
        gc.collect()
        return
    gc.unfreeze()
    gc.collect()
    gc.freeze()
    _kept.times = 0


def keep_no_longer() -> None:
    """As it was before `keep_for_good`."""
    first, second, _ = gc.get_threshold()
    gc.set_threshold(first, second, USUAL_THRESHOLDS[2])
    gc.unfreeze()
    _kept.for_good, _kept.times = False, 0


USUAL_THRESHOLDS = gc.get_threshold()
