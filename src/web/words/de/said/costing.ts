import { price } from '../price.ts';

const OPERATION = 'operation.';

/** What an estimate says: its lines, questions of solder, fineness and marking, and the operations by their names. */
export const costing: Readonly<Record<string, string>> = {
  ...Object.fromEntries(
    Object.entries(price).flatMap(([key, words]) => (key.startsWith(OPERATION) ? [[key.slice(OPERATION.length), words]] : [])),
  ),
  '100 mm of cut': '100 mm Schnitt',
  'band or ring': 'Zarge oder Ring',
  'wall of a beaker': 'Wandung eines Bechers',
  'ring or pendant': 'Ring oder Anhänger',

  // Lines
  'labour {0}': 'Arbeit {0}',
  'solder {0}': 'Lot {0}',
  'metal {0}': 'Metall {0}',
  'scrap credit {0}': 'Abfall, der zurückkommt: {0}',
  'handling of {0}': 'Umgang mit {0}',
  'heat {0} joint': 'Lötstelle von Lötung {0}',
  'heat {0} part': 'Teil von Lötung {0}',

  // Solder, added metal, fineness
  '{0} gets {1} times the solder that its gap holds, and no fillet: is the smallest piece so large?':
    '{0} bekommt {1}-mal so viel Lot, wie in den Spalt passt, und keine Kehle: ist das kleinste Stück so groß?',
  'No limit is entered for this place: ask its office before you add any':
    'Für diesen Ort ist keine Grenze eingetragen: frag sein Punzierungsamt, bevor du etwas hinzufügst',
  '{0} g is over the {1} g of this place': '{0} g sind über den {1} g dieses Ortes',
  '{0} g is {1} of the piece, over the {2} of this place': '{0} g sind ein Anteil von {1} am Stück, über {2} dieses Ortes',
  'ask the office before the work, it may have to be marked again':
    'frag vor der Arbeit beim Punzierungsamt, vielleicht muss das Stück neu punziert werden',
  'No rule is entered for this place: ask the office named on your packet':
    'Für diesen Ort ist keine Regel eingetragen: frag das Amt, das auf der Sendung steht',
  'A part is below every standard of silver: it may not be sold as one':
    'Ein Teil liegt unter jedem Feingehalt für Silber: es darf nicht als solches verkauft werden',
  'The silver of a solder is not known, so the whole cannot be told':
    'Der Silbergehalt eines Lots ist nicht bekannt, also auch nicht der des Ganzen',
  "Its least fine solder is {0}, under this place's {1}":
    'Sein Lot mit dem geringsten Feingehalt hat {0}, unter den {1} dieses Ortes',
  'Without solder it is {0}, under {1}': 'Ohne Lot sind es {0}, unter {1}',
  'With its solder it is {0}, under {1}': 'Mit seinem Lot sind es {0}, unter {1}',
  'It needs a mark: over {0} g, at {1} g before it is finished':
    'Es muss punziert werden: über {0} g, mit {1} g vor dem Fertigmachen',
  'Silver over 7.78 g (a quarter of a troy ounce, rounded) is to be marked':
    'Silber über 7,78 g (eine viertel Feinunze, gerundet) ist zu punzieren',
  'Solder on silver of 800 to 999 is at least 650; excessive use of solder is not permitted':
    'Lot auf Silber von 800 bis 999 hat mindestens 650; übermäßiges Lot ist nicht erlaubt',
  'Not less than the standard in all its parts, with no tolerance below it':
    'In allen Teilen nicht unter dem Feingehalt, ohne Abweichung nach unten',
  'Assayed without solder, sterling is at least 921': 'Ohne Lot geprüft, hat Sterling mindestens 921',
  'The whole article with its solder is at least 915': 'Das ganze Stück hat mit seinem Lot mindestens 915',
};
