"""What a published page carries for its script."""

from __future__ import annotations

import json


def data_of(page: str) -> dict:
    """The data block of a page."""
    block = page.partition('type="application/json"')[2].partition(">")[2].partition("</script>")[0]
    return json.loads(block)
