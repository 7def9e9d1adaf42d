import { useLocation, useRoute } from 'preact-iso';
import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { Picture, saveSvg } from '../../ui/picture.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { showDifference } from '../../units/shown-units.ts';
import { useIsWide } from '../../ui/use-is-wide.ts';
import { useMetalNames } from '../../ui/use-metal-names.ts';
import { useWords } from '../../words/words.ts';
import { LAYOUTS } from './layouts.ts';
import { PeriodChoice } from './period-choice.tsx';
import { periodOf, todayIn, type Period } from './period.ts';
import type { Report, ReportName } from './report-columns.ts';
import { reportPictures } from './report-pictures.ts';
import { ReportTable } from './report-table.tsx';

/** What is told as of now, whatever days are asked for. */
const AS_OF_NOW: ReadonlySet<string> = new Set(['to-order', 'stock-worth']);
/** Told over a year unless other days are asked for; the rest over everything that is open. */
const BY_YEAR: ReadonlySet<string> = new Set([
  'quote-against-actual',
  'time-guesses',
  'earned-per-hour',
  'lost-money',
  'solder-use',
  'mishaps',
  'metal-balance',
  'quote-outcomes',
  'year-end',
]);

/** One report: the question, its days, the picture, the numbers. */
export function ReportPage() {
  const { say } = useWords();
  const { params } = useRoute();
  const { query, path, route } = useLocation();
  const { studio } = useSession();
  const name = params['name'] as ReportName;
  const today = todayIn(studio.timeZone);
  const period = periodAsked(query, periodOf(BY_YEAR.has(name) ? 'year' : 'all', today));
  const loaded = useLoaded(
    // As JSON: the other form it can come in is a file.
    async (signal) =>
      (await bodyOf(api.GET('/api/v1/reports/{name}', { params: { path: { name }, query: period }, signal }))) as Report,
    [name, period.from, period.to],
  );
  const csv = `/api/v1/reports/${name}?${new URLSearchParams({ ...period, format: 'csv' }).toString()}`;
  const choose = ({ from = '', to = '' }: Period) => route(`${path}?${new URLSearchParams({ from, to }).toString()}`, true);
  return (
    <>
      <p class="no-print">
        <a class="report-link" href="/reports">
          {say('report.back')}
        </a>
      </p>
      <h1>{name in LAYOUTS ? say(`report.question.${name}`) : say('report.title')}</h1>
      <div class="row no-print">
        {AS_OF_NOW.has(name) ? (
          <p class="soft">{say('report.asOfNow')}</p>
        ) : (
          <PeriodChoice period={period} today={today} choose={choose} />
        )}
        <div class="row report-actions">
          <a class="button" href={csv} download={`${name}.csv`}>
            {say('report.csv')}
          </a>
          <Button onClick={() => window.print()}>{say('report.print')}</Button>
        </div>
      </div>
      <Waiting of={loaded}>{(report) => <Shown key={report.report} report={report} />}</Waiting>
    </>
  );
}

function Shown({ report: told }: { report: Report }) {
  const words = useWords();
  const report = useNamedMetals(told);
  const { units } = useSession();
  const { say, tell } = words;
  const isWide = useIsWide();
  const pictures = reportPictures(report, { words, units }, isWide ? 640 : 320);
  return (
    <>
      {report.report === 'remelt-warnings' && <Rise rise={report.rise} />}
      {pictures.map(({ name, svg }) => (
        <figure key={name} class="card report-picture">
          <figcaption>{say(`report.picture.${name}` as 'report.picture.bench-load')}</figcaption>
          <Picture svg={svg} />
          <div class="no-print">
            <Button kind="quiet" onClick={() => saveSvg(svg, name)}>
              {say('report.saveSvg')}
            </Button>
          </div>
        </figure>
      ))}
      <ReportTable report={report} />
      <p class="soft">{say('report.timesByPerson')}</p>
      <details class="card">
        <summary>{say('report.about')}</summary>
        <ul>
          {report.about.map((sentence) => (
            <li key={sentence}>{tell(sentence)}</li>
          ))}
        </ul>
      </details>
    </>
  );
}

function Rise({
  rise: { inUseK, supportedK, suggestedK },
}: {
  rise: { inUseK: number; supportedK: number; suggestedK: number | null };
}) {
  const words = useWords();
  const { units } = useSession();
  const shown = (kelvin: number) => showDifference(words, units, kelvin);
  return (
    <p>
      {words.say('report.rise', { inUse: shown(inUseK), supported: shown(supportedK) })}{' '}
      {suggestedK !== null && <strong>{words.say('report.riseSuggested', { suggested: shown(suggestedK) })}</strong>}
    </p>
  );
}

/** A report of metals with what they are called. */
function useNamedMetals(report: Report): Report {
  const nameOf = useMetalNames();
  if (report.report !== 'metal-balance') return report;
  return { ...report, rows: report.rows.map((row) => ({ ...row, metal: nameOf(row.metal) })) };
}

/** As the address has it; an empty day there means: without an end. */
function periodAsked(query: Readonly<Record<string, string>>, usual: Period): Period {
  if (!('from' in query) && !('to' in query)) return usual;
  return { ...(query['from'] && { from: query['from'] }), ...(query['to'] && { to: query['to'] }) };
}
