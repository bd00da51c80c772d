import { GrammarError, readJsgf, type Expansion, type GrammarFile, type Rule } from './jsgf';

/** Every rule of all grammar files by name, checked: nothing undefined, recursive, doubled or unreachable. */
export type Rules = ReadonlyMap<string, Rule>;

/** File name to text, as the platform adapters read grammars/*.jsgf. */
export type GrammarTexts = Readonly<Record<string, string>>;

export function* childrenOf(expansion: Expansion): Generator<Expansion> {
  if (expansion.kind === 'sequence') yield* expansion.items;
  else if (expansion.kind === 'alternatives') yield* expansion.options;
  else if (expansion.kind === 'optional' || expansion.kind === 'repeat') yield expansion.item;
}

export function* everyPart(expansion: Expansion): Generator<Expansion> {
  yield expansion;
  for (const child of childrenOf(expansion)) yield* everyPart(child);
}

type Reference = Extract<Expansion, { readonly kind: 'rule' }>;

/** The rules that each rule uses, with the lines where it does. */
function referencesOf(rules: Iterable<Rule>): ReadonlyMap<Rule, readonly Reference[]> {
  const gather = (part: Expansion, found: Reference[]): void => {
    switch (part.kind) {
      case 'rule': found.push(part); break;
      case 'sequence': for (const item of part.items) gather(item, found); break;
      case 'alternatives': for (const option of part.options) gather(option, found); break;
      case 'optional': case 'repeat': gather(part.item, found); break;
    }
  };
  const references = new Map<Rule, readonly Reference[]>();
  for (const rule of rules) { const found: Reference[] = []; gather(rule.expansion, found); references.set(rule, found); }
  return references;
}

/** Reads and links all grammars. Rule names are unique over all files, so that a name is one thing everywhere. */
export function linkGrammars(texts: GrammarTexts): Rules {
  const files = Object.entries(texts).map(([file, text]) => readJsgf(text, file));
  const byName = new Map<string, Rule>();
  for (const rule of files.flatMap((file) => file.rules)) {
    const twin = byName.get(rule.name);
    if (twin) throw new GrammarError(rule.file, rule.line, `rule <${rule.name}> is defined already in ${twin.file}:${twin.line}.`);
    byName.set(rule.name, rule);
  }
  const uses = referencesOf(byName.values());
  checkImports(files, byName, uses);
  checkRecursion(byName, uses);
  checkReach(byName, uses);
  return byName;
}

type Uses = ReadonlyMap<Rule, readonly Reference[]>;

function checkImports(files: readonly GrammarFile[], rules: Rules, uses: Uses): void {
  const known = new Map(files.map((file) => [file.name, file]));
  for (const file of files) {
    for (const name of file.imports) if (!known.has(name)) throw new GrammarError(file.file, 1, `imports <${name}.*>, which no grammar file is named.`);
    const inScope = new Set([file.file, ...file.imports.map((name) => known.get(name)!.file)]);
    for (const rule of file.rules) for (const part of uses.get(rule)!) {
      const target = rules.get(part.name);
      if (!target) throw new GrammarError(file.file, part.line, `rule <${rule.name}> uses <${part.name}>, which is not defined.`);
      if (!inScope.has(target.file)) throw new GrammarError(file.file, part.line, `rule <${rule.name}> uses <${part.name}> of ${target.file}: import that grammar.`);
    }
  }
}

function checkRecursion(rules: Rules, uses: Uses): void {
  const done = new Set<string>();
  const visit = (rule: Rule, trail: readonly string[]): void => {
    if (trail.includes(rule.name)) throw new GrammarError(rule.file, rule.line, `rule <${rule.name}> contains itself (${[...trail, rule.name].join(' > ')}): recognisers cannot take recursion.`);
    if (done.has(rule.name)) return;
    for (const part of uses.get(rule)!) visit(rules.get(part.name)!, [...trail, rule.name]);
    done.add(rule.name);
  };
  for (const rule of rules.values()) visit(rule, []);
}

function checkReach(rules: Rules, uses: Uses): void {
  const reached = new Set<string>();
  const visit = (rule: Rule): void => {
    if (reached.has(rule.name)) return;
    reached.add(rule.name);
    for (const part of uses.get(rule)!) visit(rules.get(part.name)!);
  };
  for (const rule of rules.values()) if (rule.isPublic) visit(rule);
  for (const rule of rules.values()) if (!reached.has(rule.name)) throw new GrammarError(rule.file, rule.line, `rule <${rule.name}> is never used: no public rule reaches it.`);
}
