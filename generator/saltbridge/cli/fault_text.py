"""What commands say when something goes wrong: faults one a line, in words, never a traceback."""

from __future__ import annotations

import os
import signal
import sys
import threading
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from typing import Any, NoReturn

import click

from saltbridge.faults import Fault, Faulty

INTERRUPTED = 130
"""Exit code after Ctrl-C: 128 + SIGINT, as shells expect."""

TERMINATED = 143
"""Exit code after SIGTERM, 128 + SIGTERM: what was being built has been dropped."""

LONGEST = 1000  # characters of a fault; the longest that tells a teacher something has some 600
Invoke = Callable[[click.Context], Any]


def guarded(ctx: click.Context, invoke: Invoke) -> Any:
    """Run ``invoke``; what it raises is told on stderr and becomes an exit code."""
    if os.environ.get("NO_COLOR"):
        ctx.color = False
    _never_choke()
    try:
        with _tidy_end():
            result = invoke(ctx)
        sys.stdout.flush()
    except Faulty as error:
        tell_faults(error.faults)
        ctx.exit(1)
    except KeyboardInterrupt:
        click.echo("Stopped before it was done.", err=True)
        ctx.exit(INTERRUPTED)
    except Terminated:
        ctx.exit(TERMINATED)
    except BrokenPipeError:
        # Whoever read our output has seen enough; nothing more can be written, not even by Python at its end.
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
        ctx.exit(0)
    except OSError as error:
        tell_faults([_refusal(error)])
        ctx.exit(1)
    except (click.exceptions.Exit, click.ClickException, click.Abort):
        raise
    except Exception as error:  # noqa: BLE001 - a teacher must never meet a traceback
        tell_faults([_own(error)])
        ctx.exit(1)
    return result


class Terminated(BaseException):
    """The system asked this process to end."""


@contextmanager
def _tidy_end() -> Iterator[None]:
    """Let SIGTERM unwind the run, so that workers end and half-built folders go."""
    if threading.current_thread() is not threading.main_thread():  # only there may a signal be caught
        yield
        return
    before = signal.signal(signal.SIGTERM, _terminated)
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, before)


def _terminated(_signal: int, _frame: object) -> NoReturn:
    raise Terminated


def tell_faults(faults: Iterable[Fault], *, prefix: str = "") -> None:
    """Print each fault on a line of its own on stderr; its place stands out on a terminal."""
    for fault in faults:
        place, separator, rest = _one_line(str(fault)).partition(": expected ")
        shown = click.style(place, bold=True) + separator + rest if separator else place
        click.echo(prefix + shown, err=True)


def _one_line(text: str) -> str:
    """The text without line ends and control characters, which a terminal would obey, and not without end."""
    shown = "".join(mark if mark.isprintable() else " " for mark in text)
    return shown if len(shown) <= LONGEST else f"{shown[: LONGEST - 1]}…"


def _refusal(error: OSError) -> Fault:
    """What the system refused, as a fault with the file first."""
    what = error.strerror or str(error)
    return Fault("system", "to read and write here", what[:1].lower() + what[1:], file=str(error.filename or ""))


def _own(error: Exception) -> Fault:
    """A fault of the program itself, with the place that a report needs."""
    trace = error.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    place = f"{os.path.basename(trace.tb_frame.f_code.co_filename)} line {trace.tb_lineno}" if trace else "?"  # noqa: PTH119 - no path is opened
    found = f"{type(error).__name__} in {place}: {error}"[:300]
    return Fault("own-fault", "saltbridge to manage this", found, "The fault is in saltbridge; please report this line.")


def _never_choke() -> None:
    """Let a terminal of few characters show question marks instead of ending the run."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")
