import { useEffect, useRef, useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import type { PictureOf } from '../../offline/kept-pictures.ts';
import { useWords } from '../../words/words.ts';
import { Tick } from '../field.tsx';
import { ProblemNotice } from '../problem-notice.tsx';
import { Waiting } from '../waiting.tsx';
import { OnePhoto } from './one-photo.tsx';
import { PictureInput } from './picture-input.tsx';
import { smallerPicture } from './smaller-picture.ts';
import { usePictures } from './use-pictures.ts';
import { WaitingPictures } from './waiting-pictures.tsx';

/** The pictures of one thing: taken, chosen, shown, and each private until somebody ticks it for the client. */
export function Photos({ of, what }: { of: PictureOf; what: string }) {
  const { say } = useWords();
  const queue = usePictures();
  const [showsPerson, setPerson] = useState(false);
  const [error, setError] = useState<Error>();
  const photos = useLoaded(
    (signal) => bodyOf(api.GET('/api/v1/photos', { params: { query: { ...of, limit: 100 } }, signal })),
    [JSON.stringify(of)],
  );
  // What has gone out is in the book now.
  const left = useRef(0);
  const waiting = queue.pictures().length;
  useEffect(() => {
    if (waiting < left.current) photos.reload();
    left.current = waiting;
  }, [waiting]);
  const add = async (files: readonly File[]) => {
    setError(undefined);
    try {
      for (const file of files) await queue.add({ file: await smallerPicture(file), of, showsPerson });
    } catch (reason) {
      setError(reason as Error);
    }
  };
  return (
    <section class="card" aria-labelledby="photos">
      <h2 id="photos">{say('photos.title')}</h2>
      <Waiting of={photos}>
        {({ items }) =>
          items.length === 0 ? (
            <p class="soft">{say('photos.none')}</p>
          ) : (
            <ul class="plain-list photos">
              {items.map((photo) => (
                <OnePhoto key={photo.id} photo={photo} what={what} changed={photos.reload} />
              ))}
            </ul>
          )
        }
      </Waiting>
      <WaitingPictures of={of} />
      <Tick label={say('photos.person')} checked={showsPerson} onChecked={setPerson} />
      <PictureInput onPictures={(files) => void add(files)} />
      <ProblemNotice error={error} />
    </section>
  );
}
