/** What the heat model says of joints, parts and torches. */
export const thermal: Readonly<Record<string, string>> = {
  'predicted to stay solid by {0} °C, {1}': 'bleibt laut Vorhersage um {0} °C fest, {1}',
  'predicted to soften, {0} °C past where it begins to melt, {1}: do not touch or lean on it':
    'wird laut Vorhersage weich, {0} °C über dem Schmelzbeginn, {1}: nicht berühren, nichts anlehnen',
  'predicted not to run, by {0} °C, {1}': 'läuft laut Vorhersage nicht, um {0} °C, {1}',
  'predicted to run, {0} °C past where it flows, {1}': 'läuft laut Vorhersage, {0} °C über dem Fließpunkt, {1}',
  'give or take {0} °C': 'plus oder minus {0} °C',

  'at about {0}': 'ungefähr auf {0}',
  '{0} °C above {1}': '{0} °C über {1}',
  '{0} °C below {1}': '{0} °C unter {1}',
  'its liquidus': 'dem Liquidus',
  'its solidus': 'dem Solidus',
  'where it runs': 'dem Laufen',
  'its limit': 'der Grenze',
  'Predicted to run: it peaks {0}': 'Läuft laut Vorhersage: am heißesten {0}',
  'May run: it peaks {0}, give or take {1} °C': 'Läuft vielleicht: am heißesten {0}, plus oder minus {1} °C',
  "Held by anti-flow with {0} s to spare: don't touch or load it":
    'Vom Lötstopp gehalten, mit {0} s Reserve: nicht berühren, nicht belasten',
  "Predicted to soften, {0} and {1}: don't touch or lean on it":
    'Wird laut Vorhersage weich, {0} und {1}: nicht berühren, nichts anlehnen',
  "May soften: it peaks {0}, give or take {1} °C: don't touch or lean on it":
    'Wird vielleicht weich: am heißesten {0}, plus oder minus {1} °C: nicht berühren, nichts anlehnen',
  'Predicted to stay solid by {0} °C': 'Bleibt laut Vorhersage um {0} °C fest',
  'Comes near its limit, as a target of this solder does: watch it':
    'Kommt nahe an seine Grenze, wie es bei diesem Lot sein muss: beobachten',
  'Predicted {0}': 'Laut Vorhersage {0}',
  'Near its limit: predicted {0}': 'Nahe an der Grenze: laut Vorhersage {0}',
  it: 'ihr',

  'These observations cannot tell {0}': 'Aus diesen Beobachtungen lässt sich nicht bestimmen, {0}',
  'the power of the torch: time a heat from lighting to flow':
    'wie stark die Flamme ist: miss eine Lötung vom Anzünden bis zum Fließen',
  'what the piece loses to the room: time one from flame off to the last of the glow, held in the air':
    'was das Stück an den Raum verliert: miss, frei in der Luft gehalten, von Flamme aus bis zum letzten Glühen',
  'how wide the flame is: time a strip with two chips': 'wie breit die Flamme ist: miss einen Streifen mit zwei Paillons',
  'The {0} of {1} {2} does not fit: {3} s were seen, the model comes to {4} s':
    '{1} {2}, {0}: passt nicht, gesehen wurden {3} s, das Modell kommt auf {4} s',
  'flux clear': 'Klarwerden des Flussmittels',
  flow: 'Fließen',
  'end of glow': 'Ende des Glühens',
  'chip gap': 'Zeit zwischen den Paillons',
  strip: 'Streifen',
};
