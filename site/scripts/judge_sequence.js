// Judges steps that were put in order, where some may change places; twin of generator/saltbridge/answers/judge_sequence.py. Pure: no
// page, no storage, no sentence. Loaded after judge_choice.js. Public: saltbridgeJudgeSequence
(() => {
  "use strict";

  const { picked } = globalThis.saltbridgeJudgeChoice;

  function judgeSequence(key, typed) {
    const steps = picked(typed, key.stage.length);
    if (!steps || steps.length !== key.stage.length || steps.some((step) => step >= steps.length)) return { verdict: "unread", why: ["empty"] };
    const mine = steps.map((step) => key.stage[step]);
    const early = mine.findIndex((stage, at) => at + 1 < mine.length && stage > mine[at + 1]);
    if (early < 0) return { verdict: "right" };
    if (mine.every((stage, at) => at === 0 || stage <= mine[at - 1])) return { verdict: "not-yet", why: ["other-way-round"] };
    const slips = (key.slips || {})[String(steps[early])] || [];
    return { verdict: slips.length ? "slip" : "not-yet", why: ["neighbours"], slips, readings: [String(early + 1), String(early + 2)] };
  }

  globalThis.saltbridgeJudgeSequence = Object.freeze(judgeSequence);
})();
