/** Which screen the address asks for. The examination is in the address so that a reload comes back to it. */
export type Route =
  | { readonly screen: 'start' }
  | { readonly screen: 'demonstration' | 'voice' }
  | { readonly screen: 'bedside' | 'desk'; readonly examinationId: string };

export function parseRoute(hash: string): Route {
  const [screen, id] = hash.replace(/^#\/?/, '').split('/').map((part) => { try { return decodeURIComponent(part); } catch { return ''; } });
  if (screen === 'demonstration' || screen === 'voice') return { screen };
  if ((screen === 'bedside' || screen === 'desk') && id) return { screen, examinationId: id };
  return { screen: 'start' };
}

export const formatRoute = (route: Route): string =>
  route.screen === 'bedside' || route.screen === 'desk' ? `#/${route.screen}/${encodeURIComponent(route.examinationId)}` : `#/${route.screen}`;
