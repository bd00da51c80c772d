import { describe, expect, it } from 'vitest';
import { localise } from '../../src/localiser';
import { handsInWords, localisationView } from '../../src/screens/shared/localisation-view';
import { findingsOf } from '../localiser/findings';

// Skin of the thenar base is spared below the palmar cutaneous branch of the median nerve and lost above it: Wheeless [checked].
const woundWithoutThenarBase = findingsOf('left', 'laceration@wrist.volar = present', 'power@APB = 0', 'power@OP = 0', 'light.touch@D2.pulp = absent', 'power@FPL = 5', 'power@FDP2 = 5', 'light.touch@D5.pulp = normal');
const carpalTunnel = (side: 'left' | 'right') => findingsOf(side, 'light.touch@D2.pulp = reduced', 'light.touch@D3.pulp = reduced', 'light.touch@D5.pulp = normal', 'light.touch@PTH = normal', 'power@APB = 3', 'power@FPL = 5', 'power@FDP2 = 5', 'phalen@wrist = present');
const healthy = (side: 'left' | 'right') => findingsOf(side, 'light.touch@D2.pulp = normal', 'light.touch@D3.pulp = normal', 'light.touch@D5.pulp = normal', 'power@APB = 5', 'power@FPL = 5', 'phalen@wrist = absent');

describe('what would tell apart', () => {
  it('names both places, the shown one among them, and the test', () => {
    const view = localisationView(localise(woundWithoutThenarBase));
    const [apart, ...more] = view!.apart;
    expect(more).toEqual([]);
    expect(apart!.places.map(({ words }) => words)).toEqual([expect.stringMatching(/below its palmar cutaneous branch/), expect.stringMatching(/above its palmar cutaneous branch/)]);
    expect(apart!.places.map(({ id }) => id)).toContain(view!.places[0]!.id);
    expect(apart!.tests[0]).toMatch(/^Left: .*thenar base/);
  });

  it('is silent once one place stands alone, and where no place explains all', () => {
    expect(localisationView(localise(carpalTunnel('right')))!.apart).toEqual([]);
    const localisation = localise(woundWithoutThenarBase);
    const left = localisation.sides.left!;
    expect(localisationView({ ...localisation, fit: 'poor', sides: { left: { ...left, fit: 'poor' } } })!.apart).toEqual([]);
  });

  it('says so when no test of the list would, and puts the hand of the first place first', () => {
    const localisation = localise([...woundWithoutThenarBase, ...woundWithoutThenarBase.map((finding) => ({ ...finding, side: 'right' as const }))]);
    const view = localisationView({ ...localisation, sides: { ...localisation.sides, left: { ...localisation.sides.left!, wouldTellApart: [] } } })!;
    const first = view.places[0]!.id.split(' ')[0];
    expect(view.apart.map(({ places }) => places[0]!.id.split(' ')[0])).toEqual(first === 'left' ? ['left', 'right'] : ['right', 'left']);
    expect(view.apart.map(({ tests }) => tests.length > 0).sort()).toEqual([false, true]);
    expect(new Set(view.places.map(({ id }) => id)).size).toBe(view.places.length);
  });
});

describe('left against right', () => {
  it.each([
    [[...carpalTunnel('left'), ...healthy('right')], /^only the left hand/],
    [[...healthy('left'), ...carpalTunnel('right')], /^only the right hand/],
    [[...carpalTunnel('left'), ...carpalTunnel('right')], /^both hands/],
    [[...healthy('left'), ...healthy('right')], /^neither hand/],
  ])('%# begins with the likeliest, and leaves out what is under 1 %%', (findings, likeliest) => {
    const words = handsInWords(localise(findings).comparison!);
    expect(words).toMatch(likeliest);
    expect(words).not.toContain('under');
  });
});
