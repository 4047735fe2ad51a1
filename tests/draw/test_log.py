"""The rejection log: counts, and the fault that names the condition that rejects almost every draw."""

from __future__ import annotations

from saltbridge.draw.log import LEAST_DRAWS, Reason, RejectionLog

EMF = Reason("`E0_cell >= 0.20 V`", "keep only if", 7)
CLOSE = Reason("R-CLOSE", "rules[1]", 9)


def filled(kept, emf, close=0):
    log = RejectionLog("cells/t.yaml")
    for _ in range(kept):
        log.keep()
    for _ in range(emf):
        log.reject(EMF)
    for _ in range(close):
        log.reject(CLOSE, EMF, CLOSE)
    return log


def test_a_draw_counts_once_for_each_reason():
    log = filled(3, 4, 5)

    assert (log.draws, log.kept, log.rejected) == (12, 3, 9)
    assert log.lines() == ((EMF, 9), (CLOSE, 5))


def test_logs_of_several_processes_add_up():
    log = filled(1, 2)
    log.add(filled(3, 0, 4))

    assert (log.kept, log.rejected, log.lines()) == (4, 6, ((EMF, 6), (CLOSE, 4)))


def test_the_fault_names_the_condition_that_rejects_most():
    assert str(filled(1, 150, 49).fault()) == (
        "cells/t.yaml:7: keep only if: expected 2% of the draws to be kept; "
        "found only 1 of 200; 199 were dropped because of `E0_cell >= 0.20 V`. "
        "Loosen it, or draw from other values. Also: R-CLOSE 49. [rejects-almost-every-draw]"
    )


def test_one_reason_alone():
    assert str(filled(0, 60).fault()) == (
        "cells/t.yaml:7: keep only if: expected 2% of the draws to be kept; "
        "found only 0 of 60; 60 were dropped because of `E0_cell >= 0.20 V`. "
        "Loosen it, or draw from other values. [rejects-almost-every-draw]"
    )


def test_no_fault_while_enough_survive_or_little_is_known():
    assert filled(4, 196).fault() is None
    assert filled(4, 197).fault() is not None
    assert filled(4, 196).fault(least_share=0.05) is not None
    assert filled(0, LEAST_DRAWS - 1).fault() is None
    assert RejectionLog("t.yaml").fault() is None
