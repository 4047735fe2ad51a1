// Judges a table: each blank cell by the judge of its own kind, with the cells before it among the earlier answers; twin of
// generator/saltbridge/answers/judge_table.py. Pure: no page, no storage, no sentence.
// Public: saltbridgeJudgeTable = { judgeTable(key, typed, earlier, judge), tally(key, verdict) }
(() => {
  "use strict";

  const GOOD = ["right", "right-but", "follows"]; // verdicts that earn a mark, the best first
  const isEmpty = (each) => each === null || each === undefined || each === "" || (Array.isArray(each) && each.length === 0);
  const leftEmpty = ({ why }) => why.join() === "empty";

  /** `judge(cell, typed, earlier)` judges one of the cells; a whole verdict comes back, with those of the cells. */
  function judgeTable(key, typed, earlier, judge) {
    if (!Array.isArray(typed) || typed.length !== key.cells.length) return { verdict: "unread", why: ["empty"] };
    const own = { ...earlier };
    const cells = key.cells.map((cell, at) => {
      const nothing = { verdict: "unread", why: ["empty"], slips: [], readings: [], own: null, parts: [], marks: null };
      const verdict = isEmpty(typed[at]) ? nothing : judge(cell, typed[at], own);
      if (verdict.own !== null) own[cell.label] = verdict.own;
      return verdict;
    });
    return cells.every(leftEmpty) ? { verdict: "unread", why: ["empty"] } : whole(key, cells);
  }

  function whole(key, cells) {
    if (cells.every(({ verdict }) => GOOD.includes(verdict))) {
      const worst = cells.reduce((one, other) => (GOOD.indexOf(other.verdict) > GOOD.indexOf(one.verdict) ? other : one));
      return { verdict: worst.verdict, parts: worst.parts, cells };
    }
    const empty = cells.some(leftEmpty) ? ["cells-empty"] : [];
    return { verdict: "not-yet", why: [key.mark === "row" ? "rows-right" : "cells-right", ...empty], cells };
  }

  /** How many cells, or rows, of how many are right: {right, count}. */
  function tally(key, verdict) {
    const isRight = (at) => ["right", "right-but"].includes(verdict.cells[at].verdict);
    const places = key.cells.map((_, at) => at);
    if (key.mark !== "row") return { right: places.filter(isRight).length, count: places.length };
    const rows = [...new Set(key.cells.map(({ row }) => row))];
    return { right: rows.filter((row) => places.every((at) => key.cells[at].row !== row || isRight(at))).length, count: rows.length };
  }

  globalThis.saltbridgeJudgeTable = Object.freeze({ judgeTable, tally });
})();
