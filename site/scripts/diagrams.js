// Reads and compares typed cell diagrams; twin of generator/saltbridge/answers/typed_diagrams.py, where a table documents every form.
// Pure: no page, no storage, no sentence. Loaded after species.js.
// Public: saltbridgeDiagrams = { read(typed, mark), compare(typed, right, {states, amounts}), same(one, other) }
(() => {
  "use strict";

  const { cleaned, readNumber, twelve } = globalThis.saltbridgeNumbers;
  const { atoms: unitAtoms } = globalThis.saltbridgeUnits;
  const { readTyped, quoted, identity } = globalThis.saltbridgeSpecies;
  const LONGEST = 400;
  const MOST_ENTRIES = 24;
  const KNOWN = /^[ -~¦‖∥∣│ǀ×·•∙⋅⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻₀₁₂₃₄₅₆₇₈₉]*$/;
  const BRIDGE = /[|¦∣│ǀ] ?[|¦∣│ǀ]|\/\/|[‖∥]/y;
  const BAR = /[|¦∣│ǀ/]/y;
  const COMMA = /[,;]/y;
  const COUNT = /^([1-9][0-9]{0,2}) ?(?=[A-Z[(])/;
  const TOLD = / ?\(([^()]*)\)$/;
  const STATE = /^(s|l|g|aq)(?:[,;: ] *(.+))?$/i;
  const AMOUNT = /^(?:[0-9.,]|[cp] ?=)/;
  // How many mol/L or bar are in one of each unit that a diagram may have.
  const SIZES = {
    "mol1 L-1": 1, "mol1 l-1": 1, "mol1 dm-3": 1, M1: 1, "mmol1 L-1": 1e-3, "mmol1 l-1": 1e-3, "mmol1 dm-3": 1e-3, mM1: 1e-3,
    bar1: 1, mbar1: 1e-3, kPa1: 1e-2, hPa1: 1e-3, Pa1: 1e-5, atm1: 1.01325,
  };
  const CONDUCTORS = "Pt|C|Au|Pd|Ir|Ti";
  const INERT = "inert";
  const INERT_NAMES = new Set(CONDUCTORS.split("|").map((symbol) => symbol + "1^0"));
  const WATER = "H2 O1^0";

  // ------------------------------------------------------------ reading

  const unread = (why, ...readings) => ({ why, readings });
  const strip = (text) => text.replace(/^ +| +$/g, "");

  /** The pieces between signs that stand in no brackets, without spaces at their ends. */
  function split(text, sign) {
    const pieces = [];
    let [depth, start, place] = [0, 0, 0];
    while (place < text.length) {
      depth = Math.max(0, depth + ("([".includes(text[place]) ? 1 : 0) - (")]".includes(text[place]) ? 1 : 0));
      sign.lastIndex = place;
      const found = depth === 0 ? sign.exec(text) : null;
      if (found) {
        pieces.push(text.slice(start, place));
        start = place = sign.lastIndex;
      } else {
        place += 1;
      }
    }
    return [...pieces, text.slice(start)].map(strip);
  }

  /** Read a typed diagram: {halves} or {why, readings}; what can't be read is quoted, with its cure where there is one. */
  function read(typed, mark = ".") {
    if (typeof typed === "string" && Array.from(typed).length > LONGEST) return unread("too-long");
    const text = typeof typed === "string" ? cleaned(typed) : "";
    if (text === "") return unread("empty");
    if (!KNOWN.test(text)) return unread("diagram-character");
    let halves = split(text, BRIDGE);
    if (halves.length === 3 && split(halves[1], BAR).length === 1) halves = [halves[0], halves[2]];
    const phases = halves.map((half) => split(half, BAR));
    if (halves.length > 2 || phases.flat().length < 2) return unread("diagram-bridges");
    const pieces = phases.map((half) => half.map((phase) => split(phase, COMMA)));
    const entries = pieces.flat(2);
    if (entries.includes("")) return unread("diagram-gap");
    if (entries.length > MOST_ENTRIES) return unread("too-long");
    const items = entries.map((entry) => readItem(entry, mark));
    const wrong = items.find((item) => item.why);
    if (wrong) return wrong;
    let next = 0;
    return { halves: pieces.map((half) => half.map((phase) => phase.map(() => items[next++]))) };
  }

  /** A species with its number, its state and its amount. */
  function readItem(text, mark) {
    const count = COUNT.exec(text);
    const { body, state, amount } = told(count ? text.slice(count[0].length) : text);
    const small = state.toLowerCase();
    if (state !== small) return unread("state-case", quoted(text), quoted(`${body}(${small})`));
    const species = readTyped(body);
    if (species.why) return species;
    const value = amount ? readAmount(amount, mark) : null;
    if (value !== null && value.why) return value;
    return {
      name: identity(species), atoms: new Set(species.atoms.keys()), phase: state || species.phase,
      times: count ? Number(count[1]) : 1, amount: value,
    };
  }

  /** The species, and the state and the amount in the brackets after it. */
  function told(text) {
    let [body, state, amount] = [text, "", ""];
    for (let found = TOLD.exec(body); found; found = TOLD.exec(body)) {
      const inside = strip(found[1]);
      const named = STATE.exec(inside);
      if (named && !state) [state, amount] = [named[1], named[2] || amount];
      else if (AMOUNT.test(inside) && !amount) amount = inside;
      else break;
      body = body.slice(0, found.index);
    }
    return { body, state, amount };
  }

  function readAmount(text, mark) {
    const number = readNumber(text, mark);
    if (number.why) return unread("amount", quoted(text));
    const unit = (unitAtoms(number.unit) || []).map(([word, power]) => word + power).join(" ");
    const known = Object.prototype.hasOwnProperty.call(SIZES, unit);
    if (number.unit && !known) return unread("amount", quoted(text));
    return twelve(number.value * (known ? SIZES[unit] : 1));
  }

  // ------------------------------------------------------------ comparing

  /** {verdict, why} of two diagrams as read() gives them; states and amounts have to be told only where they are asked for. */
  function compare(typed, right, { states, amounts }) {
    const why = typed.halves.flat(2).some((item) => item.times !== 1) ? ["numbers"] : [];
    if (typed.halves.length === 1) return { verdict: "not-yet", why: [...why, "bridge-missing"] };
    const mine = outwards(typed.halves);
    const straight = outwards(right.halves);
    const crossed = changedOver(mine, straight);
    const theirs = crossed ? [straight[1], straight[0]] : straight;
    if (crossed) why.push("diagram-reversed");
    mine.forEach((half, at) => why.push(...ofHalf(half, theirs[at])));
    return why.length ? { verdict: "not-yet", why: [...new Set(why)] } : ofDetails(mine, theirs, states, amounts);
  }

  /** Whether two diagrams, right or wrong, are the same but for states, inert conductors and amounts that one of them leaves out.
      Of one couple in two solutions only the amounts tell left from right, so there they must be told. */
  function same(one, other) {
    if (one.halves.length !== other.halves.length) return false;
    const unlike = ofOneCouple(other.halves) ? (a, b) => a.amount !== b.amount : differ;
    return one.halves.every((mine, at) => {
      const theirs = other.halves[at];
      if (!alike(phasesOf(mine), phasesOf(theirs))) return false;
      const wanted = inOrder(theirs);
      return inOrder(mine).every((item, place) => item.times === wanted[place].times && !unlike(item, wanted[place]));
    });
  }

  /** The species of a half-cell in a fixed order within each phase, water left out. */
  const inOrder = (half) => half.flatMap((phase) =>
    [...phase].sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0)).filter(({ name }) => name !== WATER));

  const outwards = ([left, right]) => [left, [...right].reverse()];

  /** Whether left is right: by the species, and where both half-cells hold the same by the amounts. */
  function changedOver(mine, theirs) {
    for (const likeness of [sharedSpecies, sharedAmounts]) {
      const straight = likeness(mine[0], theirs[0]) + likeness(mine[1], theirs[1]);
      const crossed = likeness(mine[0], theirs[1]) + likeness(mine[1], theirs[0]);
      if (straight !== crossed) return crossed > straight;
    }
    return false;
  }

  function sharedSpecies(one, other) {
    const names = namesOf(other);
    return [...namesOf(one)].filter((name) => name !== INERT && names.has(name)).length;
  }
  const sharedAmounts = (one, other) => pairs(one, other).filter(([a, b]) => a.amount !== null && a.amount === b.amount).length;

  /** What is still to be said of states and amounts where all else is right; of one couple in two solutions the amounts tell left from right. */
  function ofDetails(mine, theirs, states, amounts) {
    const found = mine.flatMap((half, at) => pairs(half, theirs[at]));
    if (found.some(([a, b]) => differ(a, b))) return { verdict: "not-yet", why: ["amounts-differ"] };
    const why = states && found.some(([a, b]) => b.phase && a.phase !== b.phase) ? ["states"] : [];
    if (amounts && found.some(([a, b]) => a.amount === null && b.amount !== null)) {
      why.push("amounts");
      if (ofOneCouple(theirs)) return { verdict: "not-yet", why };
    }
    return { verdict: why.length ? "right-but" : "right", why };
  }

  const differ = (one, other) => one.amount !== null && other.amount !== null && one.amount !== other.amount;

  // ------------------------------------------------------------ half-cells

  /** The species that stand in both half-cells, mine first. */
  function pairs(mine, other) {
    const theirs = new Map(other.flat().map((item) => [item.name, item]));
    return mine.flat().filter(({ name }) => theirs.has(name)).map((item) => [item, theirs.get(item.name)]);
  }

  /** The names of a half-cell, phase by phase; water left out, one name for every electrode that takes no part. */
  const phasesOf = (half) => half.map((phase) =>
    phase.filter(({ name }) => name !== WATER).map((item) => nameOf(item, half)).sort()).filter((phase) => phase.length > 0);

  /** The name of a species, or that of an inert conductor whose element stands nowhere else in the half-cell. */
  function nameOf(item, half) {
    const takesPart = half.flat().some((other) => other !== item && [...item.atoms].some((symbol) => other.atoms.has(symbol)));
    return takesPart || !INERT_NAMES.has(item.name) ? item.name : INERT;
  }

  const namesOf = (half) => new Set(phasesOf(half).flat());
  const ofOneCouple = (halves) => halves.length > 1 && new Set(halves.map((half) => [...namesOf(half)].sort().join())).size === 1;
  const alike = (one, other) => JSON.stringify(one) === JSON.stringify(other);

  /** What is wrong about a half-cell, both from the electrode outwards. */
  function ofHalf(mine, other) {
    const wanted = phasesOf(other);
    const wire = alike(phasesOf(mine).slice(0, 1), [[INERT]]) && !alike(wanted.slice(0, 1), [[INERT]]);
    const own = phasesOf(mine).slice(wire ? 1 : 0);
    const typed = new Set(own.flat());
    const asked = new Set(wanted.flat());
    const why = asked.has(INERT) && !typed.has(INERT) ? ["electrode-left-out"] : [];
    const missing = [...asked].some((name) => name !== INERT && !typed.has(name));
    const extra = [...typed].some((name) => !asked.has(name));
    if (missing) why.push("species-missing");
    if (extra) why.push("species-extra");
    if (missing || extra) return why;
    return [...why, ...outOfOrder(own, wanted.filter((phase) => !alike(phase, [INERT]) || typed.has(INERT)))];
  }

  /** What is wrong about bars, commas and the order of the phases where the species are right. */
  function outOfOrder(own, wanted) {
    if (alike(own, wanted)) return [];
    const spread = (phase, phases) => phases.filter((each) => each.some((name) => phase.includes(name))).length > 1;
    const why = wanted.some((phase) => spread(phase, own)) ? ["bar-in-phase"] : [];
    if (own.some((phase) => spread(phase, wanted))) why.push("comma-between-phases");
    if (why.length) return why;
    return [alike(own.slice(0, 1), wanted.slice(0, 1)) ? "order-of-phases" : "electrode-outside"];
  }

  globalThis.saltbridgeDiagrams = Object.freeze({ read, compare, same });
})();
