// Judges a choice and its reason together; twin of generator/saltbridge/answers/judge_reasoned.py. Pure: no page, no storage, no
// sentence. Loaded after judge_choice.js and judge_cases.js. Public: saltbridgeJudgeReasoned
(() => {
  "use strict";

  const { judgeChoice } = globalThis.saltbridgeJudgeChoice;
  const { oneEach } = globalThis.saltbridgeJudgeCases;
  const holds = (found) => found.verdict === "right" || found.verdict === "follows";

  function judgeReasoned(key, typed, earlier) {
    const chosen = oneEach(typed, 2);
    if (!chosen) return { verdict: "unread", why: ["empty"] };
    const [option, reason] = chosen;
    if (option === null || reason === null) return { verdict: "unread", why: ["both-tiers"] };
    const first = judgeChoice(key, [option], earlier);
    const why = reason === key.reason.right;
    if (holds(first) && why) return first;
    const slips = why ? [] : (key.reason.slips || {})[String(reason)] || [];
    if (holds(first)) return { verdict: slips.length ? "slip" : "not-yet", why: ["reason-again"], slips, own: first.own };
    if (why) return { ...first, why: ["choice-again", ...(first.why || [])] };
    const known = first.slips || [];
    const verdict = known.length || !slips.length ? first.verdict : "slip";
    return { ...first, verdict, why: ["both-again"], slips: [...new Set([...slips, ...known])] };
  }

  globalThis.saltbridgeJudgeReasoned = Object.freeze(judgeReasoned);
})();
