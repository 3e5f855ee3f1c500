/* Cutting speed against feed per tooth: each outcome has a shape of its own, and a colour beside
   it. One path for each outcome, so that ten thousand points are five elements. */

const SVG = "http://www.w3.org/2000/svg";
const ACROSS = "cutting-speed";
const UP = "feed";
const MARGIN = { top: 12, right: 14, bottom: 46, left: 62 };
const MARK = 4.2;
const REACH = 14; // pixels from a point within which it is meant
const LEAST_WIDTH = 240;
const WIDE_RANGE = 20; // from the least to the most, above which a scale is logarithmic

const drawn = (name, settings = {}, ...children) => {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(settings)) made.setAttribute(key, value);
  made.append(...children);
  return made;
};

const fixed = (number) => Math.round(number * 10) / 10;

/* Shapes are drawn from their middle, so that a point is a place and a text that never changes.
   What is cut out of a shape runs the other way round, and cuts nothing out of another. */
const polygon = (...points) => {
  let [atX, atY] = [0, 0];
  const steps = points.map(([x, y]) => {
    const step = `${fixed(x - atX)},${fixed(y - atY)}`;
    [atX, atY] = [x, y];
    return step;
  });
  return `m${steps.join("l")}z`;
};
const disc = (r, way = 1) => `m${-r},0a${r},${r} 0 1,${way} ${2 * r},0a${r},${r} 0 1,${way} ${-2 * r},0z`;
const diamond = (r, way = 1) => polygon([0, -r], [way * r, 0], [0, r], [-way * r, 0]);
const cross = (end, arm) => {
  const quarter = [[-end, arm - end], [arm - end, -end], [0, -arm]];
  const turned = ([x, y], times) => (times ? turned([-y, x], times - 1) : [x, y]);
  return polygon(...[0, 1, 2, 3].flatMap((times) => quarter.map((point) => turned(point, times))));
};
const SHAPES = {
  good: [disc(MARK)],
  usable: [diamond(MARK + 1), diamond(MARK - 1.6, -1)],
  poor: [cross(MARK, MARK * 0.42)],
  spoiled: [polygon([0, -MARK - 0.6], [MARK + 0.6, MARK], [-MARK - 0.6, MARK])],
  "not-told": [disc(MARK), disc(MARK - 1.6, 0)],
};
const markAt = (kind, x, y) => {
  const place = `M${fixed(x)},${fixed(y)}`;
  const [first, second] = SHAPES[kind];
  return second ? place + first + place + second : place + first;
};

const stepsOf = (low, high, wanted) => {
  const rough = (high - low) / wanted;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = power * [1, 2, 5, 10].find((size) => size * power >= rough);
  const first = Math.ceil(low / step - 1e-9);
  return Array.from(
    { length: Math.floor(high / step + 1e-9) - first + 1 },
    (_, number) => (first + number) * step,
  );
};

const decadesOf = (low, high, wanted) => {
  const all = [];
  for (let power = Math.floor(Math.log10(low)); power <= Math.log10(high); power += 1) {
    for (const size of [1, 2, 5]) all.push(size * 10 ** power);
  }
  const within = all.filter((tick) => tick >= low * 0.999 && tick <= high * 1.001);
  const whole = within.filter((tick) => Math.abs(Math.log10(tick) % 1) < 1e-9);
  return within.length > wanted && whole.length > 1 ? whole : within;
};

/* From figures to places along an axis: linear, or logarithmic where the figures range widely. */
const scaleOf = (numbers, from, to, wanted) => {
  let [low, high] = [Infinity, -Infinity];
  for (const number of numbers) {
    if (number < low) low = number;
    if (number > high) high = number;
  }
  const wide = high / low > WIDE_RANGE;
  if (wide) [low, high] = [low / 1.15, high * 1.15];
  else [low, high] = [low < 0.5 * high ? 0 : low * 0.95, high * 1.05];
  const at = wide ? Math.log : (number) => number;
  const [start, size] = [at(low), at(high) - at(low)];
  return {
    wide,
    ticks: wide ? decadesOf(low, high, wanted) : stepsOf(low, high, wanted),
    place: (number) => from + ((at(number) - start) / size) * (to - from),
  };
};

const tickText = (tick) => String(Number(tick.toPrecision(3)));

const chartOf = (records) => {
  const figure = element("figure", { class: "setups-scatter" });
  const board = element("div", { class: "setups-board" });
  const legend = element("ul", { class: "setups-legend" });
  const slider = element("input", { type: "range", min: "0", value: "0", id: "shoplog-points" });
  const label = element("label", { for: "shoplog-points" }, "Go through the points");
  const told = element("p", { class: "setups-point", "aria-live": "polite" });
  const caption = element("figcaption");
  figure.append(caption, legend, board, element("div", { class: "setups-steps-through" }, label, slider), told);

  let points = [];
  let ordered = false;
  let picked = -1;
  let system = "mm";
  let rows = [];
  let width = 0;
  const ring = drawn("circle", { r: 9, class: "setups-ring", visibility: "hidden" });

  /* From the slowest to the fastest; put in order only when somebody goes through them. */
  const inOrder = () => {
    if (!ordered) points.sort((one, other) => one.x - other.x || other.y - one.y);
    ordered = true;
  };

  const pick = (number) => {
    const point = points[number];
    picked = number;
    ring.setAttribute("visibility", point ? "visible" : "hidden");
    if (!point) {
      told.replaceChildren("Point at a mark, or go through them, to see which setup it is.");
      return;
    }
    ring.setAttribute("cx", fixed(point.x));
    ring.setAttribute("cy", fixed(point.y));
    slider.value = String(number);
    const line = lineOf(records, point.row, system);
    slider.setAttribute("aria-valuetext", line);
    const same = points.filter((one) => Math.hypot(one.x - point.x, one.y - point.y) < 1).length;
    const more = same > 1 ? ` (${counted(same - 1, "more setup")} at the same place)` : "";
    told.replaceChildren(element("a", { href: records.address(point.row) }, line), more);
  };

  const nearest = (event) => {
    const box = board.getBoundingClientRect();
    const [x, y] = [event.clientX - box.left, event.clientY - box.top];
    inOrder();
    let [best, distance] = [-1, REACH];
    points.forEach((point, number) => {
      const away = Math.hypot(point.x - x, point.y - y);
      if (away < distance) [best, distance] = [number, away];
    });
    return best;
  };

  board.addEventListener("pointermove", (event) => {
    if (event.pointerType === "touch") return;
    const number = nearest(event);
    board.classList.toggle("setups-near", number >= 0);
    if (number >= 0) pick(number);
  });
  // A finger cannot hover: its first touch tells which setup it is, the next leads there.
  board.addEventListener("click", (event) => {
    const number = nearest(event);
    if (number < 0) return;
    const leads = event.pointerType !== "touch" || picked === number;
    pick(number);
    if (leads) told.querySelector("a").click();
  });
  slider.addEventListener("input", () => {
    inOrder();
    pick(Number(slider.value));
  });
  slider.addEventListener("focus", () => {
    inOrder();
    if (points.length) pick(Number(slider.value));
  });

  const axes = (across, up, height) => {
    const lines = drawn("g", { class: "setups-axes" });
    const [left, right] = [MARGIN.left, width - MARGIN.right];
    const [top, bottom] = [MARGIN.top, height - MARGIN.bottom];
    const word = (text, x, y, settings) =>
      lines.append(drawn("text", { x: fixed(x), y: fixed(y), ...settings }, text));
    for (const tick of across.ticks) {
      const x = across.place(tick);
      lines.append(drawn("path", { d: `M${fixed(x)},${top}V${bottom + 4}` }));
      word(tickText(tick), x, bottom + 18, { "text-anchor": "middle" });
    }
    for (const tick of up.ticks) {
      const y = up.place(tick);
      lines.append(drawn("path", { d: `M${left - 4},${fixed(y)}H${right}` }));
      word(tickText(tick), left - 8, y + 4, { "text-anchor": "end" });
    }
    const titles = [ACROSS, UP].map((name) => {
      const one = records.figures.get(name);
      return records.heading(name, one.label, system);
    });
    word(titles[0], (left + right) / 2, height - 8, { "text-anchor": "middle" });
    const turned = `rotate(-90 14 ${fixed((top + bottom) / 2)})`;
    word(titles[1], 14, (top + bottom) / 2, { "text-anchor": "middle", transform: turned });
    return lines;
  };

  /* The points of each outcome in words: how many, and between which figures they lie. */
  const legendItem = (kind, text, of) => {
    const range = (name, column) => {
      const unit = records.figures.get(name)[system].unit;
      const ends = [Math.min, Math.max].map((end) =>
        figureText(
          records.figures.get(name),
          system,
          of.reduce((far, row) => end(far, column[row]), column[of[0]]),
        ),
      );
      return `${[...new Set(ends)].join(" to ")} ${unit}`;
    };
    const size = String(2 * MARK + 6);
    const middle = MARK + 3;
    const mark = drawn("svg", { width: size, height: size, "aria-hidden": "true" });
    mark.append(drawn("path", { d: markAt(kind, middle, middle), class: `shoplog-went-${kind}` }));
    const where = [ACROSS, UP].map((name) => range(name, records.numbers.get(name))).join(", ");
    return element("li", {}, mark, element("strong", {}, text), ` ${GROUPED.format(of.length)}: ${where}`);
  };

  const draw = () => {
    const [speeds, feeds] = [records.numbers.get(ACROSS), records.numbers.get(UP)];
    const both = rows.filter((row) => speeds[row] > 0 && feeds[row] > 0);
    const some = both.length > 0;
    caption.textContent = some
      ? `Cutting speed against feed per tooth: ${GROUPED.format(both.length)} of ${counted(rows.length, "record")} tell${both.length === 1 ? "s" : ""} both.`
      : "Cutting speed against feed per tooth: none of these records tells both.";
    for (const part of [board, legend, slider.parentElement, told]) part.hidden = !some;
    points = [];
    if (!some) return;

    // Asked for once: a question of its size makes a browser lay the whole page out at once.
    width ||= Math.max(LEAST_WIDTH, board.clientWidth);
    const height = Math.round(Math.min(400, Math.max(240, width * 0.5)));
    const turn = (name, column) => {
      const { factor } = records.figures.get(name)[system];
      return both.map((row) => column[row] * factor);
    };
    const [x, y] = [turn(ACROSS, speeds), turn(UP, feeds)];
    const across = scaleOf(x, MARGIN.left, width - MARGIN.right, width / 70);
    const up = scaleOf(y, height - MARGIN.bottom, MARGIN.top, height / 45);

    const kinds = new Map();
    points = both.map((row, number) => {
      const point = { row, x: across.place(x[number]), y: up.place(y[number]) };
      const { kind, text } = outcomeOf(records, row);
      const name = kind === "not-told" ? "– planned, or not told" : text;
      if (!kinds.has(kind)) kinds.set(kind, { name, paths: [], rows: [] });
      kinds.get(kind).paths.push(markAt(kind, point.x, point.y));
      kinds.get(kind).rows.push(row);
      return point;
    });
    const shown = Object.keys(SHAPES).filter((kind) => kinds.has(kind));
    const svg = drawn("svg", {
      viewBox: `0 0 ${width} ${height}`,
      role: "img",
      "aria-label": `${caption.textContent} The list before it says between which figures they lie; the table has each.`,
    });
    svg.append(axes(across, up, height));
    for (const kind of shown) {
      const d = kinds.get(kind).paths.join("");
      svg.append(drawn("path", { d, class: `shoplog-went-${kind}` }));
    }
    svg.append(ring);
    board.replaceChildren(svg);
    legend.replaceChildren(
      ...shown.map((kind) => legendItem(kind, kinds.get(kind).name, kinds.get(kind).rows)),
    );
    ordered = false;
    slider.max = String(points.length - 1);
    slider.value = "0";
    pick(-1);
  };

  const watch = new ResizeObserver(([board]) => {
    const now = Math.round(Math.max(LEAST_WIDTH, board.contentRect.width));
    if (!board.contentRect.width || Math.abs(now - width) < 2) return;
    width = now;
    draw();
  });
  watch.observe(board);

  return {
    figure,
    draw: (nextRows, nextSystem) => {
      [rows, system] = [nextRows, nextSystem];
      draw();
    },
    leave: () => watch.disconnect(),
  };
};
