/* The answer: TanStack's table keeps filters, facets, order and pages; MiniSearch finds words. */

const ROWS_A_PAGE = 25;
const MOST_TERMS = 12;

/* A number keeps its point (1.0401); all else is split where a letter or digit ends. */
const termsOf = (text) => text.match(/[\p{L}\p{N}]+(?:\.\p{N}+)*/gu) || [];
const plainTerm = (term) => term.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();

/* Finds records by words. What is looked through is each word list once, not every record: a
   material written a thousand times is one entry, with every name that it goes by. */
const wordFinder = (records) => {
  const index = new MiniSearch({ fields: ["text"], tokenize: termsOf, processTerm: plainTerm });
  const places = records.searched.flatMap((name) =>
    records.texts[name].words.map((word, number) => [name, number]),
  );
  let next = 0;

  /* Takes up words while there is time for it. */
  const takeUp = (hasTime) => {
    for (; next < places.length && hasTime(); next += 1) {
      const [name, number] = places[next];
      const names = name === "material" ? records.names[number] : [];
      index.add({ id: next, text: [records.texts[name].words[number], ...names].join(" ") });
    }
  };

  /* While a reader reads, so that the first word typed is found as soon as the others. */
  const whenIdle = window.requestIdleCallback || ((act) => setTimeout(act, 200));
  const prepare = () =>
    whenIdle((idle) => {
      const until = performance.now() + 10;
      takeUp(() => (idle ? idle.timeRemaining() > 1 : performance.now() < until));
      if (next < places.length) prepare();
    });
  prepare();

  const marksOf = (term) => {
    const marks = new Map();
    for (const { id } of index.search(term, { prefix: term.length > 1 })) {
      const [name, number] = places[id];
      if (!marks.has(name)) marks.set(name, new Uint8Array(records.texts[name].words.length));
      marks.get(name)[number] = 1;
    }
    return marks;
  };

  /* For each record, 1 where every term stands somewhere in it; null where nothing is asked. */
  return (text) => {
    const terms = [...new Set(termsOf(text).map(plainTerm))].slice(0, MOST_TERMS);
    if (!terms.length) return null;
    takeUp(() => true);
    const hits = new Uint8Array(records.count).fill(1);
    for (const term of terms) {
      const found = new Uint8Array(records.count);
      for (const [name, mark] of marksOf(term)) {
        const { at } = records.texts[name];
        for (let row = 0; row < found.length; row += 1) found[row] |= mark[at[row]];
      }
      for (let row = 0; row < hits.length; row += 1) hits[row] &= found[row];
    }
    return hits;
  };
};

const answerer = (records) => {
  const find = wordFinder(records);
  let system = "mm";
  let down = false;

  const oneOf = (row, name, words) => words.has(row.getValue(name));
  const within = (row, name, [low, high]) => {
    const number = records.shownNumbers(name, system)[row.index];
    return number >= low && number <= high;
  };
  const told = (row, _, hits) => hits[row.index] === 1;
  for (const rule of [oneOf, within, told]) rule.autoRemove = () => false;
  // A record that says nothing of the column stands last, whichever way the order goes.
  const byRank = (one, other, name) => {
    const [x, y] = [records.ranksOf(name)[one.index], records.ranksOf(name)[other.index]];
    const [blankX, blankY] = [Number.isNaN(x), Number.isNaN(y)];
    return blankX || blankY ? (blankX - blankY) * (down ? -1 : 1) : x - y;
  };

  const names = new Set([
    ...records.columns.map((column) => column.name),
    ...records.facets.map((facet) => facet.text),
    ...[...records.figures.values()].filter((figure) => figure.ranged).map((figure) => figure.name),
  ]);
  const columns = [...names].map((name) => {
    const text = records.texts[name];
    const values = text ? text.at : records.numbers.get(name);
    return {
      id: name,
      accessorFn: (row) => values[row],
      filterFn: text ? oneOf : within,
      sortingFn: byRank,
    };
  });
  columns.push({ id: "words", accessorFn: () => 0, filterFn: told });

  let state = {};
  const table = TableCore.createTable({
    data: Array.from({ length: records.count }, (_, row) => row),
    columns,
    state,
    onStateChange: () => {},
    renderFallbackValue: null,
    getCoreRowModel: TableCore.getCoreRowModel(),
    getFilteredRowModel: TableCore.getFilteredRowModel(),
    getSortedRowModel: TableCore.getSortedRowModel(),
    getPaginationRowModel: TableCore.getPaginationRowModel(),
    getFacetedRowModel: TableCore.getFacetedRowModel(),
    getFacetedUniqueValues: TableCore.getFacetedUniqueValues(),
  });
  state = table.initialState;

  const filtersOf = (asked) => {
    const filters = [];
    for (const facet of records.facets) {
      const chosen = asked.chosen.get(facet.name);
      const { words } = records.texts[facet.text];
      if (chosen) {
        filters.push({
          id: facet.text,
          value: new Set([...chosen].map((word) => words.indexOf(word))),
        });
      }
    }
    for (const [name, { low, high }] of asked.bounds) {
      filters.push({ id: name, value: [low ?? -Infinity, high ?? Infinity] });
    }
    const hits = find(asked.words);
    if (hits) filters.push({ id: "words", value: hits });
    return filters;
  };

  /* Filters are the same object while the same is asked, so that turning a page works nothing out. */
  let question = "";
  const filtersAsked = (asked) => {
    const next = addressOf({ ...asked, sort: null, page: 1 }, records, "");
    const filters = next === question ? state.columnFilters : filtersOf(asked);
    question = next;
    return filters;
  };
  const sortingAsked = (sort) => {
    const [now] = state.sorting;
    if (sort && now && now.id === sort.name && now.desc === sort.down) return state.sorting;
    return sort ? [{ id: sort.name, desc: sort.down }] : now ? [] : state.sorting;
  };

  return (asked) => {
    system = asked.units;
    down = Boolean(asked.sort && asked.sort.down);
    const columnFilters = filtersAsked(asked);
    const sorting = sortingAsked(asked.sort);
    const set = (pageIndex) => {
      state = {
        ...state,
        columnFilters,
        sorting,
        pagination: { pageIndex, pageSize: ROWS_A_PAGE },
      };
      table.setOptions((options) => ({ ...options, state }));
    };
    set(0);
    const rows = table.getSortedRowModel().rows.map((row) => row.index);
    const pages = Math.max(1, Math.ceil(rows.length / ROWS_A_PAGE));
    const page = Math.min(asked.page, pages);
    set(page - 1);
    return {
      rows,
      page,
      pages,
      first: (page - 1) * ROWS_A_PAGE,
      drawn: table.getRowModel().rows.map((row) => row.index),
      counts: (facet) => table.getColumn(facet.text).getFacetedUniqueValues(),
    };
  };
};
