// Reads and judges what a student typed; twin of generator/saltbridge/answers/. Pure: no page, no storage, no sentence,
// and no measured number is ever formatted here. Loaded after units.js, numbers.js, equations.js, trees.js, following.js,
// judge_number.js and judge_choice.js. Public: saltbridgeAnswers = { readNumber, readEquation, run, merge, judge }
(() => {
  "use strict";

  const { readNumber } = globalThis.saltbridgeNumbers;
  const { run } = globalThis.saltbridgeTrees;
  const { judgeChoice, judgeOrder } = globalThis.saltbridgeJudgeChoice;
  const { ownAnswers, ways } = globalThis.saltbridgeFollowing;
  const equations = globalThis.saltbridgeEquations;

  // ------------------------------------------------------------ equations

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
