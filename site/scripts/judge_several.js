// Judges which of several things were ticked; twin of generator/saltbridge/answers/judge_several.py. Pure: no page, no storage, no
// sentence. Loaded after judge_choice.js. Public: saltbridgeJudgeSeveral
(() => {
  "use strict";

  const { explained, picked, sorted } = globalThis.saltbridgeJudgeChoice;

  function judgeSeveral(key, typed, earlier) {
    const ticked = picked(typed, 100);
    if (!ticked) return { verdict: "unread", why: ["empty"] };
    const own = ownOf(key, ticked);
    if (sorted(ticked) === sorted(key.right)) return { verdict: "right", own };
    if (ticked.includes(key.none) && ticked.length > 1) return { verdict: "unread", why: ["none-and-more"] };
    const told = explained(key, sorted(ticked), own, earlier);
    if (told) return { ...told, own };
    const strange = ticked.filter((at) => !key.right.includes(at)).sort((a, b) => a - b);
    const slips = strange.map((at) => (key.beliefs || {})[String(at)]).find((found) => found && found.length) || [];
    const readings = earned(key, ticked, strange);
    return { verdict: slips.length ? "slip" : "not-yet", why: missing(key, ticked, strange, readings[0]), slips, readings, own };
  }

  /** The value of the ticked things, named in the order of key.things, else in that of the options; without things it is "none". */
  function ownOf(key, ticked) {
    const values = key.values || [];
    if (values.length === 0 || !key.node) return null;
    const mine = ticked.map((at) => values[at]);
    return (key.things || values).filter((thing) => mine.includes(thing)).join("+") || "none";
  }

  /** Whether something is missing, does not belong, or both, and that a mark is earned where one is. */
  function missing(key, ticked, strange, marks) {
    const right = ticked.length - strange.length;
    if (right === 0) return [];
    const what = strange.length === 0 ? "some-missing" : right === key.right.length ? "some-strange" : "some-right";
    return marks === "0" ? [what] : [what, "earns"];
  }

  /** The marks that the ticked options earn, and those of the whole part: whole, rounded down, never below 0. */
  function earned({ right, worth }, ticked, strange) {
    const share = worth.right * (ticked.length - strange.length) - worth.wrong * strange.length;
    const marks = Math.max(0, Math.floor((worth.marks * share) / (worth.right * right.length)));
    return [String(marks), String(worth.marks)];
  }

  globalThis.saltbridgeJudgeSeveral = Object.freeze(judgeSeveral);
})();
