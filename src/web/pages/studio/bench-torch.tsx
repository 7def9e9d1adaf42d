import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { Select } from '../../ui/field.tsx';
import { useWords } from '../../words/words.ts';
import type { OwnPlace } from './setting-values.ts';

/** A torch of the book, with its calibration, in place of the one that is described. */
export function BenchTorch({ settings, typed, type, error }: OwnPlace) {
  const { say } = useWords();
  const torches = useLoaded((signal) => bodyOf(api.GET('/api/v1/torches', { params: { query: { limit: 200 } }, signal })), []);
  const now = 'bench.torchId' in typed ? typed['bench.torchId'] : settings.bench.torchId;
  return (
    <Select
      label={say('setting.bench.torchId')}
      value={typeof now === 'string' ? now : ''}
      onValue={(id) => type('bench.torchId', id === '' ? null : id)}
      choices={[
        { value: '', label: say('setting.bench.torchId.none') },
        ...(torches.value?.items ?? []).map(({ id, name }) => ({ value: id, label: name })),
      ]}
      error={error}
      pointer="/bench/torchId"
    />
  );
}
