// Reads and judges what a student typed; twin of generator/saltbridge/answers/. Pure: no page, no storage, no sentence,
// and no measured number is ever formatted here. Loaded after units.js, numbers.js, equations.js, trees.js, following.js,
// and the judges of each kind (judge_*.js). Public: saltbridgeAnswers = { readNumber, readEquation, run, merge, judge }
(() => {
  "use strict";

  const { readNumber } = globalThis.saltbridgeNumbers;
  const { run } = globalThis.saltbridgeTrees;
  const { judgeChoice, judgeOrder } = globalThis.saltbridgeJudgeChoice;
  const equations = globalThis.saltbridgeEquations;

  const JUDGES = {
    number: globalThis.saltbridgeJudgeNumber,
    choice: judgeChoice,
    order: judgeOrder,
    equation: globalThis.saltbridgeJudgeEquation,
    written: globalThis.saltbridgeJudgeWritten,
    cases: globalThis.saltbridgeJudgeCases.judgeCases,
    reasoned: globalThis.saltbridgeJudgeReasoned,
    several: globalThis.saltbridgeJudgeSeveral,
    sequence: globalThis.saltbridgeJudgeSequence,
    species: globalThis.saltbridgeJudgeNotation,
    diagram: globalThis.saltbridgeJudgeNotation,
    expression: globalThis.saltbridgeJudgeNotation,
  };

  /** A part's key from the share of its shape and that of its variant, and the question's graph and given; see judge.py. */
  function merge(shape, variant, graph = [], given = {}) {
    const follows = shape.earlier && shape.earlier.length > 0;
    const key = follows ? { ...shape, ...variant, graph, given } : { ...shape, ...variant };
    return Array.isArray(shape.slips) ? { ...key, slips: shape.slips, slip_ranges: variant.slips || {} } : key;
  }

  /** The verdict {verdict, why, slips, readings, own, parts, marks} on what was typed or chosen; `earlier` holds own values by part
      label, `units` is the page's table of units. */
  function judge(key, typed, earlier, units) {
    return { why: [], slips: [], readings: [], own: null, parts: [], marks: null, ...JUDGES[key.kind](key, typed, earlier || {}, units) };
  }

  const readEquation = equations.read;
  globalThis.saltbridgeAnswers = Object.freeze({ readNumber, readEquation, run, merge, judge });
})();
