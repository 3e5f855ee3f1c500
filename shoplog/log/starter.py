"""A new log: a site that builds at once, a shop profile, and one worked page to learn from."""

from __future__ import annotations

import json
from pathlib import Path

from shoplog.log.profile.schema import SCHEMA_FILE, shop_schema

__all__ = ["STYLE", "start_log"]

STYLE = "stylesheets/readable.css"
"""Where the pages of a new log have their own style sheet."""

_SITE = """\
site_name: {name}
theme:
  name: material
  font: false
  features: [navigation.instant, navigation.prune, navigation.indexes]
  palette:
    - media: "(prefers-color-scheme: light)"
      scheme: default
      toggle: {{icon: material/weather-night, name: Dark}}
    - media: "(prefers-color-scheme: dark)"
      scheme: slate
      toggle: {{icon: material/weather-sunny, name: Light}}
plugins: [search, shoplog]
extra_css: [{style}]  # links and colours that everyone can read
markdown_extensions: [admonition, attr_list, tables, pymdownx.details, pymdownx.superfences]
"""

_SHOP = """\
# yaml-language-server: $schema={schema}
name: {name}
machines:
  - name: bench lathe
    kind: lathe
    speeds: 130 rpm, 230 rpm, 400 rpm, 700 rpm, 1200 rpm
"""

_HOME = """\
# {name}

One folder a project, one page a part. [A guide bush](bush/bush.md) is worked to learn from:
change a size on it and see what is said.
"""

_PAGE = """\
---
part: bush
made: 1
---
# Guide bush

A bush of [=bore] bore, pressed into its block. Sizes, fit and speed are worked out from what
stands here; a wrong one is a problem at its line.

```calc
bore = {bore} H7                  # reamed after pressing
rod = {bore} f7                   # slides in it
running = fit(bore, rod)
check running.clearance_min > 0 um
wall = {wall} ±{wall_limits}
outside = bore.nominal + 2 * wall
turning = spindle_speed(cutting_speed={cutting_speed}, diameter=outside) to rpm
draw running
```

When it is made, say what was found, and what ran:

```calc
measured bore = {found} ±{instrument}
```

```setup
step: 1
operation: turning, finish
feature: outside
material: free-cutting brass
cutter: turning tool, HSS, nose radius 0.4 mm
machine: bench lathe
diameter: {stock}
planned:
  cutting speed: {cutting_speed}
  feed: {feed}
  depth of cut: {depth}
ran:
  speed: 1200 rpm
  feed: {feed}
  depth of cut: {depth}
outcome: good
remarks: bright all along
```
"""

_MM = {
    "bore": "12 mm",
    "wall": "4 mm",
    "wall_limits": "0.05",
    "cutting_speed": "60 m/min",
    "found": "12.009 mm",
    "instrument": "0.003",
    "stock": "20.4 mm",
    "feed": "0.06 mm/rev",
    "depth": "0.2 mm",
}
_INCH = {
    "bore": "1/2 in",
    "wall": "5/32 in",
    "wall_limits": "0.002",
    "cutting_speed": "200 ft/min",
    "found": "0.5003 in",
    "instrument": "0.0001",
    "stock": "0.828 in",
    "feed": "0.0025 in/rev",
    "depth": "8 thou",
}


def start_log(
    folder: Path, *, readable: str, inch: bool = False, name: str = "My workshop"
) -> tuple[Path, ...]:
    """Write a new log; the files that were written.

    Parameters
    ----------
    folder : Path [-]
        Made where it is missing.
    readable : str [-]
        The style sheet for what the theme leaves to a site that is to be read by everyone.
    inch : bool [-]
        Whether the worked page is in inches.
    name : str [-]
        What the workshop is called.

    Raises
    ------
    FileExistsError
        One of the files is there already; nothing is written then.
    """
    quoted = json.dumps(name, ensure_ascii=False)  # a JSON text is a YAML text, whatever it holds
    heading = " ".join(name.split()).replace("[", "\\[").replace("<", "&lt;")
    files = {
        folder / "mkdocs.yml": _SITE.format(name=quoted, style=STYLE),
        folder / "shop.yml": _SHOP.format(name=quoted, schema=SCHEMA_FILE),
        folder / SCHEMA_FILE: json.dumps(shop_schema(), ensure_ascii=False) + "\n",
        folder / "docs" / STYLE: readable,
        folder / "docs" / "index.md": _HOME.format(name=heading),
        folder / "docs" / "bush" / "bush.md": _PAGE.format(**(_INCH if inch else _MM)),
    }
    for path in files:
        if path.exists():
            raise FileExistsError(f"{path} is there already")
    for path, text in files.items():
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    return tuple(files)
