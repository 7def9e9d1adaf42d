/** Packets to assay offices, the rules of places, and scrap for the refiner. */
export const hallmarks: Readonly<Record<string, string>> = {
  'List its parts.': 'Zähl seine Teile auf.',
  'Name the office.': 'Nenne das Amt.',
  'Put a piece in.': 'Leg ein Stück hinein.',
  'Cannot change packet {0}: it is {1}': 'Sendung {0} lässt sich nicht mehr ändern (Stand: {1})',
  'The studio counts in {0}.': 'Die Werkstatt rechnet in {0}.',
  'There are {0} pieces in it.': 'Es sind {0} Stück darin.',
  'This piece is in it already.': 'Dieses Stück ist schon darin.',
  '{0} is in packet {1}, which is {2}.': '{0} ist in Sendung {1} (Stand: {2}).',
  '{0}, packet {1}': '{0}, Sendung {1}',
  'packet {0}: {1}': 'Sendung {0}: {1}',
  'go past what the rules of the place say': 'über die Regeln des Ortes hinweggehen',
  'This goes with the move to {0}.': 'Das gehört zum Schritt „{0}“.',
  'Say why, to go past what the rules of the place say.': 'Sag, warum es trotz der Regeln des Ortes weitergeht.',
  'say what the office wrote, in "reason"': 'sag als Grund, was das Amt schrieb',
  'name only pieces that are in the packet': 'nenne nur Stücke, die in der Sendung sind',
  'count and weigh {0} ("back")': 'zähle und wiege {0}',
  'tell the insurer ("insurerTold")': 'gib der Versicherung Bescheid',
  'say what is known, in "reason"': 'sag als Grund, was bekannt ist',
  'Cannot move packet {0} to {1}: {2}': 'Bei Sendung {0} geht der Schritt zu „{1}“ noch nicht: {2}',
  'weigh {0}': 'wiege {0}',
  '{0} is {1}, not being finished': '{0} ist nicht beim Fertigmachen (Stand: {1})',

  'Say where these rules are from: the office, a law, a page.':
    'Sag, woher diese Regeln sind: vom Amt, aus einem Gesetz, von einer Seite.',
  'Read in public pages or remembered, to start from. Nothing is computed with it: enter what your own office says':
    'Auf öffentlichen Seiten gelesen oder aus dem Gedächtnis, als Anfang. Gerechnet wird damit nichts: Trag ein, was dein eigenes Amt sagt',

  'Write the amount as a decimal, such as "1.05".': 'Schreib den Betrag als Dezimalzahl, etwa „1,05“.',
  'Say who it goes to.': 'Sag, an wen es geht.',
  'Cannot settle {0} again: it was on {1}': '{0} ist schon abgerechnet, am {1}',
  'Cannot {0} {1}: it was taken back ({2})': '{1} lässt sich nicht {0}: Es ist zurückgenommen ({2})',
  'take back': 'zurücknehmen',
  settle: 'abrechnen',
  'Cannot take {0} back: its jar was sent again with {1}; take that back first':
    '{0} lässt sich nicht zurücknehmen: Das Glas ging mit {1} noch einmal hinaus; nimm zuerst das zurück',
  'It was sent on {0}, after that.': 'Es wurde erst danach eingeschickt, am {0}.',
  'It is worth about {0}, and sending it costs {1}.': 'Es ist etwa {0} wert, das Einschicken kostet {1}.',
  'Wait until the jar is worth five fees: it is worth about {0}, and sending it costs {1}.':
    'Warte, bis das Glas das Fünffache der Gebühren wert ist: Es ist etwa {0} wert, das Einschicken kostet {1}.',
};
