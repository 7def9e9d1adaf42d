/** What a new studio does first. ICU messages. */
export const firstSteps = {
  'firstSteps.title': 'First steps',
  'firstSteps.count': '{done} of {of} done',
  'firstSteps.done': 'done',
  'firstSteps.solder': 'Put the first solder in the drawer, with its own two temperatures',
  'firstSteps.prices': 'Say what silver and an hour cost',
  'firstSteps.bench': 'Set up a bench and say who works at it',
  'firstSteps.commission': 'Note the first enquiry',
  'firstSteps.person': 'Add somebody else who works here',
  'firstSteps.tablet': 'Make a tablet at the benches a shared one',
  'firstSteps.hide': 'Do not show this again',
  'firstSteps.hideHint': 'The studio’s settings bring it back.',
} as const;
