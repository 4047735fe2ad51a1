// Reads and compares typed expressions for Q or K; twin of generator/saltbridge/answers/typed_expressions.py, where a table documents every form.
// Pure: no page, no storage, no sentence. Loaded after species.js.
// Public: saltbridgeExpressions = { read(typed), compare(typed, right, leftOut), same(one, other), toPower(expression, way) }
(() => {
  "use strict";

  const { cleaned } = globalThis.saltbridgeNumbers;
  const { readTyped, readSpecies, quoted, identity } = globalThis.saltbridgeSpecies;
  const LONGEST = 400;
  const DEEPEST = 6;
  const LARGEST_POWER = 999;
  const LARGEST_NUMBER = 1000000;
  const KNOWN = /^[ -~·•∙⋅×÷°º⦵⊖⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻₀₁₂₃₄₅₆₇₈₉]*$/;
  const NAME = /^[A-Za-z][A-Za-z0-9_°{}]{0,11} ?= ?/;
  const RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻";
  const LEVEL = "0123456789+-";
  const TIMES = / ?(?:[·•∙⋅×]|\*(?!\*)| [xX] ) ?/y;
  const OVER = / ?[/÷:] ?/y;
  const PLUS = / ?\+ ?/y;
  const GAP = / ?/y;
  const NUMBER = /[1-9][0-9]{0,2}(?![0-9.,])/y;
  const HELD = /([cCaApP]) ?\(/y;
  const STANDARD_SIGN = /([cCpP])(?:\^?(?:°|º|⦵|⊖|\{[0°]\}|0)|⁰)/y;
  const LOWERED = /([cCpP])_\{([^{}]*)\}/y;
  const BESIDE = /[pP]_?([A-Z][A-Za-z0-9₀₁₂₃₄₅₆₇₈₉]*)/y;
  const SIZE = "([+-]?)([0-9]{1,3})(?![0-9])(?:[.,]([0-9]{1,2})(?![0-9])";
  const POWER = new RegExp(` ?(?:\\^|\\*\\*) ?(?:([({]) ?${SIZE}|/([1-9][0-9]?))? ?([)}])|${SIZE})?)|([⁺⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]{1,3})`, "y");
  const COUNTED = /^([1-9][0-9]{0,2}) ?(?=[A-Z[(])/;
  const CLOSING = { "(": ")", "[": "]" };
  const STANDARD = "°";

  /** Thrown while reading, caught in read(). */
  class Stop extends Error {
    constructor(why, readings = []) {
      super(why);
      this.found = { why, readings };
    }
  }

  // ------------------------------------------------------------ fractions, as [numerator, denominator] in lowest terms

  const shared = (a, b) => (b === 0 ? Math.abs(a) : shared(b, a % b));
  function bounded([top, bottom], most) {
    const by = shared(top, bottom) * Math.sign(bottom);
    const lowest = [top / by, bottom / by];
    if (Math.max(Math.abs(lowest[0]), lowest[1]) > most) throw new Stop("too-long");
    return lowest;
  }
  const plus = ([a, b], [c, d], most) => bounded([a * d + c * b, b * d], most);
  const times = ([a, b], [c, d], most) => bounded([a * c, b * d], most);
  const equal = ([a, b], [c, d]) => a === c && b === d;
  const ONE = [1, 1];

  // ------------------------------------------------------------ reading

  const strip = (text) => text.replace(/^ +| +$/g, "");

  /** Read a typed expression: {powers: Map from kind and species, number, added} or {why, readings}. */
  function read(typed) {
    if (typeof typed === "string" && Array.from(typed).length > LONGEST) return { why: "too-long", readings: [] };
    const text = typeof typed === "string" ? cleaned(typed) : "";
    if (text === "") return { why: "empty", readings: [] };
    if (!KNOWN.test(text)) return { why: "expression-character", readings: [] };
    try {
      return new Reader(text.replace(NAME, "")).whole();
    } catch (problem) {
      if (problem instanceof Stop) return problem.found;
      throw problem;
    }
  }

  /** Reads from left to right. */
  class Reader {
    constructor(text) {
      this.text = text;
      this.place = 0;
    }

    whole() {
      const found = this.sum(0);
      if (this.place < this.text.length) throw this.stuck();
      return found;
    }

    get here() {
      return this.text.charAt(this.place);
    }

    looks(sign) {
      sign.lastIndex = this.place;
      return sign.exec(this.text);
    }

    take(sign) {
      const found = this.looks(sign);
      if (found) this.place = sign.lastIndex;
      return found;
    }

    stuck() {
      return new Stop("expression", [quoted(strip(this.text.slice(this.place)) || this.text)]);
    }

    /** Products, rightly one of them. */
    sum(depth) {
      if (depth > DEEPEST) throw this.stuck();
      let found = this.product(depth);
      while (this.take(PLUS)) found = { ...combined(found, this.product(depth), ONE), added: true };
      return found;
    }

    /** Chains joined by signs; after a stroke only further strokes, since it would be unclear what stands below. */
    product(depth) {
      let found = this.chain(depth);
      for (let below = false; ; ) {
        if (this.take(OVER)) {
          found = combined(found, this.chain(depth), [-1, 1]);
          below = true;
        } else if (this.take(TIMES)) {
          if (below) throw new Stop("below-unclear");
          found = combined(found, this.chain(depth), ONE);
        } else {
          return found;
        }
      }
    }

    /** Factors side by side. */
    chain(depth) {
      let found = this.power(depth);
      while (this.begins()) found = combined(found, this.power(depth), ONE);
      return found;
    }

    /** Whether another factor stands here, with or without a space before it. */
    begins() {
      const start = this.place;
      this.take(GAP);
      if ([HELD, STANDARD_SIGN, LOWERED, BESIDE].some((sign) => this.looks(sign)) || this.here === "[" || this.here === "(") return true;
      if (/^[0-9]$/.test(this.here)) throw new Stop("power-sign");
      this.place = start;
      return false;
    }

    power(depth) {
      const base = this.atom(depth);
      const found = this.take(POWER);
      return found ? raised(base, this.exponent(found)) : base;
    }

    exponent(found) {
      const [, opening, sign, whole, decimals, under, closing, ownSign, ownWhole, ownDecimals, lifted] = found;
      if (lifted) return [Number(Array.from(lifted, (c) => LEVEL[RAISED.indexOf(c)]).join("")), 1];
      if (opening && !["()", "{}"].includes(opening + closing)) throw this.stuck();
      const [minus, digits, rest] = opening ? [sign, whole, decimals] : [ownSign, ownWhole, ownDecimals];
      const scale = 10 ** (rest || "").length;
      const top = Number(digits) * scale + Number(rest || "0") * Number(under || "1");
      return bounded([minus === "-" ? -top : top, Number(under || "1") * scale], Infinity);
    }

    atom(depth) {
      if (this.here === "[") return this.held("c");
      let found = this.take(STANDARD_SIGN);
      if (found) return one(found[1].toLowerCase(), STANDARD);
      found = this.take(LOWERED);
      if (found) return one(found[1].toLowerCase(), named(strip(found[2])));
      found = this.take(HELD);
      if (found) {
        this.place -= 1;
        return this.held(found[1].toLowerCase());
      }
      found = this.take(BESIDE);
      if (found) return one("p", named(found[1]));
      found = this.take(NUMBER);
      return found ? { powers: new Map(), number: [Number(found[0]), 1], added: false } : this.bracketed(depth);
    }

    bracketed(depth) {
      if (this.here !== "(") throw this.stuck();
      this.place += 1;
      this.take(GAP);
      const inside = this.sum(depth + 1);
      this.take(GAP);
      if (this.here !== ")") throw this.stuck();
      this.place += 1;
      return inside;
    }

    /** The species between the bracket that stands here and its partner; a number in it counts as one before it. */
    held(kind) {
      const [start, opening] = [this.place, this.here];
      let [at, depth] = [start, 0];
      for (; at < this.text.length; at += 1) {
        depth += (this.text[at] === opening ? 1 : 0) - (this.text[at] === CLOSING[opening] ? 1 : 0);
        if (depth === 0) break;
      }
      if (at === this.text.length) throw this.stuck();
      const inside = strip(this.text.slice(start + 1, at));
      const counted = COUNTED.exec(inside);
      const found = one(kind, named(counted ? inside.slice(counted[0].length) : inside));
      this.place = at + 1;
      return counted ? { ...found, number: [Number(counted[1]), 1] } : found;
    }
  }

  function named(text) {
    const species = readTyped(text);
    if (species.why) throw new Stop(species.why, species.readings);
    return identity(species);
  }

  const one = (kind, name) => ({ powers: new Map([[kind + " " + name, ONE]]), number: ONE, added: false });

  /** The product of both, the other to the power of 1 or -1. */
  function combined(first, second, way) {
    const right = raised(second, way);
    const powers = new Map(first.powers);
    right.powers.forEach((size, name) => powers.set(name, plus(powers.get(name) || [0, 1], size, LARGEST_POWER)));
    return { powers, number: times(first.number, right.number, LARGEST_NUMBER), added: first.added || second.added };
  }

  function raised(base, size) {
    const powers = new Map([...base.powers].map(([name, each]) => [name, times(each, size, LARGEST_POWER)]));
    return { powers, number: numberTo(base.number, size), added: base.added };
  }

  function numberTo(base, [top, bottom]) {
    if (equal(base, ONE)) return base;
    if (bottom !== 1) throw new Stop("expression");
    let found = ONE;
    for (let at = 0; at < Math.abs(top); at += 1) found = times(found, base, LARGEST_NUMBER);
    return top < 0 ? [found[1], found[0]] : found;
  }

  /** The expression that belongs to a multiple of the equation; null where its numbers grow beyond all use. */
  function toPower(expression, way) {
    try {
      return raised(expression, [way, 1]);
    } catch (problem) {
      if (problem instanceof Stop) return null;
      throw problem;
    }
  }

  // ------------------------------------------------------------ comparing

  const partsOf = (key) => [key.slice(0, 1), key.slice(2)];

  /** The powers by species, those that cancel and the standards left out. */
  function byName(powers) {
    const found = new Map();
    powers.forEach((size, key) => {
      const [, name] = partsOf(key);
      if (name !== STANDARD) found.set(name, plus(found.get(name) || [0, 1], size, Infinity));
    });
    return new Map([...found].filter(([, size]) => size[0] !== 0));
  }

  /** {verdict, why} of two expressions as read() gives them; `leftOut` are species, as texts, that do not belong in them. */
  function compare(typed, right, leftOut) {
    const outside = new Set(leftOut.map((text) => identity(readSpecies(text))));
    const mine = byName(typed.powers);
    const why = typed.added ? ["plus-for-times"] : [];
    if ([...mine.keys()].some((name) => outside.has(name))) why.push("solids-in");
    if (mine.has("e")) why.push("electrons-in");
    const kept = new Map([...mine].filter(([name]) => name !== "e" && !outside.has(name)));
    why.push(...ofPowers(kept, byName(right.powers), typed.number));
    if (why.join() === "multiple") return { verdict: "right-but", why };
    return why.length ? { verdict: "not-yet", why } : ofForms(typed.powers, right.powers);
  }

  /** What is wrong about the factors and their powers. */
  function ofPowers(mine, theirs, number) {
    const why = [...theirs.keys()].some((name) => !mine.has(name)) ? ["factor-missing"] : [];
    if ([...mine.keys()].some((name) => !theirs.has(name))) why.push("factor-extra");
    const factors = equal(number, ONE) ? [] : ["number-as-factor"];
    if (why.length) return [...why, ...factors];
    const ratios = [...theirs].map(([name, [a, b]]) => times(mine.get(name), [b, a], Infinity));
    const allAre = (wanted) => ratios.every((ratio) => equal(ratio, wanted));
    if (allAre(ONE)) return factors;
    if (ratios.every(([top]) => top < 0)) return ["upside-down", ...(allAre([-1, 1]) ? [] : ["powers"]), ...factors];
    if (ratios.some(([top]) => top < 0)) return ["sides", ...factors];
    if (allAre(ratios[0]) && factors.length === 0) return ["multiple"];
    return factors.length ? factors : ["powers"];
  }

  /** What is still to be said of letters and standards where all else is right. */
  function ofForms(mine, theirs) {
    const kinds = new Map([...theirs.keys()].map((key) => partsOf(key).reverse()));
    const told = [...mine].filter(([key, size]) => size[0] !== 0 && partsOf(key)[1] !== STANDARD).map(([key]) => partsOf(key));
    const why = [["p", "gas-by-pressure"], ["c", "dissolved-by-concentration"]]
      .filter(([kind]) => told.some(([own, name]) => kinds.get(name) === kind && own !== kind && own !== "a")).map(([, said]) => said);
    for (const kind of ["c", "p"]) {
      const total = [...mine].filter(([key]) => key[0] === kind && partsOf(key)[1] !== STANDARD)
        .reduce((sum, [, size]) => plus(sum, size, Infinity), [0, 1]);
      const standard = mine.get(kind + " " + STANDARD) || [0, 1];
      if (standard[0] !== 0 && !equal(standard, [-total[0], total[1]]) && !why.includes("standards")) why.push("standards");
    }
    return { verdict: why.length ? "right-but" : "right", why };
  }

  /** Whether two expressions, right or wrong, are the same but for c°, p° and the letters of their factors. */
  function same(first, second) {
    const [mine, theirs] = [byName(first.powers), byName(second.powers)];
    const alike = mine.size === theirs.size && [...mine].every(([name, size]) => theirs.has(name) && equal(size, theirs.get(name)));
    return alike && equal(first.number, second.number) && first.added === second.added;
  }

  globalThis.saltbridgeExpressions = Object.freeze({ read, compare, same, toPower });
})();
