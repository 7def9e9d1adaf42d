import type { firstSteps as en } from '../en/first-steps.ts';

export const firstSteps: Record<keyof typeof en, string> = {
  'firstSteps.title': 'Erste Schritte',
  'firstSteps.count': '{done} von {of} erledigt',
  'firstSteps.done': 'erledigt',
  'firstSteps.solder': 'Das erste Lot in die Schublade legen, mit seinen eigenen zwei Temperaturen',
  'firstSteps.prices': 'Sagen, was Silber und eine Stunde kosten',
  'firstSteps.bench': 'Ein Werkbrett einrichten und sagen, wer daran arbeitet',
  'firstSteps.commission': 'Die erste Anfrage notieren',
  'firstSteps.person': 'Noch jemanden hinzufügen, der hier arbeitet',
  'firstSteps.tablet': 'Ein Tablet an den Werkbrettern zum gemeinsamen machen',
  'firstSteps.hide': 'Nicht mehr zeigen',
  'firstSteps.hideHint': 'In den Einstellungen der Werkstatt kommt es wieder.',
};
