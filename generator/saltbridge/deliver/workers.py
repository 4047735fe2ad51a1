"""Worker processes that end with the run: interrupted, killed or finished, none is left behind."""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
from collections.abc import Iterator
from concurrent.futures import Executor, ProcessPoolExecutor
from contextlib import contextmanager


@contextmanager
def workers(count: int) -> Iterator[Executor]:
    """An executor over ``count`` processes. Where the block raises, work not yet begun is dropped."""
    pool = ProcessPoolExecutor(count, initializer=_tether)
    try:
        yield pool
    finally:
        pool.shutdown(cancel_futures=True)


def _tether() -> None:
    """Leave Ctrl-C to the process that began this one, take its end for our own, and obey the system's wish to end at once."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    """Wait until the first process is gone, however it went: nobody would read what is worked out here."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)
