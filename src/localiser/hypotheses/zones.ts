import type { SiteCode } from '../../vocabulary';
import { bandOf } from '../observation/reading';

/**
 * A tendon tested at the bedside tells which one is cut, not where: the wound over it does.
 * Flexor zones Kleinert & Verdan 1983 [checked, via secondary], thumb zones [memory]; extensor zones Verdan, in RadioGraphics 2003;23:593 [checked].
 * The zone stands behind the words, for old figures count the flexor zones the other way.
 */
export type TendonLine = 'flexor' | 'extensor';

const BY_BAND: Readonly<Record<TendonLine, Readonly<Partial<Record<string, string>>>>> = {
  flexor: { D1: 'in the thumb (zones T1 and T2)', D2: 'in the finger (zone 1 or 2)', D3: 'in the finger (zone 1 or 2)', D4: 'in the finger (zone 1 or 2)', D5: 'in the finger (zone 1 or 2)', palm: 'in the palm (zone 3)', wrist: 'at the wrist (zone 4 or 5)', forearm: 'in the distal forearm (zone 5)' },
  extensor: { D1: 'in the thumb (zones T1 to T3)', D2: 'in the finger (zones 1 to 4)', D3: 'in the finger (zones 1 to 4)', D4: 'in the finger (zones 1 to 4)', D5: 'in the finger (zones 1 to 4)', 'hand.dorsum': 'over the knuckle or the back of the hand (zone 5 or 6)', wrist: 'at the wrist (zone 7)', forearm: 'in the distal forearm (zone 8)' },
};

/** Where along a tendon a wound lies: "in the palm (zone 3)"; undefined if the wound is not over such a tendon. */
export function zoneInWords(line: TendonLine, wound: SiteCode): string | undefined {
  const named = /(?:^|\.)(flexor|extensor)\.zone(T?\d)$/.exec(wound);
  if (named) return named[1] === line ? `in zone ${named[2]}` : undefined;
  const band = bandOf(wound);
  return band && BY_BAND[line][band];
}
