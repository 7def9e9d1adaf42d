/** Pickle baths. */
export const baths: Readonly<Record<string, string>> = {
  'Say where it went.': 'Sag, wohin sie ging.',
  '{0} has not come yet.': '{0} ist noch nicht da.',
  'Cannot move bath {0} to {1}: {2}': 'Bei Beize {0} geht der Schritt zu „{1}“ noch nicht: {2}',
  'it is in use with its first dip: name it when a heat goes into the pickle':
    'mit dem ersten Beizen ist sie in Gebrauch: Nenne sie, wenn eine Lötung in die Beize geht',
  'take the iron out (ironOut)': 'nimm das Eisen heraus',
  'look at the pieces that were in it for copper blush (piecesChecked)': 'sieh die Stücke, die darin waren, auf Kupferrot an',
  'say how many blushed (blushes)': 'sag, wie viele rot anliefen',
  'it is at {0} of its limit: say why it is spent (reason)':
    'sie ist erst bei {0} von dem, was sie verträgt: Sag, warum sie verbraucht ist',
  'say where it went, by the rule of the place (goneTo)': 'sag, wohin sie ging, nach der Regel am Ort',
  'say how it was made up wrongly (reason)': 'sag, was beim Ansetzen falsch war',
  'measure the pH, from {0} to {1} (ph)': 'miss den pH-Wert, {0} bis {1}',
  'the pH is {0}: neutralise on until it is from {1} to {2}':
    'der pH-Wert ist {0}: weiter neutralisieren, bis er bei {1} bis {2} ist',
  'from fouled back to in_use': 'von „durch Eisen verdorben“ zurück zu „in Gebrauch“',
  'to neutralised': 'zu „neutralisiert“',
  'to gone': 'zu „entsorgt“',
  'This is taken only with the move {0}.': 'Das gehört nur zum Schritt {0}.',
  'Copper {0} g/L ({1} of its limit), acid {2} used': 'Kupfer {0} g/l ({1} von dem, was sie verträgt), Säure zu {2} verbraucht',
  'Copper {0} g/L ({1} of its limit)': 'Kupfer {0} g/l ({1} von dem, was sie verträgt)',
  '{0}. Gone on {1}: {2}.': '{0}. Entsorgt am {1}: {2}.',
  '{0}. Neutralised on {1}, pH {2}: hand it on by the rule of the place.':
    '{0}. Neutralisiert am {1}, pH {2}: nach der Regel am Ort weitergeben.',
  '{0}: called spent, {1}. Neutralise it, and mix a new one.':
    '{0}: als verbraucht gemeldet, {1}. Neutralisieren und eine neue ansetzen.',
  '{0}: spent by {1}. Neutralise it, and mix a new one.':
    '{0}: verbraucht, der Grund ist: {1}. Neutralisieren und eine neue ansetzen.',
  '{0}. Iron is in it: what is dipped now is plated with copper.':
    '{0}. Es ist Eisen darin: Was jetzt hineinkommt, wird verkupfert.',
  '{0}: tiring, by {1}. Mix the next one soon.': '{0}: lässt nach, der Grund ist: {1}. Bald die nächste ansetzen.',
  'Cannot take this dip back: it was taken back already': 'Dieser Gang in die Beize wurde schon zurückgenommen',
  'Cannot take this dip back: bath {0} is {1}, and is counted no more':
    'Dieser Gang lässt sich nicht zurücknehmen: Beize {0} ist {1} und wird nicht mehr gezählt',
  'Cannot find pickle bath {0}': 'Beize {0} gibt es nicht',
  'Cannot dip in bath {0}: it is {1}. Choose another or renew it':
    'In Beize {0} kann nichts hinein: Sie ist {1}. Nimm eine andere oder setze sie neu an',
};
