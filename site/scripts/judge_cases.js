// Judges several cases asked at once; twin of generator/saltbridge/answers/judge_cases.py. Pure: no page, no storage, no sentence.
// Public: saltbridgeJudgeCases = { judgeCases, oneEach }
(() => {
  "use strict";

  const MOST_OPTIONS = 100;
  const isOption = (value) => Number.isInteger(value) && value >= 0 && value < MOST_OPTIONS;

  /** An option number or null for each of `count` groups; null for anything else, or where nothing is chosen at all. */
  function oneEach(typed, count) {
    if (!Array.isArray(typed) || typed.length !== count) return null;
    return typed.every((each) => each === null || isOption(each)) && typed.some((each) => each !== null) ? typed : null;
  }

  function judgeCases(key, typed) {
    const chosen = oneEach(typed, key.rows.length);
    if (!chosen) return { verdict: "unread", why: ["empty"] };
    if (chosen.includes(null)) return { verdict: "unread", why: ["every-case"] };
    const wrong = chosen.map((_, at) => at).filter((at) => chosen[at] !== key.rows[at].right);
    if (wrong.length === 0) return { verdict: "right" };
    const slips = (key.rows[wrong[0]].slips || {})[String(chosen[wrong[0]])] || [];
    const readings = [String(wrong[0] + 1), String(chosen.length - wrong.length)];
    return { verdict: slips.length ? "slip" : "not-yet", why: ["case-again"], slips, readings };
  }

  globalThis.saltbridgeJudgeCases = Object.freeze({ judgeCases, oneEach });
})();
