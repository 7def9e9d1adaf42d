import { lifecycle } from './lifecycle.ts';

export const lot = lifecycle(
  ['sealed', 'open', 'held_back', 'finished', 'written_off'],
  [
    { from: ['sealed'], to: 'open', who: ['bench'], guard: 'first-use', onlyIf: 'first use' },
    {
      from: ['sealed', 'open'],
      to: 'held_back',
      who: ['anyone'],
      guard: 'mark-or-grade-or-cadmium-in-doubt',
      onlyIf: 'mark missing, grade in doubt, cadmium unknown',
      effect: 'cannot be chosen in a heat',
    },
    {
      from: ['held_back'],
      to: 'open',
      who: ['owner'],
      guard: 'doubt-cleared',
      onlyIf:
        'grade in doubt: a test noted; cadmium unknown: an attached document (supplier sheet or laboratory analysis) with person and date, never a bench test',
    },
    { from: ['open'], to: 'finished', who: ['bench'], guard: 'weighed-empty', onlyIf: 'weighed at under 0.05 g' },
    { from: ['sealed', 'open', 'held_back'], to: 'written_off', who: ['owner'], guard: 'reason-given', onlyIf: 'reason' },
  ],
);

export const supplierOrder = lifecycle(
  ['to_order', 'sent', 'promised', 'part_in', 'in', 'squared', 'called_off'],
  [
    {
      from: ['to_order'],
      to: 'sent',
      who: ['owner', 'desk'],
      guard: 'minimum-met',
      onlyIf: 'supplier minimum met, or owner says so',
    },
    { from: ['sent'], to: 'promised', who: ['desk'], guard: 'date-given', onlyIf: 'date given' },
    {
      from: ['sent', 'promised'],
      to: 'part_in',
      who: ['desk', 'bench'],
      guard: 'some-lots-received',
      onlyIf: 'some lots received',
    },
    {
      from: ['sent', 'promised', 'part_in'],
      to: 'in',
      who: ['desk', 'bench'],
      guard: 'all-lines-received',
      onlyIf: 'all lines received or closed short',
    },
    {
      from: ['in'],
      to: 'squared',
      who: ['owner'],
      guard: 'invoice-agrees',
      onlyIf: 'invoice agrees within 0.05 or difference explained',
    },
    { from: ['to_order', 'sent', 'promised'], to: 'called_off', who: ['owner'] },
    { from: ['part_in'], to: 'called_off', who: ['owner'], guard: 'rest-not-wanted', onlyIf: 'the rest is not wanted' },
  ],
);

export const stocktake = lifecycle(
  ['counting', 'compared', 'posted', 'dropped'],
  [
    {
      from: ['counting'],
      to: 'compared',
      who: ['bench'],
      guard: 'every-lot-counted',
      onlyIf: 'every lot has a count or a reason',
    },
    { from: ['compared'], to: 'counting', who: ['bench'], guard: 'recount', onlyIf: 'recount' },
    {
      from: ['compared'],
      to: 'posted',
      who: ['owner'],
      guard: 'differences-explained',
      onlyIf: 'differences over tolerance have a reason',
      effect: 'count_up / count_down movements',
    },
    { from: ['counting', 'compared'], to: 'dropped', who: ['owner'] },
  ],
);

export const payment = lifecycle(
  ['due', 'received', 'part_sent_back', 'sent_back'],
  [
    { from: ['due'], to: 'received', who: ['desk', 'owner'] },
    { from: ['received'], to: 'part_sent_back', who: ['owner'], guard: 'reason-given', onlyIf: 'reason' },
    { from: ['received', 'part_sent_back'], to: 'sent_back', who: ['owner'], guard: 'reason-given', onlyIf: 'reason' },
  ],
);

export const hallmarkPacket = lifecycle(
  ['packing', 'sent', 'there', 'struck', 'refused', 'back', 'lost', 'dropped'],
  [
    {
      from: ['packing'],
      to: 'sent',
      who: ['desk', 'owner'],
      guard: 'weights-and-parts-listed',
      onlyIf: 'weights and parts listed',
    },
    { from: ['sent'], to: 'there', who: ['desk', 'owner'], guard: 'office-confirms', onlyIf: 'office confirms' },
    { from: ['there'], to: 'struck', who: ['desk', 'owner'], guard: 'marked', onlyIf: 'marked' },
    { from: ['there'], to: 'refused', who: ['desk', 'owner'], guard: 'refusal-named', onlyIf: 'reason; each piece hurt' },
    { from: ['struck', 'refused'], to: 'back', who: ['desk', 'owner'], guard: 'counted-and-weighed', onlyIf: 'counted, weighed' },
    { from: ['sent', 'there'], to: 'lost', who: ['owner'], guard: 'incident-insurer-told', onlyIf: 'incident; insurer told' },
    { from: ['packing'], to: 'dropped', who: ['desk', 'owner'] },
  ],
);

export const privateLink = lifecycle(
  ['open', 'ended', 'cut_off'],
  [
    {
      from: ['open'],
      to: 'ended',
      who: ['clock', 'system'],
      guard: 'last-day-passed',
      onlyIf: 'past its last day (30 days after handing over), or commission called off or settled for 30 days',
    },
    { from: ['open'], to: 'cut_off', who: ['desk', 'owner'] },
  ],
);
