import { z } from 'zod';
import { MRC_GRADES, QUALIFIERS, SIGNS, SITES, UNITS, checkFinding, isSignCode, isSiteCode } from '../vocabulary';
import type { Finding, ItemKey, Level, SignCode, SiteCode } from '../vocabulary';
import type { RecordEvent } from './event';

/** The shape of everything that is kept, as zod schemas: one source for validation and for the published JSON Schema. */

// Zod would compile its checks with eval, which the page's Content-Security-Policy forbids.
z.config({ jitless: true });

const levels = [...new Set(Object.values(SIGNS).flatMap((sign) => sign.levels))] as [Level, ...Level[]];
const side = z.enum(['left', 'right']);
const sides = z.enum(['left', 'right', 'both']);
const quantity = z.object({ value: z.number(), to: z.number().optional(), unit: z.enum(UNITS), comparator: z.enum(['<', '>']).optional() });
const result = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('level'), level: z.enum(levels) }),
  z.object({ kind: z.literal('grade'), grade: z.enum(MRC_GRADES), to: z.enum(MRC_GRADES).optional() }),
  z.object({ kind: z.literal('quantity'), quantity }),
  z.object({ kind: z.literal('not testable'), reason: z.string() }),
]);

const shape = z.object({
  side,
  sign: z.enum(Object.keys(SIGNS) as [SignCode, ...SignCode[]]),
  site: z.enum(Object.keys(SITES) as [SiteCode, ...SiteCode[]]),
  upTo: z.enum(Object.keys(SITES) as [SiteCode, ...SiteCode[]]).optional(),
  result,
  at: quantity.optional(),
  qualifiers: z.array(z.enum(QUALIFIERS)).optional(),
});
/** A finding must have the right shape and make clinical sense: "grade 4" of a pulse is refused. */
const finding = shape.superRefine((value, context) => {
  for (const message of checkFinding(value as Finding)) context.addIssue({ code: 'custom', message });
}).meta({ id: 'finding' });

const itemKey = z.string().refine((key): key is ItemKey => {
  const at = key.indexOf('@');
  return at > 0 && isSignCode(key.slice(0, at)) && isSiteCode(key.slice(at + 1));
}, { message: 'Unknown item: expected sign@site, each from the vocabulary.' });

const confidence = z.number().min(0).max(1);
const who = z.enum(['examiner', 'reviewer']);
const gap = z.enum(['side', 'result', 'site', 'contradiction', 'unsure']);
const options = z.array(z.array(finding));

const order = z.looseObject({ order: z.string() });

// Statements keep what the parser made of an utterance at the time; they are evidence, so unknown extras are kept too.
const statement = z.discriminatedUnion('type', [
  z.looseObject({ type: z.literal('findings'), findings: z.array(finding), text: z.string() }),
  z.looseObject({ type: z.literal('side'), side: sides, text: z.string() }),
  z.looseObject({ type: z.literal('not testable'), side: sides, items: z.array(itemKey), reason: z.string(), text: z.string() }),
  z.looseObject({ type: z.literal('order'), order, text: z.string() }),
  z.looseObject({ type: z.literal('gap'), gap: z.string(), question: z.string(), options, text: z.string() }),
  z.looseObject({ type: z.literal('unparsed'), text: z.string() }),
]);

const verdict = z.enum(['accepted', 'queried', 'ignored']);
const utterance = z.looseObject({
  id: z.string(), text: z.string(), start: z.number(), end: z.number(), confidence,
  verdict, why: z.string().optional(),
  words: z.array(z.object({ word: z.string(), start: z.number(), end: z.number(), confidence: z.number() })),
  alternatives: z.array(z.object({ text: z.string(), margin: z.number() })), source: z.string(),
});

const filed = z.object({ id: z.string().min(1), finding, utteranceId: z.string(), by: who, confidence });

const setUp = z.object({
  label: z.string(), injuredSide: sides.optional(), handedness: sides.optional(), mechanism: z.string().optional(),
  onset: quantity.optional(), protocol: z.string(), examiner: z.string().optional(),
});

const happening = z.discriminatedUnion('type', [
  z.object({ type: z.literal('begun'), setUp }),
  z.object({ type: z.literal('heard'), utterance, statements: z.array(statement) }),
  z.object({ type: z.literal('filed'), findings: z.array(filed) }),
  z.object({ type: z.literal('queried'), utteranceId: z.string(), question: z.string(), options, gap: z.enum([...gap.options, 'second opinion']).optional() }),
  z.object({ type: z.literal('heard again'), utteranceId: z.string(), engine: z.string(), text: z.string(), verdict, agrees: z.boolean(), confidence }),
  z.object({ type: z.literal('answered'), utteranceId: z.string(), option: z.int().min(0).nullable() }),
  z.object({ type: z.literal('withdrawn'), findingIds: z.array(z.string()), by: who, why: z.string().optional() }),
  z.object({ type: z.literal('corrected'), findingId: z.string(), to: filed, why: z.string().optional() }),
  z.object({ type: z.literal('not testable'), side, items: z.array(itemKey), reason: z.string(), utteranceId: z.string() }),
  z.object({ type: z.literal('testable again'), side, items: z.array(itemKey) }),
  z.object({ type: z.literal('side set'), side: sides.nullable() }),
  z.object({ type: z.literal('stage set'), stage: z.string() }),
  z.object({ type: z.enum(['held', 'resumed', 'concluded']) }),
  z.object({ type: z.literal('ordered'), order }),
  z.object({ type: z.enum(['caution shown', 'caution acknowledged']), caution: z.string() }),
  z.object({ type: z.literal('signed'), by: z.string().min(1), note: z.string().optional() }),
]);

export const eventSchema = z.object({
  examinationId: z.string().min(1),
  seq: z.int().min(0),
  at: z.iso.datetime({ offset: true }),
  happening,
}).meta({ id: 'event' });

/** An examination in one file, for moving it to another device or keeping it. */
export const fileSchema = z.object({
  format: z.literal('lumbrical examination'),
  version: z.literal(1),
  exportedAt: z.iso.datetime({ offset: true }),
  examinationId: z.string().min(1),
  events: z.array(eventSchema),
  /** 16 kHz mono, 16-bit little-endian PCM in base64, by utterance. */
  audio: z.array(z.object({ utteranceId: z.string(), sampleRate: z.literal(16000), pcm16: z.base64() })),
}).meta({ title: 'Lumbrical examination', description: 'One hand examination: an append-only list of events, and the audio of its utterances.' });

/** The JSON Schema (draft 2020-12) of an examination file; src/record/examination-file.schema.json is its printed form. */
export const fileJsonSchema = (): unknown => z.toJSONSchema(fileSchema, { unrepresentable: 'any' });

/** One thing wrong, and where: "events[3].happening.findings[0]". */
export interface Issue { readonly path: string; readonly message: string }

export const toIssues = (error: z.ZodError, prefix = ''): Issue[] => error.issues.map(({ path, message }) => ({
  path: prefix + path.map((step) => (typeof step === 'number' ? `[${step}]` : `.${String(step)}`)).join('').replace(/^\./, prefix ? '.' : ''),
  message,
}));

export type EventCheck = { readonly ok: true; readonly event: RecordEvent } | { readonly ok: false; readonly issues: readonly Issue[] };

/** Checks anything that claims to be an event. */
export function checkEvent(value: unknown, prefix = ''): EventCheck {
  const checked = eventSchema.safeParse(value);
  // The value itself, not zod's copy: what was kept comes back as it was written.
  return checked.success ? { ok: true, event: value as RecordEvent } : { ok: false, issues: toIssues(checked.error, prefix) };
}
