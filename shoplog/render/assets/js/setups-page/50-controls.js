/* What a reader asks with: words, values to pick, ranges, units. Native controls throughout. */

const LONG_LIST = 7;

const controlsOf = (records, change, goToRecords) => {
  const form = element("form", { class: "setups-asking", role: "search", "aria-label": "Setups" });
  form.addEventListener("submit", (event) => event.preventDefault());
  const refresh = [];
  const tell = [];

  const labelled = (id, text, control) =>
    element("div", { class: "setups-field" }, element("label", { for: id }, text), control);

  const words = () => {
    const box = element("input", {
      type: "search",
      id: "shoplog-words",
      autocomplete: "off",
      maxlength: MOST_WORDS,
      placeholder: "groove, stainless, chatter …",
    });
    box.addEventListener("input", () => change("words", (asked) => ({ ...asked, words: box.value })));
    refresh.push((asked) => { if (box.value.trim() !== asked.words.trim()) box.value = asked.words; });
    return labelled("shoplog-words", "Words", box);
  };

  const units = () => {
    const group = element("fieldset", { class: "setups-units" }, element("legend", {}, "Units"));
    for (const [value, text] of [["mm", "mm"], ["inch", "inch"]]) {
      const button = element("input", { type: "radio", name: "shoplog-units", value });
      group.append(element("label", {}, button, text));
      button.addEventListener("change", () => {
        keepUnits(value);
        change("units", (asked) => inUnits(asked, records, value));
      });
      refresh.push((asked) => { button.checked = asked.units === value; });
    }
    return group;
  };

  const choose = (asked, name, word, picked) => {
    const chosen = new Map(asked.chosen);
    const set = new Set(chosen.get(name));
    if (picked) set.add(word);
    else set.delete(word);
    if (set.size) chosen.set(name, set);
    else chosen.delete(name);
    return { ...asked, chosen };
  };

  const orderOf = (facet) => {
    const { words, at } = records.texts[facet.text];
    const ranks = records.ranksOf(facet.text);
    const rank = (number) => ranks[at.indexOf(number)];
    return words
      .map((_, number) => [number, rank(number)])
      .sort(([, one], [, other]) => (Number.isNaN(one) ? 1 : Number.isNaN(other) ? -1 : one - other))
      .map(([number]) => number);
  };

  const choice = (facet, number) => {
    const word = records.texts[facet.text].words[number];
    const sign = records.outcomes.find((one) => facet.text === "outcome" && one.word === word);
    const box = element("input", { type: "checkbox", value: word });
    const count = element("span", { class: "setups-count" });
    const text = sign ? `${sign.sign} ${word}` : word || facet.empty;
    const name = element("span", word ? {} : { class: "setups-empty" }, text);
    const line = element("label", {}, box, name, " ", count);
    box.addEventListener("change", () =>
      change(facet.name, (asked) => choose(asked, facet.name, word, box.checked)),
    );
    refresh.push((asked) => {
      box.checked = Boolean(asked.chosen.get(facet.name)?.has(word));
    });
    tell.push((counts) => {
      const found = counts.get(facet).get(number) || 0;
      count.textContent = GROUPED.format(found);
      line.classList.toggle("setups-none", found === 0);
    });
    return line;
  };

  const facet = (one) => {
    const order = orderOf(one);
    const list = element("div", { class: order.length > LONG_LIST ? "setups-choices setups-long" : "setups-choices" });
    list.append(...order.map((number) => choice(one, number)));
    return element("fieldset", { class: "setups-facet" }, element("legend", {}, one.label), list);
  };

  const bound = (figure, end) => {
    const id = `shoplog-${figure.name}-${end}`;
    const box = element("input", { type: "text", id, inputmode: "decimal", autocomplete: "off", size: "6" });
    box.addEventListener("input", () => {
      const number = numberFrom(box.value);
      box.setAttribute("aria-invalid", String(Number.isNaN(number)));
      change(id, (asked) => {
        const bounds = new Map(asked.bounds);
        const next = { low: null, high: null, ...bounds.get(figure.name) };
        next[end] = Number.isNaN(number) ? null : number;
        if (next.low === null && next.high === null) bounds.delete(figure.name);
        else bounds.set(figure.name, next);
        return { ...asked, bounds };
      });
    });
    refresh.push((asked) => {
      const number = asked.bounds.get(figure.name)?.[end] ?? null;
      const written = numberFrom(box.value);
      if (written !== number && !(Number.isNaN(written) && box === document.activeElement)) {
        box.value = numberText(number);
        box.removeAttribute("aria-invalid");
      }
      box.placeholder = edgeOf(figure, end, asked.units);
    });
    return element("span", {}, element("label", { for: id }, end === "low" ? "from" : "to"), box);
  };

  /* The least and the most of all records, as a hint of what can be asked for. */
  const edges = new Map();
  const edgeOf = (figure, end, system) => {
    if (!edges.has(figure)) {
      const all = records.numbers.get(figure.name).filter((number) => !Number.isNaN(number)).sort();
      edges.set(figure, { low: all[0] ?? NAN, high: all[all.length - 1] ?? NAN });
    }
    return figureText(figure, system, edges.get(figure)[end]);
  };

  /* What no record tells is not asked for: a log without a lathe has no width of a tool. */
  const isAsked = ({ name, ranged }) => ranged && records.numbers.get(name).some((number) => !Number.isNaN(number));

  const range = (figure) => {
    const legend = element("legend");
    refresh.push((asked) => {
      legend.textContent = records.heading(figure.name, figure.label, asked.units);
    });
    const ends = element("div", { class: "setups-ends" }, bound(figure, "low"), bound(figure, "high"));
    return element("fieldset", { class: "setups-range" }, legend, ends);
  };

  /* On a telephone the lists are folded away until they are wanted. */
  const folded = element("div", { class: "setups-filters", id: "setups-filters" });
  const fold = element("button", {
    type: "button",
    class: "setups-fold",
    "aria-expanded": "false",
    "aria-controls": "setups-filters",
  }, "More filters");
  fold.addEventListener("click", () => {
    const open = fold.getAttribute("aria-expanded") !== "true";
    fold.setAttribute("aria-expanded", String(open));
  });
  folded.append(
    element("div", { class: "setups-facets" }, ...records.facets.map(facet)),
    element("div", { class: "setups-spans" }, ...[...records.figures.values()].filter(isAsked).map(range)),
  );
  const skip = element("button", { type: "button", class: "setups-skip" }, "Go to the records");
  skip.addEventListener("click", goToRecords);
  const line = element("div", { class: "setups-first-line" }, words(), units());
  form.append(line, skip, fold, folded);

  return {
    form,
    show: (asked) => refresh.forEach((one) => one(asked)),
    count: (answer) => {
      const counts = new Map(records.facets.map((one) => [one, answer.counts(one)]));
      tell.forEach((one) => one(counts));
    },
  };
};
