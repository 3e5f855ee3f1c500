/* What the page was given: texts as numbers into a list of words, figures in metric units. */

const NAN = Number.NaN;
const GROUPED = new Intl.NumberFormat("en-GB");
const ORDER = new Intl.Collator("en", { numeric: true, sensitivity: "base" });

const element = (name, settings = {}, ...children) => {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(settings)) {
    if (value === true) made.setAttribute(key, "");
    else if (value !== false && value !== undefined) made.setAttribute(key, value);
  }
  made.append(...children.filter((child) => child !== ""));
  return made;
};

const counted = (number, noun) => `${GROUPED.format(number)} ${noun}${number === 1 ? "" : "s"}`;

/* A figure as the log shows it; more places where it would be shown as nothing. */
const figureText = (figure, system, metric) => {
  if (Number.isNaN(metric)) return "";
  const { factor, places } = figure[system];
  const text = (metric * factor).toFixed(places);
  return Number(text) === 0 && metric !== 0 ? String(Number((metric * factor).toPrecision(2))) : text;
};

const recordsOf = (given) => {
  const figures = new Map(given.figures.map((figure) => [figure.name, figure]));
  const numbers = new Map(
    Object.entries(given.numbers).map(([name, column]) => [
      name,
      Float64Array.from(column, (number) => (number === null ? NAN : number)),
    ]),
  );
  const shown = new Map();
  const ranks = new Map();

  /* A figure as a reader sees it, so that a range holds what shows within it. */
  const shownNumbers = (name, system) => {
    const key = `${name} ${system}`;
    if (!shown.has(key)) {
      const figure = figures.get(name);
      const made = numbers.get(name).map((metric) => {
        const text = figureText(figure, system, metric);
        return text === "" ? NAN : Number(text);
      });
      shown.set(key, made);
    }
    return shown.get(key);
  };

  /* Where each record stands in a column's order; NaN where it says nothing. */
  const ranksOf = (name) => {
    if (numbers.has(name)) return numbers.get(name);
    if (!ranks.has(name)) {
      const { words, at } = given.texts[name];
      const outcomes = given.outcomes.map((outcome) => outcome.word);
      const order = words.map((_, number) => number);
      order.sort((one, other) => ORDER.compare(words[one], words[other]));
      const rank = new Float64Array(words.length);
      order.forEach((number, place) => {
        const known = name === "outcome" ? outcomes.indexOf(words[number]) : place;
        rank[number] = words[number] === "" ? NAN : known < 0 ? outcomes.length + place : known;
      });
      ranks.set(name, Float64Array.from(at, (number) => rank[number]));
    }
    return ranks.get(name);
  };

  return {
    ...given,
    figures,
    numbers,
    ranksOf,
    shownNumbers,
    text: (name, row) => given.texts[name].words[given.texts[name].at[row]],
    number: (name, system, row) => figureText(figures.get(name), system, numbers.get(name)[row]),
    address: (row) =>
      `${given.addresses[given.texts.page.at[row]]}#${given.texts.anchor.words[given.texts.anchor.at[row]]}`,
    heading: (name, label, system) =>
      figures.has(name) ? `${label}, ${figures.get(name)[system].unit}` : label,
  };
};

/* How a record went: a sign and a word, and the class of its colour. */
const outcomeOf = (records, row) => {
  const word = records.text("outcome", row);
  const known = records.outcomes.find((outcome) => outcome.word === word);
  return {
    word: known ? word : "",
    text: `${known ? known.sign : "–"} ${word || "not told"}`,
    kind: known ? word : "not-told",
  };
};

/* A record in a line, as the chart tells it. */
const lineOf = (records, row, system) => {
  const figures = ["cutting-speed", "feed", "diameter"].map((name) => {
    const text = records.number(name, system, row);
    const before = name === "diameter" ? "⌀ " : "";
    return text && `${before}${text} ${records.figures.get(name)[system].unit}`;
  });
  const parts = [
    ...["operation", "feature", "material", "cutter"].map((name) => records.text(name, row)),
    ...figures,
    ...["date", "title"].map((name) => records.text(name, row)),
  ];
  return `${outcomeOf(records, row).text}: ${parts.filter(Boolean).join(", ")}`;
};
