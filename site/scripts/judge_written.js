// Adds up what a student has ticked of the points of a written answer; twin of generator/saltbridge/answers/judge_written.py.
// Pure: no page, no storage, no sentence. Public: saltbridgeJudgeWritten
(() => {
  "use strict";

  /** @param typed {text, ticked: numbers of points} @returns the marks of the ticked points; without a tick nothing to tell */
  const judgeWritten = (key, typed) => {
    const unread = { verdict: "unread", why: ["no-tick"] };
    const ticked = typed !== null && typeof typed === "object" ? typed.ticked : null;
    if (!Array.isArray(ticked) || ticked.length === 0 || ticked.length > key.points.length) return unread;
    const good = ticked.every((place) => Number.isInteger(place) && place >= 0 && place < key.points.length);
    if (!good || new Set(ticked).size !== ticked.length) return unread;
    const earned = ticked.map((place) => key.points[place]).sort((one, other) => other - one);
    return { verdict: "self-marked", marks: earned.slice(0, key.any || earned.length).reduce((sum, each) => sum + each, 0) };
  };

  globalThis.saltbridgeJudgeWritten = Object.freeze(judgeWritten);
})();
