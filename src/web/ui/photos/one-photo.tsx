import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import type { ItemOf } from '../../api/reply.ts';
import { useSending } from '../../api/use-sending.ts';
import { may, useSession, type Session } from '../../session/session.ts';
import { useWords } from '../../words/words.ts';
import { Button } from '../button.tsx';
import { Field, Tick } from '../field.tsx';
import { ProblemNotice } from '../problem-notice.tsx';

type Photo = ItemOf<'/api/v1/photos'>;

/** One picture, with what is said of it and whether the client may see it. */
export function OnePhoto({ photo: listed, what, changed }: { photo: Photo; what: string; changed: () => void }) {
  const { say, moment } = useWords();
  const session = useSession();
  // What a change answered holds until the list has come again.
  const [answered, setAnswered] = useState(listed);
  const photo = answered.version > listed.version ? answered : listed;
  const { id, version, caption, takenAt, showsPerson, clientMaySee, file, incidentId } = photo;
  const at = moment(takenAt, session.studio.timeZone);
  const [text, setText] = useState(caption ?? '');
  const [isSure, setSure] = useState(false);
  const saying = useSending(async () => {
    await change({ caption: text.trim() === '' ? null : text.trim() });
  });
  const ticking = useSending(async () => change({ clientMaySee: !clientMaySee }));
  const naming = useSending(async () => change({ showsPerson: !showsPerson }));
  const removing = useSending(async () => {
    await bodyOf(api.DELETE('/api/v1/photos/{id}', { params: { path: { id } } }));
    changed();
  });
  async function change(body: { caption?: string | null; clientMaySee?: boolean; showsPerson?: boolean }): Promise<void> {
    const header = { 'If-Match': `"${version}"` };
    setAnswered(await bodyOf(api.PATCH('/api/v1/photos/{id}', { params: { path: { id }, header }, body })));
    changed();
  }
  return (
    <li class="photo">
      <figure>
        <a href={file} target="_blank" rel="noopener">
          <img src={`${file}?size=thumbnail`} alt={caption ?? say('photos.alt', { what, at })} loading="lazy" />
        </a>
        <figcaption>
          {caption !== null && <strong>{caption} </strong>}
          <span class="soft">{at}</span> <span class="word">{say(clientMaySee ? 'photos.shown' : 'photos.private')}</span>
          {incidentId !== null && <span class="word">{say('photos.ofIncident')}</span>}
        </figcaption>
      </figure>
      {mayChange(session, photo) && (
        <details>
          <summary aria-label={say('photos.changeOf', { what: caption ?? at })}>{say('photos.change')}</summary>
          <form
            onSubmit={(event) => {
              event.preventDefault();
              void saying.send();
            }}
          >
            <Field
              label={say('photos.caption')}
              hint={say('photos.captionHint')}
              value={text}
              maxLength={200}
              onValue={setText}
              error={saying.error}
              pointer="/caption"
            />
            <Button type="submit" busy={saying.busy}>
              {say('shell.save')}
            </Button>
          </form>
          {mayShow(session, photo) && (
            <Tick
              label={say('photos.forClient')}
              checked={clientMaySee !== ticking.busy}
              disabled={showsPerson || ticking.busy}
              onChecked={() => void ticking.send()}
            />
          )}
          <Tick
            label={say('photos.person')}
            checked={showsPerson !== naming.busy}
            disabled={clientMaySee || naming.busy}
            onChecked={() => void naming.send()}
          />
          {mayRemove(session, photo) && (
            <div class="row">
              {isSure ? (
                <>
                  <Button kind="danger" busy={removing.busy} onClick={() => void removing.send()}>
                    {say('photos.removeSure')}
                  </Button>
                  <Button onClick={() => setSure(false)}>{say('shell.cancel')}</Button>
                </>
              ) : (
                <Button kind="danger" onClick={() => setSure(true)}>
                  {say('photos.remove')}
                </Button>
              )}
            </div>
          )}
        </details>
      )}
      <ProblemNotice error={saying.error ?? ticking.error ?? naming.error ?? removing.error} />
    </li>
  );
}

/** The server holds to these; here they only spare a refusal. */
function mayChange(session: Session, { addedBy }: Photo): boolean {
  return addedBy === session.personId || may(session, 'desk');
}

function mayRemove(session: Session, { addedBy }: Photo): boolean {
  return addedBy === session.personId || may(session, 'owner');
}

/** What the client sees is for the desk to say; of what went wrong, for the owner. */
function mayShow(session: Session, { incidentId }: Photo): boolean {
  return may(session, incidentId === null ? 'desk' : 'owner');
}
