import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Context, Statement } from '../../src/parser/statement';
import { MRC_GRADES, checkFinding, type Finding, type ItemKey, type Side, type SignCode, type SiteCode } from '../../src/vocabulary';
import type { Phrase } from './phrase';

const lines = (file: string): string[] => readFileSync(new URL(file, import.meta.url), 'utf8').split('\n').filter((line) => line !== '');
const phrases = (file: string): Phrase[] => lines(file).map((line, index) => {
  try { return JSON.parse(line) as Phrase; } catch (error) { throw new Error(`${file}, line ${index + 1}: ${String(error)}`); }
});
const normalised = (text: string): string => text.toLowerCase().replace(/[^a-z0-9+./%°-]+/g, ' ').trim();
const shared = (a: readonly string[], b: readonly string[]): string[] => { const seen = new Set(b.map(normalised)); return a.filter((text) => seen.has(normalised(text))); };
const repeated = (texts: readonly string[]): string[] => texts.filter((text, index) => texts.findIndex((other) => normalised(other) === normalised(text)) < index);

const measuring = phrases('language-set.jsonl');
const measuring2 = phrases('language-measuring-2.jsonl');
const tuning = phrases('language-tuning.jsonl');
const tuning2 = phrases('language-tuning-2.jsonl');
const tuning3 = phrases('language-tuning-3.jsonl');
const bystander = lines('bystander.txt');
const bystanderTuning = lines('bystander-tuning.txt');
const texts = (set: readonly Phrase[]): string[] => set.map((phrase) => phrase.text);

/** Every list of findings that a phrase may be understood as. */
const readings = (phrase: Phrase): readonly (readonly Finding[])[] => phrase.expect.flatMap((statement) => {
  switch (statement.type) {
    case 'findings': return [statement.findings, ...(phrase.accept ?? []) as readonly (readonly Finding[])[]];
    case 'gap': return statement.options;
    default: return [];
  }
});

const item = (key: ItemKey): { sign: SignCode; site: SiteCode } => {
  const [sign, site] = key.split('@');
  return { sign: sign as SignCode, site: site as SiteCode };
};

/** The sides that a phrase itself names; an own check on the writer, so deliberately naive. Spelled letters ("f p l") name no side. */
const named = (text: string): Set<Side> => {
  const words = text.replace(/\b[a-z]( [a-z])+\b/g, '');
  return new Set<Side>([...(/\b(left|lt|l)\b/.test(words) ? ['left' as const] : []), ...(/\b(right|rt|r)\b/.test(words) ? ['right' as const] : [])]);
};

describe.each([['language-set.jsonl', measuring, 440], ['language-measuring-2.jsonl', measuring2, 420], ['language-tuning.jsonl', tuning, 300], ['language-tuning-2.jsonl', tuning2, 420], ['language-tuning-3.jsonl', tuning3, 420]] as const)('%s', (_file, set, least) => {
  it('holds as many phrases as promised, a quarter of them not findings', () => {
    expect(set.length).toBeGreaterThanOrEqual(least);
    expect(set.filter((phrase) => phrase.kind === 'nonfinding').length).toBeGreaterThanOrEqual(set.length / 4);
  });

  it('has one id and one wording a phrase, in lower case', () => {
    expect(new Set(set.map((phrase) => phrase.id)).size).toBe(set.length);
    expect(repeated(texts(set))).toEqual([]);
    expect(texts(set).filter((text) => text !== text.toLowerCase() || text !== text.trim() || text === '')).toEqual([]);
    expect(set.filter((phrase) => phrase.forms.length === 0)).toEqual([]);
  });

  it('expects only sound findings', () => {
    const faults = set.flatMap((phrase) => [...readings(phrase).flat(), ...(phrase.context?.findings ?? [])].flatMap((finding) => checkFinding(finding).map((fault) => `${phrase.id} ${phrase.text}: ${fault}`)));
    expect(faults).toEqual([]);
  });

  it('expects of each kind what that kind can give', () => {
    for (const phrase of set) {
      const types = phrase.expect.map((statement) => statement.type);
      expect(types, phrase.id).toEqual(phrase.kind === 'nonfinding' ? [] : [phrase.kind === 'finding' ? 'findings' : phrase.kind]);
      for (const statement of phrase.expect) {
        if (statement.type === 'findings') expect(statement.findings.length, phrase.id).toBeGreaterThan(0);
        if (statement.type === 'order' && statement.order.order === 'amend' && statement.order.grade) expect(MRC_GRADES, phrase.id).toContain(statement.order.grade);
        if (statement.type === 'not testable') for (const key of statement.items)
          expect(checkFinding({ side: 'left', ...item(key), result: { kind: 'not testable', reason: statement.reason } }), phrase.id).toEqual([]);
      }
    }
  });

  it('takes every side from the words or, where they name none, from the context', () => {
    for (const phrase of set.filter(({ kind, forms, expect: [first] }) => kind === 'finding' && first?.type === 'findings' && !forms.some((form) => ['sides', 'ellipsis', 'comparative', 'correction', 'hesitation'].includes(form)))) {
      const said = named(phrase.text);
      const current = phrase.context?.currentSide;
      const sides = said.size > 0 ? said : new Set<Side>(current === 'both' ? ['left', 'right'] : current ? [current] : []);
      for (const findings of readings(phrase)) expect([...new Set(findings.map((finding) => finding.side))].sort(), `${phrase.id} ${phrase.text}`).toEqual([...sides].sort());
    }
  });

  it('asks for a missing side with the same findings on either side', () => {
    for (const phrase of set) for (const statement of phrase.expect) if (statement.type === 'gap' && statement.gap === 'side') {
      const [left, right] = statement.options;
      expect(left?.every((finding) => finding.side === 'left'), phrase.id).toBe(true);
      expect(right, phrase.id).toEqual(left?.map((finding) => ({ ...finding, side: 'right' })));
    }
  });

  it('gives no second reading that only repeats the first', () => {
    for (const phrase of set) {
      const all = [JSON.stringify(phrase.expect[0]?.type === 'findings' ? phrase.expect[0].findings : phrase.expect), ...(phrase.accept ?? []).map((other) => JSON.stringify(other))];
      expect(new Set(all).size, phrase.id).toBe(all.length);
    }
  });
});

describe('bystander speech', () => {
  it('holds as many lines as promised, none twice', () => {
    expect(bystander.length).toBeGreaterThanOrEqual(260);
    expect(bystanderTuning.length).toBeGreaterThanOrEqual(120);
    expect(repeated(bystander)).toEqual([]);
    expect(repeated(bystanderTuning)).toEqual([]);
  });
});

describe('measuring and tuning material', () => {
  it('shares no wording', () => {
    expect(shared([...texts(measuring), ...texts(measuring2), ...bystander], [...texts(tuning), ...texts(tuning2), ...texts(tuning3), ...bystanderTuning])).toEqual([]);
    expect(shared(texts(measuring2), [...texts(measuring), ...bystander])).toEqual([]);
    expect(shared(texts(tuning2), [...texts(tuning), ...bystanderTuning])).toEqual([]);
    expect(shared(texts(tuning3), [...texts(tuning), ...texts(tuning2), ...bystanderTuning])).toEqual([]);
  });
});
