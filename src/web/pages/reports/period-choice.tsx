import { useState } from 'preact/hooks';
import { Field, Select } from '../../ui/field.tsx';
import { useWords } from '../../words/words.ts';
import { nameOf, periodOf, PERIODS, type Period, type PeriodName } from './period.ts';

/** Which days a report is over. */
export function PeriodChoice({ period, today, choose }: { period: Period; today: string; choose: (period: Period) => void }) {
  const { say } = useWords();
  const [own, setOwn] = useState(false);
  const name = own ? 'own' : nameOf(period, today);
  const take = (value: string) => {
    const chosen = value as PeriodName;
    setOwn(chosen === 'own');
    if (chosen !== 'own') choose(periodOf(chosen, today));
  };
  return (
    <>
      <Select
        label={say('report.period')}
        value={name}
        onValue={take}
        choices={PERIODS.map((value) => ({ value, label: say(`report.period.${value}`) }))}
      />
      {name === 'own' && (
        <>
          <Field
            label={say('report.from')}
            type="date"
            value={period.from ?? ''}
            onValue={(from) => choose({ ...period, from })}
          />
          <Field label={say('report.to')} type="date" value={period.to ?? ''} onValue={(to) => choose({ ...period, to })} />
        </>
      )}
    </>
  );
}
