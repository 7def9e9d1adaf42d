import { api, bodyOf } from '../../api/client.ts';
import type { BodyOf } from '../../api/reply.ts';
import { useSending } from '../../api/use-sending.ts';
import { Field, Select } from '../../ui/field.tsx';
import { useDraft } from '../../ui/use-draft.ts';
import { useWords } from '../../words/words.ts';
import { ChangeKept } from './change-kept.tsx';
import { changedMembers } from './changed-members.ts';
import { productDraftOf, productOf, type ProductDraft, type SolderProduct } from './product-draft.ts';
import { ProductFields } from './product-fields.tsx';

type CadmiumPaper = NonNullable<BodyOf<'/api/v1/solder-products/{id}', 'patch'>['document']>;
const PAPERS = ['supplier_sheet', 'laboratory_analysis'] as const;

interface Draft {
  product: ProductDraft;
  active: boolean;
  /** What says that there is no cadmium, where there was a doubt. */
  paper: CadmiumPaper;
}

/** What is said of a solder put right; plans that were checked keep the temperatures they were checked with. */
export function ChangeProduct({ product, done }: { product: SolderProduct; done: () => void }) {
  const { say, locale } = useWords();
  const { id, version, name, active } = product;
  const before = productDraftOf(product, locale);
  const { draft, isChanged, change, drop } = useDraft<Draft>(`solder-product:${id}:${version}`, {
    product: before,
    active,
    paper: { kind: 'supplier_sheet', reference: '', datedOn: '' },
  });
  const isCleared = product.cadmiumStanding !== 'no' && draft.product.cadmiumStanding === 'no';
  const sending = useSending(async (confirming) => {
    const body = {
      ...changedMembers(productOf(draft.product), productOf(before)),
      ...(draft.active !== active && { active: draft.active }),
      ...(isCleared && { document: draft.paper }),
    };
    const params = { path: { id }, header: { 'If-Match': `"${version}"` } };
    await bodyOf(api.PATCH('/api/v1/solder-products/{id}', { params, body, headers: confirming }));
    drop();
    done();
  });
  const { error } = sending;
  return (
    <ChangeKept
      title={say('edit.title', { name })}
      sending={sending}
      isChanged={isChanged}
      drop={drop}
      active={draft.active}
      onActive={(kept) => change({ ...draft, active: kept })}
    >
      <ProductFields
        draft={draft.product}
        set={(part) => change({ ...draft, product: { ...draft.product, ...part } })}
        error={error}
      />
      {isCleared && <CadmiumPaperFields paper={draft.paper} onPaper={(paper) => change({ ...draft, paper })} error={error} />}
    </ChangeKept>
  );
}

function CadmiumPaperFields({
  paper,
  onPaper,
  error,
}: {
  paper: CadmiumPaper;
  onPaper: (paper: CadmiumPaper) => void;
  error: Error | undefined;
}) {
  const { say } = useWords();
  return (
    <div class="columns">
      <Select
        label={say('lot.move.field.documentKind')}
        value={paper.kind}
        onValue={(kind) => onPaper({ ...paper, kind: kind as CadmiumPaper['kind'] })}
        choices={PAPERS.map((value) => ({ value, label: say(`lot.move.field.documentKind.${value}`) }))}
      />
      <Field
        label={say('lot.move.field.documentReference')}
        value={paper.reference}
        onValue={(reference) => onPaper({ ...paper, reference })}
        error={error}
        pointer="/document/reference"
        maxLength={200}
        required
      />
      <Field
        label={say('lot.move.field.documentDatedOn')}
        type="date"
        value={paper.datedOn}
        onValue={(datedOn) => onPaper({ ...paper, datedOn })}
        error={error}
        pointer="/document/datedOn"
        required
      />
    </div>
  );
}
