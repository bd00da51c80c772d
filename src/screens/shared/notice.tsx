import type { ReactNode } from 'react';
import type { Message } from './messages';

/** A failure, said once to screen readers: what happened, then what to do, then a way to do it. */
export const Notice = ({ message, children }: { message: Message; children?: ReactNode }): ReactNode => (
  <div className="notice" role="alert"><strong>{message.what}</strong>{message.todo}{children ? <p className="row">{children}</p> : null}</div>
);
