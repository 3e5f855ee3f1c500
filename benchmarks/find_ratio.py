"""What a question costs: `shoplog find` as a whole process on an index of many records.

    python benchmarks/find_ratio.py [--records 100000] [--runs 7]

The log has a page file for every 20 records, so that looking for changed pages is part of what is
measured; the records are generated and written straight into its index. Each time is that of a
whole process, in turn with `python -c pass` in the same run. On a machine that has other work to
do, the time of the processor and its ratio hold. Memory is the greatest that the process held.
"""

from __future__ import annotations

import argparse
import os
import platform
import random
import sqlite3
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path

from shoplog.find.indexing.index import Index, ask_index
from shoplog.find.indexing.rows import page_rows
from shoplog.find.indexing.stamps import content_digest, engine_stamp, page_stamps, stamp_of
from shoplog.find.indexing.store import Store
from shoplog.find.indexing.stored import PageRow, PageRows
from shoplog.find.record import Figures, Record

SHOPLOG = str(Path(sys.executable).with_name("shoplog"))
RECORDS_OF_PAGE = 20
PAGE = """\
# Part {n}

```setup
operation: turning
material: mild steel
remarks: the page that is changed
ran:
  speed: {rpm} rpm
```
"""
QUESTIONS = (
    ("word and conditions", "groove --material low-carbon-steel --outcome good"),
    ("conditions by name", "--operation drilling --machine press --sort outcome"),
    ("words only", "chatter shoulder"),
    ("with a range", "groove --material low-carbon-steel --cutter-diameter 3..5mm --outcome good"),
    ("nearest", "--like part-0007 --limit 20"),
    ("everything, as JSON", "--operation turning --json --limit 1000"),
)
OPERATIONS = "turning|turning, finish|facing|drilling|slot milling|face milling|reaming".split("|")
MATERIALS = (
    "mild steel|bright mild steel|EN1A|C45|brass|leaded bronze|grey cast iron|aluminium 6082|acetal"
).split("|")
CUTTERS = "turning tool|end mill|slot drill|drill|reamer|parting tool".split("|")
MACHINES = "bench lathe|small mill|drill press".split("|")
OUTCOMES = "good|good|good|usable|poor|spoiled".split("|")
FEATURES = "journal|groove|shoulder|bore|keyway|face|slot".split("|")
REMARKS = (
    "ran without a sound and the chips came off in short curls",
    "chatter at the shoulder until the tool was set a hair below the centre",
    "a burr on the far side of the groove, taken off with a scraper",
    "the edge was stoned before the last pass, which left a mirror",
    "too slow by far: it rubbed before it cut",
)


def record(number: int, page: str, chance: random.Random) -> Record:
    """A record that could be; no two have the same figures."""
    size = round(chance.uniform(2, 60), 2)
    rpm = chance.choice((180, 290, 460, 740, 1180))
    speed = 3.1416 * size * rpm / 1000
    figures = Figures(
        spindle_speed_rpm=rpm,
        cutting_speed_m_per_min=speed,
        feed_per_rev_mm=round(chance.uniform(0.02, 0.2), 3),
        depth_of_cut_mm=0.5,
    )
    kind = chance.choice(OPERATIONS)
    cutter = chance.choice(CUTTERS)
    return Record(
        page=page,
        anchor=f"setup-{number % RECORDS_OF_PAGE + 1}" if number % RECORDS_OF_PAGE else "setup",
        line=10 * (number % RECORDS_OF_PAGE) + 3,
        run=1,
        date=f"20{chance.randint(10, 25)}-{chance.randint(1, 12):02}-{chance.randint(1, 28):02}",
        date_from="block",
        project=page.rpartition("/")[0],
        title=f"Part {number // RECORDS_OF_PAGE}",
        feature=chance.choice(FEATURES),
        operation=kind,
        operation_kind=kind.partition(",")[0],
        material=chance.choice(MATERIALS),
        cutter=f"{cutter}, HSS, diameter {size} mm",
        cutter_kind=cutter,
        cutter_material="HSS",
        cutter_diameter_mm=size,
        machine=chance.choice(MACHINES),
        diameter_mm=size,
        outcome=chance.choice(OUTCOMES),
        remarks=chance.choice(REMARKS),
        ran=figures,
    )


def rows_of(page: str, number: int, chance: random.Random) -> PageRows:
    """The rows of a page of generated records."""
    first = number * RECORDS_OF_PAGE
    return page_rows(record(first + own, page, chance) for own in range(RECORDS_OF_PAGE))


def make_log(home: Path, records: int) -> float:
    """A log of page files with an index of generated records; gives the seconds that it took."""
    docs = home / "docs"
    (home / "mkdocs.yml").parent.mkdir(parents=True, exist_ok=True)
    (home / "mkdocs.yml").write_text("site_name: Many setups\n", "utf-8")
    pages = [f"p{n // 50:03d}/part-{n:04d}.md" for n in range(records // RECORDS_OF_PAGE)]
    for number, page in enumerate(pages):
        (docs / page).parent.mkdir(parents=True, exist_ok=True)
        (docs / page).write_text(PAGE.format(n=number, rpm=200 + number), "utf-8")
    chance = random.Random(1)
    rows = {page: rows_of(page, number, chance) for number, page in enumerate(pages)}
    store = Store.in_folder(home)
    started = time.perf_counter()
    with store.writing():
        seen = time.time_ns() + 10_000_000_000  # as if written long after the pages
        for page, stamp in page_stamps(docs).items():
            digest = content_digest(docs / page)
            store.set_page(page, PageRow(stamp, seen, digest, rows=rows[page].digest))
            store.replace(page, rows[page])
        store.set_meta(
            engine=engine_stamp(),
            shop="",
            docs="docs",
            place=store.place,
            site=stamp_of(home / "mkdocs.yml"),
            history="",
        )
    taken = time.perf_counter() - started
    store.close()
    return taken


# A small process of its own starts what is measured: the greatest memory of a process counts what
# the one that it was forked from held.
LAUNCHER = """
import resource, subprocess, sys, time
started = time.perf_counter()
made = subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL)
taken = time.perf_counter() - started
used = resource.getrusage(resource.RUSAGE_CHILDREN)
print(made.returncode, taken, used.ru_utime + used.ru_stime, used.ru_maxrss)
"""


def run(command: Sequence[str], home: Path) -> tuple[float, float, float]:
    """Seconds, seconds of the processor, and greatest MB of a whole process."""
    launched = subprocess.run(
        [sys.executable, "-I", "-S", "-c", LAUNCHER, *command],
        cwd=home,
        check=True,
        text=True,
        stdout=subprocess.PIPE,
    )
    status, taken, worked, kilobytes = launched.stdout.split()
    assert status == "0", (command, launched.stdout)
    return float(taken), float(worked), int(kilobytes) / 1024


def measure(home: Path, runs: int) -> None:
    """Print what each question costs beside a Python that does nothing."""
    for name, asked in QUESTIONS:
        command = [SHOPLOG, "find", *asked.split()]
        run(command, home)
        pairs = [
            (run(command, home), run([sys.executable, "-c", "pass"], home)) for _ in range(runs)
        ]
        seconds, worked = (statistics.median(one[n] for one, _ in pairs) for n in (0, 1))
        ratio = statistics.median(one[1] / bare[1] for one, bare in pairs)
        memory = max(one[2] for one, _ in pairs)
        print(
            f"{name:20} {seconds:6.3f} s, {worked:.3f} s of the processor:"
            f" {ratio:4.1f} times `python -c pass`; {memory:.0f} MB"
        )


def measure_update(home: Path, runs: int) -> None:
    """Print what it costs to replace the rows of one page, and to find and work out a change."""
    page = "p000/part-0007.md"
    store = Store.in_folder(home)
    taken = []
    for turn in range(runs):
        rows = rows_of(page, 7, random.Random(turn + 2))
        started = time.perf_counter()
        with store.writing():
            store.replace(page, rows)
        taken.append(time.perf_counter() - started)
    store.close()
    print(
        f"one page's {RECORDS_OF_PAGE} rows replaced, written and on disk:"
        f" {1000 * statistics.median(taken):.1f} ms (most {1000 * max(taken):.1f} ms)"
    )
    file = home / "docs" / page
    whole = []
    for turn in range(runs):
        file.write_text(PAGE.format(n=7, rpm=3000 + turn), "utf-8")
        whole.append(run([SHOPLOG, "find", "changed"], home)[1])
    print(
        "a page changed, then `shoplog find` as a whole process, which loads the engine and works"
        f" out the page's project again: {statistics.median(whole):.3f} s of the processor"
    )


def main() -> None:
    """Measure as the command line asks."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--records", type=int, default=100_000)
    parser.add_argument("--runs", type=int, default=7)
    asked = parser.parse_args()
    print(
        f"{platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()},"
        f" SQLite {sqlite3.sqlite_version}"
    )
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        taken = make_log(home, asked.records)
        size = (home / ".shoplog" / "setups.sqlite").stat().st_size / 1e6
        print(f"{asked.records} records written in {taken:.1f} s, {size:.0f} MB")

        def count(index: Index) -> int:
            (found,) = index.store.connection.execute("SELECT count(*) FROM records").fetchone()
            return int(found)

        assert ask_index(home, count) == asked.records, "the index was taken for an old one"
        measure(home, asked.runs)
        measure_update(home, asked.runs)


if __name__ == "__main__":
    main()
