import type { RecogniserEvent } from './recogniser';

/** Whoever listens to an engine: what every engine needs for Recogniser.listen. */
export class Listeners {
  private readonly all = new Set<(event: RecogniserEvent) => void>();

  /** Adds a listener; returns how it stops listening. */
  readonly add = (listener: (event: RecogniserEvent) => void): (() => void) => {
    this.all.add(listener);
    return () => void this.all.delete(listener);
  };

  /** Tells everybody who listens now: one that begins or stops because of this event changes only the next. */
  readonly tell = (event: RecogniserEvent): void => { for (const listener of [...this.all]) listener(event); };

  /** Nobody is told anything from here on. */
  clear(): void { this.all.clear(); }
}
