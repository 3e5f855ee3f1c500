"""What every test shares: how Hypothesis draws, and a page worked out from its text."""

from __future__ import annotations

import os
from collections.abc import Callable
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

if TYPE_CHECKING:
    from shoplog.log import PageReport

# No deadline: a busy machine is not a bug. In CI the same examples are drawn every time, so that
# a change is judged by what it changed.
settings.register_profile("here", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True, print_blob=True)
settings.load_profile("ci" if os.environ.get("CI") else "here")


@pytest.fixture
def work_out() -> Callable[..., PageReport]:
    """Works out one page of Markdown alone: `work_out(text, path="page.md")`."""
    from shoplog.log import report_of_text

    return report_of_text
