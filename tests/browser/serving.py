"""A site served on this machine, and windows of Chromium that note what their pages do."""

import functools
import http.server
import threading
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).parents[2]
WIDE = {"width": 1280, "height": 900}


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *_):
        pass


@contextmanager
def serving(folder):
    """The address of the site of a folder, known before it is built, as its pages name it."""
    handler = functools.partial(_Quiet, directory=str(folder / "site"))
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    server.server_close()


@contextmanager
def visiting(chromium, address, *, missing=False):
    """Opens pages below an address, each in the window of a new reader.

    `requests` of a page are the addresses that it asked for, `faults` what went wrong in it; what
    was asked for and is `missing` is among them where that is wanted.
    """
    contexts = []

    def go(path="", *, base=address, **settings):
        context = chromium.new_context(**{"viewport": WIDE, **settings})
        contexts.append(context)
        page = context.new_page()
        page.requests, page.faults = [], []
        page.on("request", lambda request: page.requests.append(request.url))
        if missing:
            page.on("requestfailed", lambda request: page.faults.append(request.url))
        page.on("pageerror", lambda error: page.faults.append(str(error)))
        page.on("dialog", lambda dialog: (page.faults.append(dialog.message), dialog.dismiss()))
        page.goto(f"{base}{path}")
        page.wait_for_load_state("networkidle")
        return page

    yield go
    for context in contexts:
        context.close()
