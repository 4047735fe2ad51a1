"""Serves a preview on this machine, and looks at the bank again whenever a file of it is saved."""

from __future__ import annotations

import os
import socket
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from saltbridge.bank.part_of_bank import concerns
from saltbridge.faults import fault
from saltbridge.preview.requested import Preview
from saltbridge.preview.watched_bank import WatchedBank

LOOPBACK = "127.0.0.1"
_NAMES = (LOOPBACK, "localhost")
_DEBOUNCE = 300  # ms in which saves count as one
_STEP = 50  # ms of quiet that end such a row of saves
_PATIENCE = 500  # ms between two looks at whether to stop
_THREADS = 8
_MOST_OF_REQUEST = 16_384  # bytes


@dataclass(frozen=True, slots=True)
class Served:
    """A preview that is ready: where it is, and how to serve it until it is stopped by the keyboard or from another thread."""

    address: str
    run: Callable[[], None]
    stop: Callable[[], None]


@contextmanager
def served(folder: Path, port: int = 0, *, polling: bool = False) -> Iterator[Served]:
    """Make a preview ready; its files are watched until the block ends. Raises ``Faulty`` (``no-bank``, ``port-in-use``).

    ``port`` 0 takes a free one. ``polling`` looks at the files again and again, for shares that tell of no change.
    """
    bank = WatchedBank(folder)
    server = _server(bank, port)
    over = threading.Event()
    watcher = threading.Thread(target=_watch, args=(bank, over, polling), name="preview-watcher", daemon=True)
    watcher.start()
    try:
        yield Served(f"http://{LOOPBACK}:{server.effective_port}/", server.run, server.close)
    finally:
        over.set()
        server.task_dispatcher.shutdown(timeout=1)
        server.close()
        watcher.join(timeout=2)


def _server(bank: WatchedBank, port: int) -> Any:
    from waitress.server import create_server  # noqa: PLC0415 - wanted by this command only

    door = _door(port)
    names = frozenset(f"{name}:{door.getsockname()[1]}" for name in _NAMES)
    return create_server(
        Preview(bank, names), sockets=[door], threads=_THREADS, ident=None, max_request_header_size=_MOST_OF_REQUEST,
        max_request_body_size=_MOST_OF_REQUEST, asyncore_use_poll=True,
    )  # fmt: skip


def _door(port: int) -> socket.socket:
    """A socket at the port, on this machine only."""
    door = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    try:
        if os.name == "posix":  # a port that was ours a moment ago is free; elsewhere this would share it with others
            door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        door.bind((LOOPBACK, port))
    except OSError as error:
        door.close()
        hint = "Name another port, or leave `--port` out."
        found = f"{port}: {(error.strerror or 'a refusal').lower()}"
        raise fault("port-in-use", expected="a port that is free", found=found, hint=hint) from None
    return door


def _watch(bank: WatchedBank, over: threading.Event, polling: bool) -> None:
    from watchfiles import watch  # noqa: PLC0415 - wanted by this command only

    for changes in watch(
        bank.folder, watch_filter=lambda _kind, path: concerns(Path(path), bank.folder) is not None, stop_event=over,
        debounce=_DEBOUNCE, step=_STEP, rust_timeout=_PATIENCE, raise_interrupt=False, force_polling=polling or None,
        ignore_permission_denied=True,
    ):  # fmt: skip
        bank.saved(Path(path) for _, path in changes)
