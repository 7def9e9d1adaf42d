/** What a check says of the heats of a plan, and of what would put them right. */
export const planChecks: Readonly<Record<string, string>> = {
  // What is wrong with an edit
  'What is to be moved is {0}, not a sink': 'Was versetzt werden soll, ist kein Wärmeableiter: {0}',
  shield: 'Schirm',
  'anti flow': 'Lötstopp',
  sink: 'Wärmeableiter',
  protection: 'Schutz',
  'Heat {0} is an anneal: it takes no solder': 'Lötung {0} ist ein Glühen: sie braucht kein Lot',
  'Heat {0} is an anneal: it makes no joint': 'Lötung {0} ist ein Glühen: sie macht keine Lötstelle',
  'A new heat cannot be heat {0}: the plan has {1}': 'Eine neue Lötung kann nicht die {0}. sein: der Plan hat {1}',
  'There is no heat {0}: the plan has {1}': 'Es gibt keine Lötung {0}: der Plan hat {1}',
  'There is no joint {0}': 'Es gibt keine Lötstelle {0}',
  'Joint {0} is made in no heat of the plan': 'Lötstelle {0} wird in keiner Lötung des Plans gemacht',
  'The heat of {0} has no such {1}': 'Die Lötung von {0} hat das nicht: {1}',
  'The edits leave no heat': 'Nach den Änderungen bleibt keine Lötung',

  // What a prediction rests on
  'The model is not validated against measured heats; a calibration with your own torch and hand narrows it.':
    'Das Modell ist nicht an gemessenen Lötungen geprüft; eine Kalibrierung mit dem eigenen Brenner und der eigenen Hand macht es genauer.',
  'Every heat starts at 20 °C: no warmth is carried over from the heat before.':
    'Jede Lötung beginnt bei 20 °C: aus der davor bleibt keine Wärme.',
  'No radiation between parts that face each other, and none inside a closed form.':
    'Keine Strahlung zwischen Teilen, die einander gegenüberliegen, und keine im Inneren geschlossener Formen.',
  'No latent heat of the solder, and no water boiling out of wet flux.':
    'Keine Schmelzwärme des Lots, und kein Wasser, das aus nassem Flussmittel kocht.',
  'No flame that strikes a part near in space but far along the metal.':
    'Keine Flamme, die ein Teil trifft, das im Raum nahe, entlang des Metalls aber fern ist.',
  'How well loose links touch is a guess: {0} W/K where the design does not say.':
    'Wie gut lose Glieder sich berühren, ist geschätzt: {0} W/K, wo der Entwurf nichts sagt.',
  'Anti-flow is taken to hold a joint for a set number of seconds above its solidus; that number is assumed.':
    'Vom Lötstopp ist angenommen, dass er eine Lötstelle eine feste Zahl von Sekunden über ihrem Solidus hält.',
  'U = √({0}² + ({1} · max(0, T_flow − T))²) K: {2} K beside the target, more the cooler a joint is than it':
    'U = √({0}² + ({1} · max(0, T_flow − T))²) K: {2} K gleich neben dem, was gelötet wird, und mehr, je kühler eine Lötstelle bleibt',

  // Names that stand for nothing
  'Solder {0} is given twice': 'Das Lot {0} steht zweimal da',
  'Joint {0} must have solder {1}: there is no such solder':
    'Lötstelle {0} soll mit {1} gelötet werden: dieses Lot gibt es nicht',
  'Heat {0} names joint {1}: there is no such joint': 'Lötung {0} nennt die Lötstelle {1}: die gibt es nicht',
  'Heat {0} has no solder: name one': 'Lötung {0} hat kein Lot: nenne eines',
  'Heat {0} uses solder {1}: there is no such solder': 'Lötung {0} nimmt das Lot {1}: das gibt es nicht',
  'The flame of heat {0} is tilted by {1}: there is no such joint or part':
    'Die Flamme der Lötung {0} richtet sich nach {1}: so heißt weder Lötstelle noch Teil',
  'Heat {0} names part {1}: there is no such part': 'Lötung {0} nennt das Teil {1}: das gibt es nicht',
  'A sink of heat {0} is at joint {1}: there is no such joint':
    'Ein Wärmeableiter der Lötung {0} sitzt an der Lötstelle {1}: die gibt es nicht',
  'joint or part': 'keine Lötstelle und kein Teil',
  'Heat {0} guards {1}: there is no such {2}': 'Lötung {0} schützt {1}: das gibt es nicht ({2})',

  // Rules that a plan breaks
  'Only a supplier’s sheet or a laboratory analysis can clear it; else decline the work, use a cold method, or send it to a shop licensed and equipped for it':
    'Nur ein Blatt des Lieferanten oder eine Analyse im Labor kann es freigeben; sonst die Arbeit ablehnen, kalt verbinden, oder sie an eine Werkstatt geben, die dafür zugelassen und eingerichtet ist',
  'Joint {0} is annealed in heat {1}: it is not made before it':
    'Lötstelle {0} wird in Lötung {1} geglüht: sie ist davor nicht gemacht',
  'Heat {0} makes no joint: name at least one, or mark it as an anneal':
    'Lötung {0} macht keine Lötstelle: nenne mindestens eine, oder mach ein Glühen daraus',
  'Joint {0} is in heat {1}: it exists already': 'Lötstelle {0} ist in Lötung {1}: sie ist schon gemacht',
  'Joint {0} is in heat {1}: heat {2} has made it': 'Lötstelle {0} ist in Lötung {1}: Lötung {2} hat sie schon gemacht',
  'Joint {0} is in no heat': 'Lötstelle {0} ist in keiner Lötung',
  'Joint {0} in heat {1} does not hang together with {2}: a heat is one section':
    'Lötstelle {0} in Lötung {1} hängt nicht mit {2} zusammen: in einer Lötung liegt, was zusammenhängt',
  'Joint {0} would be in the fire of heat {1}: its cadmium standing is {2}; do not heat it. {3}':
    'Lötstelle {0} läge im Feuer der Lötung {1}: Cadmium {2}; nicht erhitzen. {3}',
  'Solder {0} of heat {1} cannot be used: its cadmium standing is {2}':
    'Das Lot {0} der Lötung {1} ist nicht zu gebrauchen: Cadmium {2}',
  'has no open vent': 'hat keine offene Entlüftung',
  'was closed in heat {0}, and closing the last vent is the last heat of all':
    'wurde in Lötung {0} geschlossen, und nach dem Schließen der letzten Entlüftung kommt keine Lötung mehr',
  'Hollow part {0} would be in the fire of heat {1}: it {2}': 'Das hohle Teil {0} läge im Feuer der Lötung {1}: es {2}',
  'Anti-flow is on {0} in heat {1}: it is to flow in this heat':
    'Lötstopp ist auf {0} in Lötung {1}: in dieser Lötung soll sie fließen',
  'Heat {0} means {1}: it is not in the fire of that heat': 'Lötung {0} meint {1}: das liegt nicht in ihrem Feuer',
  '{0} comes before {1}: the plan has them in heats {2} and {3}':
    '{0} kommt vor {1}: der Plan hat sie in den Lötungen {2} und {3}',
  '{0} go into one heat: the plan has them in heats {1}': '{0} gehören in eine Lötung: der Plan hat sie in den Lötungen {1}',
  '{0} are never made together: the plan has two of them in heat {1}':
    '{0} werden nie zusammen gemacht: der Plan hat zwei davon in Lötung {1}',
  ' and ': ' und ',
  'Heat {0} makes {1} joints: at most {2} in one heat': 'Lötung {0} macht {1} Lötstellen: höchstens {2} in einer Lötung',
  'Joints {0} and {1} of heat {2} are {3} mm apart along the metal: at most {4} mm':
    'Die Lötstellen {0} und {1} der Lötung {2} liegen entlang des Metalls {3} mm auseinander: höchstens {4} mm',
  'it must have {0}': 'verlangt ist {0}',
  '{0} is excluded for it': '{0} ist dafür ausgeschlossen',
  '{0} holds {1} silver; at least {2} is asked for': '{0} hat einen Silberanteil von {1}; verlangt ist mindestens {2}',
  'Joint {0} is made with {1} in heat {2}: {3}': 'Lötstelle {0} wird in Lötung {2} mit {1} gemacht: {3}',
  'The plan takes {0} g of {1}: {2} g may be used': 'Der Plan braucht {0} g von {1}: {2} g sind da',

  // What goes wrong in the fire
  '{0} is predicted not to flow{1}': '{0}: fließt laut Vorhersage nicht{1}',
  ': it settles at about {0} °C': ', es bleibt bei etwa {0} °C',
  'No way was found to play the flame so that all flow together: when the last flows, another is {0} °C hotter':
    'Es fand sich kein Weg, die Flamme so zu führen, dass alle zugleich fließen: wenn die letzte fließt, ist eine andere {0} °C heißer',
  'Flows only just: with a quarter less power it would not': 'Fließt gerade eben: mit einem Viertel weniger Leistung nicht',
  "Not on the bench's torch: its calibration does not count, so this is less sure":
    'Nicht mit dem Brenner des Werkbretts: seine Kalibrierung zählt nicht, also ist es weniger sicher',
  'Runs ahead: about {0} °C hotter than the joint': 'Eilt voraus: etwa {0} °C heißer als die Lötstelle',
  '{0}; keep the flame on the heavier part': '{0}; halt die Flamme auf dem schwereren Teil',
  '{0}; keep the flame on the joint': '{0}; halt die Flamme auf der Lötstelle',

  // What protections cost
  '{0}: costs no time': '{0}: kostet keine Zeit',
  '{0}: not reckoned for want of time': '{0}: aus Zeitmangel nicht gerechnet',
  'The tilt of the flame': 'Die schräge Flamme',
  '{0}: it does not flow with or without': '{0}: fließt weder mit noch ohne',
  '{0}: without, it flows in about {1} s; with, it does not': '{0}: ohne fließt es nach etwa {1} s, mit nicht',
  '{0}: with, it flows in about {1} s; without, it does not': '{0}: mit fließt es nach etwa {1} s, ohne nicht',
  '{0}: costs next to no time': '{0}: kostet so gut wie keine Zeit',
  '{0}: about {1} s {2}': '{0}: etwa {1} s {2}',
  slower: 'länger',
  sooner: 'kürzer',
  'No protection was added': 'Kein Schutz kam dazu',
  '{0} added to {1}, the fewest that keep earlier joints from running there':
    '{0} dazu, {1}: so wenige wie möglich, damit dort keine frühere Lötstelle läuft',
  '1 protection': '1 Schutz',
  '{0} protections': '{0}-mal Schutz',
  'heats {0}': 'Lötungen {0}',
};
