// The page for the metals practical: readings in whole millivolts against one metal are put in order on a line, against any other metal,
// and beside the table. It subtracts and prints whole millivolts, which is the one thing that a script here may print; it holds no sentence.
(() => {
  "use strict";

  const data = JSON.parse(document.getElementById("page-data").textContent);
  const SVG = "http://www.w3.org/2000/svg";
  const MINUS = "\u2212";
  const find = (name) => document.querySelector("[data-" + name + "]");
  const fill = (text, values) => text.replace(/\{([a-z]+)\}/g, (hole, name) => (name in values ? values[name] : hole));
  const boxes = Array.from(document.querySelectorAll("[data-metal]"));
  const [lead, against] = ["lead", "against"].map(find);
  const names = Object.fromEntries(data.metals.map((metal) => [metal.symbol, metal.name]));
  const table = Object.fromEntries(data.metals.filter((metal) => metal.table !== null).map((metal) => [metal.symbol, metal.table]));
  const MOST = 4000; /* mV: no two metals in water lie further apart */

  /** Whole millivolts as typed, null where nothing or something else is typed. */
  function read(text) {
    const plain = text.trim().replace(/[\u2212\u2013\u2010\u2011]/g, "-").replace(/\s*mV$/i, "");
    return /^[+-]?\s?\d{1,4}$/.test(plain) && Math.abs(Number(plain.replace(/\s/g, ""))) <= MOST ? Number(plain.replace(/\s/g, "")) : null;
  }

  const print = (millivolts) => (millivolts < 0 ? MINUS : millivolts > 0 ? "+" : "") + Math.abs(millivolts);

  /** The readings against the metal of the black lead, that metal at zero; boxes with something else are marked. */
  function readings() {
    const found = { [lead.value]: 0 };
    boxes.forEach((box) => {
      const own = box.dataset.metal === lead.value;
      box.closest("tr").hidden = own;
      const value = own ? null : read(box.value);
      box.setAttribute("aria-invalid", String(!own && value === null && box.value.trim() !== ""));
      if (value !== null) {
        found[box.dataset.metal] = value;
      }
    });
    return found;
  }

  /** Whoever is not read can't be the reference. */
  function offer(found) {
    const kept = against.value in found ? against.value : lead.value;
    against.replaceChildren(
      ...Object.keys(found).map((symbol) => {
        const option = document.createElement("option");
        option.value = symbol;
        option.textContent = names[symbol];
        option.selected = symbol === kept;
        return option;
      }),
    );
  }

  /* ---------------------------------------------------------------- what is shown */

  function show() {
    const found = readings();
    offer(found);
    const moved = Object.entries(found).map(([symbol, value]) => [symbol, value - found[against.value]]);
    moved.sort((one, other) => one[1] - other[1]);
    find("order").replaceChildren(...moved.map(entry));
    find("line").replaceChildren(line(moved));
    find("turned").replaceChildren(...turned(moved).map(sentence));
    find("says").textContent = moved.length > 1 ? fill(data.sentences.order, { order: moved.map(([symbol]) => names[symbol]).join(", ") }) : "";
  }

  function entry([symbol, value]) {
    const item = document.createElement("li");
    item.textContent = fill(data.sentences.entry, { metal: names[symbol], value: print(value) });
    return item;
  }

  function sentence(text) {
    const paragraph = document.createElement("p");
    paragraph.textContent = text;
    return paragraph;
  }

  /** Pairs that stand the other way round in the table of potentials. */
  function turned(moved) {
    const known = moved.map(([symbol]) => symbol).filter((symbol) => symbol in table);
    const pairs = known.flatMap((first, at) => known.slice(at + 1).filter((second) => table[first] > table[second]).map((second) => [first, second]));
    if (known.length < 2) {
      return [];
    }
    return pairs.length === 0 ? [data.sentences.same] : pairs.map(([first, second]) => fill(data.sentences.turned, { first: names[first], second: names[second] }));
  }

  /* ---------------------------------------------------------------- the line */

  function drawn(name, attributes, text) {
    const node = document.createElementNS(SVG, name);
    Object.entries(attributes).forEach(([key, value]) => node.setAttribute(key, value));
    if (text) {
      node.textContent = text;
    }
    return node;
  }

  /** A line of millivolts that grows with the readings; names take turns above it on four levels. */
  function line(moved) {
    const values = moved.map(([, value]) => value);
    const low = Math.floor((Math.min(0, ...values) - 100) / 500) * 500;
    const high = Math.ceil((Math.max(0, ...values) + 100) / 500) * 500;
    const wide = Math.max(300, Math.min(640, find("line").clientWidth)); /* as wide as its place, so that letters keep their size */
    const at = (value) => 24 + ((wide - 48) * (value - low)) / (high - low);
    const said = moved.map(([symbol, value]) => fill(data.sentences.entry, { metal: names[symbol], value: print(value) })).join("; ");
    const svg = drawn("svg", { viewBox: "0 0 " + wide + " 150", class: "figure bench-line", role: "img", "aria-label": said });
    svg.append(drawn("line", { x1: 24, x2: wide - 24, y1: 110, y2: 110, stroke: "currentColor", "stroke-width": 2 }));
    const step = (high - low) / 500 > 6 ? 1000 : 500;
    for (let tick = Math.ceil(low / step) * step; tick <= high; tick += step) {
      svg.append(drawn("line", { x1: at(tick), x2: at(tick), y1: 110, y2: 117, stroke: "currentColor" }));
      svg.append(drawn("text", { x: at(tick), y: 134, "text-anchor": "middle" }, print(tick)));
    }
    moved.forEach(([symbol, value], place) => {
      const top = 92 - 22 * (place % 4);
      svg.append(drawn("line", { x1: at(value), x2: at(value), y1: top + 4, y2: 110, stroke: "currentColor" }));
      svg.append(drawn("circle", { cx: at(value), cy: 110, r: 4, fill: "currentColor" }));
      svg.append(drawn("text", { x: at(value), y: top, "text-anchor": "middle", class: "bench-name" }, symbol));
    });
    return svg;
  }

  /* ---------------------------------------------------------------- start */

  find("bench").hidden = false;
  boxes.forEach((box) => box.addEventListener("input", show));
  addEventListener("resize", show);
  [lead, against].forEach((choice) => choice.addEventListener("change", show));
  find("big").addEventListener("click", () => {
    const big = document.body.classList.toggle("big");
    find("big").setAttribute("aria-pressed", String(big));
  });
  show();
})();
