/* What is asked of the page, in its address: readable, short, and nothing in it is believed. */

const MOST_WORDS = 200;
const MOST_NUMBER = 20;

const askedNothing = (units) => ({
  words: "",
  chosen: new Map(),
  bounds: new Map(),
  units,
  sort: null,
  page: 1,
});

/* A number as people write one: 12.5, 12,5, 1/4, 1-1/2. Null for nothing, NaN for no number. */
const numberFrom = (text) => {
  const trimmed = text.trim();
  if (trimmed === "") return null;
  if (trimmed.length > MOST_NUMBER) return NAN;
  const fraction = /^(?:(\d+)[- ])?(\d+)\/(\d+)$/.exec(trimmed);
  if (fraction) {
    const [, whole = "0", over, under] = fraction;
    return Number(under) ? Number(whole) + Number(over) / Number(under) : NAN;
  }
  return /^(\d+([.,]\d*)?|[.,]\d+)$/.test(trimmed) ? Number(trimmed.replace(",", ".")) : NAN;
};

const boundsFrom = (text) => {
  const at = text.indexOf("..");
  if (at < 0) return null;
  const [low, high] = [text.slice(0, at), text.slice(at + 2)].map(numberFrom);
  if (Number.isNaN(low) || Number.isNaN(high)) return null;
  return low === null && high === null ? null : { low, high };
};

const numberText = (number) => (number === null ? "" : String(Number(number.toPrecision(9))));
const boundsText = ({ low, high }) => `${numberText(low)}..${numberText(high)}`;

const sortFrom = (records, text) => {
  const down = text.startsWith("-");
  const name = down ? text.slice(1) : text;
  return records.columns.some((column) => column.name === name) ? { name, down } : null;
};

const askedFrom = (search, records, kept) => {
  const given = new URLSearchParams(search.slice(0, 4000));
  const ours = new Set([
    ...["words", "sort", "page"],
    ...records.facets.map((facet) => facet.name),
    ...records.figures.keys(),
  ]);
  const told = [...given.keys()].some((name) => ours.has(name));
  const units = given.get("units");
  const asked = askedNothing(units === "inch" || units === "mm" ? units : told ? "mm" : kept);
  asked.words = (given.get("words") || "").slice(0, MOST_WORDS);
  for (const facet of records.facets) {
    const { words } = records.texts[facet.text];
    const known = given.getAll(facet.name).filter((word) => words.includes(word));
    if (known.length) asked.chosen.set(facet.name, new Set(known));
  }
  for (const figure of records.figures.values()) {
    const bounds = figure.ranged ? boundsFrom(given.get(figure.name) || "") : null;
    if (bounds) asked.bounds.set(figure.name, bounds);
  }
  asked.sort = sortFrom(records, given.get("sort") || "");
  const page = Number(given.get("page") || 1);
  asked.page = Number.isInteger(page) && page > 0 ? page : 1;
  return asked;
};

/* What is asked, as the part of an address behind its path; nothing where nothing is asked.

   The units stand in it whenever anything does, so that a range means the same to everyone. */
const addressOf = (asked, records, kept) => {
  const told = new URLSearchParams();
  if (asked.words.trim()) told.append("words", asked.words.trim());
  for (const facet of records.facets) {
    for (const word of asked.chosen.get(facet.name) || []) told.append(facet.name, word);
  }
  for (const [name, bounds] of asked.bounds) told.append(name, boundsText(bounds));
  if (asked.sort) told.append("sort", (asked.sort.down ? "-" : "") + asked.sort.name);
  if (asked.page > 1) told.append("page", String(asked.page));
  if (told.size || asked.units !== kept) told.append("units", asked.units);
  const text = told.toString().replaceAll("%2F", "/").replaceAll("%2C", ",");
  return text ? `?${text}` : "";
};

/* A figure in the other units: the shortest that is shown as the same in these, so that 0.6299 in is
   16 mm again and not 15.999; else as it is shown there. */
const inOther = (figure, from, to, number) => {
  const metric = number / figure[from].factor;
  const same = figureText(figure, from, metric);
  for (let places = 0; places < figure[to].places; places += 1) {
    const short = Number((metric * figure[to].factor).toFixed(places));
    if (short && figureText(figure, from, short / figure[to].factor) === same) return short;
  }
  return Number(figureText(figure, to, metric));
};

/* The bounds in the other units. */
const inUnits = (asked, records, units) => {
  const bounds = new Map();
  for (const [name, { low, high }] of asked.bounds) {
    const figure = records.figures.get(name);
    const turned = (number) =>
      number === null || units === asked.units ? number : inOther(figure, asked.units, units, number);
    bounds.set(name, { low: turned(low), high: turned(high) });
  }
  return { ...asked, units, bounds };
};

/* What is asked, in a sentence for readers and for paper. */
const sentenceOf = (asked, records) => {
  const parts = records.facets.flatMap((facet) => {
    const chosen = [...(asked.chosen.get(facet.name) || [])].map((word) => word || facet.empty);
    return chosen.length ? [`${facet.label.toLowerCase()} ${chosen.join(" or ")}`] : [];
  });
  for (const [name, { low, high }] of asked.bounds) {
    const figure = records.figures.get(name);
    const ends = [low === null ? "" : `from ${numberText(low)}`, high === null ? "" : `to ${numberText(high)}`];
    parts.push(`${figure.label.toLowerCase()} ${ends.filter(Boolean).join(" ")} ${figure[asked.units].unit}`);
  }
  if (asked.words.trim()) parts.push(`words “${asked.words.trim()}”`);
  return parts.join("; ");
};
