"""What the plugin costs: a log built with it, against the same pages with finished HTML in them.

    python benchmarks/build_ratio.py [--pages 100 1000] [--runs 3]

Each page has 10 values, a check and a setup. Both builds are whole processes, taken in turn in one
run, so that the ratio holds on a noisy machine. The finished pages hold the very HTML that the
plugin would write, so what is compared is the plugin's own work and nothing else.
"""

from __future__ import annotations

import argparse
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from shoplog.log import read_log
from shoplog.render import PageHtml

PAGE = """\
---
part: part_{n}
---
# Part {n}

A part of the bench log, number {n}: it has a bore, a spigot, a thread and a turned face. The text
stands here so that a page is as long as a page of a log is, with a few sentences that say why.

```calc
bore = {bore} mm H7               # reamed
spigot = {bore} mm f7
running = fit(bore, spigot)
check running.clearance_min > 0 um
wall = {wall} mm ±0.05
outside = bore.nominal + 2 * wall
turning = spindle_speed(cutting_speed=28 m/min, diameter=outside) to rpm
screw = thread("M6x1-6g")
drilled = tap_drill("M6x1")
pilot = drill("5.0 mm").diameter
feed = 0.08 mm/rev * {rpm} rpm
```

Then it was turned:

```setup
date: 2026-03-14
operation: turning, finish
material: free-cutting steel
cutter: turning tool, HSS, nose radius 0.4 mm
machine: bench lathe
diameter: {stock} mm
planned:
  cutting speed: 28 m/min
  feed: 0.08 mm/rev
  depth of cut: 0.25 mm
ran:
  speed: {rpm} rpm
  feed: 0.08 mm/rev
  depth of cut: 0.25 mm
outcome: good
```
"""

SITE = """\
site_name: Bench log
theme:
  name: material
  font: false
  features: [navigation.instant, navigation.prune]
markdown_extensions: [admonition, attr_list, tables, pymdownx.superfences]
plugins: [search{plugin}]
"""


def page(number: int) -> str:
    """A page whose sizes differ from every other's, so that no memory of a text helps."""
    return PAGE.format(
        n=number,
        bore=10 + number % 37 + number / 10_000,
        wall=3 + number % 7 + number / 10_000,
        rpm=200 + number,
        stock=20 + number % 41 + number / 10_000,
    )


def write_logs(folder: Path, pages: int) -> tuple[Path, Path]:
    """The same log twice: to be worked out, and with the finished HTML in its place."""
    texts = {f"p{number // 50:03d}/part-{number:04d}.md": page(number) for number in range(pages)}
    worked, finished = folder / "worked", folder / "finished"
    log = read_log(texts)
    problems = [found.line for found in log.problems if found.grade == "problem"]
    assert not problems, problems[:3]
    for path, text in texts.items():
        report = log.pages[path]
        view = PageHtml(report)
        lines = text.split("\n")
        for index in reversed(range(len(report.blocks))):
            block = report.blocks[index].block
            html = view.block_html(index)
            flat = "\n".join(line for line in html.split("\n") if line.strip())
            lines[block.first_line - 1 : block.last_line] = ["", flat, ""]
        for root, content in ((worked, text), (finished, "\n".join(lines))):
            target = root / "docs" / path
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_text(content, "utf-8")
    for root, plugin in ((worked, ", shoplog"), (finished, "")):
        (root / "docs" / "index.md").write_text("# Bench log\n", "utf-8")
        (root / "mkdocs.yml").write_text(SITE.format(plugin=plugin), "utf-8")
    return worked, finished


def build(folder: Path) -> float:
    """Seconds of a whole `mkdocs build`."""
    environment = os.environ | {"NO_MKDOCS_2_WARNING": "1"}
    started = time.perf_counter()
    subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "-q", "-f", folder / "mkdocs.yml"],
        check=True,
        env=environment,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    return time.perf_counter() - started


def measure(pages: int, runs: int) -> None:
    """Print the ratio for a log of a size."""
    with tempfile.TemporaryDirectory() as folder:
        worked, finished = write_logs(Path(folder), pages)
        build(worked)  # a warm-up of the disk and of compiled files
        pairs = [(build(worked), build(finished)) for _ in range(runs)]
    ratios = [one / other for one, other in pairs]
    print(
        f"{pages:5d} pages: with shoplog {statistics.median(p[0] for p in pairs):6.2f} s,"
        f" finished HTML {statistics.median(p[1] for p in pairs):6.2f} s,"
        f" ratio {statistics.median(ratios):.3f} (least {min(ratios):.3f},"
        f" most {max(ratios):.3f}, {runs} pairs)"
    )


def main() -> None:
    """Measure as the command line asks."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--pages", type=int, nargs="+", default=[100, 1000])
    parser.add_argument("--runs", type=int, default=3)
    asked = parser.parse_args()
    for pages in asked.pages:
        measure(pages, asked.runs)


if __name__ == "__main__":
    main()
