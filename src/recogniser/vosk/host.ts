/** What the engine needs from the place it runs in. */
export interface Host {
  /** Relative addresses start here. */
  readonly home: string;
  readonly fetch: (url: URL) => Promise<Response>;
  /** Whether the library keeps unpacked models in the browser's storage, which must then be there and be tidied. */
  readonly keepsModels: boolean;
}

/** The page. */
export const pageHost = (): Host => ({ home: document.baseURI, fetch: (url) => fetch(url), keepsModels: true });
