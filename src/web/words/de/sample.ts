import type { sample as en } from '../en/sample.ts';

export const sample: Record<keyof typeof en, string> = {
  'sample.title': 'In einer Beispielwerkstatt umsehen',
  'sample.lead':
    'Quillwharf Bench ist eine erfundene Werkstatt: zwölf Wochen mit Aufträgen, Plänen, Lötungen und Lot, an denen du alles ausprobieren kannst. Sie hat ein eigenes Buch; deines bleibt, wie es ist.',
  'sample.open': 'In einer Beispielwerkstatt umsehen',
  'sample.needsCode': 'Gib zuerst unten den Einmalcode ein: Außer am Rechner des Servers selbst wird er auch hierfür gebraucht.',
  'sample.making': 'Die Beispielwerkstatt entsteht',
  'sample.step': '{begun} von {of}: {title}',
  'sample.beginning': 'Zuerst kommen Leute, Werkbretter und Schublade',
  'sample.almost': 'Gleich so weit',
  'sample.failed': 'Die Beispielwerkstatt konnte nicht angelegt werden. Warum, steht im Protokoll auf dem Rechner der Werkstatt.',
  'sample.label': 'Beispielwerkstatt',
  'sample.banner': 'Das ist eine Beispielwerkstatt: Alles darin ist erfunden, nichts davon gehört dir.',
  'sample.leave': 'Beispiel verlassen und löschen',
  'sample.signIn': 'Hier meldest du dich als {names} an. Das Passwort ist für alle „{password}“.',
};
