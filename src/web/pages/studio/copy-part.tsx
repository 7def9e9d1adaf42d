import { api, bodyOf } from '../../api/client.ts';
import { useSending } from '../../api/use-sending.ts';
import { Button } from '../../ui/button.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { saveFile } from '../../ui/save-file.ts';
import { useWords } from '../../words/words.ts';
import { Backups } from './backups.tsx';
import { Journal } from './journal.tsx';

/** Everything in the book, to take along; and who wrote what into it. */
export function CopyPart() {
  const { say } = useWords();
  const taking = useSending(async () => {
    const zip = await bodyOf<Blob | undefined>(api.POST('/api/v1/exports', { parseAs: 'blob' }));
    saveFile(zip!, `hearthbook-${new Date().toISOString().slice(0, 10)}.zip`);
  });
  return (
    <>
      <section class="card" aria-labelledby="copy">
        <h2 id="copy">{say('copy.title')}</h2>
        <p>{say('copy.lead')}</p>
        <Button kind="main" busy={taking.busy} onClick={() => void taking.send()}>
          {say(taking.busy ? 'copy.packing' : 'copy.take')}
        </Button>
        <ProblemNotice error={taking.error} />
      </section>
      <Backups />
      <Journal />
    </>
  );
}
