// Reads and compares typed equations; twin of generator/saltbridge/answers/typed_equations.py.
// Pure: no page, no storage, no sentence. Loaded after species.js.
// Public: saltbridgeEquations = { read(typed), compare(typed, right, states), same(one, other), multipleOf(one, other), strict(text) }
(() => {
  "use strict";

  const LONGEST = 400;
  const MOST_TERMS = 12;
  const { cleaned } = globalThis.saltbridgeNumbers;
  const { Unreadable, readSpecies, madeClear, namedFault, whyNot } = globalThis.saltbridgeSpecies;
  const KNOWN = /^[ -~·•∙⋅½→⟶➔➜➝⇒⟹⇌⇄↔⟷⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻₀₁₂₃₄₅₆₇₈₉]*$/;
  const ARROW = / +(?:--+>|==+>) *| *(?:<=+>|<-+>|->|=>|[→⟶➔➜➝⇒⟹⇌⇄↔⟷=]) */;
  const PLUS = / +\+ +/;

  // ------------------------------------------------------------ equations

  // A plus that joins two species; any other plus stuck to its neighbour belongs to a charge: Zn^+2, Cu++.
  const JOINED = /\+[0-9]*[A-Ze[]/;

  /** A term {count, species}; throws Unreadable. */
  function readTerm(text) {
    const [, figures, rest] = /^([0-9]*)\s*(.*)$/.exec(text.trim());
    if (rest.startsWith("/")) throw new Unreadable("whole-numbers");
    if (figures.startsWith("0") || figures.length > 3) throw new Unreadable("species");
    try {
      return { count: figures === "" ? 1 : Number(figures), species: readSpecies(rest) };
    } catch (problem) {
      if (problem instanceof Unreadable && problem.code !== "charge-unclear" && /\+\S/.test(rest)) {
        throw new Unreadable(JOINED.test(text) ? "spaces-round-plus" : "species");
      }
      throw problem;
    }
  }

  /** An equation in strict notation: [left terms, right terms]; throws Unreadable. */
  function readStrict(text) {
    const sides = text.trim().split(ARROW);
    if (sides.length !== 2 || sides.includes("")) throw new Unreadable("arrow");
    return sides.map((side) => {
      const terms = side.split(PLUS);
      if (terms.length > MOST_TERMS) throw new Unreadable("too-long");
      return terms.map(readTerm);
    });
  }

  /** Read a typed equation: {sides} or {why, readings}; what can't be read is quoted, with its cure where there is one. */
  function read(typed) {
    if (typeof typed === "string" && Array.from(typed).length > LONGEST) return { why: "too-long", readings: [] };
    const text = typeof typed === "string" ? cleaned(typed) : "";
    if (text === "") return { why: "empty", readings: [] };
    if (!KNOWN.test(text)) return { why: "character", readings: [] };
    const sides = text.split(ARROW);
    if (sides.length !== 2 || sides.includes("")) return { why: "arrow", readings: [] };
    const found = [];
    for (const side of sides) {
      const terms = side.split(PLUS);
      if (terms.length > MOST_TERMS) return { why: "too-long", readings: [] };
      found.push([]);
      for (const term of terms) {
        const named = namedFault(term);
        if (named) return named;
        try {
          found.at(-1).push(readTerm(madeClear(term)));
        } catch (problem) {
          if (!(problem instanceof Unreadable)) throw problem;
          return whyNot(problem.code, term);
        }
      }
    }
    return { sides: found };
  }

  // ------------------------------------------------------------ comparing

  /** Both sides as Maps from species to count. */
  const counted = (sides, states) => sides.map((side) => {
    const counts = new Map();
    for (const { count, species } of side) {
      const name = species.contents + (states ? "|" + species.phase : "|");
      counts.set(name, (counts.get(name) || 0) + count);
    }
    return counts;
  });

  /** [a, b] with mine = a/b times theirs in every species, else null. */
  function ratio(mine, theirs) {
    let found = null;
    for (const place of [0, 1]) {
      if (mine[place].size !== theirs[place].size) return null;
      for (const [name, count] of mine[place]) {
        const other = theirs[place].get(name);
        if (other === undefined || (found && found[0] * other !== found[1] * count)) return null;
        found = found || [count, other];
      }
    }
    return found;
  }

  const cancelled = ([left, right]) => [[left, right], [right, left]].map(([side, other]) =>
    new Map([...side].map(([name, count]) => [name, count - (other.get(name) || 0)]).filter(([, count]) => count > 0)));

  /** "atoms" and "charge" where they differ between the sides. */
  function imbalance(sides) {
    const sums = new Map([["charge", 0]]);
    const add = (name, amount) => sums.set(name, (sums.get(name) || 0) + amount);
    sides.forEach((side, place) => side.forEach(({ count, species }) => {
      const sign = place === 0 ? count : -count;
      add("charge", sign * species.charge);
      species.atoms.forEach((n, symbol) => add(symbol, sign * n));
    }));
    const atoms = [...sums].some(([name, sum]) => name !== "charge" && sum !== 0);
    return [...(atoms ? ["atoms"] : []), ...(sums.get("charge") !== 0 ? ["charge"] : [])];
  }

  const withElectrons = (sides) => sides.filter((side) => side.has("e|")).length;

  /** {verdict: "right" | "right-but" | "not-yet", why} of two equations as read() gives them. */
  function compare(typed, right, states) {
    const mine = counted(typed, states);
    const theirs = counted(right, states);
    const factor = ratio(mine, theirs);
    if (factor) return factor[0] === factor[1] ? { verdict: "right", why: [] } : { verdict: "right-but", why: ["reduce"] };
    if (states && same(typed, right)) return { verdict: "right-but", why: ["states"] };
    if (withElectrons(mine) < 2 && ratio(cancelled(mine), theirs)) return { verdict: "right-but", why: ["cancel"] };
    return { verdict: "not-yet", why: reasons(typed, mine, theirs) };
  }

  function reasons(typed, mine, theirs) {
    if (ratio(cancelled(mine).reverse(), theirs)) return ["reversed"];
    const why = withElectrons(mine) > withElectrons(theirs) ? ["electrons-left"] : [];
    why.push(...imbalance(typed));
    const names = (sides) => [...new Set([...sides[0].keys(), ...sides[1].keys()])].sort().join();
    return why.length === 0 && names(mine) !== names(theirs) ? ["species-differ"] : why;
  }

  /** Whether two equations agree but for order, state symbols and a common factor. */
  const same = (one, other) => ratio(counted(one, false), counted(other, false)) !== null;

  /** What is made less what is used up, by species; what stands on both sides alike counts nothing. */
  function net(sides) {
    const sums = new Map();
    sides.forEach((side, place) => side.forEach(({ count, species }) => {
      sums.set(species.contents, (sums.get(species.contents) || 0) + (place === 0 ? -count : count));
    }));
    return new Map([...sums].filter(([, count]) => count !== 0));
  }

  /** By which factor one equation is the other: 2 doubled, -1 the other way round; else null. */
  function multipleOf(one, other) {
    const [mine, theirs] = [net(one), net(other)];
    const names = [...mine.keys()];
    if (names.length === 0 || mine.size !== theirs.size || !names.every((name) => theirs.has(name))) return null;
    const [first] = names;
    const alike = names.every((name) => mine.get(name) * theirs.get(first) === mine.get(first) * theirs.get(name));
    return alike ? mine.get(first) / theirs.get(first) : null;
  }

  globalThis.saltbridgeEquations = Object.freeze({ read, compare, same, multipleOf, strict: readStrict });
})();
