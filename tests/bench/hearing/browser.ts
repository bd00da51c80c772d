export const measureBrowser = async (_utterances: number): Promise<string[]> => ['BROWSER: not yet'];
