import { GrammarError, type Expansion } from './jsgf';
import type { Rules } from './rules';

/** A node of the phrase tree: what may follow, and the tags if a phrase ends here. */
export interface PhraseNode { readonly next: ReadonlyMap<string, PhraseNode>; readonly tags?: readonly string[] }

interface Growing { next: Map<string, Growing>; tags?: readonly string[]; place?: string }
interface Phrase { readonly words: readonly string[]; readonly tags: readonly string[] }

/** Every sentence of a finite expansion. */
function phrasesOf(rules: Rules, part: Expansion): Phrase[] {
  switch (part.kind) {
    case 'word': return [{ words: [part.word], tags: [] }];
    case 'tag': return [{ words: [], tags: [part.tag] }];
    case 'rule': return phrasesOf(rules, rules.get(part.name)!.expansion);
    case 'alternatives': return part.options.flatMap((option) => phrasesOf(rules, option));
    case 'optional': return [{ words: [], tags: [] }, ...phrasesOf(rules, part.item)];
    case 'sequence':
      return part.items.map((item) => phrasesOf(rules, item)).reduce((rows, next) =>
        rows.flatMap((row) => next.map((more) => ({ words: [...row.words, ...more.words], tags: [...row.tags, ...more.tags] }))));
    case 'repeat': throw new Error('A phrase may not repeat without end (* or +).');
  }
}

/**
 * Lays all phrases of a public rule out as a tree of words for longest-match reading.
 * Throws GrammarError when one phrase has two meanings, naming both rules (an AggregateError of them when there are several).
 */
export function phraseTree(rules: Rules, name: string): PhraseNode {
  const root: Growing = { next: new Map() };
  const seen = new Set<string>();
  const faults: GrammarError[] = [];
  const plant = (ruleName: string): void => {
    if (seen.has(ruleName)) return;
    seen.add(ruleName);
    const rule = rules.get(ruleName)!;
    const options = rule.expansion.kind === 'alternatives' ? rule.expansion.options : [rule.expansion];
    for (const option of options) {
      if (option.kind === 'rule') { plant(option.name); continue; }
      for (const phrase of phrasesOf(rules, option)) {
        let node = root;
        for (const word of phrase.words) {
          let child = node.next.get(word);
          if (!child) node.next.set(word, (child = { next: new Map() }));
          node = child;
        }
        const place = `<${rule.name}> of ${rule.file}`;
        if (phrase.words.length === 0) throw new GrammarError(rule.file, rule.line, `rule <${rule.name}>: a phrase has no words.`);
        if (node.tags && node.tags.join() !== phrase.tags.join())
          faults.push(new GrammarError(rule.file, rule.line, `"${phrase.words.join(' ')}" has two meanings: {${node.tags.join(' ')}} in ${node.place} and {${phrase.tags.join(' ')}} in ${place}.`));
        node.tags ??= phrase.tags;
        node.place ??= place;
      }
    }
  };
  plant(name);
  if (faults.length === 1) throw faults[0]!;
  if (faults.length > 1) throw new AggregateError(faults, faults.map((fault) => fault.message).join('\n'));
  return root;
}
