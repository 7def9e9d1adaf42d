import { useRef, useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { QuantityField } from '../../ui/quantity-field.tsx';
import { JustDone, type Done } from '../../ui/take-back.tsx';
import { useWords } from '../../words/words.ts';
import type { MetalLot } from './drawer-replies.ts';
import { takeMetalBack } from './take-movement-back.ts';

const KINDS = ['issue', 'put_back', 'scrap', 'count_up', 'count_down', 'write_off'] as const;
type Kind = (typeof KINDS)[number];
const FOR_A_PIECE: ReadonlySet<Kind> = new Set<Kind>(['issue', 'put_back']);

/** Metal given to a piece, taken back from it, or booked for another reason. */
export function BookMetal({ lots, done }: { lots: readonly MetalLot[]; done: () => void }) {
  const { say, named } = useWords();
  const pieces = useLoaded((signal) => bodyOf(api.GET('/api/v1/pieces', { params: { query: { limit: 200 } }, signal })), []);
  const [chosenLot, setChosenLot] = useState('');
  const [kind, setKind] = useState<Kind>('issue');
  const [pieceId, setPieceId] = useState('');
  const [quantityG, setQuantityG] = useState<number>();
  const [reason, setReason] = useState('');
  const [last, setLast] = useState<Done>();
  const key = useRef(idempotencyKey());
  const lotId = chosenLot || lots[0]!.id;
  const isForPiece = FOR_A_PIECE.has(kind);
  const sending = useSending(async (confirming) => {
    setLast(undefined);
    const { id } = await bodyOf(
      api.POST('/api/v1/metal-movements', {
        body: {
          kind,
          lotId,
          ...(quantityG !== undefined && { quantityG }),
          ...(isForPiece && pieceId !== '' && { pieceId }),
          ...(!isForPiece && { reason }),
        },
        headers: { 'idempotency-key': key.current, ...confirming },
      }),
    );
    key.current = idempotencyKey();
    setQuantityG(undefined);
    setReason('');
    setLast({
      id,
      says: say('metal.booked'),
      takeBack: (back) => takeMetalBack(id, back),
    });
    done();
  });
  const { error } = sending;
  const submit = (event: Event) => {
    event.preventDefault();
    void sending.send();
  };
  return (
    <details class="card">
      <summary>{say('metal.book')}</summary>
      <form onSubmit={submit}>
        <div class="columns">
          <Select
            label={say('metal.bookLot')}
            value={lotId}
            onValue={setChosenLot}
            choices={lots.map(({ id, number, productName }) => ({
              value: id,
              label: say('metal.lot', { number, product: productName }),
            }))}
          />
          <Select
            label={say('metal.kind')}
            value={kind}
            onValue={(value) => setKind(value as Kind)}
            choices={KINDS.map((value) => ({ value, label: named('metal', value) }))}
          />
          {isForPiece && (
            <Select
              label={say('metal.piece')}
              value={pieceId}
              onValue={setPieceId}
              error={error}
              pointer="/pieceId"
              choices={[
                { value: '', label: '–' },
                ...(pieces.value?.items ?? []).map(({ id, number, title }) => ({ value: id, label: `${number} ${title}` })),
              ]}
            />
          )}
          <QuantityField
            label={say('metal.quantity')}
            quantity="mass"
            value={quantityG}
            onValue={setQuantityG}
            error={error}
            pointer="/quantityG"
          />
          {!isForPiece && (
            <Field
              label={say('metal.reason')}
              value={reason}
              onValue={setReason}
              error={error}
              pointer="/reason"
              maxLength={200}
              required
            />
          )}
        </div>
        <ProblemNotice error={error} sending={sending} />
        <Button type="submit" kind="main" busy={sending.busy}>
          {say('metal.bookIt')}
        </Button>
      </form>
      <JustDone done={last} after={done} />
    </details>
  );
}
