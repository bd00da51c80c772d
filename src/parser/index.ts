/** Text to statements: what was found, ordered, or left open. */
export { createParser, type ParseUtterance } from './parse';
export * from './statement';
export { createSameMeaning } from './same-meaning';
export { createSense } from './sense';
