"""The garbage collector left out of the way while many rows are made that all stay."""

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def no_collection() -> Iterator[None]:
    """A hundred thousand new rows that all stay would set the garbage collector off in vain again and again."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def keep_for_good() -> None:
    """What is there by now is not looked at again by the garbage collector: of a big record each round would take
    longer than a key may. What nobody holds any more goes as before; only rings that nobody holds would stay.
    """
    gc.freeze()
