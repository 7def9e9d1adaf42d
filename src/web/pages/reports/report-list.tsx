import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';

const WHOSE = ['everybody', 'desk', 'owner', 'tutor'] as const;

/** The questions that this person may ask of the book. */
export function ReportList() {
  const { say } = useWords();
  const loaded = useLoaded((signal) => bodyOf(api.GET('/api/v1/reports', { signal })), []);
  return (
    <>
      <h1>{say('report.title')}</h1>
      <Waiting of={loaded}>
        {({ items }) => (
          <div class="tiles">
            {WHOSE.map((whose) => {
              const own = items.filter((item) => item.mayRead && item.whose === whose);
              return (
                own.length > 0 && (
                  <section key={whose} class="card">
                    <h2>{say(`report.whose.${whose}`)}</h2>
                    <ul class="plain-list">
                      {own.map(({ name }) => (
                        <li key={name} class="line">
                          <a class="report-link" href={`/reports/${name}`}>
                            {say(`report.question.${name}`)}
                          </a>
                        </li>
                      ))}
                    </ul>
                  </section>
                )
              );
            })}
          </div>
        )}
      </Waiting>
    </>
  );
}
