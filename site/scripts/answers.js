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

  /** What these answers lead to, where it is another equation than the right one: [{node: outcome}, equation, {wrong: ids}]; else null. */
  function ledTo(key, put) {
    if (Object.keys(put).length === 0 || !key.led || key.led.length === 0) return null;
    const values = run(key.graph || [], key.given || {}, put);
    const holds = ([outcomes]) => Object.entries(outcomes).every(([node, outcome]) => values.get(node) === outcome);
    return key.led.find(holds) || null;
  }

  /** What a typed equation follows from: {verdict, own, parts}, or null. */
  function followed(key, sides, mine) {
    for (const way of ways(mine)) {
      const led = way.wrong.length > 0 ? ledTo(key, way.put) : null;
      const other = led && equations.strict(led[1]);
      if (other && equations.compare(sides, other, false).verdict !== "not-yet") {
        const own = key.own === "text" ? led[1] : equations.multipleOf(sides, other);
        return { verdict: "follows", own, parts: way.wrong.slice(0, 1) };
      }
    }
    return null;
  }

  function errorsOf(sides, wrong) {
    const found = Object.keys(wrong).filter((text) => equations.same(sides, equations.strict(text)));
    return [...new Set(found.flatMap((text) => wrong[text]))];
  }

  /** A known error, or one on top of what the student's own answers lead to: {verdict, slips, parts}, or null. */
  function slipped(key, sides, mine) {
    const known = errorsOf(sides, key.slips || {});
    if (known.length) return { verdict: "slip", slips: known };
    for (const way of ways(mine)) {
      const led = way.wrong.length > 0 ? ledTo(key, way.put) : null;
      const found = led ? errorsOf(sides, led[2] || {}) : [];
      if (found.length) return { verdict: "slip-on-own", slips: found, parts: way.wrong.slice(0, 1) };
    }
    return null;
  }

  /** What later parts follow from: the factor, or the form of the key that the equation is written in. */
  function ownOf(key, sides, mine) {
    if (key.own === "text") {
      const forms = [key.right, ...Object.keys(key.slips || {}), ...(key.led || []).map((led) => led[1])];
      return forms.find((text) => equations.same(sides, equations.strict(text))) ?? null;
    }
    const all = mine.filter(({ forms }) => forms.length > 0).map(({ node, forms }) => [node, forms[0]]);
    const led = ledTo(key, Object.fromEntries(all));
    return equations.multipleOf(sides, equations.strict(led ? led[1] : key.right));
  }

  function judgeEquation(key, typed, earlier) {
    const read = equations.read(typed);
    if (read.why) return { verdict: "unread", why: [read.why], readings: read.readings };
    const mine = ownAnswers(key, earlier);
    const finding = equations.compare(read.sides, equations.strict(key.right), Boolean(key.states));
    const own = ownOf(key, read.sides, mine);
    if (finding.verdict !== "not-yet") return { ...finding, own };
    return followed(key, read.sides, mine) || { ...(slipped(key, read.sides, mine) || finding), own };
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
