/* One page of setups brought to life: what is asked, the address, and all that is drawn of it. */

const UNITS_KEY = "shoplog-units"; // the choice that every page of the log keeps

const keptUnits = () => {
  try { return localStorage.getItem(UNITS_KEY) === "inch" ? "inch" : "mm"; } catch { return "mm"; }
};
const keepUnits = (units) => {
  try { localStorage.setItem(UNITS_KEY, units); } catch { /* it then lasts as long as the page */ }
};

const begin = (root, given) => {
  const records = recordsOf(given);
  const answerTo = answerer(records);
  const place = location.pathname;
  const status = element("p", { class: "setups-found", role: "status", "aria-live": "polite" });
  const sentence = element("p", { class: "setups-sentence" });
  const clear = element("button", { type: "button", class: "setups-clear" }, "Clear all");
  let asked = null;
  let before = "";

  const draw = () => {
    const answer = answerTo(asked);
    asked = { ...asked, page: answer.page };
    controls.show(asked);
    controls.count(answer);
    table.draw(asked, answer);
    chart.draw(answer.rows, asked.units);
    const [found, all] = [answer.rows.length, GROUPED.format(records.count)];
    status.textContent = `${GROUPED.format(found)} of ${counted(records.count, "record")}`;
    if (found === records.count) status.textContent = `All ${counted(records.count, "record")}`;
    if (!found) status.textContent = `None of ${all} records is like that`;
    const told = sentenceOf(asked, records);
    sentence.textContent = told ? `Asked for: ${told}.` : "";
    clear.disabled = !told && !asked.sort;
  };

  /* Another question is another entry of the browser's history; typing on in one box is not. */
  const change = (what, next) => {
    asked = next({ ...asked, page: 1 });
    const address = place + addressOf(asked, records, keptUnits());
    const typed = what === "words" || what.endsWith("-low") || what.endsWith("-high");
    try {
      history[typed && before === what ? "replaceState" : "pushState"](null, "", address);
    } catch { /* some browsers allow so many a minute; the next one is told again */ }
    before = what;
    draw(); // after the address: to note where the page stands, a browser lays it out
  };

  const controls = controlsOf(records, change, () => table.go());
  const table = tableOf(records, root.querySelector(".setups-records"), change);
  const chart = chartOf(records);
  clear.addEventListener("click", () => {
    change("clear", ({ units }) => askedNothing(units));
    document.getElementById("shoplog-words").focus();
  });
  const heading = (text) => element("h2", {}, text);
  root.prepend(
    heading("Find"),
    controls.form,
    element("div", { class: "setups-outcome-line" }, status, clear),
    sentence,
    heading("Speed and feed"),
    chart.figure,
    heading("Records"),
    table.sorter,
  );
  root.append(table.pager);

  const read = () => {
    asked = askedFrom(location.search, records, keptUnits());
    before = "";
    draw();
  };
  // A step of the history within this page asks it anew, and nobody else: Material would fetch the
  // whole page again, and lose it where there is no net. Hence also before Material, in `capture`.
  const step = (event) => {
    if (location.pathname !== place) return;
    event.stopImmediatePropagation();
    read();
  };
  const events = [
    [window, "popstate", step],
    [window, "beforeprint", () => table.print()],
    [window, "afterprint", () => table.printed()],
  ];
  // A page that Material swaps in takes the place of this one, which then leaves the window alone.
  const leave = () => {
    events.forEach(([target, name, act]) => target.removeEventListener(name, act, true));
    chart.leave();
  };
  for (const entry of events) {
    const act = entry[2];
    entry[2] = (event) => (root.isConnected ? act(event) : leave());
    entry[0].addEventListener(entry[1], entry[2], true);
  }
  read();
};

// It stands in the page's content, and is run anew where Material swaps a page in. There the
// scripts of a page come in any order: whatever is loaded last, it begins then.
const start = () => {
  const root = document.querySelector(".shoplog-setups-page:not([data-begun])");
  const ready = window.shoplogSetups && window.TableCore && window.MiniSearch;
  if (!root || ready) document.removeEventListener("load", start, true);
  if (!root || !ready) return;
  root.dataset.begun = "";
  begin(root, window.shoplogSetups);
};
document.addEventListener("load", start, true);
start();
