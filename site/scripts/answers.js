// Reads and judges what a student typed; twin of generator/saltbridge/answers/. Pure: no page, no storage, no sentence,
// and no measured number is ever formatted here. Loaded after units.js, numbers.js, equations.js, trees.js, following.js and
// judge_number.js. Public: saltbridgeAnswers = { readNumber, readEquation, run, merge, judge }
(() => {
  "use strict";

  const { readNumber } = globalThis.saltbridgeNumbers;
  const { plain, run } = globalThis.saltbridgeTrees;
  const { ownAnswers, ways } = globalThis.saltbridgeFollowing;
  const equations = globalThis.saltbridgeEquations;
  const has = (object, name) => Object.prototype.hasOwnProperty.call(object, name);

  // ------------------------------------------------------------ choices, orders, equations

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
    const leads = (way) => way.wrong.length > 0 && run(key.graph || [], key.given || {}, way.put, null, key.node).get(key.node) === value;
    const way = value === null ? undefined : ways(ownAnswers(key, earlier)).find(leads);
    if (way) return { verdict: "follows", own: value, parts: way.wrong.slice(0, 1) };
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

  /** The equation that these answers lead to, where it is another than the right one; else null. */
  function ledTo(key, put) {
    if (Object.keys(put).length === 0 || !key.led || key.led.length === 0) return null;
    const values = run(key.graph || [], key.given || {}, put);
    const found = key.led.find(([choices]) => Object.entries(choices).every(([node, outcome]) => values.get(node) === outcome));
    return found ? found[1] : null;
  }

  /** What a typed equation follows from: {verdict, own, parts}, or null. */
  function followed(key, sides, mine) {
    for (const way of ways(mine)) {
      const led = way.wrong.length > 0 ? ledTo(key, way.put) : null;
      const other = led && equations.strict(led);
      if (other && equations.compare(sides, other, false).verdict !== "not-yet") {
        return { verdict: "follows", own: equations.multipleOf(sides, other), parts: way.wrong.slice(0, 1) };
      }
    }
    return null;
  }

  function judgeEquation(key, typed, earlier) {
    const slips = key.slips || {};
    const read = equations.read(typed);
    if (read.why) return { verdict: "unread", why: [read.why], readings: read.readings };
    const mine = ownAnswers(key, earlier);
    const all = mine.filter(({ forms }) => forms.length > 0).map(({ node, forms }) => [node, forms[0]]);
    const own = equations.multipleOf(read.sides, equations.strict(ledTo(key, Object.fromEntries(all)) || key.right));
    const finding = equations.compare(read.sides, equations.strict(key.right), Boolean(key.states));
    if (finding.verdict !== "not-yet") return { ...finding, own };
    const follows = followed(key, read.sides, mine);
    if (follows) return follows;
    const found = Object.keys(slips).filter((text) => equations.same(read.sides, equations.strict(text)));
    return found.length ? { verdict: "slip", slips: [...new Set(found.flatMap((text) => slips[text]))], own } : { ...finding, own };
  }

  const JUDGES = { number: globalThis.saltbridgeJudgeNumber, choice: judgeChoice, order: judgeOrder, equation: judgeEquation };

  /** A part's key from the share of its shape and that of its variant, and the question's graph and given; see judge.py. */
  function merge(shape, variant, graph = [], given = {}) {
    const follows = shape.earlier && shape.earlier.length > 0;
    const key = follows ? { ...shape, ...variant, graph, given } : { ...shape, ...variant };
    return Array.isArray(shape.slips) ? { ...key, slips: shape.slips, slip_ranges: variant.slips || {} } : key;
  }

  /** The verdict {verdict, why, slips, readings, own, parts} on what was typed or chosen; `earlier` holds own values by part
      label, `units` is the page's table of units. */
  function judge(key, typed, earlier, units) {
    return { why: [], slips: [], readings: [], own: null, parts: [], ...JUDGES[key.kind](key, typed, earlier || {}, units) };
  }

  const readEquation = equations.read;
  globalThis.saltbridgeAnswers = Object.freeze({ readNumber, readEquation, run, merge, judge });
})();
