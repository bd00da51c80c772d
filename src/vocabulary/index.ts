/** The terms of the hand examination: sides, sites, signs and coded findings. Everything else depends on these. */
export * from './side';
export * from './site';
export * from './sign';
export * from './finding';
export * from './check';
export * from './words';
