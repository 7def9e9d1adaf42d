import { useEffect } from 'preact/hooks';
import { api, bodyOf } from '../api/client.ts';
import { ApiProblem } from '../api/problem.ts';
import type { Session } from '../session/session.ts';

const ROUND_MS = 10_000;

/**
 * A shared tablet tells the server that somebody is there, and shows itself locked when the server has locked it. While the network is
 * gone it stays open: nobody could unlock it, and a flame may burn.
 */
export function useAutoLock({ tablet, personId, reload }: Session): void {
  useEffect(() => {
    if (tablet === null) return undefined;
    let isTouched = false;
    const touch = () => (isTouched = true);
    const look = async () => {
      if (document.visibilityState === 'hidden') return;
      try {
        if (isTouched) {
          isTouched = false;
          await bodyOf(api.POST('/api/v1/shared-tablets/current/touches'));
        }
        const { unlockedBy } = await bodyOf(api.GET('/api/v1/shared-tablets/current'));
        if (unlockedBy?.personId !== personId) reload();
      } catch (error) {
        if (error instanceof ApiProblem && error.body.status === 401) reload();
      }
    };
    const looking = setInterval(() => void look(), ROUND_MS);
    const onShow = () => void look();
    for (const event of ['pointerdown', 'keydown']) window.addEventListener(event, touch);
    document.addEventListener('visibilitychange', onShow);
    return () => {
      clearInterval(looking);
      for (const event of ['pointerdown', 'keydown']) window.removeEventListener(event, touch);
      document.removeEventListener('visibilitychange', onShow);
    };
  }, [tablet, personId]);
}
