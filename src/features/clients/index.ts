export { ClientReply, NewClient, withoutCardNumber } from './clients.schema.ts';
export type { ClientService } from './clients.service.ts';
export { clientsOldestFirst, findClient, findClientLike, updateClient, type ClientRow } from './clients.store.ts';
