import type { Solder } from '../../../../shared/design/solder.ts';
import { api, bodyOf } from '../../api/client.ts';

/** The solders of the drawer, for a piece that has no plan yet. */
export async function offeredSolders(signal: AbortSignal): Promise<Solder[]> {
  const { items } = await bodyOf(
    api.GET('/api/v1/solder-products', { params: { query: { active: 'true', limit: 200 } }, signal }),
  );
  return items
    .filter(({ cadmiumStanding }) => cadmiumStanding === 'no')
    .map(({ code, solidusC, liquidusC }) => ({ id: code, solidusC, liquidusC }))
    .sort((a, b) => b.liquidusC - a.liquidusC);
}
