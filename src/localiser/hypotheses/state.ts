import type { LesionKind } from '../localisation';
import type { Atom, UnitId } from '../observation/units';
import type { BySeverity, Hypothesis } from './hypothesis';
import { NO_LOSS, always, fixed } from './hypothesis';

/** By when an acute state has healed, been treated or turned into another. Common practice, no source. */
export const DAYS = { compartment: 7, ischaemia: 14, infection: 42, fracture: 90 } as const;

export type Parts = Readonly<Partial<Record<Atom, number>>>;
type Signs = Record<UnitId, number | BySeverity>;

interface Draft { id: string; kind: LesionKind; structure: string; level?: string; prior: number; signs: Signs; losses?: Parts; severity?: BySeverity; place?: string; pairs?: boolean; overAfter?: number; source: string }

/** Sensitivities without a source of their own are design choices. */
export const state = ({ level = '', losses, severity = [0.3, 0.4, 0, 0.3], place = 'elsewhere', pairs = false, signs, ...rest }: Draft): Hypothesis => ({
  ...rest, level, severity, places: [place], pairs, variable: false, motorShare: 1,
  losses: losses ? fixed(losses) : NO_LOSS,
  signs: Object.fromEntries(Object.entries(signs).map(([unit, p]) => [unit, typeof p === 'number' ? always(p) : p])),
});

/** The same sensitivity for several signs at several sites. */
export const each = (signs: readonly string[], sites: readonly string[], p: number): Signs => Object.fromEntries(signs.flatMap(sign => sites.map(site => [`${sign}@${site}`, p])));
