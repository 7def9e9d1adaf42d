import { api, bodyOf } from '../api/client.ts';
import { useLoaded } from '../api/use-loaded.ts';
import { useWords } from '../words/words.ts';

/** What the metals are called; one that is not known yet by what the book calls it. */
export function useMetalNames(): (id: string) => string {
  const { tell } = useWords();
  const metals = useLoaded((signal) => bodyOf(api.GET('/api/v1/metals', { signal })), []);
  const names = new Map(metals.value?.items.map(({ id, name }) => [id, name]));
  return (id) => tell(names.get(id) ?? id);
}
