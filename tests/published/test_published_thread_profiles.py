"""Thread profiles against what others publish: each value's source is in thread_profiles.json."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from shoplog.trade.screw_threads.thread_profile import nut_of, screw_of
from shoplog.trade.screw_threads.threads import Thread

PUBLISHED = json.loads(Path(__file__).with_name("thread_profiles.json").read_text("utf-8"))


@pytest.mark.parametrize(
    "value", PUBLISHED["profiles"], ids=lambda v: f"{v['thread']} {v['part']} {v['check']}"
)
def test_a_crest_or_root_is_as_published(value: dict[str, Any]) -> None:
    thread = Thread.from_text(value["thread"])
    profile = (screw_of if value["part"] == "screw" else nut_of)(thread)
    found = getattr(profile, value["check"]) / thread.pitch
    assert found == pytest.approx(value["expected"], abs=value["tolerance"]), value["source"]
