import type { ComponentProps } from 'preact';
import { ChangeForm } from '../../ui/change-form.tsx';
import { Tick } from '../../ui/field.tsx';
import { useWords } from '../../words/words.ts';

interface Props extends ComponentProps<typeof ChangeForm> {
  /** Whether it is still kept and ordered. */
  active: boolean;
  onActive: (active: boolean) => void;
}

/** A thing of the drawer opened to be put right. */
export function ChangeKept({ active, onActive, children, ...form }: Props) {
  const { say } = useWords();
  return (
    <ChangeForm {...form}>
      {children}
      <Tick label={say('edit.active')} checked={active} onChecked={onActive} />
    </ChangeForm>
  );
}
