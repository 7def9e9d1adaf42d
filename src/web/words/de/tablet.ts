import type { tablet as en } from '../en/tablet.ts';

export const tablet: Record<keyof typeof en, string> = {
  'tablet.title': 'Tablet {tablet}',
  'tablet.who': 'Wer ist da?',
  'tablet.nobody':
    'Noch hat niemand eine PIN. Jede und jeder setzt sie unter Werkstatt, Für mich, oder hier mit einem Code der Inhaberin, des Inhabers.',
  'tablet.hasCode': 'Ich habe einen Code für eine neue PIN',
  'tablet.pinOf': '{name}, deine PIN',
  'tablet.back': 'Letzte Ziffer weg',
  'tablet.go': 'Öffnen',
  'tablet.other': 'Jemand anders',
  'tablet.wrong': 'Das ist nicht die PIN von {name}. Nach drei falschen kommt eine Wartezeit.',
  'tablet.wait':
    'Zu viele falsche PINs. Die nächste geht in {seconds, plural, one {# Sekunde} other {# Sekunden}}. Vergessen? Für eine neue gibt es einen Code, unter Werkstatt, Leute.',
  'tablet.byPassword': 'Mit Passwort anmelden',
  'tablet.lock': 'Sperren',
  'tablet.code': 'Code für eine neue PIN',
  'tablet.codeHint': 'Gilt einmal, einen Tag lang',
};
