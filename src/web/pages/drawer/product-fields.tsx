import { useSession } from '../../session/session.ts';
import { Field, Select } from '../../ui/field.tsx';
import { QuantityField } from '../../ui/quantity-field.tsx';
import { useWords } from '../../words/words.ts';
import { PriceFields } from './price-fields.tsx';
import { SOLDER_FORMS, STANDINGS, type ProductDraft } from './product-draft.ts';

const BASICS = [
  { name: 'name', word: 'product.name', maxLength: 60 },
  { name: 'code', word: 'product.code', hint: 'product.codeHint', maxLength: 40 },
  { name: 'gradeWord', word: 'product.grade', maxLength: 60 },
] as const;

const BOUGHT = [
  { name: 'supplier', word: 'product.supplier', maxLength: 120 },
  { name: 'safetySheet', word: 'product.sheet', maxLength: 400 },
] as const;

interface Props {
  draft: ProductDraft;
  set: (part: Partial<ProductDraft>) => void;
  error: Error | undefined;
}

/** What is said of a solder, from its own packet and data sheet. */
export function ProductFields({ draft, set, error }: Props) {
  const { say, named } = useWords();
  const { studio } = useSession();
  const standing = (name: 'cadmiumStanding' | 'leadOrTinStanding' | 'fluxFluoride', label: string) => (
    <Select
      label={label}
      value={draft[name]}
      onValue={(value) => set({ [name]: value as ProductDraft['fluxFluoride'] })}
      error={error}
      pointer={`/${name}`}
      choices={STANDINGS.map((value) => ({ value, label: named('standing', value) }))}
    />
  );
  const quantity = (
    name: 'solidusC' | 'liquidusC' | 'smallestPieceG' | 'packG',
    { label, hint, of }: { label: string; hint?: string; of: 'temperature' | 'mass' },
  ) => (
    <QuantityField
      label={label}
      {...(hint !== undefined && { hint })}
      quantity={of}
      value={draft[name]}
      entered={draft.entered[name]}
      onValue={(value, entered) => set({ [name]: value, entered: { ...draft.entered, [name]: entered ?? undefined } })}
      error={error}
      pointer={`/${name}`}
    />
  );
  return (
    <div class="columns">
      {BASICS.map((one) => (
        <Field
          key={one.name}
          label={say(one.word)}
          {...('hint' in one && { hint: say(one.hint) })}
          value={draft[one.name]}
          onValue={(value) => set({ [one.name]: value })}
          maxLength={one.maxLength}
          autocapitalize="none"
          error={error}
          pointer={`/${one.name}`}
          required
        />
      ))}
      <Select
        label={say('product.form')}
        value={draft.form}
        onValue={(form) => set({ form: form as ProductDraft['form'] })}
        choices={SOLDER_FORMS.map((value) => ({ value, label: named('solderForm', value) }))}
      />
      {quantity('solidusC', { label: say('product.solidus'), hint: say('product.temperatureHint'), of: 'temperature' })}
      {quantity('liquidusC', { label: say('product.liquidus'), of: 'temperature' })}
      <Field
        label={say('product.silver')}
        value={draft.silverPercent}
        onValue={(silverPercent) => set({ silverPercent })}
        inputMode="decimal"
        error={error}
        pointer="/silverFraction"
      />
      <Field
        label={say('product.density')}
        value={draft.density}
        onValue={(density) => set({ density })}
        inputMode="decimal"
        error={error}
        pointer="/densityGPerCm3"
        required
      />
      {standing('cadmiumStanding', say('product.cadmium'))}
      {standing('leadOrTinStanding', say('product.lead'))}
      {draft.form === 'paste' && standing('fluxFluoride', say('product.fluoride'))}
      {draft.form === 'paste' && (
        <Field
          label={say('product.metalShare')}
          value={draft.metalPercent}
          onValue={(metalPercent) => set({ metalPercent })}
          inputMode="decimal"
          error={error}
          pointer="/metalFraction"
          required
        />
      )}
      {quantity('smallestPieceG', { label: say('product.smallest'), hint: say('product.smallestHint'), of: 'mass' })}
      {BOUGHT.map(({ name, word, maxLength }) => (
        <Field
          key={name}
          label={say(word)}
          value={draft[name]}
          onValue={(value) => set({ [name]: value })}
          maxLength={maxLength}
          error={error}
          pointer={`/${name}`}
          required
        />
      ))}
      {quantity('packG', { label: say('product.pack'), of: 'mass' })}
      <PriceFields
        label={say('product.price', { currency: studio.currency })}
        amount={draft.amount}
        per={draft.per}
        onValue={set}
        error={error}
        pointer="/price"
      />
      <Field
        label={say('product.leadWeeks')}
        value={draft.leadWeeks}
        onValue={(leadWeeks) => set({ leadWeeks })}
        inputMode="numeric"
        error={error}
        pointer="/leadWeeks"
        required
      />
    </div>
  );
}
