import { useWords } from '../../words/words.ts';

/** Where a lot stands on cadmium, in words. */
export function CadmiumWord({ standing }: { standing: 'no' | 'yes' | 'unknown' }) {
  const { say } = useWords();
  return <span class={standing === 'no' ? 'soft' : 'word word-runs'}>{say(`drawer.cadmium.${standing}`)}</span>;
}
