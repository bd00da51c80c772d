/** How an examination proceeds: protocols, what remains, and what an utterance does to it. */
export * from './protocol';
export * from './protocols';
export * from './progress';
export * from './meaning';
export * from './spoken';
export { advance, contextOf, respond } from './conductor';
export type { Response } from './conductor';
export { answerable } from './answering';
export type { Feedback, Hearing, Tools } from './turn';
export * from './machine';
