import { cautionsFor, newCautions } from '../../cautions';
import type { Caution } from '../../cautions';
import { advance, answerable, contextOf, protocolOf, startExamination, toMachine } from '../../examination';
import type { ExaminationActor, Feedback, Hearing, Protocol } from '../../examination';
import { localiseRecord } from '../../localiser';
import type { Localisation } from '../../localiser';
import { createSameMeaning } from '../../parser';
import type { ParseUtterance, Statement } from '../../parser';
import type { Utterance } from '../../recogniser';
import { ENGINE_WORDS } from '../../recogniser/vosk';
import type { EngineName } from '../../recogniser/vosk';
import { apply, emptyRecord } from '../../record';
import type { ExaminationRecord, Happening, Journal, Kept, Store } from '../../record';
import type { Finding } from '../../vocabulary';
import { correction, deskAnswer, secondOpinion, withdrawal, written } from './review';

/** What the screens see of an examination at one moment. A new object after every change. */
export interface SessionView {
  readonly record: ExaminationRecord;
  readonly protocol: Protocol;
  readonly localisation: Localisation;
  readonly cautions: readonly Caution[];
  /** Last thing the recorder answered, for the eye; the sound was played by whoever listens to `onFeedback`. */
  readonly feedback: Feedback | null;
  /** Not stored yet, with the store's own words. */
  readonly unsaved: { readonly count: number; readonly why: string } | null;
}

export type FeedbackListener = (feedback: Feedback) => void;

/**
 * One examination open on the screen: takes what was heard, typed, pressed or decided at review, lets the parts to the left
 * make of it what they will, and shows where things stand. Lives outside React; nothing is shown as filed before the journal has it.
 */
export class Session {
  private readonly listeners = new Set<() => void>();
  private readonly feedbackListeners = new Set<FeedbackListener>();
  private readonly actor: ExaminationActor;
  private readonly protocol: Protocol;
  private view: SessionView;
  private last: Readings | undefined;
  private fed: number;
  private queue: Promise<unknown> = Promise.resolve();
  private readonly same: (one: string, other: string) => boolean;

  constructor(readonly journal: Journal, readonly store: Store, private readonly parseUtterance: ParseUtterance, private readonly newId: () => string = () => crypto.randomUUID()) {
    this.protocol = protocolOf(journal.record);
    this.same = createSameMeaning(parseUtterance);
    this.actor = startExamination(journal.examinationId, journal.events);
    this.fed = journal.events.length;
    this.view = this.look(null, null);
    journal.listen(() => this.refresh());
  }

  get examinationId(): string { return this.journal.examinationId; }
  /** Waiting, examining, held, concluded or signed. */
  get status(): string { return String(this.actor.getSnapshot().value); }

  getView = (): SessionView => this.view;
  subscribe = (listener: () => void): (() => void) => { this.listeners.add(listener); return () => void this.listeners.delete(listener); };
  onFeedback(listener: FeedbackListener): () => void { this.feedbackListeners.add(listener); return () => void this.feedbackListeners.delete(listener); }

  /** Once on opening: the mechanism of injury alone may call for a caution. */
  start(): Promise<void> { return this.inTurn(async () => this.finish(null, await this.journal.retry())); }

  /** An utterance from the recogniser. Resolves when it is stored and answered. */
  hear(utterance: Utterance): Promise<void> {
    return this.inTurn(async () => {
      const record = this.journal.record;
      const unique = record.utterances.some((entry) => entry.utterance.id === utterance.id) ? { ...utterance, id: this.newId() } : utterance;
      await this.respond({ utterance: unique, statements: unique.verdict === 'ignored' ? [] : this.parse(unique.text, record), otherReadings: unique.alternatives.map(({ text }) => ({ text, statements: this.parse(text, record) })) });
    });
  }

  /** The typed line: everything that speech does. Also what keys and buttons go through, so that each has one meaning. */
  type(text: string, source = 'keyboard'): Promise<void> {
    return this.inTurn(async () => {
      const said = text.trim();
      if (said) await this.respond({ utterance: this.typed(said, source), statements: this.parse(said, this.journal.record) });
    });
  }

  /** Answers the open question by button, key or pedal. */
  answer(option: number | null): Promise<void> {
    const question = answerable(this.journal.record);
    const chosen = option === null ? undefined : question?.options[option];
    if (!question || (option !== null && !chosen)) return Promise.resolve();
    if (option === null) return this.type('no', 'button');
    if (option < SAYABLE.length) return this.type(SAYABLE[option] as string, 'button');
    return this.inTurn(() => this.respond({ utterance: this.typed(`option ${option + 1}`, 'button'), statements: [{ type: 'findings', findings: chosen ?? [], text: `option ${option + 1}` }] }));
  }

  setStage(stage: string): Promise<void> { return this.append([{ type: 'stage set', stage }]); }
  acknowledge(caution: string): Promise<void> { return this.append([{ type: 'caution acknowledged', caution }]); }

  // At the desk.
  correct(findingId: string, to: Finding, why: string): Promise<void> { return this.append(correction(this.journal.record, findingId, to, why, this.newId)); }
  withdraw(findingId: string, why: string): Promise<void> { return this.append(withdrawal(this.journal.record, findingId, why)); }
  sign(by: string, note: string): Promise<void> { return this.append([{ type: 'signed', by, ...(note ? { note } : {}) }]); }
  answerAtDesk(utteranceId: string, option: number | null): Promise<void> {
    const question = this.journal.record.questions.find((entry) => entry.utteranceId === utteranceId && entry.state === 'open');
    return question ? this.append(deskAnswer(this.journal.record, question, option, this.newId)) : Promise.resolve();
  }
  /** Puts on record what another engine heard in an utterance's stored sound; null if nothing was for the recorder. */
  heardAgain(utteranceId: string, engine: EngineName, heard: Utterance | null): Promise<void> {
    const { record, events } = this.journal;
    const at = events.findIndex(({ happening }) => happening.type === 'heard' && happening.utterance.id === utteranceId);
    // Read as it would have been read then: sides and findings since must not lend it theirs.
    const then = events.slice(0, Math.max(0, at)).reduce(apply, emptyRecord());
    const read = (text: string): readonly (readonly Finding[])[] => {
      const statements = this.parse(text, then);
      const findings = statements.flatMap((statement) => (statement.type === 'findings' ? statement.findings : []));
      return findings.length ? [findings] : statements.flatMap((statement) => (statement.type === 'gap' ? statement.options : []));
    };
    return this.append(secondOpinion(record, utteranceId, { name: engine, words: ENGINE_WORDS[engine] }, heard, { same: this.same, read }));
  }
  /** Files what the reviewer wrote for an utterance. Resolves with what is wrong with it, or an empty list. */
  async write(utteranceId: string, text: string): Promise<readonly string[]> {
    const statements = this.parse(text, this.journal.record);
    const findings = statements.flatMap((statement) => (statement.type === 'findings' ? statement.findings : []));
    const rest = statements.filter(({ type }) => type !== 'findings');
    if (rest.length || !findings.length) return [`Not filed: “${text}” is not a complete finding. Say which side, what, and the result, such as “froment positive left”.`];
    const question = this.journal.record.questions.find((entry) => entry.utteranceId === utteranceId && entry.state === 'open');
    await this.append([...(question ? [{ type: 'answered' as const, utteranceId, option: null }] : []), ...written(utteranceId, findings, this.newId)]);
    return [];
  }

  /** Tries again to store what is held in memory. */
  async retry(): Promise<void> { this.note(await this.journal.retry()); }
  close(): Promise<void> { this.actor.stop(); return this.journal.close(); }

  private parse(text: string, record: ExaminationRecord): readonly Statement[] { return this.parseUtterance(text, contextOf(record)); }

  private typed(text: string, source: string): Utterance {
    return { id: this.newId(), text, start: 0, end: 0, confidence: 1, verdict: 'accepted', words: [], alternatives: [], source };
  }

  private async respond(hearing: Hearing): Promise<void> {
    const caution = pendingCautions(this.view.cautions, this.journal.record)[0]?.id;
    const { feedback, kept } = await advance(this.journal, hearing, { protocol: this.protocol, newId: this.newId, ...(caution ? { caution } : {}) });
    await this.finish(feedback, kept);
  }

  private append(happenings: readonly Happening[]): Promise<void> {
    return this.inTurn(async () => {
      if (happenings.length) await this.finish(null, await this.journal.append(happenings));
    });
  }

  /** After every change: cautions that are new are put on record as shown, and sound louder than anything else. */
  private async finish(feedback: Feedback | null, kept: Kept): Promise<void> {
    const fresh = newCautions(this.journal.record);
    if (fresh.length) await this.journal.append(fresh.map(({ id }) => ({ type: 'caution shown', caution: id })));
    const loudest: Feedback | null = fresh.length ? { ...(feedback ?? { show: '' }), sound: 'caution', say: [feedback?.say ?? '', ...fresh.map(({ title }) => `Caution. ${title}.`)].join(' ').trim() } : feedback;
    this.view = this.look(loudest ?? this.view.feedback, kept);
    for (const listener of this.listeners) listener();
    if (loudest) for (const listener of this.feedbackListeners) listener(loudest);
  }

  private note(kept: Kept): void {
    this.view = this.look(this.view.feedback, kept);
    for (const listener of this.listeners) listener();
  }

  private refresh(): void {
    for (const event of this.journal.events.slice(this.fed)) this.actor.send(toMachine(event));
    this.fed = this.journal.events.length;
    this.view = this.look(this.view.feedback, null);
    for (const listener of this.listeners) listener();
  }

  private look(feedback: Feedback | null, kept: Kept | null): SessionView {
    const { record, unsaved } = this.journal;
    const why = kept && !kept.stored ? kept.fault.message : this.view?.unsaved?.why ?? '';
    const { localisation, cautions } = this.readings(record);
    return { record, protocol: this.protocol, feedback, localisation, cautions, unsaved: unsaved.length ? { count: unsaved.length, why } : null };
  }

  /** Worked out again only when the findings changed: most events change nothing about them. */
  private readings(record: ExaminationRecord): Readings {
    if (this.last?.findings !== record.findings || this.last.notTestable !== record.notTestable || this.last.questions !== record.questions) this.last = read(record);
    return this.last;
  }

  private inTurn(work: () => Promise<void>): Promise<void> {
    const turn = this.queue.then(work);
    this.queue = turn.catch(() => undefined);
    return turn;
  }
}

/** Answers that can be said; more than three can only be pressed. */
const SAYABLE = ['option one', 'option two', 'option three'] as const;

/** Cautions not acknowledged yet, the most urgent first: the first one is on the screen. */
export const pendingCautions = (cautions: readonly Caution[], record: ExaminationRecord): readonly Caution[] => cautions.filter(({ id }) => !record.cautionsAcknowledged.includes(id));

/** What is worked out from the record rather than kept in it. */
interface Readings { readonly findings: ExaminationRecord['findings']; readonly notTestable: ExaminationRecord['notTestable']; readonly questions: ExaminationRecord['questions']; readonly localisation: Localisation; readonly cautions: readonly Caution[] }

function read(record: ExaminationRecord): Readings {
  const { findings, notTestable, questions } = record;
  return { findings, notTestable, questions, localisation: localiseRecord(record), cautions: cautionsFor(record) };
}
