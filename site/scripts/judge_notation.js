// Judges a typed species, cell diagram or expression; twin of generator/saltbridge/answers/judge_notation.py. Pure: no page, no storage, no
// sentence. Loaded after species.js, diagrams.js, expressions.js, trees.js and following.js. Public: saltbridgeJudgeNotation(key, typed, earlier)
(() => {
  "use strict";

  const { run } = globalThis.saltbridgeTrees;
  const { ownAnswers, ways } = globalThis.saltbridgeFollowing;
  const species = globalThis.saltbridgeSpecies;
  const diagrams = globalThis.saltbridgeDiagrams;
  const expressions = globalThis.saltbridgeExpressions;

  // How answers of a kind are read and compared: with the right one by a key, and with another whether they are the same.
  const NOTATIONS = {
    species: {
      read: species.read,
      compare: (typed, right, key) => species.compare(typed, right.species, Boolean(key.states)),
      same: (one, other) => species.identity(one.species) === species.identity(other.species),
    },
    diagram: { read: diagrams.read, compare: diagrams.compare, same: diagrams.same },
    expression: {
      read: expressions.read,
      compare: (typed, right, key) => expressions.compare(typed, right, key.left_out || []),
      same: expressions.same,
    },
  };

  const has = (object, name) => Object.prototype.hasOwnProperty.call(object, name);
  const valueOf = (key, text) => (text ? (key.values && has(key.values, text) ? key.values[text] : text) : null);

  function errorsOf(notation, mine, wrong) {
    return [...new Set(wrong.filter(([other]) => notation.same(mine, other)).flatMap(([, ids]) => ids))];
  }

  /** What each way with a wrong answer in it leads to, where it is another than the right one: [[way, {right, wrong, text}], …]. */
  function ledBy(notation, key, answers) {
    return ways(answers).flatMap((way) => {
      if (way.wrong.length === 0) return [];
      const values = run(key.graph || [], key.given || {}, way.put);
      const led = key.power ? byPower(notation, key, values) : lookedUp(notation, key, values);
      return led ? [[way, led]] : [];
    });
  }

  function lookedUp(notation, key, values) {
    const holds = ([outcomes]) => Object.entries(outcomes).every(([node, outcome]) => values.get(node) === outcome);
    const found = (key.led || []).find(holds);
    if (!found) return null;
    const [, text, wrong = {}] = found;
    return { right: notation.read(text), wrong: Object.entries(wrong).map(([other, ids]) => [notation.read(other), ids]), text };
  }

  /** The expression that the student's own equation has: a power of the right one, or one of its own. */
  function byPower(notation, key, values) {
    const way = values.get(key.power);
    if (typeof way === "string") {
      const text = key.forms && has(key.forms, way) ? key.forms[way] : null;
      return text ? { right: notation.read(text), wrong: [], text } : null;
    }
    if (!Number.isInteger(way) || way === 0 || way === 1) return null;
    const forms = [[key.right, []], ...Object.entries(key.slips || {})];
    const [[right], ...wrong] = forms.map(([text, ids]) => [expressions.toPower(notation.read(text), way), ids]);
    return right ? { right, wrong: wrong.filter(([other]) => other), text: "" } : null;
  }

  /** What a typed one follows from; a way that it fits as it is goes before one that it fits but for something to mend. */
  function followed(notation, key, mine, answers) {
    const found = ledBy(notation, key, answers).map(([way, led]) => [notation.compare(mine, led.right, key), way, led]);
    const fits = found.find(([finding]) => finding.verdict === "right") || found.find(([finding]) => finding.verdict === "right-but");
    if (!fits) return null;
    const [finding, way, led] = fits;
    return { verdict: "follows", why: finding.why, own: valueOf(key, led.text), parts: way.wrong.slice(0, 1) };
  }

  /** A known error, or one on top of what the student's own answers lead to; null where there is none. */
  function slipped(notation, key, mine, answers) {
    const known = errorsOf(notation, mine, Object.entries(key.slips || {}).map(([text, ids]) => [notation.read(text), ids]));
    if (known.length) return { verdict: "slip", slips: known };
    for (const [way, led] of ledBy(notation, key, answers)) {
      const found = errorsOf(notation, mine, led.wrong);
      if (found.length) return { verdict: "slip-on-own", slips: found, parts: way.wrong.slice(0, 1) };
    }
    return null;
  }

  function ownOf(notation, key, mine) {
    const forms = [key.right, ...Object.keys(key.slips || {}), ...(key.led || []).map((led) => led[1])];
    return valueOf(key, forms.find((text) => notation.same(mine, notation.read(text))));
  }

  function judgeNotation(key, typed, earlier) {
    const notation = NOTATIONS[key.kind];
    const mine = notation.read(typed, key.mark || ".");
    if (mine.why) return { verdict: "unread", why: [mine.why], readings: mine.readings };
    const finding = notation.compare(mine, notation.read(key.right), key);
    const own = ownOf(notation, key, mine);
    if (finding.verdict !== "not-yet") return { ...finding, own };
    const answers = ownAnswers(key, earlier);
    const found = followed(notation, key, mine, answers) || slipped(notation, key, mine, answers) || finding;
    return { ...found, own: found.own || own };
  }

  globalThis.saltbridgeJudgeNotation = Object.freeze(judgeNotation);
})();
