/** The bench: the heat that comes next, in words, and the steps of devices. */
export const bench: Readonly<Record<string, string>> = {
  'colours of glowing steel: W. A. J. Chapman, Workshop Technology, part 1 (1972); judge them in dim light':
    'Glühfarben von Stahl: W. A. J. Chapman, Workshop Technology, Teil 1 (1972); bei gedämpftem Licht zu beurteilen',
  "Do not heat: cadmium {0} joint {1}. Only a supplier's sheet or a laboratory analysis can clear it":
    'Nicht erhitzen: In Lötstelle {1} {0} Cadmium. Nur ein Datenblatt des Lieferanten oder eine Laboranalyse gibt sie frei',
  'is in': 'ist',
  'may be in': 'ist vielleicht',
  '{0} is predicted to pass its limit of {1} °C: take it out, or plan again':
    '{0} kommt laut Vorhersage über seine Grenze von {1} °C: herausnehmen oder neu planen',
  'A student lights no heat without a tutor’s yes to it': 'Lernende zünden keine Lötung ohne das Ja der Lehrkraft',
  'A key is 8 to 100 letters, digits, dots, colons or dashes.':
    'Ein Schlüssel hat 8 bis 100 Buchstaben, Ziffern, Punkte, Doppelpunkte oder Striche.',
  'Name either the time (benchTimeId) or the key of the step that started it (startedBy).':
    'Nenne entweder die Zeit (benchTimeId) oder den Schlüssel des Schritts, der sie begann (startedBy).',
  'The key {0} was sent before, with another step': 'Der Schlüssel {0} kam schon einmal, mit einem anderen Schritt',
  'The clock of this device is {0} min {1}. Have its times moved by as much (mendClock), or confirm that they are right as they are.':
    'Die Uhr dieses Geräts geht {0} min {1}. Lass seine Zeiten um so viel verschieben, oder bestätige, dass sie so stimmen.',
  ahead: 'vor',
  behind: 'nach',
  '{0} in the fire': '{0} im Feuer',
  '{0}: anneal, with {1}': '{0}: glühen, mit {1}',
  '1 piece': '1 Stück',
  '{0} pieces': '{0} Stück',
  '{0}: {1} with {2}, {3}, {4} mg in all, with {5}': '{0}: {1} mit {2}, {3}, zusammen {4} mg, mit {5}',
  '{0}: {1} with {2}, lot {3}, {4}, {5} mg in all, with {6}': '{0}: {1} mit {2}, Charge {3}, {4}, zusammen {5} mg, mit {6}',
  '{0}: {1} with {2}, lot {3} marked {4}, {5}, {6} mg in all, with {7}':
    '{0}: {1} mit {2}, Charge {3}, gezeichnet {4}, {5}, zusammen {6} mg, mit {7}',
  'Ready it: joint fitted, flux on, solder placed, protections in place, cautions read':
    'Vorbereiten: Fuge passt, Flussmittel drauf, Lot aufgelegt, Schutz sitzt, Warnungen gelesen',
  'Cannot weigh a lot: that is for bench hands': 'Chargen wiegt nur, wer am Werkbrett arbeitet',
  'Light it': 'Anzünden',
  'Flame off when it flows, and say in a word what was seen':
    'Flamme weg, wenn es fließt, und in einem Wort sagen, was zu sehen war',
  'Wait for black heat, take the iron off, then pickle': 'Warten, bis es nicht mehr glüht, das Eisen abnehmen, dann beizen',
  'Rinse, dry, look': 'Spülen, trocknen, ansehen',
  'Say what came of it': 'Sagen, was daraus wurde',
  'Guess first what {0} will do, each: stay solid, soften or run':
    'Rate zuerst, was jede tut, {0}: fest bleiben, weich werden oder laufen',
  '{0}, {1} % borax': '{0}, {1} % Borax',
  'no fluoride in it, by its data sheet': 'laut Datenblatt ohne Fluorid',
  'it holds fluoride: extraction on': 'enthält Fluorid: Absaugung an',
  'it may hold fluoride, nobody has said that it does not: extraction on':
    'enthält vielleicht Fluorid, niemand hat nein gesagt: Absaugung an',
  'Heat the whole evenly, the joint last; move the flame all the time':
    'Das Ganze gleichmäßig erhitzen, die Lötstelle zuletzt; die Flamme immer bewegen',
  'Heat the whole evenly, the joint last': 'Das Ganze gleichmäßig erhitzen, die Lötstelle zuletzt',
  'Point the flame at {0}': 'Die Flamme auf {0} richten',
  'tilted by {0}°': 'um {0}° geneigt',
  'towards {0}': 'zu {0} hin',
  'away from {0}': 'von {0} weg',
  'played over {0} mm': 'über {0} mm geführt',
  'Steel tweezers on {0}': 'Stahlpinzette an {0}',
  'A heavy clamp on {0}': 'Schwere Klemme an {0}',
  'A wet pack on {0}': 'Nasse Packung an {0}',
  'Shield paste on {0}': 'Hitzeschutzpaste auf {0}',
  'Anti-flow on {0}': 'Lötstopp auf {0}',
  'step {0} has started no time': 'Schritt {0} hat keine Uhr gestartet',
  'step {0} has not come yet': 'Schritt {0} ist noch nicht da',
  'Cannot move this time: {0}': 'Diese Zeit lässt sich nicht ändern: {0}',
  'Cannot take step {0} back: {1}': 'Schritt {0} lässt sich nicht zurücknehmen: {1}',
  'it was not done': 'er wurde nicht getan',
  'it was taken back already': 'er ist schon zurückgenommen',
  'it is more than ten minutes old': 'er ist mehr als zehn Minuten alt',
  'it booked or opened something; mend that by a movement, or with the incident':
    'er hat etwas gebucht oder eröffnet; das richtet eine Buchung oder das Missgeschick',
  'H{0} has changed since': 'H{0} hat sich seitdem geändert',
  'joint {0} has changed since': 'Lötstelle {0} hat sich seitdem geändert',
  'piece {0} has changed since': 'Stück {0} hat sich seitdem geändert',
  'another heat is alight now': 'jetzt ist eine andere Lötung im Feuer',
};
