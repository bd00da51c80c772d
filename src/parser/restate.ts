import { SIGNS, type SignCode, type SiteCode } from '../vocabulary';
import { agree } from './contradiction';
import { hasResult, type Frame } from './frame';
import type { Meaning, Sideless } from './meaning';
import { sitesOf } from './place';

interface Said { readonly frame: Frame; readonly meaning: Meaning }

/** A finding that says all that another says, and more: "tooth mark over the knuckle, fight bite". */
const NARROWER: Readonly<Partial<Record<SignCode, readonly SignCode[]>>> = {
  bite: ['fight.bite'], burn: ['chemical.burn'], numbness: ['worsening.numbness'], pain: ['pain.disproportionate'], avulsion: ['skin.loss'],
};

/**
 * Examiners say a thing twice: what they see, then its name ("clicking and catching left thumb, it's triggering"; "bone dry, no sweat").
 * What was said again without a place of its own, or of the same place, and with the same result, is filed once, with all that was told of it.
 */
export function saidOnce(said: readonly Said[]): readonly Said[] {
  const kept: { frame: Frame; items: Sideless[] | undefined; meaning: Meaning }[] = [];
  for (const { frame, meaning } of said) {
    const earlier = kept.filter((other) => other.items && (frame.side === undefined || other.frame.side === undefined || frame.side === other.frame.side));
    // "… positive, Durkan": the name of what was told already
    if (meaning.kind === 'gap' && meaning.gap === 'result' && isNameOf(frame, earlier.flatMap((other) => other.items!))) continue;
    if (meaning.kind !== 'complete') { kept.push({ frame, meaning, items: undefined }); continue; }
    const items: Sideless[] = [];
    for (const item of meaning.items) {
      const like = earlier.find((other) => other.items!.some((old) => isSame(old, item) && (frame.places.length === 0 || old.site === item.site)));
      const all = like?.items!;
      if (like) { for (const [at, old] of all.entries()) if (isSame(old, item)) all[at] = together(old, item); continue; }
      const wider = earlier.find((other) => other.items!.some((old) => NARROWER[old.sign]?.includes(item.sign) && meet(old.site, item.site, other.frame, frame)));
      if (wider) wider.items = wider.items!.filter((old) => !NARROWER[old.sign]?.includes(item.sign));
      items.push(item);
    }
    kept.push({ frame, meaning, items });
  }
  return kept.flatMap(({ frame, meaning, items }) => (items === undefined ? [{ frame, meaning }] : items.length > 0 ? [{ frame, meaning: { kind: 'complete', items } as const }] : []));
}

function isNameOf(frame: Frame, items: readonly Sideless[]): boolean {
  if (hasResult(frame)) return false;
  if (frame.signs.length === 1 && frame.places.length === 0) return SIGNS[frame.signs[0]!.code].category !== 'power' && items.some(({ sign }) => sign === frame.signs[0]!.code);
  const sites = frame.places.flatMap((place) => sitesOf(place, 'power'));
  return frame.signs.length === 0 && sites.length > 0 && sites.every((site) => items.some((item) => item.sign === 'power' && item.site === site));
}

const meet = (a: SiteCode, b: SiteCode, one: Frame, two: Frame): boolean => a === b || one.places.length === 0 || two.places.length === 0;

/** Dry skin does not sweat. */
const isDry = ({ result }: Sideless): boolean => result.kind === 'level' && (result.level === 'dry' || result.level === 'absent');
function isSame(old: Sideless, item: Sideless): boolean {
  if (old.sign !== item.sign || old.result.kind !== item.result.kind) return false;
  if (old.upTo !== item.upTo) return false;
  return old.result.kind === 'level' ? agree(old.result, item.result) || (old.sign === 'sweating' && isDry(old) && isDry(item)) : JSON.stringify(old.result) === JSON.stringify(item.result);
}

function together(old: Sideless, item: Sideless): Sideless {
  const qualifiers = [...new Set([...(old.qualifiers ?? []), ...(item.qualifiers ?? [])])];
  return { ...old, ...(old.at ?? item.at ? { at: (old.at ?? item.at)! } : {}), ...(qualifiers.length > 0 ? { qualifiers } : {}) };
}
