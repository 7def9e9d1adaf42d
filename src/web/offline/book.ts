const SAMPLE = 'sample:';
const told = /(?:^|; )hearthbook_book=([\w-]+)/.exec(document.cookie)?.[1];

/** Which book this page is of, as the server calls it; told with every request. Whoever goes to another book loads the page anew. */
export const BOOK = told ?? 'own';
export const isSample = told !== undefined;

/** The name under which this device keeps a thing of this book: what was done in a sample never comes into the studio's own. */
export function placeHere(name: string): string {
  return isSample ? `${SAMPLE}${BOOK}:${name}` : name;
}

/** Forgets what was kept of samples that were left. */
export async function forgetLeftSamples(): Promise<void> {
  for (const place of Object.keys(localStorage)) if (isLeft(place)) localStorage.removeItem(place);
  for (const { name } of await indexedDB.databases()) if (name !== undefined && isLeft(name)) indexedDB.deleteDatabase(name);
}

function isLeft(name: string): boolean {
  return name.startsWith(SAMPLE) && !(isSample && name.startsWith(placeHere('')));
}
