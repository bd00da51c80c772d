/**
 * Where is the lesion, how sure, and which test next: exact inference over an anatomical network.
 * Pure and without a clock: the same findings always give the same answer.
 */
export type { Comparison, Evidence, Fit, InvolvedStructure, LesionKind, Localisation, NextTest, Options, RankedLesion, SideLocalisation, Stability } from './localisation';
export { CAUTION as LOCALISATION_CAUTION } from './localisation';
export { localise } from './localise';
export { localiseRecord } from './from-record';
export { PROPOSABLE, burdenOf } from './inference/next-test';
