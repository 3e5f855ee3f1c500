/* The table: only the rows of one page are drawn, all of them where it is printed. */

const MOST_PRINTED = 2000;

const cellsOf = (records, row, system) => {
  const text = (name) => records.text(name, row);
  const small = (words) => (words ? element("small", {}, words) : "");
  const speed = records.number("speed", system, row);
  const turn = records.number("feed-per-rev", system, row);
  const byTurn = turn && `${turn} ${records.figures.get("feed-per-rev")[system].unit}`;
  const feed = records.number("feed", system, row) || byTurn;
  /* A cutter that the shop names says nothing of its width. */
  const width = text("cutter_name") && records.number("cutter-width", system, row);
  const outcome = outcomeOf(records, row);
  const place = [text("feature"), text("title") || text("page"), text("run") && `run ${text("run")}`];
  return {
    operation: [
      element("a", { href: records.address(row) }, text("operation") || "setup"),
      small(place.filter(Boolean).join(", ")),
    ],
    date: [text("date"), small(text("date_from") === "git" ? "by its history" : "")],
    material: [text("material")],
    cutter: [
      text("cutter"),
      small(width && `${width} ${records.figures.get("cutter-width")[system].unit} wide`),
    ],
    machine: [text("machine")],
    diameter: [records.number("diameter", system, row)],
    "cutting-speed": [
      records.number("cutting-speed", system, row),
      small(speed && `${speed} ${records.figures.get("speed")[system].unit}`),
    ],
    feed: [feed || text("fed"), small(feed && text("fed"))],
    depth: [records.number("depth", system, row)],
    outcome: [
      element("strong", { class: `shoplog-went-${outcome.kind}` }, outcome.text),
      small(text("fault")),
      small(text("remarks")),
    ],
  };
};

const tableOf = (records, table, change) => {
  const scroll = table.parentElement;
  const body = table.tBodies[0];
  const heads = new Map();
  const sorted = element("select", { id: "shoplog-sort" });
  let last = null;

  const sortBy = (sort) => change("sort", (asked) => ({ ...asked, sort }));

  const turn = (name) => {
    const now = last.asked.sort;
    if (!now || now.name !== name) return { name, down: false };
    return now.down ? null : { name, down: true };
  };

  const rowOf = (row, system) => {
    const cells = cellsOf(records, row, system);
    return element(
      "tr",
      { role: "row" },
      ...records.columns.map(({ name, label }) => {
        const first = name === records.columns[0].name;
        return element(
          first ? "th" : "td",
          {
            ...(first ? { scope: "row", role: "rowheader" } : { role: "cell" }),
            class: records.figures.has(name) ? "setups-number" : "setups-text",
            "data-head": records.heading(name, label, system),
          },
          ...cells[name],
        );
      }),
    );
  };

  const begin = () => {
    const line = element("tr", { role: "row" });
    sorted.append(element("option", { value: "" }, "newest first"));
    for (const { name, label } of records.columns) {
      const button = element("button", { type: "button" });
      const kind = records.figures.has(name) ? "setups-number" : "setups-text";
      const head = element("th", { scope: "col", role: "columnheader", "data-sort-method": "none", class: kind }, button);
      button.addEventListener("click", () => sortBy(turn(name)));
      heads.set(name, { head, button, label });
      line.append(head);
      const words = records.figures.has(name) || name === "date" ? ["least first", "most first"] : ["A to Z", "Z to A"];
      const dated = name === "date" ? ["oldest first", "newest first, by day"] : words;
      const told = name === "outcome" ? ["best first", "worst first"] : dated;
      told.forEach((way, number) =>
        sorted.append(element("option", { value: (number ? "-" : "") + name }, `${label}, ${way}`)),
      );
    }
    table.tHead.replaceChildren(line);
    table.setAttribute("role", "table");
    for (const part of [table.tHead, body]) part.setAttribute("role", "rowgroup");
    sorted.addEventListener("change", () => sortBy(sortFrom(records, sorted.value)));
  };

  const showHeads = ({ sort, units }) => {
    for (const [name, { head, button, label }] of heads) {
      const on = sort && sort.name === name;
      button.textContent = records.heading(name, label, units);
      button.dataset.order = on ? (sort.down ? "▼" : "▲") : "";
      if (on) head.setAttribute("aria-sort", sort.down ? "descending" : "ascending");
      else head.removeAttribute("aria-sort");
    }
    sorted.value = sort ? (sort.down ? "-" : "") + sort.name : "";
  };

  const fill = (rows) => body.replaceChildren(...rows.map((row) => rowOf(row, last.asked.units)));

  const go = () => {
    scroll.focus({ preventScroll: true });
    scroll.scrollIntoView({ block: "start" });
  };

  const pager = element("nav", { class: "setups-pager", "aria-label": "Pages of the table" });
  const where = element("span");
  const pageTo = (step, text) => {
    const button = element("button", { type: "button" }, text);
    button.addEventListener("click", () => {
      change("page", (asked) => ({ ...asked, page: last.answer.page + step }));
      go();
    });
    return button;
  };
  const [back, on] = [pageTo(-1, "Previous"), pageTo(1, "Next")];
  pager.append(back, where, on);

  begin();
  return {
    go,
    pager,
    sorter: element("div", { class: "setups-field" }, element("label", { for: "shoplog-sort" }, "Sort by"), sorted),
    draw: (asked, answer) => {
      last = { asked, answer };
      showHeads(asked);
      fill(answer.drawn);
      scroll.hidden = answer.rows.length === 0;
      const [from, to] = [answer.first + 1, answer.first + answer.drawn.length];
      where.textContent = `${GROUPED.format(from)} to ${GROUPED.format(to)} of ${GROUPED.format(answer.rows.length)}`;
      back.disabled = answer.page <= 1;
      on.disabled = answer.page >= answer.pages;
      pager.hidden = answer.pages <= 1;
    },
    print: () => fill(last.answer.rows.slice(0, MOST_PRINTED)),
    printed: () => fill(last.answer.drawn),
  };
};
