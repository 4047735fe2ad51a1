// Judges a typed equation; twin of generator/saltbridge/answers/judge_equation.py. Pure: no page, no storage, no sentence. Loaded after
// equations.js, trees.js and following.js. Public: saltbridgeJudgeEquation(key, typed, earlier)
(() => {
  "use strict";

  const { run } = globalThis.saltbridgeTrees;
  const { ownAnswers, ways } = globalThis.saltbridgeFollowing;
  const equations = globalThis.saltbridgeEquations;

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

  /** What later parts follow from: the factor, or the form of the key that the equation is written in; of no multiple its wrong form. */
  function ownOf(key, sides, mine) {
    if (key.own === "text") {
      const forms = [key.right, ...Object.keys(key.slips || {}), ...(key.led || []).map((led) => led[1])];
      return forms.find((text) => equations.same(sides, equations.strict(text))) ?? null;
    }
    const all = mine.filter(({ forms }) => forms.length > 0).map(({ node, forms }) => [node, forms[0]]);
    const led = ledTo(key, Object.fromEntries(all));
    const factor = equations.multipleOf(sides, equations.strict(led ? led[1] : key.right));
    return factor ?? Object.keys(key.slips || {}).find((text) => equations.same(sides, equations.strict(text))) ?? null;
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

  globalThis.saltbridgeJudgeEquation = Object.freeze(judgeEquation);
})();
