// Runs trees of operations; twin of generator/saltbridge/algebra/programs.py and answers/run.py, which say what each means.
// A tree is a number, a name, or a list whose head is an operation. No eval: a table of operations and a walk down the tree.
// Pure: no page, no storage, no sentence. Loaded after numbers.js.
// Public: saltbridgeTrees = { plain, evaluate, run }
(() => {
  "use strict";

  const { rounded } = globalThis.saltbridgeNumbers;
  const HAIR = 1e-9;
  const MAX_EXPONENT = 120;
  const NUMERAL = /^[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?$/;
  const isNumber = (value) => typeof value === "number";
  const isText = (value) => typeof value === "string";
  const has = (object, name) => Object.prototype.hasOwnProperty.call(object, name);
  const isWhole = (value) => Number.isInteger(value) && value >= 1;

  // ------------------------------------------------------------ arithmetic: numbers to a number, or to null

  const common = (a, b) => (b ? common(b, a % b) : a);

  function median(...terms) {
    const sorted = [...terms].sort((a, b) => a - b);
    const half = sorted.length >> 1;
    return sorted.length % 2 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
  }

  const ARITHMETIC = {
    "+": (a, b) => a + b,
    "-": (a, b) => a - b,
    "*": (a, b) => a * b,
    "/": (a, b) => a / b,
    "^": (a, b) => (Math.abs(b) > MAX_EXPONENT ? null : Math.pow(a, b)),
    neg: (a) => -a,
    ln: Math.log,
    lg: Math.log10,
    exp: Math.exp,
    exp10: (a) => Math.pow(10, a),
    sqrt: Math.sqrt,
    abs: Math.abs,
    min: Math.min,
    max: Math.max,
    floor: Math.floor,
    ceil: Math.ceil,
    lcm: (...terms) => (terms.every(isWhole) ? terms.reduce((a, b) => (a / common(a, b)) * b) : null),
    median,
  };

  function arithmetic(head, terms) {
    if (!terms.every(isNumber)) return null;
    const result = ARITHMETIC[head](...terms);
    return Number.isFinite(result) ? result : null;
  }

  // ------------------------------------------------------------ comparing: to true, false, or null

  function same(a, b) {
    if (isText(a) && isText(b)) return a === b;
    return isNumber(a) && isNumber(b) ? Math.abs(a - b) < HAIR : null;
  }

  const COMPARING = {
    "<": ([a, b]) => (isNumber(a) && isNumber(b) ? a < b : null),
    ">": ([a, b]) => (isNumber(a) && isNumber(b) ? a > b : null),
    "==": ([a, b]) => same(a, b),
    and: (terms) => (terms.includes(null) ? null : terms.every(Boolean)),
    or: (terms) => (terms.includes(null) ? null : terms.some(Boolean)),
  };

  // ------------------------------------------------------------ choosing

  const CHOOSING = {
    text: ([said]) => said,
    none: () => null,
    if: ([condition, yes, no], values) => {
      const holds = evaluate(condition, values);
      return holds === null ? null : evaluate(holds ? yes : no, values);
    },
    pick: ([role, among], values) => {
      const chosen = evaluate(role, values);
      return isText(chosen) && has(among, chosen) ? evaluate(among[chosen], values) : null;
    },
    at: ([place, among], values) => {
      const found = evaluate(place, values);
      return isNumber(found) ? evaluate(among[Math.trunc(Math.max(0, Math.min(among.length - 1, found)))], values) : null;
    },
    highest: ([among], values) => extreme(among, values, 1),
    lowest: ([among], values) => extreme(among, values, -1),
    only: ([among], values) => {
      const found = Object.keys(among).map((key) => [key, evaluate(among[key], values)]);
      if (found.some(([, holds]) => holds === null)) return null;
      const fitting = found.filter(([, holds]) => holds);
      return fitting.length === 1 ? fitting[0][0] : null;
    },
    those: ([among], values) => {
      const found = Object.keys(among).map((key) => [key, evaluate(among[key], values)]);
      if (found.some(([, holds]) => holds === null)) return null;
      return found.filter(([, holds]) => holds).map(([key]) => key).join("+") || "none";
    },
    nth: ([place, among], values) => {
      const found = rising(among, values);
      if (!found || place >= found.length) return null;
      const [value, key] = found[place];
      return found.filter(([other]) => same(value, other)).length === 1 ? key : null;
    },
    order: ([way, among], values) => {
      const found = rising(among, values);
      if (!found || found.some(([value], place) => place > 0 && same(value, found[place - 1][0]))) return null;
      const keys = found.map(([, key]) => key);
      return (way === "falling" ? keys.reverse() : keys).join("<");
    },
  };

  /** The numbers of all keys as [value, key]; null where one is none. */
  function sizes(among, values) {
    const found = Object.keys(among).map((key) => [evaluate(among[key], values), key]);
    return found.length > 0 && found.every(([value]) => isNumber(value)) ? found : null;
  }

  function rising(among, values) {
    const found = sizes(among, values);
    return found && found.sort(([a, key], [b, other]) => a - b || (key < other ? -1 : 1));
  }

  /** The key of the greatest value times sign; null where another lies within a hair of it. */
  function extreme(among, values, sign) {
    const found = sizes(among, values);
    if (!found) return null;
    const top = Math.max(...found.map(([size]) => sign * size));
    const fitting = found.filter(([size]) => same(sign * size, top));
    return fitting.length === 1 ? fitting[0][1] : null;
  }

  // ------------------------------------------------------------ running

  /** A JSON value as number, side or undefined (null). */
  function plain(value) {
    if (isText(value)) return NUMERAL.test(value) ? Number(value) : value;
    return isNumber(value) ? value : null;
  }

  /** The value of a tree: a number, a text, or null where it is undefined. */
  function evaluate(tree, values) {
    if (isText(tree)) return NUMERAL.test(tree) ? Number(tree) : values.get(tree) ?? null;
    if (!Array.isArray(tree)) return plain(tree);
    const [head, ...rest] = tree;
    if (has(CHOOSING, head)) return CHOOSING[head](rest, values);
    const terms = rest.map((part) => evaluate(part, values));
    return has(COMPARING, head) ? COMPARING[head](terms) : arithmetic(head, terms);
  }

  /** What is put at a node: a text that names nothing is a side. */
  function putAt(tree, values) {
    if (Array.isArray(tree)) return evaluate(tree, values);
    const value = plain(tree);
    return isText(value) && values.has(value) ? values.get(value) : value;
  }

  /** Walk the steps in order, up to the target where there is one: a Map from node to value. See run.py for `put` and `rounding`. */
  function run(graph, given, put = {}, rounding = null, target = "") {
    const values = new Map(Object.entries(given).map(([name, value]) => [name, plain(value)]));
    const steps = new Set(graph.map((step) => step.node));
    const before = Object.keys(put).filter((node) => !steps.has(node)).map((node) => [node, putAt(put[node], values)]);
    before.forEach(([node, value]) => values.set(node, value));
    const last = target || (graph.length ? graph.at(-1).node : "");
    for (const { node, tree } of graph) {
      values.set(node, evaluate(tree, values));
      if (has(put, node)) values.set(node, putAt(put[node], values));
      else if (rounding && node !== last && isNumber(values.get(node))) values.set(node, rounded(values.get(node), rounding));
      if (node === last) break;
    }
    return values;
  }

  globalThis.saltbridgeTrees = Object.freeze({ plain, evaluate, run });
})();
