"""What the page of setups costs with many records: its weight, and how soon a filter is answered.

    python benchmarks/setups_page.py [--records 10000] [--runs 9]

A log is generated, its page is made as the plugin makes it, built by MkDocs and opened in the
system's Chromium. A filter is timed in the page from the event that asks to the first frame that
shows the answer. The weight is all that the page loads of ours and of the theme, compressed.
"""

from __future__ import annotations

import argparse
import functools
import gzip
import http.server
import os
import platform
import random
import shutil
import statistics
import tempfile
import threading
import time
from collections.abc import Iterator
from pathlib import Path

from mkdocs.commands.build import build
from mkdocs.config import load_config
from playwright.sync_api import Page, sync_playwright

from shoplog.find.record import Figures, Record
from shoplog.render import page_script, style_name, style_sheet
from shoplog.render.made_pages.made_text import directory_link
from shoplog.render.made_pages.setups_page import SETUPS_PAGE, setups_page

SWITCHES = (
    "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking"
    " --disable-component-update --disable-sync"
).split()
OPERATIONS = (
    "turning", "facing", "boring", "parting", "grooving", "knurling", "threading", "drilling",
    "reaming", "tapping", "countersinking", "face milling", "side milling", "slot milling",
)  # fmt: skip
MATERIALS = (
    ("mild steel", "low-carbon steel"), ("C45", "medium-carbon steel"), ("EN8", "alloy steel"),
    ("silver steel", "tool steel"), ("stainless 303", "free-cutting stainless steel"),
    ("stainless 304", "austenitic stainless steel"), ("cast iron", "grey cast iron"),
    ("free-cutting brass", "free-cutting brass"), ("leaded bronze", "bronze"),
    ("aluminium 6082", "aluminium"), ("acetal", "plastics"), ("copper", "copper"),
)  # fmt: skip
CUTTERS = (
    "turning tool", "boring bar", "parting tool", "drill", "reamer", "end mill", "slot drill",
    "tap", "centre drill", "countersink", "grooving tool", "knurling tool",
)  # fmt: skip
MACHINES = ("bench lathe", "bench mill", "drill press", "shaper", "the big lathe")
WORDS = (
    "chatter at the shoulder until the edge was stoned and the feed doubled after that it sang no"
    " more oil on a brush kept dry with air a mirror finish burr to be taken off by hand stick out"
    " less next time belt slipped tailstock a little low went well as before"
).split()


def records(count: int) -> Iterator[Record]:
    """Records as a workshop of many years has them: few words a list, remarks of their own."""
    draw = random.Random(1)
    for number in range(count):
        material, group = draw.choice(MATERIALS)
        operation = draw.choice(OPERATIONS)
        cutter = draw.choice(CUTTERS)
        month = draw.randint(1, 12)
        size = round(draw.uniform(2, 80), 2)
        rpm = draw.choice((60, 110, 180, 290, 460, 740, 1180, 1900))
        feed = draw.choice((0.02, 0.04, 0.06, 0.08, 0.1, 0.12, 0.15, 0.2)) * draw.uniform(0.9, 1.1)
        project = f"log/project-{number % 40}"
        yield Record(
            page=f"{project}/part-{number // 10}.md",
            anchor=f"setup-{number % 10 + 1}",
            line=10 * (number % 10) + 4,
            run=1,
            date=f"{2010 + number * 15 // count}-{month:02d}-{draw.randint(1, 28):02d}",
            date_from="block",
            project=project,
            part=f"part_{number // 10}",
            title=f"Part {number // 10} of project {number % 40}",
            feature=draw.choice(("journal", "bore", "flange", "groove", "seat", "slot", "edge")),
            operation=f"{operation}, {draw.choice(('rough', 'finish'))}",
            operation_kind=operation,
            material=material,
            material_group=group,
            cutter=f"{cutter}, HSS, diameter {draw.randint(2, 20)} mm",
            cutter_kind=cutter,
            machine=draw.choice(MACHINES),
            diameter_mm=size,
            outcome=draw.choice(("good",) * 6 + ("usable", "usable", "poor", "spoiled")),
            remarks=" ".join(draw.choices(WORDS, k=draw.randint(4, 16))),
            ran=Figures(
                spindle_speed_rpm=rpm,
                cutting_speed_m_per_min=3.14159265 * size * rpm / 1000,
                feed_per_tooth_mm=feed,
                depth_of_cut_mm=round(draw.uniform(0.1, 2), 2),
            ),
        )


def write_site(folder: Path, count: int) -> Path:
    """A site whose page of setups has so many records; gives the folder of the site."""
    made = setups_page(records(count), directory_link)
    docs = folder / "docs"
    files = {SETUPS_PAGE: made.text, "index.md": "# Bench log\n", "setups.json": "{}\n"}
    files |= {name: str(text) for name, text in made.files.items()}
    files |= {f"assets/{style_name()}": style_sheet(), "assets/page.js": page_script()}
    for name, text in files.items():
        (docs / name).parent.mkdir(parents=True, exist_ok=True)
        (docs / name).write_text(text, "utf-8")
    theme = "{name: material, font: false, features: [navigation.instant]}"
    settings = f"site_name: Bench log\ntheme: {theme}\nextra_css: [assets/{style_name()}]\n"
    (folder / "mkdocs.yml").write_text(f"{settings}plugins: [search]\n", "utf-8")
    build(load_config(str(folder / "mkdocs.yml"), site_dir=str(folder / "site")))
    return folder / "site"


# Asks with the page's own controls, and waits for the frame that shows the answer.
TIMED = """
async ([selector, value, event]) => {
  const control = document.querySelector(selector);
  await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve, 50)));
  const begun = performance.now();
  if (event === "change") control.checked = value; else control.value = value;
  control.dispatchEvent(new Event(event, { bubbles: true }));
  const worked = performance.now() - begun;
  await new Promise((resolve) => requestAnimationFrame(() => {
    const channel = new MessageChannel();
    channel.port1.onmessage = resolve;
    channel.port2.postMessage(null);
  }));
  return [worked, performance.now() - begun, document.querySelector(".setups-found").textContent];
}
"""
QUESTIONS = (
    ("one facet", '[value="turning"]', (True, False), "change"),
    ("a second facet", '.setups-facet [value="good"]', (True, False), "change"),
    ("a range", "#shoplog-cutting-speed-low", ("20", ""), "input"),
    ("words", "#shoplog-words", ("chatter shoul", ""), "input"),
    ("inches", '[name="shoplog-units"][value="inch"]', (True,), "change"),
)


def ask(page: Page, runs: int) -> Iterator[str]:
    """Times each question and what takes it back, and tells the middle and the worst of them."""
    for name, selector, values, event in QUESTIONS:
        first = page.evaluate(TIMED, [selector, values[0], event])
        times = []
        for number in range(runs):
            value = values[(number + 1) % len(values)]
            times.append(page.evaluate(TIMED, [selector, value, event]))
        painted = [painted for _, painted, _ in times]
        worked = [worked for worked, _, _ in times]
        yield (
            f"{name:15s} {statistics.median(painted):6.1f} ms to the frame that shows it"
            f" (worst {max(painted):.1f}; script {statistics.median(worked):.1f};"
            f" first time {first[1]:.1f}): {first[2]}"
        )


def loaded(page: Page, address: str) -> Iterator[tuple[str, int]]:
    """Each file that the page loads with its compressed size."""
    seen: dict[str, int] = {}
    page.on("response", lambda one: seen.update({one.url: len(gzip.compress(one.body(), 9))}))
    page.goto(f"{address}setups/")
    page.wait_for_selector(".setups-found")
    page.wait_for_load_state("networkidle")
    yield from seen.items()


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        pass


def measure(count: int, runs: int) -> None:
    """Print the weight of the page and the time of each kind of filter."""
    found = shutil.which("chromium") or shutil.which("chromium-browser")
    assert found, "there is no Chromium on this machine"
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        begun = time.perf_counter()
        site = write_site(Path(name), count)
        print(f"{count} records; the site was made in {time.perf_counter() - begun:.1f} s")
        handler = functools.partial(_Quiet, directory=str(site))
        server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
        threading.Thread(target=server.serve_forever, daemon=True).start()
        browser = playwright.chromium.launch(executable_path=found, args=SWITCHES)
        page = browser.new_page(viewport={"width": 1280, "height": 900})
        sizes = dict(loaded(page, f"http://127.0.0.1:{server.server_port}/"))
        for address, size in sorted(sizes.items(), key=lambda one: -one[1]):
            print(f"  {size / 1000:8.1f} kB  {address.rpartition('/')[2] or 'index.html'}")
        print(f"  {sum(sizes.values()) / 1000:8.1f} kB compressed in all, {len(sizes)} files")
        for line in ask(page, runs):
            print(f"  {line}")
        browser.close()
        server.shutdown()
        server.server_close()


def main() -> None:
    """Measure as the command line asks."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--records", type=int, default=10_000)
    parser.add_argument("--runs", type=int, default=9)
    asked = parser.parse_args()
    load = f", load {os.getloadavg()[0]:.1f}" if hasattr(os, "getloadavg") else ""
    print(f"{platform.system()} {platform.machine()}, {os.cpu_count()} processors{load}")
    measure(asked.records, asked.runs)


if __name__ == "__main__":
    main()
