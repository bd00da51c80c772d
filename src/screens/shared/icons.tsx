import type { ReactNode } from 'react';

/** Line shapes drawn for this project. Every one differs in outline, so that none depends on its tint. */
const shapes = {
  accepted: <><circle cx="12" cy="12" r="10" fill="currentColor" stroke="none" /><path d="m7 12.5 3.4 3.5L17 8.5" stroke="var(--ground)" /></>,
  understood: <><circle cx="12" cy="12" r="9.500" /><path d="m7.500 12.500 3 3L16.500 9" /></>,
  queried: <><path d="M12 1.5 22.5 12 12 22.5 1.5 12z" fill="currentColor" stroke="none" /><path d="M9.6 9.6a2.5 2.5 0 1 1 3.4 2.6c-.7.3-1 .8-1 1.5M12 16.9v.1" stroke="var(--ground)" /></>,
  doubted: <><path d="M12 1.5 22.5 12 12 22.5 1.5 12z" /><path d="M9.6 9.6a2.5 2.5 0 1 1 3.4 2.6c-.7.3-1 .8-1 1.5M12 16.9v.1" /></>,
  settled: <><path d="M12 1.500 22.500 12 12 22.500 1.500 12z" /><path d="m8 12.300 2.700 2.900L16 9.500" /></>,
  ignored: <circle cx="12" cy="12" r="9" strokeDasharray="4 4" />,
  unparsed: <path d="M8 3H4v18h4M16 3h4v18h-4M9 12h6" />,
  caution: <><path d="M7.5 2h9L22 7.500v9L16.500 22h-9L2 16.500v-9z" fill="currentColor" stroke="none" /><path d="M12 6.500v7M12 17.300v.2" stroke="var(--caution-mark, var(--ember))" /></>,
  held: <path d="M8 4v16M16 4v16" strokeWidth="4" />,
  wave: <path d="M2 12h3l2.500-7 4 14 4-11 2 4H22" />,
  pause: <path d="M8 4v16M16 4v16" strokeWidth="4" />,
  cross: <path d="m4 4 16 16M20 4 4 20" strokeWidth="3" />,
  peak: <path d="m2 20 7-16 4 9 3-6 6 13z" fill="currentColor" />,
  ring: <circle cx="12" cy="12" r="9" />,
  done: <path d="m4 12.500 5 5.500L20 6" strokeWidth="3" />,
  current: <path d="m8 4 10 8-10 8z" fill="currentColor" />,
  waiting: <circle cx="12" cy="12" r="7" />,
} satisfies Record<string, ReactNode>;
export type IconName = keyof typeof shapes;

/** Decorative: the word beside it says the same. */
export const Icon = ({ name }: { name: IconName }): ReactNode => (
  <svg viewBox="0 0 24 24" fill="none" stroke="currentColor" strokeWidth="2.2" strokeLinecap="round" strokeLinejoin="round" aria-hidden="true" focusable="false">{shapes[name]}</svg>
);
