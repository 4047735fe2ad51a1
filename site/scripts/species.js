// Reads one typed species; twin of generator/saltbridge/answers/typed_species.py and of the formula grammar of the chemistry room.
// Pure: no page, no storage, no sentence. Loaded after numbers.js.
// Public: saltbridgeSpecies = { Unreadable, readSpecies, readTyped, madeClear, namedFault, whyNot, quoted, identity, read, compare }
(() => {
  "use strict";

  const LONGEST_SPECIES = 80;
  const DEEPEST = 4;
  const SYMBOLS = new Set((
    "H He Li Be B C N O F Ne Na Mg Al Si P S Cl Ar K Ca Sc Ti V Cr Mn Fe Co Ni Cu Zn Ga Ge As Se Br Kr Rb Sr Y Zr Nb Mo Tc Ru " +
    "Rh Pd Ag Cd In Sn Sb Te I Xe Cs Ba La Ce Pr Nd Pm Sm Eu Gd Tb Dy Ho Er Tm Yb Lu Hf Ta W Re Os Ir Pt Au Hg Tl Pb Bi Po At " +
    "Rn Fr Ra Ac Th Pa U Np Pu Am Cm Bk Cf Es Fm Md No Lr Rf Db Sg Bh Hs Mt Ds Rg Cn Nh Fl Mc Lv Ts Og").split(" "));

  const { cleaned } = globalThis.saltbridgeNumbers;
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


  // ------------------------------------------------------------ one species

  const GRAPHITE = /^(?:C ?\((?:graphite?|gr)\)|graphite?)$/i;
  const KNOWN = /^[ -~·•∙⋅⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻₀₁₂₃₄₅₆₇₈₉]*$/;
  const COUNTED = /^([1-9][0-9]{0,2}) ?(?=[A-Z[(])/;
  const HYDROGEN_ION = "H1^1";
  const HYDRONIUM = "H3 O1^1";

  /** A species in any of its usual writings: as readSpecies gives it, or {why, readings}. */
  function readTyped(text) {
    if (GRAPHITE.test(text)) return readSpecies("C(s)");
    const named = namedFault(text);
    if (named) return named;
    try {
      return readSpecies(madeClear(text));
    } catch (problem) {
      if (!(problem instanceof Unreadable)) throw problem;
      return whyNot(problem.code, text);
    }
  }

  /** Atoms and charge as a name; the hydrogen ion is the same with a water. */
  const identity = ({ contents }) => (contents === HYDRONIUM ? HYDROGEN_ION : contents);

  /** A whole answer: {species, counted} with whether a number stands before it, or {why, readings}. */
  function read(typed) {
    if (typeof typed === "string" && Array.from(typed).length > LONGEST_SPECIES) return { why: "too-long", readings: [] };
    const text = typeof typed === "string" ? cleaned(typed) : "";
    if (text === "") return { why: "empty", readings: [] };
    if (!KNOWN.test(text)) return { why: "species-character", readings: [] };
    const species = readTyped(text.replace(COUNTED, ""));
    return species.why ? species : { species, counted: COUNTED.test(text) };
  }

  /** {verdict, why} of a species as read() gives it beside the right one; states count only where they are asked for. */
  function compare(typed, right, states) {
    const mine = typed.species;
    if (identity(mine) !== identity(right)) return { verdict: "not-yet", why: reasons(mine, right) };
    const why = typed.counted ? ["counted"] : [];
    if (states && mine.contents !== "e" && right.phase && mine.phase !== right.phase) why.push("states");
    return why.length ? { verdict: "right-but", why } : { verdict: "right", why: [] };
  }

  function reasons(mine, right) {
    const [own, wanted] = [mine, right].map(({ atoms }) => [...atoms].map(([symbol, count]) => symbol + count).sort().join());
    if (own === wanted) return ["species-charge"];
    const elements = [...mine.atoms.keys()].filter((symbol) => right.atoms.has(symbol));
    if (elements.length === right.atoms.size && elements.length === mine.atoms.size) return ["species-formula"];
    return elements.some((symbol) => symbol !== "O" && symbol !== "H") ? ["species-element"] : [];
  }

  globalThis.saltbridgeSpecies = Object.freeze({
    Unreadable, readSpecies, readTyped, madeClear, namedFault, whyNot, quoted, identity, read, compare,
  });
})();
