"""Shows what the tests that all families share compared, as pytest does for a test file's own."""

import pytest

pytest.register_assert_rewrite("families.family_bank", "families.family_cases", "families.family_slips")
