import { describe, expect, it } from 'vitest';
import { isSiteCode, MUSCLES } from '../../src/vocabulary';
import { ANATOMY_FACTS, NERVE_NAMES, type AnatomyFact } from './anatomy-facts';

const ofKind = <K extends AnatomyFact['kind']>(kind: K): Extract<AnatomyFact, { kind: K }>[] => ANATOMY_FACTS.filter((fact): fact is Extract<AnatomyFact, { kind: K }> => fact.kind === kind);

describe('the outside facts of anatomy', () => {
  it('are at least 80, each with its own id and a source', () => {
    expect(ANATOMY_FACTS.length).toBeGreaterThanOrEqual(80);
    const ids = ANATOMY_FACTS.map(({ id }) => id);
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
    expect(ANATOMY_FACTS.filter(({ source, statement }) => source.length < 8 || statement.length < 8)).toEqual([]);
  });

  it('give every muscle of the vocabulary a nerve and its roots', () => {
    const supplied = new Set(ofKind('innervation').map(({ muscle }) => muscle));
    const rooted = new Set(ofKind('root').map(({ muscle }) => muscle));
    expect(MUSCLES.filter((muscle) => !supplied.has(muscle) || !rooted.has(muscle))).toEqual([]);
  });

  it('never contradict themselves: two supplies are marked shared, no site is both lost and spared, the main root is listed', () => {
    const twice = ofKind('innervation').filter(({ muscle, shared }, _, all) => !shared && all.filter((other) => other.muscle === muscle).length > 1);
    expect(twice.map(({ id }) => id)).toEqual([]);
    for (const { id, lost, spared, variable } of ofKind('level')) expect(new Set([...lost, ...spared, ...variable]).size, id).toBe(lost.length + spared.length + variable.length);
    for (const { id, main, roots } of ofKind('root')) expect(main === undefined || roots.includes(main), id).toBe(true);
    for (const { id, first, then } of ofKind('branch order')) {
      expect(first.filter((target) => then.includes(target)), id).toEqual([]);
      expect([...first, ...then].filter((target) => !isSiteCode(target) && !(target in NERVE_NAMES)), id).toEqual([]);
    }
  });
});
