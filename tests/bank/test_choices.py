"""A choice is right by a name of the scenario, or is one of its own options word for word."""

from __future__ import annotations

import pytest
from bank_samples import GALVANIC, template_of

from saltbridge.faults import Faulty

HEAD = GALVANIC[: GALVANIC.index("parts:")]
WORDS = HEAD + "parts:\n  - ask: And then?\n    choose: RIGHT\n    from: [It rises., It falls.]\n    why: The ions are used up.\n"


def test_an_option_may_be_the_right_one_word_for_word():
    (part,) = template_of(WORDS.replace("RIGHT", "It falls.")).parts
    assert part.choose == "It falls."
    assert part.why is not None


def test_other_words_are_refused_with_what_to_write():
    with pytest.raises(Faulty) as trouble:
        template_of(WORDS.replace("RIGHT", "It sinks."))
    line = WORDS[: WORDS.index("- ask")].count("\n") + 1
    (fault,) = trouble.value.faults
    assert line <= fault.line <= line + 1
    assert fault.expected == "a name such as `anode`, or one of the options, word for word"
    assert fault.found == "`It sinks.`"
