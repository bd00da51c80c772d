/** The second speech engine for the page: vosk-browser behind the recogniser interface, in a document of its own. For Node import node.ts. */
export { FramedVosk, type FramedOptions } from './framed-vosk';
export { servedInstallation, INSTALL_COMMAND, type Installation, type InstalledModel } from './installed';
export { agree, asOne, hearClip } from './agree';
export { chooseEngine, ENGINE_WORDS, ENGINES, isEngine, measuredFor, otherEngine, type Choice, type EngineName, type EngineState, type Measured } from './choose-engine';
export { withSense } from './free-speech';
