import { useEffect, useReducer } from 'preact/hooks';
import { pictureQueueOf, type PictureQueue } from '../../offline/picture-queue.ts';
import { useSession } from '../../session/session.ts';

/** The pictures of this person that wait on this device. */
export function usePictures(): PictureQueue {
  const queue = pictureQueueOf(useSession().personId);
  const [, changed] = useReducer((count: number) => count + 1, 0);
  useEffect(() => queue.listen(() => changed(undefined)), [queue]);
  return queue;
}
