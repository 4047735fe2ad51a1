// Reads and judges what a student typed; twin of generator/saltbridge/answers/. Pure: no page, no storage, no sentence,
// and no measured number is ever formatted here. Loaded after numbers.js and equations.js.
// Public: saltbridgeAnswers = { readNumber, readEquation, run, merge, judge }
(() => {
  "use strict";

  const { readNumber, twelve, rounded, sizeOf, findFactor } = globalThis.saltbridgeNumbers;
  const equations = globalThis.saltbridgeEquations;
  const NUMERAL = /^[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?$/;
  const isNumber = (value) => typeof value === "number";
  const has = (object, name) => Object.prototype.hasOwnProperty.call(object, name);

  // ------------------------------------------------------------ the interpreter

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

  // ------------------------------------------------------------ numbers

  const inside = (value, [low, high]) => value !== null && low <= value && value <= high;
  const numbers = ([low, high]) => [Number(low), Number(high)];
  const isLog = (key) => key.scale === "log";
  const asksFigures = (key) => key.figures !== null && key.figures !== undefined;
  const asksDecimals = (key) => key.decimals !== null && key.decimals !== undefined;
  const unique = (list) => [...new Set(list)];

  /** The value on the scale of its tolerance: itself or its common logarithm. */
  function onScale(key, value) {
    if (!isLog(key)) return value;
    return value > 0 ? twelve(Math.log10(value)) : null;
  }

  function inAskedUnit(number, key) {
    if (number.unit === "") return { number, value: twelve(number.value), factor: 1, unit: "none" };
    const found = findFactor(number.unit, key.units || {});
    if (!found) return { number, value: twelve(number.value), factor: 1, unit: "unknown" };
    return { number, value: twelve(number.value * found.factor), factor: found.factor, unit: found.exactCase ? "known" : "case" };
  }

  const against = (wanted, [least, most]) => (most < wanted ? "fewer" : least > wanted ? "more" : "asked");

  /** Whether a number was given to "fewer", "more" or the figures (or decimals) asked for: "asked". */
  function figuresGiven(key, typed) {
    const { figures, places } = typed.number;
    if (!asksFigures(key) && !asksDecimals(key)) return "asked";
    if (figures === null) return "fewer";
    if (asksFigures(key)) return typed.value === 0 ? "asked" : against(key.figures, figures);
    const shift = Math.round(Math.log10(typed.factor));
    if (Number("1e" + shift) !== typed.factor) return "asked";
    return against(key.decimals, [-places[1] - shift, -places[0] - shift]);
  }

  const figuresCode = (key) => (!asksFigures(key) && asksDecimals(key) ? "decimals" : "figures");

  /** Within half a place of the unrounded value. */
  function close(key, value) {
    const mine = onScale(key, value);
    const exact = onScale(key, Number(key.exact));
    return mine !== null && exact !== null && twelve(Math.abs(mine - exact)) <= twelve(Number(key.place) / 2);
  }

  /** What an accepted value still lacks. */
  function remarks(key, typed) {
    const why = [];
    if (typed.unit === "unknown" || (typed.unit === "none" && key.unit && key.unit_beside === false)) why.push("unit");
    if (typed.unit === "case") why.push("unit-case");
    const given = figuresGiven(key, typed);
    if (given === "fewer") why.push(figuresCode(key));
    if (given === "more" && !close(key, typed.value)) why.push("rounding");
    return why;
  }

  /** Half of the last place: the key's own, or that of this value where figures are asked for. */
  function half(key, value) {
    if (!asksFigures(key) || isLog(key) || value === 0) return Number(key.place) / 2;
    return Number("1e" + (sizeOf(value) - key.figures + 1)) / 2;
  }

  /** The hull over all routes of what follows with these values put in, half a place wider; null where nothing follows. */
  function rangeOf(key, put) {
    const bounds = [];
    for (const route of [{}, ...(key.routes || [])]) {
      const value = run(key.graph || [], key.given || {}, { ...route.put, ...put }, route.round || null, key.node).get(key.node);
      const scaled = isNumber(value) ? onScale(key, value) : null;
      if (scaled !== null) bounds.push(scaled - half(key, scaled), scaled + half(key, scaled));
    }
    return bounds.length ? [twelve(Math.min(...bounds)), twelve(Math.max(...bounds))] : null;
  }

  /** The slips whose range holds the value, each followed by its twins. */
  function knownSlips(key, value) {
    const twins = new Map((key.slips || []).map((slip) => [slip.id, slip.twins || []]));
    const ranges = Object.entries(key.slip_ranges || {});
    const found = ranges.filter(([, bounds]) => inside(value, numbers(bounds))).map(([id]) => id);
    return unique(found.flatMap((id) => [id, ...(twins.get(id) || [])]));
  }

  /** The slips that lead to the value from the student's own earlier values. */
  function slipsOnOwn(key, value, own) {
    if (!own) return [];
    const leads = (slip) => {
      const nodes = Object.keys(slip.put || {});
      if (nodes.length === 0 || nodes.some((node) => has(own, node))) return false;
      const bounds = rangeOf(key, { ...own, ...slip.put });
      return bounds !== null && inside(onScale(key, value), bounds);
    };
    return (key.slips || []).filter(leads).map((slip) => slip.id);
  }

  /** What to look at: the sign, the prefix, figures cut too soon. */
  function reasons(key, typed, accepted, carried) {
    if (inside(-typed.value, accepted) || (carried && inside(onScale(key, -typed.value), carried))) return ["sign"];
    const factors = Object.values(key.units || {}).map(Number);
    const fits = (factor) => factor !== typed.factor && inside(twelve(typed.number.value * factor), accepted);
    if (factors.some(fits)) return ["prefix"];
    return cutTooSoon(key, typed) ? [figuresCode(key)] : [];
  }

  function cutTooSoon(key, typed) {
    const { figures } = typed.number;
    const exact = Number(key.exact);
    if (figures === null || typed.value === 0 || exact === 0 || figuresGiven(key, typed) !== "fewer") return false;
    for (let count = figures[0]; count <= figures[1]; count += 1) {
      if (rounded(exact, { figures: count }) === typed.value) return true;
    }
    return false;
  }

  function judgeTyped(key, typed, own) {
    const accepted = [Number(key.lo), Number(key.hi)];
    if (inside(typed.value, accepted)) {
      const why = remarks(key, typed);
      return { verdict: why.length ? "right-but" : "right", why };
    }
    if (typed.factor !== 1 && inside(twelve(typed.number.value), accepted)) return { verdict: "right-but", why: ["unit"] };
    const carried = own ? rangeOf(key, own) : null;
    if (carried && inside(onScale(key, typed.value), carried)) return { verdict: "follows" };
    const found = knownSlips(key, typed.value);
    if (found.length) return { verdict: "slip", slips: found };
    const onOwn = slipsOnOwn(key, typed.value, own);
    if (onOwn.length) return { verdict: "slip-on-own", slips: onOwn };
    return { verdict: "not-yet", why: reasons(key, typed, accepted, carried) };
  }

  function judgeNumber(key, text, earlier) {
    const number = readNumber(text, key.mark || ".");
    if (number.why) return { verdict: "unread", why: [number.why], readings: number.readings };
    const typed = inAskedUnit(number, key);
    return { ...judgeTyped(key, typed, ownValues(key, earlier)), own: typed.value };
  }

  // ------------------------------------------------------------ choices, orders, equations

  /** The student's own values by node, for the parts that this key names; null where there are none. */
  function ownValues(key, earlier) {
    const known = (key.earlier || []).filter(([label]) => earlier[label] !== null && earlier[label] !== undefined);
    return known.length ? Object.fromEntries(known.map(([label, node]) => [node, earlier[label]])) : null;
  }

  /** Option numbers as given, null where something else came. */
  function picked(typed, most) {
    if (!Array.isArray(typed) || typed.length === 0 || typed.length > most) return null;
    const good = typed.every((number) => Number.isInteger(number) && number >= 0);
    return good && new Set(typed).size === typed.length ? typed : null;
  }

  const slipsOf = (key, name) => (has(key.slips || {}, name) ? key.slips[name] : []);
  const sorted = (list) => [...list].sort((a, b) => a - b).join();

  function judgeChoice(key, typed, earlier) {
    const chosen = picked(typed, 100);
    if (!chosen) return { verdict: "unread", why: ["empty"] };
    const single = chosen.length === 1 && key.right.length === 1 ? (key.values || [])[chosen[0]] : undefined;
    const value = single === undefined ? null : plain(single);
    if (sorted(chosen) === sorted(key.right)) return { verdict: "right", own: value };
    const own = ownValues(key, earlier);
    const follows = own && value !== null && run(key.graph || [], key.given || {}, own, null, key.node).get(key.node) === value;
    if (follows) return { verdict: "follows", own: value };
    const found = slipsOf(key, sorted(chosen));
    if (found.length) return { verdict: "slip", slips: found, own: value };
    const some = key.right.length > 1 && chosen.some((number) => key.right.includes(number));
    return { verdict: "not-yet", why: some ? ["some-right"] : [], own: value };
  }

  function judgeOrder(key, typed) {
    const order = picked(typed, key.right.length);
    if (!order || sorted(order) !== sorted(key.right)) return { verdict: "unread", why: ["empty"] };
    if (order.join() === key.right.join()) return { verdict: "right" };
    const found = slipsOf(key, order.join());
    if (found.length) return { verdict: "slip", slips: found };
    if (order.join() === [...key.right].reverse().join()) return { verdict: "not-yet", why: ["other-way-round"] };
    const differing = order.map((_, place) => place).filter((place) => order[place] !== key.right[place]);
    const neighbours = differing.length === 2 && differing[1] - differing[0] === 1;
    return { verdict: "not-yet", why: neighbours ? ["two-neighbours"] : [] };
  }

  function judgeEquation(key, typed) {
    const slips = key.slips || {};
    const read = equations.read(typed, [key.right, ...Object.keys(slips)]);
    if (read.why) return { verdict: "unread", why: [read.why], readings: read.readings };
    const finding = equations.compare(read.sides, equations.strict(key.right), Boolean(key.states));
    if (finding.verdict !== "not-yet") return finding;
    const found = Object.keys(slips).filter((text) => equations.same(read.sides, equations.strict(text)));
    return found.length ? { verdict: "slip", slips: found.flatMap((text) => slips[text]) } : finding;
  }

  const JUDGES = { number: judgeNumber, choice: judgeChoice, order: judgeOrder, equation: judgeEquation };

  /** A part's key from the share of its shape and that of its variant, and the question's graph and given; see judge.py. */
  function merge(shape, variant, graph = [], given = {}) {
    const follows = shape.earlier && shape.earlier.length > 0;
    const key = follows ? { ...shape, ...variant, graph, given } : { ...shape, ...variant };
    return Array.isArray(shape.slips) ? { ...key, slips: shape.slips, slip_ranges: variant.slips || {} } : key;
  }

  /** The verdict {verdict, why, slips, readings, own} on what was typed or chosen; `earlier` holds own values by part label. */
  function judge(key, typed, earlier = {}) {
    return { why: [], slips: [], readings: [], own: null, ...JUDGES[key.kind](key, typed, earlier || {}) };
  }

  const readEquation = equations.read;
  globalThis.saltbridgeAnswers = Object.freeze({ readNumber, readEquation, run, merge, judge });
})();
