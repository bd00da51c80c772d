import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkLabel, suggestLabel } from '../../src/screens/start/label';

describe('label of an examination', () => {
  it.each(['Heron 27', 'Bay 3', 'case-14', 'A12', 'Left wrist 2', 'demo 1'])('takes the code "%s"', (label) => {
    expect(checkLabel(label)).toEqual({ ok: true, label });
  });

  it.each([
    ['Anna Smith', 'name'], ['anna', 'name'], ['Smith, Anna', 'name'], ['Mrs Smith 4', 'name'], ['J. Smith 2', 'name'], ['Anna Smith 3', 'name'], ['Zoë O’Brien 1', 'name'],
    // Forms of writing a date: ISO 8601, and the day-first and month-first forms in common use.
    ['1984-03-12', 'date'], ['12/03/1984', 'date'], ['12.3.84', 'date'], ['12 Mar 84', 'date'], ['March 12', 'date'], ['dob 4', 'date'],
    // Numbers of identity documents by their published lengths: NHS number, ten digits (NHS Data Dictionary); US social security number, 3-2-4 (SSA); published specimens that belong to nobody.
    ['943 476 5919', 'identity'], ['9434765919', 'identity'], ['078-05-1120', 'identity'], ['QQ 12 34 56 C', 'looks like'], ['MRN 0012345', 'identity'],
    ['a@b.example', 'address'], ['', 'label'], ['x'.repeat(33), '32'],
  ])('refuses "%s" with a hint', (label, word) => {
    const checked = checkLabel(label);
    expect(checked.ok).toBe(false);
    if (!checked.ok) expect(checked.hint).toContain(word);
  });

  it('never throws, and what it takes has no six digits in a row', () => {
    fc.assert(fc.property(fc.string({ maxLength: 60, unit: 'grapheme' }), (text) => {
      const checked = checkLabel(text);
      if (checked.ok) expect(checked.label.replace(/[\s\-./]/g, '')).not.toMatch(/\d{6}/);
    }));
  });

  it('suggests labels that it takes itself', () => {
    fc.assert(fc.property(fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }), (n) => { expect(checkLabel(suggestLabel(() => n)).ok).toBe(true); }));
  });
});
