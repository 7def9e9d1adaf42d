/** Timers of a device: for the pickle, for whatever takes its minutes. */
export const timers = {
  'timers.title': 'Timers',
  'timers.name': 'What it is for, if it is to have a name',
  'timers.minutes': '{minutes, plural, one {# minute} other {# minutes}}',
  'timers.other': 'Other minutes',
  'timers.otherHint': 'A number of minutes, at most {most}',
  'timers.start': 'Start it',
  'timers.ofMinutes': '{minutes} min',
  'timers.stop': 'Stop that of {minutes} min',
  'timers.stopOf': 'Stop: {name}',
  'timers.quiet': 'Without sound and vibration',
  'timers.up': 'Time is up',
  'timers.upOf': 'Time is up: {name}',
  'timers.hush': 'Put it off',
  'timers.hushOf': 'Put it off: {name}',
} as const;
