import type { timers as en } from '../en/timers.ts';

export const timers: Record<keyof typeof en, string> = {
  'timers.title': 'Kurzzeituhren',
  'timers.name': 'Wofür, wenn sie einen Namen haben soll',
  'timers.minutes': '{minutes, plural, one {# Minute} other {# Minuten}}',
  'timers.other': 'Andere Minuten',
  'timers.otherHint': 'Eine Zahl von Minuten, höchstens {most}',
  'timers.start': 'Starten',
  'timers.ofMinutes': '{minutes} min',
  'timers.stop': 'Die von {minutes} min anhalten',
  'timers.stopOf': 'Anhalten: {name}',
  'timers.quiet': 'Ohne Ton und Vibration',
  'timers.up': 'Die Zeit ist um',
  'timers.upOf': 'Die Zeit ist um: {name}',
  'timers.hush': 'Ausschalten',
  'timers.hushOf': 'Ausschalten: {name}',
};
