/** The sample studio: on the way to it and in it. ICU messages. */
export const sample = {
  'sample.title': 'Look round a sample studio',
  'sample.lead':
    'Quillwharf Bench is an invented studio: twelve weeks of commissions, plans, heats and solder to try everything on. It is a book of its own; yours stays as it is.',
  'sample.open': 'Look round a sample studio',
  'sample.needsCode': 'Type the one-time code below first: on any other machine than the server’s own it opens this too.',
  'sample.making': 'The sample studio is being made',
  'sample.step': '{begun} of {of}: {title}',
  'sample.beginning': 'Its people, benches and drawer come first',
  'sample.almost': 'Nearly there',
  'sample.failed': 'The sample studio could not be made. The log on the studio’s machine says why.',
  'sample.label': 'Sample studio',
  'sample.banner': 'This is a sample studio: everything in it is invented, and nothing here is yours.',
  'sample.leave': 'Leave and remove the sample',
  'sample.signIn': 'Here you sign in as {names}. The password of each is “{password}”.',
} as const;
