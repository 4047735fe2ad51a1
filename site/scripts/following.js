// What follows from a student's own earlier answers: each subset of them is a way with a range of its own; twin of
// generator/saltbridge/answers/following.py. Pure: no page, no storage, no sentence. Loaded after trees.js.
// Public: saltbridgeFollowing = { ownAnswers, ways, settled, onScale, rangeOf, results }
(() => {
  "use strict";

  const { rounded, sizeOf, twelve } = globalThis.saltbridgeNumbers;
  const { plain, run } = globalThis.saltbridgeTrees;
  const MOST_WAYS = 32;
  const isNumber = (value) => typeof value === "number";
  const differ = (one, other) => (isNumber(one) && isNumber(other) ? twelve(one) !== twelve(other) : one !== other);
  const graphOf = (key) => [key.graph || [], key.given || {}];

  function ownAnswer(label, node, typed, right, asked) {
    const value = plain(typed);
    if (!isNumber(value) || !asked) return { label, node, forms: value === null ? [] : [value], wrong: differ(value, right), half: 0 };
    const short = rounded(value, asked);
    const wrong = differ(short, isNumber(right) ? rounded(right, asked) : right);
    return { label, node, forms: short === value ? [value] : [value, short], wrong, half: wrong ? halfPlace(short, asked) : 0 };
  }

  function halfPlace(value, asked) {
    if (asked.decimals !== undefined) return Number("1e" + -asked.decimals) / 2;
    return value === 0 ? 0 : Number("1e" + (sizeOf(value) - asked.figures + 1)) / 2;
  }

  /** The student's answers to the parts that this key names, the nearest part first: [{label, node, forms, wrong, half}]. */
  function ownAnswers(key, earlier) {
    const named = (key.earlier || []).filter(([label]) => earlier[label] !== null && earlier[label] !== undefined);
    if (named.length === 0) return [];
    const right = run(...graphOf(key));
    return named.reverse().map(([label, node, asked]) => ownAnswer(label, node, earlier[label], right.get(node) ?? null, asked));
  }

  /** The subsets of the own answers in each of their forms, nearest parts first: [{put, wrong: labels, kept: node → half}]. */
  function ways(own) {
    const found = [];
    const most = own.reduce((product, each) => product * (1 + each.forms.length), 1);
    for (let count = 1; count < Math.min(most, MOST_WAYS + 1); count += 1) {
      let left = count;
      const way = { put: {}, wrong: [], kept: {} };
      for (const { label, node, forms, wrong, half } of own) {
        const form = left % (1 + forms.length);
        left = Math.floor(left / (1 + forms.length));
        if (form === 0) continue;
        way.put[node] = forms[form - 1];
        if (wrong) way.wrong.push(label);
        if (half) way.kept[node] = half;
      }
      found.push(way);
    }
    return found;
  }

  /** Whether a slip would have changed an answer that the student got right, so that it can't have happened. */
  function settled(key, own, put) {
    const right = own.filter((each) => !each.wrong).map((each) => each.node);
    if (right.length === 0 || !put || Object.keys(put).length === 0) return false;
    const plainly = run(...graphOf(key));
    const withSlip = run(...graphOf(key), put);
    return right.some((node) => differ(plainly.get(node) ?? null, withSlip.get(node) ?? null));
  }

  // ------------------------------------------------------------ ranges

  const isLog = (key) => key.scale === "log";

  /** The value on the scale of its tolerance: itself or its common logarithm. */
  function onScale(key, value) {
    if (!isLog(key)) return value;
    return value > 0 ? twelve(Math.log10(value)) : null;
  }

  function result(key, put, rounding = null) {
    const value = run(...graphOf(key), put, rounding, key.node).get(key.node);
    if (isNumber(value) && key.whole) return rounded(value, { decimals: 0 });
    return isNumber(value) ? onScale(key, value) : null;
  }

  /** The asked value on its scale along every route, the plain one first. */
  function results(key, put) {
    const found = [{}, ...(key.routes || [])].map((route) => result(key, { ...route.put, ...put }, route.round || null));
    return found.filter((value) => value !== null);
  }

  /** How far half a last place of an own value moves the result. */
  function spread(key, put, node, half) {
    const middle = result(key, put);
    const ends = [-1, 1].map((sign) => result(key, { ...put, [node]: put[node] + sign * half })).filter((end) => end !== null);
    return middle === null ? 0 : Math.max(0, ...ends.map((end) => Math.abs(end - middle)));
  }

  /** Half of the last place: the key's own, or that of this value where figures are asked for; none for a whole number. */
  function half(key, value) {
    if (key.whole) return 0;
    if (key.figures === null || key.figures === undefined || isLog(key) || value === 0) return Number(key.place) / 2;
    return Number("1e" + (sizeOf(value) - key.figures + 1)) / 2;
  }

  /** The hull over all routes of what follows along a way (and with a slip put in), half a place wider on both sides; or null. */
  function rangeOf(key, way, put = {}) {
    const both = { ...way.put, ...put };
    const bounds = results(key, both).flatMap((value) => [value - half(key, value), value + half(key, value)]);
    if (bounds.length === 0) return null;
    const wider = Object.entries(way.kept).reduce((sum, [node, size]) => sum + spread(key, both, node, size), 0);
    return [twelve(Math.min(...bounds) - wider), twelve(Math.max(...bounds) + wider)];
  }

  globalThis.saltbridgeFollowing = Object.freeze({ ownAnswers, ways, settled, onScale, rangeOf, results });
})();
