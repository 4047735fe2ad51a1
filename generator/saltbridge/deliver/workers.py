"""Worker processes that end with the run: interrupted, killed or finished, none is left behind."""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Iterator
from concurrent.futures import Executor, Future, ProcessPoolExecutor
from contextlib import contextmanager
from typing import Any


class _Tethered(ProcessPoolExecutor):
    """Begins its processes with Ctrl-C held back, so that one that comes before they are tethered does not stop them half begun."""

    def submit(self, work: Callable[..., Any], /, *given: Any, **named: Any) -> Future[Any]:
        """As any executor's: it is here that processes begin."""
        with _keyboard_held():
            return super().submit(work, *given, **named)


@contextmanager
def _keyboard_held() -> Iterator[None]:
    """Hold Ctrl-C back until the block is done; what begins in it never gets one. Windows has no such mask."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


@contextmanager
def workers(count: int) -> Iterator[Executor]:
    """An executor over ``count`` processes. Where the block raises, work not yet begun is dropped."""
    pool = _Tethered(count, initializer=_tether)
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
