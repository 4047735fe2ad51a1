// Runs trees of operations; twin of generator/saltbridge/answers/run.py.
// Pure: no page, no storage, no sentence. Loaded after numbers.js.
// Public: saltbridgeTrees = { plain, evaluate, run }
(() => {
  "use strict";

  const { rounded } = globalThis.saltbridgeNumbers;
  const NUMERAL = /^[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?$/;
  const isNumber = (value) => typeof value === "number";
  const has = (object, name) => Object.prototype.hasOwnProperty.call(object, name);

  const ARITHMETIC = {
    "+": (a, b) => a + b,
    "-": (a, b) => a - b,
    "*": (a, b) => a * b,
    "/": (a, b) => a / b,
    "^": Math.pow,
    neg: (a) => -a,
    ln: Math.log,
    lg: Math.log10,
    exp: Math.exp,
    exp10: (a) => Math.pow(10, a),
    sqrt: Math.sqrt,
    abs: Math.abs,
    min: Math.min,
    max: Math.max,
  };
  const CHOOSING = {
    pick: ([side, options], values) => {
      const chosen = evaluate(side, values);
      return typeof chosen === "string" && has(options, chosen) ? evaluate(options[chosen], values) : null;
    },
    highest: ([options], values) => extreme(options, values, 1),
    lowest: ([options], values) => extreme(options, values, -1),
    other: ([side, sides], values) => {
      const chosen = evaluate(side, values);
      const left = sides.filter((each) => each !== chosen);
      return sides.includes(chosen) && left.length === 1 ? left[0] : null;
    },
  };

  /** The key of the greatest value (times sign); undefined (null) on a tie. */
  function extreme(options, values, sign) {
    const sizes = Object.keys(options).map((key) => [key, evaluate(options[key], values)]);
    if (sizes.length === 0 || !sizes.every(([, size]) => isNumber(size))) return null;
    const top = Math.max(...sizes.map(([, size]) => sign * size));
    const found = sizes.filter(([, size]) => sign * size === top);
    return found.length === 1 ? found[0][0] : null;
  }

  /** A JSON value as number, side or undefined (null). */
  function plain(value) {
    if (typeof value === "string") return NUMERAL.test(value) ? Number(value) : value;
    return isNumber(value) ? value : null;
  }

  /** The value of a tree: a number, a side, or null where it is undefined. */
  function evaluate(tree, values) {
    if (typeof tree === "string") return NUMERAL.test(tree) ? Number(tree) : values.get(tree) ?? null;
    if (!Array.isArray(tree)) return plain(tree);
    const [head, ...rest] = tree;
    if (has(CHOOSING, head)) return CHOOSING[head](rest, values);
    const terms = rest.map((part) => evaluate(part, values));
    if (!terms.every(isNumber)) return null;
    const result = ARITHMETIC[head](...terms);
    return Number.isFinite(result) ? result : null;
  }

  /** What is put at a node: a text that names nothing is a side. */
  function putAt(tree, values) {
    if (Array.isArray(tree)) return evaluate(tree, values);
    const value = plain(tree);
    return typeof value === "string" && values.has(value) ? values.get(value) : value;
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
