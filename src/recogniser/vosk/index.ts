/** The second speech engine: vosk-browser behind the recogniser interface. For the page; set-up and tests read the parts. */
export { VoskRecogniser, type VoskOptions } from './vosk-recogniser';
export { installedModel, INSTALL_COMMAND, type InstalledModel } from './installed';
export { agree, hearClip } from './agree';
export { chooseEngine, ENGINES, type Choice, type EngineName, type EngineState, type Measured } from './choose-engine';
export type { Mode } from './judge';
