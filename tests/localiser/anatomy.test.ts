import { describe, expect, it } from 'vitest';
import { VARIANTS, deficitOf, lossOf, meanLoss } from '../../src/localiser/anatomy/deficit';
import type { NerveSite, SegmentId } from '../../src/localiser/anatomy/nerves';
import { SEGMENTS, SEGMENT_IDS, lineOf } from '../../src/localiser/anatomy/nerves';
import type { NeuralAtom } from '../../src/localiser/anatomy/supply';
import { NEURAL_ATOMS, SUPPLY } from '../../src/localiser/anatomy/supply';

/*
 * The level tables of the textbooks, checked against what the graph computes. L = lost or weak, S = spared, v = variable.
 * Pattern of all rows: O'Brien 2010; Preston & Shapiro 2013; Stewart 2010 [from memory]. Thenar-base sparing below the palmar
 * cutaneous branch: Wheeless' Textbook [checked]. Guyon zones: Gross & Gelberman 1985 [checked, via secondary].
 */
type Cell = 'L' | 'S' | 'v';
interface Table { readonly columns: readonly (readonly NeuralAtom[])[]; readonly rows: Readonly<Record<string, readonly [NerveSite, string]>> }

const FDS: readonly NeuralAtom[] = ['FDS2', 'FDS3', 'FDS4'];
const MEDIAN: Table = {
  columns: [['PT'], ['FCR'], FDS, ['FPL'], ['FDP2'], ['PQ'], ['APB'], ['OP'], ['PTH'], ['D1r', 'D1u', 'D2r', 'D2u', 'D3r', 'D3u', 'D4r']],
  rows: {
    ML1: ['median.elbow', 'L L L L L L L L L L'], ML2: ['median.pronator', 'S v v L L L L L L L'], ML3: ['median.anterior-interosseous', 'S S S L L L S S S S'],
    ML4: ['median.forearm', 'S S v S S S L L L L'], ML5: ['median.carpal-tunnel', 'S S S S S S L L S L'], ML6: ['median.recurrent', 'S S S S S S L L S S'], ML8: ['median.palmar-cutaneous', 'S S S S S S S S L S'],
  },
};
const ULNAR: Table = {
  columns: [['FCU'], ['FDP4', 'FDP5'], ['ADM'], ['DI1', 'ADP'], ['PB'], ['DU'], ['PHY'], ['D5r', 'D5u', 'D4u'], ['FM']],
  rows: {
    UL1: ['ulnar.elbow', 'v L L L L L L L S'], UL2: ['ulnar.forearm', 'S S L L L L v L S'], UL3: ['ulnar.wrist', 'S S L L L S v L S'], UL4: ['ulnar.guyon', 'S S L L L S S L S'],
    UL5: ['ulnar.deep', 'S S L L S S S S S'], UL6: ['ulnar.deep-distal', 'S S S L S S S S S'], UL7: ['ulnar.superficial', 'S S S S v S v L S'], UL8: ['ulnar.dorsal-cutaneous', 'S S S S S L S S S'],
  },
};
const EXTENSORS: readonly NeuralAtom[] = ['ED2', 'ED3', 'ED4', 'ED5', 'ECU', 'EDM'];
const THUMB: readonly NeuralAtom[] = ['APL', 'EPL', 'EPB', 'EIP'];
const RADIAL: Table = {
  columns: [['TRI'], ['BR'], ['ECRL'], ['ECRB'], ['SUP'], EXTENSORS, THUMB, ['AP'], ['FP'], ['DR']],
  rows: {
    RL1: ['radial.axilla', 'L L L L L L L L L L'], RL2: ['radial.groove', 'S L L L L L L S v L'], RL3: ['radial.elbow', 'S S S v L L L S S L'], RL4: ['radial.posterior-interosseous', 'S S S v v L L S S S'],
    RL5a: ['radial.pin-short', 'S S S S S L S S S S'], RL5b: ['radial.pin-long', 'S S S S S S L S S S'], RL6: ['radial.superficial', 'S S S S S S S S S L'],
  },
};
const ROOTS: Table = {
  columns: [['BIC'], ['TRI'], ['BR'], ['PT'], ['FCR'], ['ED3'], ['EIP'], ['FPL'], ['FDP5'], ['APB'], ['DI1']],
  rows: {
    RT6: ['C6', 'L v L L v S S S S S S'], RT7: ['C7', 'S L S v L L v S S S S'], RT8: ['C8', 'S v S S S v L L L v L'], RT1: ['T1', 'S S S S S S S v v L L'],
    LT: ['trunk.lower', 'S v S S S v v L L L L'], MCd: ['cord.medial', 'S S S S S S S L L L L'],
  },
};
const KEY_SKIN: Readonly<Record<string, readonly [NerveSite, readonly NeuralAtom[]]>> = {
  RT6: ['C6', ['D1.dorsum', 'D1u']], RT7: ['C7', ['D3r', 'D3u']], RT8: ['C8', ['D5u', 'DU']], RT1: ['T1', ['FM', 'AM']], LT: ['trunk.lower', ['D5u', 'DU', 'FM']], MCd: ['cord.medial', ['D5u', 'DU', 'FM']],
};

/** Lost: at least this much of the mean supply; spared: at most that much. A root shares muscles, so 0.4 counts as its own. */
const LOST = 0.4, SPARED = 0.1;
const lossAt = (atom: NeuralAtom, site: NerveSite) => meanLoss(lossOf(atom, site));
const fits = (cell: Cell, loss: number) => cell === 'v' || (cell === 'L' ? loss >= LOST : loss <= SPARED);

describe.each(Object.entries({ MEDIAN, ULNAR, RADIAL, ROOTS }))('level table %s', (_, { columns, rows }) => {
  it.each(Object.entries(rows))('%s: the computed deficit agrees in every cell', (_id, [site, cells]) => {
    const wrong = cells.split(' ').flatMap((cell, at) => columns[at]!.filter(atom => !fits(cell as Cell, lossAt(atom, site))).map(atom => `${atom} should be ${cell}, computed ${lossAt(atom, site).toFixed(2)}`));
    expect(wrong).toEqual([]);
  });
});

describe('key skin of roots, trunk and cord', () => {
  it.each(Object.entries(KEY_SKIN))('%s', (_, [site, areas]) => { for (const area of areas) expect(lossAt(area, site)).toBeGreaterThanOrEqual(LOST); });
});

describe('the graph', () => {
  it('names a source for every edge and every supply', () => {
    for (const id of SEGMENT_IDS) expect(SEGMENTS[id].source.length, id).toBeGreaterThan(5);
    for (const atom of NEURAL_ATOMS) expect(SUPPLY[atom].source.length, atom).toBeGreaterThan(5);
  });

  it('gives every structure a whole supply: branches and roots add up to 1', () => {
    for (const atom of NEURAL_ATOMS) {
      const { from, roots } = SUPPLY[atom];
      expect(from.reduce((sum, { share }) => sum + share, 0), atom).toBeCloseTo(1, 9);
      expect(Object.values(roots).reduce((sum, share) => sum + share, 0), atom).toBeCloseTo(1, 9);
    }
    expect(Object.values(VARIANTS).reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 9);
  });

  it('loses at least as much by a lesion as by any lesion further down its line', () => {
    for (const id of SEGMENT_IDS) for (const upper of lineOf(id)) for (const [atom, losses] of deficitOf(id)) {
      const spared = SUPPLY[atom].spared?.[upper as SegmentId];
      if (spared === undefined) expect(lossAt(atom, upper), `${atom}: ${upper} against ${id}`).toBeGreaterThanOrEqual(meanLoss(losses) - 1e-9);
    }
  });

  it('keeps the published branch order: BR and ECRL leave above the posterior interosseous nerve, the index extensor last (Abrams 1997, Branovacki 1998, Sawyer 2020 [checked])', () => {
    expect(lossAt('BR', 'radial.posterior-interosseous')).toBe(0);
    expect(lossAt('ECRL', 'radial.elbow')).toBe(0);
    expect(lineOf(SUPPLY.EIP.from[0]!.from)).toContain('radial.posterior-interosseous');
  });

  it('reroutes ulnar intrinsics through the median nerve in the Martin-Gruber variant (Roy 2016 [checked]; effect from memory)', () => {
    expect(meanLoss(lossOf('DI1', 'median.elbow', 'Martin-Gruber'))).toBeGreaterThan(0);
    expect(meanLoss(lossOf('DI1', 'ulnar.elbow', 'Martin-Gruber'))).toBeLessThan(1);
    expect(lossAt('DI1', 'median.elbow')).toBe(0);
    expect(meanLoss(lossOf('APB', 'ulnar.deep', 'Riche-Cannieu'))).toBeGreaterThan(0);
  });
});
