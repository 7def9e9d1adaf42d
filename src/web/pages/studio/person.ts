import type { ItemOf } from '../../api/reply.ts';

export type Person = ItemOf<'/api/v1/people'>;
