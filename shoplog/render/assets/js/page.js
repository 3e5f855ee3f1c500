/* A page's own conveniences: one switch between millimetres and inches for all its values, and a
   button beside each named value that copies it. Nothing is lost without them. */
(() => {
  "use strict";
  const KEY = "shoplog-units";
  const CHOICES = [
    ["", "mm and inch"],
    ["mm", "mm"],
    ["inch", "inch"],
  ];
  const root = document.documentElement;

  // A browser may refuse to keep anything; the choice then lasts as long as the page.
  const kept = () => {
    try { return localStorage.getItem(KEY) || ""; } catch { return ""; }
  };
  const keep = (choice) => {
    try {
      if (choice) localStorage.setItem(KEY, choice);
      else localStorage.removeItem(KEY);
    } catch { /* as above */ }
  };

  const show = (choice) => {
    if (choice) root.dataset.shoplogUnits = choice;
    else delete root.dataset.shoplogUnits;
    for (const value of document.querySelectorAll(".shoplog-prose[data-mm]")) {
      const text = value.firstElementChild;
      value.dataset.own ??= text.textContent;
      text.textContent = (choice && value.dataset[choice]) || value.dataset.own;
    }
    for (const button of document.querySelectorAll(".shoplog-switch button")) {
      button.setAttribute("aria-pressed", String(button.value === choice));
    }
  };

  const switchOf = () => {
    const group = document.createElement("div");
    group.className = "shoplog-switch";
    group.setAttribute("role", "group");
    group.setAttribute("aria-label", "Values in");
    for (const [value, label] of CHOICES) {
      const button = document.createElement("button");
      button.type = "button";
      button.value = value;
      button.textContent = label;
      button.addEventListener("click", () => { keep(value); show(value); });
      group.append(button);
    }
    return group;
  };

  // A size as it was stated (16 mm H7) where its own system shows, else the limits beside it.
  const textOf = (row) => {
    const shown = [...row.querySelectorAll("td.shoplog-value, td.shoplog-words")].filter(
      (cell) => cell.offsetParent !== null,
    );
    const cell = shown.find((one) => one.querySelector("strong")) || shown[0];
    const stated = cell && cell.querySelector("strong");
    return ((stated || cell || row).textContent || "").trim();
  };

  const copy = async (text) => {
    try {
      await navigator.clipboard.writeText(text);
      return true;
    } catch {
      return false; // no permission, or a page that is no secure context
    }
  };

  // What was done is told to a screen reader without moving it (WCAG 2.2, 4.1.3).
  const status = document.createElement("p");
  status.className = "shoplog-told";
  status.setAttribute("role", "status");

  const copierOf = (row, name) => {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "shoplog-copy";
    button.title = "Copy the value";
    button.setAttribute("aria-label", `Copy ${name}`);
    button.addEventListener("click", async () => {
      const text = textOf(row);
      const said = (await copy(text)) ? `Copied ${text}` : "The browser does not allow copying";
      button.dataset.said = said;
      status.textContent = said;
      setTimeout(() => {
        delete button.dataset.said;
        status.textContent = "";
      }, 2000);
    });
    return button;
  };

  const begin = () => {
    const first = document.querySelector(".shoplog-mm, .shoplog-prose[data-mm]");
    if (first && !document.querySelector(".shoplog-switch")) {
      const about = document.querySelector(".shoplog-page");
      const block = document.querySelector(".shoplog-block");
      if (about) about.append(switchOf());
      else if (block) block.before(switchOf());
    }
    for (const head of document.querySelectorAll(".shoplog-calc tbody th[id]")) {
      if (!head.querySelector(".shoplog-copy")) {
        const name = head.textContent.replace(/\s+/g, " ").trim();
        const after = head.querySelector("a") || head.lastChild;
        after.after(copierOf(head.parentElement, name));
      }
    }
    document.querySelector(".shoplog-told")?.remove(); // that of the page before
    if (document.querySelector(".shoplog-copy")) document.body.append(status);
    show(kept());
  };

  // It stands in the page's content, and is run anew where Material swaps a page in.
  begin();
})();
