// Reads and judges what a student typed; twin of generator/saltbridge/answers/. Pure: no page, no storage, no sentence,
// and no measured number is ever formatted here. Loaded after units.js, numbers.js, equations.js, trees.js, following.js,
// and the judges of each kind (judge_*.js). Public: saltbridgeAnswers = { readNumber, readEquation, run, merge, judge, owned }
(() => {
  "use strict";

  const { readNumber } = globalThis.saltbridgeNumbers;
  const { run } = globalThis.saltbridgeTrees;
  const { judgeChoice, judgeOrder } = globalThis.saltbridgeJudgeChoice;
  const { judgeTable } = globalThis.saltbridgeJudgeTable;
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
    word: globalThis.saltbridgeJudgeWord,
    table: (key, typed, earlier, units) => judgeTable(key, typed, earlier, (cell, each, own) => judge(cell, each, own, units)),
  };

  /** A part's key from the share of its shape and that of its variant, and the question's graph and given; see judge.py. */
  function merge(shape, variant, graph = [], given = {}) {
    if (shape.cells) {
      return { ...shape, ...variant, cells: shape.cells.map((cell, at) => merge(cell, variant.cells[at], graph, given)) };
    }
    const follows = shape.earlier && shape.earlier.length > 0;
    const key = follows ? { ...shape, ...variant, graph, given } : { ...shape, ...variant };
    return Array.isArray(shape.slips) ? { ...key, slips: shape.slips, slip_ranges: variant.slips || {} } : key;
  }

  /** The verdict {verdict, why, slips, readings, own, parts, marks} on what was typed or chosen; `earlier` holds own values by part
      label, `units` is the page's table of units. */
  function judge(key, typed, earlier, units) {
    return { why: [], slips: [], readings: [], own: null, parts: [], marks: null, ...JUDGES[key.kind](key, typed, earlier || {}, units) };
  }

  /** The own values of an answered part by label: its own, or those of the cells of its table. */
  function owned(key, label, verdict) {
    if (!key.cells) return { [label]: verdict.own };
    return Object.fromEntries((verdict.cells || []).map((each, at) => [key.cells[at].label, each.own]));
  }

  const readEquation = equations.read;
  globalThis.saltbridgeAnswers = Object.freeze({ readNumber, readEquation, run, merge, judge, owned });
})();
