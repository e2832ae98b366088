"""Starting fast: what is made while starting stays to the end, so looking among it for garbage is time lost."""

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def without_collecting() -> Iterator[None]:
    """No garbage collection inside; what was made inside is never looked at again. A tenth of the time of `ask`."""
    gc.disable()
    try:
        yield
    finally:
        gc.freeze()
        gc.enable()
