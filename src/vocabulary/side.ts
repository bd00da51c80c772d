/** One hand or limb. "Both" is never a value: it is two findings. */
export type Side = 'left' | 'right';
export const SIDES: readonly Side[] = ['left', 'right'];
export const otherSide = (side: Side): Side => (side === 'left' ? 'right' : 'left');
