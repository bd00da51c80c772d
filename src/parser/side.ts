import { otherSide, type Side } from '../vocabulary';
import type { Frame, SpokenSide } from './frame';
import type { Context } from './statement';

/** One side, or both as two; undefined when it cannot be known without guessing. */
export function sidesOf(said: SpokenSide | undefined, context: Context): readonly Side[] | undefined {
  switch (said) {
    case 'left': case 'right': return [said];
    case 'both': return ['left', 'right'];
    case 'affected': return context.injuredSide && [context.injuredSide];
    case 'unaffected': return context.injuredSide && [otherSide(context.injuredSide)];
    case 'other': return context.currentSide && context.currentSide !== 'both' ? [otherSide(context.currentSide)] : undefined;
    case 'unclear': return undefined;
    // "Cold hands" while one side is current: one hand or two? Asked, not guessed.
    case 'plural': return context.currentSide === 'both' ? ['left', 'right'] : undefined;
    case undefined: return context.currentSide === undefined ? undefined : context.currentSide === 'both' ? ['left', 'right'] : [context.currentSide];
  }
}

/** The sides a frame is about. "Weaker than the left" can only be said of the right. */
export function sidesOfFrame(frame: Frame, context: Context): readonly Side[] | undefined {
  if (!frame.than) return sidesOf(frame.side, context);
  const rival = otherSide(frame.than);
  const sides = frame.side === undefined && context.currentSide === undefined ? [rival] : sidesOf(frame.side, context);
  return sides?.length === 1 && sides[0] === rival ? sides : undefined;
}
