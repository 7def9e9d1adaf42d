import { useRef } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import type { BodyOf } from '../../api/reply.ts';
import { useSending, type Sending } from '../../api/use-sending.ts';
import type { Stocktake } from './drawer-replies.ts';

type Count = BodyOf<'/api/v1/stocktakes/{id}/counts', 'post'>['counts'][number];

/** Notes one count, or the reason of one, under a key of its own. */
export function useCountSending(id: string, count: () => Count, done: (stocktake: Stocktake) => void): Sending {
  const key = useRef(idempotencyKey());
  return useSending(async (confirming) => {
    const stocktake = await bodyOf(
      api.POST('/api/v1/stocktakes/{id}/counts', {
        params: { path: { id } },
        body: { counts: [count()] },
        headers: { 'idempotency-key': key.current, ...confirming },
      }),
    );
    key.current = idempotencyKey();
    done(stocktake);
  });
}
