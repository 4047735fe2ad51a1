// Judges what was chosen or put in order; twin of generator/saltbridge/answers/judge_choice.py. Pure: no page, no storage, no
// sentence. Loaded after following.js. Public: saltbridgeJudgeChoice = { judgeChoice, judgeOrder, explained, picked, sorted }
(() => {
  "use strict";

  const { plain, run } = globalThis.saltbridgeTrees;
  const { ownAnswers, settled, ways } = globalThis.saltbridgeFollowing;
  const has = (object, name) => Object.prototype.hasOwnProperty.call(object, name);
  const sorted = (list) => [...list].sort((a, b) => a - b).join();
  const unique = (list) => [...new Set(list)];

  /** Option numbers as given, null where something else came. */
  function picked(typed, most) {
    if (!Array.isArray(typed) || typed.length === 0 || typed.length > most) return null;
    const good = typed.every((number) => Number.isInteger(number) && number >= 0);
    return good && new Set(typed).size === typed.length ? typed : null;
  }

  function judgeChoice(key, typed, earlier) {
    const chosen = picked(typed, 100);
    if (!chosen) return { verdict: "unread", why: ["empty"] };
    const single = chosen.length === 1 && key.right.length === 1 ? (key.values || [])[chosen[0]] : undefined;
    const own = single === undefined ? null : plain(single);
    if (sorted(chosen) === sorted(key.right)) return { verdict: "right", own };
    const some = key.right.length > 1 && chosen.some((number) => key.right.includes(number));
    return { ...(explained(key, sorted(chosen), own, earlier) || { verdict: "not-yet", why: some ? ["some-right"] : toldOf(key, chosen) }), own };
  }

  /** What the key says of a wrong option (`whys`): a step of a working that is right, or that follows from a wrong one. */
  const toldOf = (key, chosen) => (chosen.length === 1 && has(key.whys || {}, String(chosen[0])) ? [key.whys[chosen[0]]] : []);

  function judgeOrder(key, typed, earlier) {
    const order = picked(typed, key.right.length);
    if (!order || sorted(order) !== sorted(key.right)) return { verdict: "unread", why: ["empty"] };
    const own = orderOf(key, order);
    if (order.join() === key.right.join()) return { verdict: "right", own };
    return { ...(explained(key, order.join(), own, earlier) || { verdict: "not-yet", why: outOfOrder(order, key.right) }), own };
  }

  /** The value of an order: its things from the lowest to the highest, "<" between them. */
  function orderOf(key, order) {
    const things = order.map((number) => (key.values || [])[number] ?? null);
    if (things.includes(null)) return null;
    return (key.falling ? things.reverse() : things).join("<");
  }

  function outOfOrder(order, right) {
    if (order.join() === [...right].reverse().join()) return ["other-way-round"];
    const differing = order.map((_, place) => place).filter((place) => order[place] !== right[place]);
    return differing.length === 2 && differing[1] - differing[0] === 1 ? ["two-neighbours"] : [];
  }

  // ------------------------------------------------------------ what explains it

  const leadsTo = (key, put) => run(key.graph || [], key.given || {}, put, null, key.node).get(key.node) ?? null;

  /** What an answer follows from, or which error leads to it: from what is right, or from the student's own earlier answers. */
  function explained(key, name, value, earlier) {
    const own = value === null ? [] : ownAnswers(key, earlier);
    const led = ways(own).find((way) => way.wrong.length > 0 && leadsTo(key, way.put) === value);
    if (led) return { verdict: "follows", parts: led.wrong.slice(0, 1) };
    const told = has(key.slips || {}, name) ? key.slips[name] : [];
    const known = told.filter((id) => !isSettled(key, own, id));
    if (known.length) return { verdict: "slip", slips: known };
    for (const way of ways(own)) {
      const found = possible(key, own, way.put).filter(({ put }) => leadsTo(key, { ...way.put, ...put }) === value);
      if (found.length && way.wrong.length) {
        return { verdict: "slip-on-own", slips: unique(found.map(({ id }) => id)), parts: way.wrong.slice(0, 1) };
      }
    }
    return null;
  }

  /** The errors that can sit on a way: not at a part that the student has answered, nor against what was right there. */
  const possible = (key, own, mine) => (key.errors || []).filter(({ put }) => {
    const nodes = Object.keys(put);
    return nodes.length > 0 && !nodes.some((node) => has(mine, node)) && !settled(key, own, put);
  });

  /** Whether an error can't have happened, as wherever it may it would have spoilt what the student got right. */
  function isSettled(key, own, error) {
    const places = (key.errors || []).filter(({ id }) => id === error);
    return places.length > 0 && places.every(({ put }) => settled(key, own, put));
  }

  globalThis.saltbridgeJudgeChoice = Object.freeze({ judgeChoice, judgeOrder, explained, picked, sorted });
})();
