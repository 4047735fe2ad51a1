// Reads and compares typed equations; twin of generator/saltbridge/answers/equations.py and of the formula grammar there.
// Pure: no page, no storage, no sentence. Loaded before answers.js.
// Public: saltbridgeEquations = { read(typed), compare(typed, right, states), same(one, other), multipleOf(one, other), strict(text) }
(() => {
  "use strict";

  const LONGEST = 400;
  const LONGEST_SPECIES = 80;
  const MOST_TERMS = 12;
  const DEEPEST = 4;
  const SYMBOLS = new Set((
    "H He Li Be B C N O F Ne Na Mg Al Si P S Cl Ar K Ca Sc Ti V Cr Mn Fe Co Ni Cu Zn Ga Ge As Se Br Kr Rb Sr Y Zr Nb Mo Tc Ru " +
    "Rh Pd Ag Cd In Sn Sb Te I Xe Cs Ba La Ce Pr Nd Pm Sm Eu Gd Tb Dy Ho Er Tm Yb Lu Hf Ta W Re Os Ir Pt Au Hg Tl Pb Bi Po At " +
    "Rn Fr Ra Ac Th Pa U Np Pu Am Cm Bk Cf Es Fm Md No Lr Rf Db Sg Bh Hs Mt Ds Rg Cn Nh Fl Mc Lv Ts Og").split(" "));

  const { cleaned } = globalThis.saltbridgeNumbers;
  const KNOWN = /^[ -~·•∙⋅½→⟶➔➜➝⇒⟹⇌⇄↔⟷⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻₀₁₂₃₄₅₆₇₈₉]*$/;
  const ARROW = / +(?:--+>|==+>) *| *(?:<=+>|<-+>|->|=>|[→⟶➔➜➝⇒⟹⇌⇄↔⟷=]) */;
  const PLUS = / +\+ +/;
  const TERM = /^([0-9]* *)(.*?)( *\((?:s|l|g|aq)\))?$/;
  const BROKEN_COUNT = /^(?:[0-9]+[.,/][0-9]+|[0-9]*½)/;
  const NON_METALS = "H|He|B|C|N|O|F|Ne|Si|P|S|Cl|Ar|As|Se|Br|Kr|Te|I|Xe|At|Rn";
  const DOUBTFUL = new RegExp(`^(?:(${NON_METALS})([0-9])([+-])|([A-Z][a-z]?)([0-9])(-))$`);
  const UNCLEAR = [/^([A-Z][a-z]?|.*\])([0-9]{1,3})([+-])$/, /^(.*[^0-9][0-9]+)([0-9])([+-])$/];
  // How a charge may be written beside the notation, and what it means; whether the species is right plays no part.
  const CHARGES = [
    [/^([^^{]*)\^?\{([0-9]*)([+-])\}$/, "$1^$2$3"],
    [/^(.*[A-Za-z0-9\])])\^?([+-])([1-9])$/, "$1^$3$2"],
    [/^(.*[A-Za-z0-9\])])\^?\+\+$/, "$1^2+"],
    [/^(.*[A-Za-z0-9\])])\^?\+\+\+$/, "$1^3+"],
    [/^([A-Z][a-z]?|.*\])([1-9])(\+|-)$/, "$1^$2$3"],
    [/^([^^]*[^0-9^][0-9]+)([1-9])([+-])$/, "$1^$2$3"],
  ];
  const ROMAN = /^([A-Z][a-z]?) ?\((I|II|III|IV|V|VI|VII)\)$/;
  const NUMERALS = { I: "", II: "2", III: "3", IV: "4", V: "5", VI: "6", VII: "7" };
  const CAPITALS = /^([A-Z])([A-Z])([^a-z].*)?$/;
  const MOLECULES = new Set(["CO", "NO", "HF"]);
  const STATE = / *\((s|l|g|aq)\)$/i;
  const LONGEST_QUOTE = 24;

  // ------------------------------------------------------------ species

  /** Thrown while reading, caught in read(): the code says why. */
  class Unreadable extends Error {
    constructor(code) {
      super(code);
      this.code = code;
    }
  }

  const level = (characters, plain) => (text) => Array.from(text, (c) => plain[characters.indexOf(c)] ?? c).join("");
  const unraise = level("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻", "0123456789+-");
  const lower = level("₀₁₂₃₄₅₆₇₈₉−–•∙⋅", "0123456789--···");

  /** {contents: atoms and charge as a text, atoms: Map, charge, phase} of a species; throws Unreadable. */
  function readSpecies(text) {
    if (Array.from(text).length > LONGEST_SPECIES) throw new Unreadable("too-long");
    const plain = lower(text.trim().replace(/[⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻]+/g, (run) => "^" + unraise(run)));
    const phased = /\s*\((s|l|g|aq)\)$/.exec(plain);
    const body = phased ? plain.slice(0, phased.index) : plain;
    const phase = phased ? phased[1] : "";
    if (body === "e-" || body === "e^-") return { contents: "e", atoms: new Map(), charge: -1, phase: "" };
    const [formula, charge] = splitCharge(body);
    const atoms = readFormula(formula);
    const contents = [...atoms].map(([symbol, count]) => symbol + count).sort().join(" ") + "^" + charge;
    return { contents, atoms, charge, phase };
  }

  function splitCharge(body) {
    const marked = /\^([0-9]*)([+-])$/.exec(body);
    if (marked) {
      const size = marked[1] === "" ? 1 : Number(marked[1]);
      if (marked[1].length > 3 || marked[1].startsWith("0") || size < 1) throw new Unreadable("species");
      return [body.slice(0, marked.index), marked[2] === "+" ? size : -size];
    }
    if (body.includes("^")) throw new Unreadable("species");
    const sign = body.slice(-1);
    if (sign !== "+" && sign !== "-") return [body, 0];
    const formula = body.slice(0, -1);
    if (/[+-]$/.test(formula)) throw new Unreadable("species");
    if (UNCLEAR.some((pattern) => pattern.test(body))) throw new Unreadable("charge-unclear");
    return [formula, sign === "+" ? 1 : -1];
  }

  /** The atoms of a formula with brackets and hydrate dots, as a Map from symbol to count. */
  function readFormula(formula) {
    let place = 0;
    const here = () => formula.charAt(place);
    const add = (totals, inside, times) => inside.forEach((n, symbol) => totals.set(symbol, (totals.get(symbol) || 0) + n * times));
    const count = () => {
      const digits = /^[0-9]*/.exec(formula.slice(place))[0];
      if (digits.startsWith("0") || digits.length > 3) throw new Unreadable("species");
      place += digits.length;
      return digits === "" ? 1 : Number(digits);
    };
    const symbol = () => {
      const two = formula.slice(place, place + 2);
      for (const name of /^[A-Z][a-z]$/.test(two) ? [two, two[0]] : [two.slice(0, 1)]) {
        if (SYMBOLS.has(name)) {
          place += name.length;
          return new Map([[name, 1]]);
        }
      }
      throw new Unreadable("species");
    };
    const group = (depth) => {
      const closing = here() === "(" ? ")" : "]";
      place += 1;
      const inside = part(depth + 1);
      if (here() !== closing) throw new Unreadable("species");
      place += 1;
      return inside;
    };
    const part = (depth) => {
      if (depth > DEEPEST) throw new Unreadable("species");
      const totals = new Map();
      const start = place;
      while (here() !== "" && !")]·.*".includes(here())) {
        const inside = here() === "(" || here() === "[" ? group(depth) : symbol();
        add(totals, inside, count());
      }
      if (place === start) throw new Unreadable("species");
      return totals;
    };
    const totals = new Map();
    for (let first = true; ; first = false) {
      const times = first ? 1 : count();
      add(totals, part(0), times);
      if (here() === "" || !"·.*".includes(here())) break;
      place += 1;
    }
    if (here() !== "") throw new Unreadable("species");
    return totals;
  }

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

  /** The two species that a bare figure and sign can mean; none where there is no doubt. */
  function readings(body) {
    const match = DOUBTFUL.exec(body);
    if (!match) return [];
    const [head, figure, sign] = match[1] ? match.slice(1, 4) : match.slice(4, 7);
    return [`${head}^${figure}${sign}`, `${head}${figure}^${sign}`];
  }

  /** The term in our notation, where its charge is written in another that leaves no doubt. */
  function madeClear(term) {
    const [, count, body, phase] = TERM.exec(term);
    const found = DOUBTFUL.test(body) ? undefined : CHARGES.find(([pattern]) => pattern.test(body));
    return found ? count + body.replace(...found) + (phase || "") : term;
  }

  const quoted = (term) => (term.length <= LONGEST_QUOTE ? term : term.slice(0, LONGEST_QUOTE) + "…");

  /** A fault that has a name and a cure, as {why, readings}; null where there is none. */
  function namedFault(term) {
    if (BROKEN_COUNT.test(term)) return { why: "whole-numbers", readings: [] };
    const [, count, body] = /^([0-9 ]*)(.*)$/.exec(term);
    const state = STATE.exec(body);
    const bare = state ? body.slice(0, state.index) : body;
    if (state && state[1].toLowerCase() !== state[1]) {
      return { why: "state-case", readings: [quoted(term), `${count}${bare}(${state[1].toLowerCase()})`.slice(0, LONGEST_QUOTE)] };
    }
    const roman = ROMAN.exec(bare);
    if (roman) return { why: "roman", readings: [quoted(term), `${count}${roman[1]}^${NUMERALS[roman[2]]}+`] };
    const capitals = CAPITALS.exec(bare);
    if (!capitals || MOLECULES.has(bare)) return null;
    const [, first, second, rest = ""] = capitals;
    const meant = first + second.toLowerCase();
    const alone = /^(?:\^?[0-9+{}⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻-]+)?$/.test(rest);
    const spelled = SYMBOLS.has(first) && SYMBOLS.has(second) && rest !== "";
    if (!SYMBOLS.has(meant) || !alone || (!/[+⁺]/.test(rest) && spelled)) return null;
    return { why: "element-case", readings: [quoted(term), `${count}${meant}${rest}`.slice(0, LONGEST_QUOTE)] };
  }

  function whyNot(code, term) {
    if (code === "charge-unclear") return { why: code, readings: readings(TERM.exec(term)[2]) };
    return { why: code, readings: code === "species" ? [quoted(term)] : [] };
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
