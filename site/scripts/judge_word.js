// Judges a short word as the choice of what it names; twin of generator/saltbridge/answers/judge_word.py and plain_words.py.
// Pure: no page, no storage, no sentence of its own. Loaded after judge_choice.js. Public: saltbridgeJudgeWord(key, typed, earlier)
(() => {
  "use strict";

  const { judgeChoice } = globalThis.saltbridgeJudgeChoice;
  const has = (object, name) => Object.prototype.hasOwnProperty.call(object, name);
  const LONGEST = 200;
  const PASSED_OVER = /[\t-\r\x1c-\x20\x85\xa0\xad\u1680\u2000-\u200d\u2010-\u2015\u2028\u2029\u202f\u205f\u2060\u2212\u3000\ufeff_-]+/g;

  /** The word as it is compared: small letters, without spaces, hyphens and a full stop at the end. */
  const plainWord = (text) => text.normalize("NFKC").toLowerCase().replace(PASSED_OVER, "").replace(/\.+$/, "");

  /** Which of the things a word names, the right one first; -1 for none. */
  function placeOf(key, word) {
    const fitting = key.words.map((_, place) => place).filter((place) => key.words[place].includes(word));
    return fitting.find((place) => key.right.includes(place)) ?? fitting[0] ?? -1;
  }

  function judgeWord(key, typed, earlier) {
    const letters = typeof typed === "string" ? Array.from(typed) : [];
    if (!plainWord(letters.slice(0, LONGEST).join(""))) return { verdict: "unread", why: ["empty"] };
    if (letters.length > LONGEST) return { verdict: "unread", why: ["too-long"] };
    const word = plainWord(typed);
    const place = placeOf(key, word);
    const found = place < 0 ? { verdict: "not-yet" } : judgeChoice(key, [place], earlier);
    if (found.verdict !== "right" && found.verdict !== "follows" && has(key.near || {}, word)) {
      return { verdict: "not-yet", why: ["near"], readings: [key.near[word]], own: found.own ?? null };
    }
    return found;
  }

  globalThis.saltbridgeJudgeWord = Object.freeze(judgeWord);
})();
