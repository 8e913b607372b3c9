type Code = number | null;
type State = (code: Code) => State | undefined;

/** As much of the Markdown tokenizer as is used here. */
interface Effects {
  enter(type: string): unknown;
  exit(type: string): unknown;
  consume(code: Code): void;
  check(construct: { tokenize: typeof lookForFormula; partial: true }, found: State, none: State): State;
}

interface Parser {
  data(): { micromarkExtensions?: object[] };
}

const dollar = 36;

/**
 * Leaves prices their dollar signs: in `$5 and $6` nothing is mathematics. A dollar sign begins a formula
 * only when the next single dollar sign ends it, no space stands inside either of the two, and no digit
 * follows the second.
 */
export function prices(this: unknown): void {
  const data = (this as Parser).data();
  data.micromarkExtensions = [
    ...(data.micromarkExtensions ?? []),
    { text: { [dollar]: { name: 'price', tokenize: readPrice } } },
  ];
}

/** Takes the dollar sign of a price as text; refuses the one that begins a formula. */
function readPrice(effects: Effects, ok: State, nok: State): State {
  const formula = { tokenize: lookForFormula, partial: true } as const;
  return (code) => effects.check(formula, nok, price)(code);

  function price(code: Code): State {
    effects.enter('data');
    effects.consume(code);
    effects.exit('data');
    return ok;
  }
}

function lookForFormula(effects: Effects, ok: State, nok: State): State {
  let last: Code = dollar;
  return open;

  function take(code: Code, next: State): State {
    effects.consume(code);
    return next;
  }

  function open(code: Code): State {
    effects.enter('formula');
    return take(code, begin);
  }

  /** Two dollar signs together always mean mathematics. */
  function begin(code: Code): State | undefined {
    if (code === dollar) return end(code, true);
    return isSpace(code) ? end(code, false) : within(code);
  }

  function within(code: Code): State | undefined {
    if (code === null) return end(code, false);
    if (code === dollar) return take(code, close);
    last = code;
    return take(code, within);
  }

  function close(code: Code): State | undefined {
    if (code === dollar) return take(code, pass);
    return end(code, !isSpace(last) && !isDigit(code));
  }

  /** A longer run of dollar signs inside belongs to the formula. */
  function pass(code: Code): State | undefined {
    if (code === dollar) return take(code, pass);
    last = dollar;
    return within(code);
  }

  function end(code: Code, isFormula: boolean): State | undefined {
    effects.exit('formula');
    return isFormula ? ok(code) : nok(code);
  }
}

/** Line endings and tabs have negative codes. */
const isSpace = (code: Code) => code === null || code < 0 || code === 32;
const isDigit = (code: Code) => code !== null && code >= 48 && code <= 57;
