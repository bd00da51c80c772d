/**
 * Reads the part of JSGF 1.0 (JSpeech Grammar Format, W3C note, 5 June 2000) that the grammars in grammars/ use:
 * header, grammar name, imports, rules, alternatives, sequences, groups, [optional], *, + and {tags}.
 * Weights (/0.5/) are read and dropped: a weight is not a meaning, and recognisers weigh the compiled automaton.
 */

export type Expansion =
  | { readonly kind: 'word'; readonly word: string; readonly line: number }
  | { readonly kind: 'tag'; readonly tag: string }
  | { readonly kind: 'rule'; readonly name: string; readonly line: number }
  | { readonly kind: 'sequence'; readonly items: readonly Expansion[] }
  | { readonly kind: 'alternatives'; readonly options: readonly Expansion[] }
  | { readonly kind: 'optional'; readonly item: Expansion }
  | { readonly kind: 'repeat'; readonly item: Expansion; readonly min: 0 | 1 };

export interface Rule { readonly name: string; readonly file: string; readonly line: number; readonly isPublic: boolean; readonly expansion: Expansion }
export interface GrammarFile { readonly name: string; readonly file: string; readonly imports: readonly string[]; readonly rules: readonly Rule[] }

/** A fault in a grammar or lexicon, with the place to mend: "spoken.jsgf:12: …". */
export class GrammarError extends Error {
  constructor(readonly file: string, readonly line: number, message: string) {
    super(`${file}:${line}: ${message}`);
    this.name = 'GrammarError';
  }
}

interface Token { readonly type: 'word' | 'rule' | 'tag' | 'mark'; readonly text: string; readonly line: number }

const TOKEN = /(\s+|\/\/[^\n]*|\/\*[\s\S]*?\*\/|\/\d*\.?\d+\/)|<([^<>\s]+)>|\{([^{}]*)\}|([=;|()[\]*+])|([^\s;=|*+<>()[\]{}"/]+)/y;

function tokenise(text: string, file: string): Token[] {
  const tokens: Token[] = [];
  let line = 1;
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < text.length) {
    const at = TOKEN.lastIndex;
    const match = TOKEN.exec(text);
    if (!match) throw new GrammarError(file, line, `cannot read "${text.slice(at, at + 12).trim()}".`);
    const [whole, , rule, tag, mark, word] = match;
    if (rule !== undefined) tokens.push({ type: 'rule', text: rule, line });
    else if (tag !== undefined) tokens.push({ type: 'tag', text: tag.trim(), line });
    else if (mark !== undefined) tokens.push({ type: 'mark', text: mark, line });
    else if (word !== undefined) tokens.push({ type: 'word', text: word, line });
    line += whole.split('\n').length - 1;
  }
  return tokens;
}

/** Reads one grammar file. Throws GrammarError with file and line at the first fault. */
export function readJsgf(text: string, file: string): GrammarFile {
  const header = /^\s*#JSGF V1\.0[^;]*;/.exec(text);
  if (!header) throw new GrammarError(file, 1, 'the file must begin with "#JSGF V1.0;".');
  const body = header[0].replace(/[^\n]/g, ' ') + text.slice(header[0].length);
  const tokens = tokenise(body, file);
  let next = 0;
  const lineHere = (): number => (tokens[next] ?? tokens.at(-1))?.line ?? 1;
  const fail = (message: string): never => { throw new GrammarError(file, lineHere(), message); };
  const at = (mark: string): boolean => tokens[next]?.type === 'mark' && tokens[next]?.text === mark;
  const atWord = (word: string): boolean => tokens[next]?.type === 'word' && tokens[next]?.text === word;
  const eat = (mark: string): void => { if (!at(mark)) fail(`"${mark}" expected before "${tokens[next]?.text ?? 'end of file'}".`); next += 1; };

  function alternatives(): Expansion {
    const options = [sequence()];
    while (at('|')) { next += 1; options.push(sequence()); }
    return options.length === 1 ? options[0]! : { kind: 'alternatives', options };
  }
  function sequence(): Expansion {
    const items: Expansion[] = [];
    for (let token = tokens[next]; token && !(token.type === 'mark' && '|);]'.includes(token.text)); token = tokens[next]) items.push(item(token));
    if (items.length === 0) fail('an alternative is empty; write [ ] for something optional.');
    return items.length === 1 ? items[0]! : { kind: 'sequence', items };
  }
  function item(token: Token): Expansion {
    next += 1;
    let read: Expansion;
    if (token.type === 'word') {
      if (token.text !== token.text.toLowerCase()) throw new GrammarError(file, token.line, `"${token.text}" must be in lower case: recognisers' dictionaries are.`);
      read = { kind: 'word', word: token.text, line: token.line };
    } else if (token.type === 'tag') read = { kind: 'tag', tag: token.text };
    else if (token.type === 'rule') read = { kind: 'rule', name: token.text, line: token.line };
    else if (token.text === '(') { read = alternatives(); eat(')'); }
    else if (token.text === '[') { read = { kind: 'optional', item: alternatives() }; eat(']'); }
    else { next -= 1; return fail(`"${token.text}" is out of place.`); }
    if (at('*') || at('+')) { read = { kind: 'repeat', item: read, min: at('*') ? 0 : 1 }; next += 1; }
    return read;
  }

  if (!atWord('grammar')) fail('"grammar NAME;" must follow the header.');
  next += 1;
  const name = tokens[next]?.text ?? fail('the grammar has no name.');
  next += 1; eat(';');
  const imports: string[] = [];
  while (atWord('import')) {
    next += 1;
    imports.push((tokens[next]?.text ?? '').replace(/\.\*$/, ''));
    next += 1; eat(';');
  }
  const rules: Rule[] = [];
  while (next < tokens.length) {
    const isPublic = atWord('public');
    if (isPublic) next += 1;
    const head = tokens[next];
    if (head?.type !== 'rule') return fail(`a rule "<name> = …;" was expected before "${head?.text ?? 'end of file'}".`);
    next += 1; eat('=');
    const expansion = alternatives();
    eat(';');
    rules.push({ name: head.text, file, line: head.line, isPublic, expansion });
  }
  return { name, file, imports, rules };
}
