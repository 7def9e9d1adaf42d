/** The cautions shown at hazardous steps, short and with the reason. They can be added to; none can be switched off. */

/** When a caution is read and ticked: each time, once a day, once a person; one that blocks is never ticked away. */
export type TickRhythm = 'each_time' | 'once_a_day' | 'once_a_person' | 'blocks';

/** Where a caution is shown. */
export type CautionPlace =
  /** At the heat, before the flame, and on the bench sheet. */
  | 'heat'
  /** At the pickle bath, by its state. */
  | 'bath'
  /** In the list of all, for what the book does not follow step by step: gas, chemicals beside the pickle, the polishing machine. */
  | 'list';

export interface Caution {
  id: string;
  /** When it appears. */
  when: string;
  shownAt: readonly CautionPlace[];
  words: string;
  tick: TickRhythm;
}

/**
 * Every caution, C1 to C21.
 *
 * The words are common workshop practice, written for this book; they quote no regulation and replace no safety data sheet.
 */
export const CAUTIONS = [
  {
    id: 'C1',
    when: 'any flame',
    shownAt: ['heat'],
    words:
      'Hair tied, sleeves back, eyes covered, nothing that burns within a metre, water and blanket in reach, air moving away from your face. Know the way out.',
    tick: 'once_a_day',
  },
  {
    id: 'C2',
    when: 'peak over 600 °C, long heats, big work',
    shownAt: ['heat'],
    words:
      'Glowing metal and flux throw infra-red and glare; wear the filter your safety sheet or tutor names. Spectacles are not eye protection.',
    tick: 'once_a_day',
  },
  {
    id: 'C3',
    when: 'fluoride flux',
    shownAt: ['heat'],
    words:
      'This flux gives off fluoride fumes, worse when overheated. Extraction on. Skin burns from fluoride may hurt late: wash at once and get medical help.',
    tick: 'each_time',
  },
  {
    id: 'C4',
    when: 'borax or boric-acid flux',
    shownAt: ['heat'],
    words:
      'Borates are classed as harmful to fertility and the unborn child in many places. No dust, no bare-hand paste, wash. Tell the owner if this concerns you.',
    tick: 'once_a_person',
  },
  {
    id: 'C5',
    when: 'cadmium yes or unknown, lot or existing joint',
    shownAt: ['heat'],
    words:
      'Do not heat. Cadmium fume can kill hours later, with little warning. The server will not prime this heat. Use a cadmium-free solder, or send the work to someone licensed and equipped.',
    tick: 'blocks',
  },
  {
    id: 'C6',
    when: 'lead or soft solder possible',
    shownAt: ['heat'],
    words:
      'Remove every trace first: at brazing heat it eats holes in silver and gives poisonous fume. If it cannot all be removed, do not braze.',
    tick: 'each_time',
  },
  {
    id: 'C7',
    when: 'plated, galvanised, brass, zinc, nickel, beryllium, unknown metal',
    shownAt: ['heat'],
    words: 'Unknown coatings and alloys can give poisonous fume. Test, strip or decline.',
    tick: 'each_time',
  },
  {
    id: 'C8',
    when: 'hollow or closed form',
    shownAt: ['heat'],
    words:
      'An open vent in every heat. Dry it right through after every pickle: trapped water turns to steam and bursts the form. Face away; screen up.',
    tick: 'each_time',
  },
  {
    id: 'C9',
    when: 'vents to be closed last',
    shownAt: ['heat'],
    words: 'Close in the coolest last heat, dry flux only, air cool, no quench, no heat after.',
    tick: 'each_time',
  },
  {
    id: 'C10',
    when: 'stone, pearl, wood, enamel, glue in place',
    shownAt: ['heat'],
    words: 'Take it out if you can. Treated and filled stones crack even when their kind is hardy. No quench: air only.',
    tick: 'each_time',
  },
  {
    id: 'C11',
    when: 'quench',
    shownAt: ['heat'],
    words: 'Not red hot; wait for black. Under water in one movement, tongs, lid or shield; hollow work never (air only).',
    tick: 'once_a_day',
  },
  {
    id: 'C12',
    when: 'hot metal and pickle',
    shownAt: ['heat', 'bath'],
    words: 'Never drop hot work into pickle: it spits acid and fumes. Quench, rinse, then pickle.',
    tick: 'each_time',
  },
  {
    id: 'C13',
    when: 'warm pickle',
    shownAt: ['heat', 'bath'],
    words: 'Under 80 °C, never boiling, lid on, extraction. Goggles and gloves. Acid into water, never water into acid.',
    tick: 'once_a_day',
  },
  {
    id: 'C14',
    when: 'iron, steel, tie wire, steel tools',
    shownAt: ['heat', 'bath'],
    words:
      'No iron in the pickle. If it went in: take the iron out; what touched it turns copper-pink while it is there. The bath is usually still good; fix the pink by your tutor’s method.',
    tick: 'each_time',
  },
  {
    id: 'C15',
    when: 'renewing a bath',
    shownAt: ['bath'],
    words:
      'It holds copper: poisonous to water life even when neutral. Neutralise slowly, check pH, and hand it to the collection your local rules name.',
    tick: 'each_time',
  },
  {
    id: 'C16',
    when: 'gas, start and end of day',
    shownAt: ['heat'],
    words:
      'Leak-test with soap solution; valves, hoses, flash-back arrestors looked at; no oil or grease near oxygen; cylinders upright and chained, away from heat; propane sinks, acetylene never above its rated pressure. Off at the cylinder when you leave.',
    tick: 'once_a_day',
  },
  {
    id: 'C17',
    when: 'how many cylinders, where',
    shownAt: ['list'],
    words:
      'Your fire authority, landlord and insurer decide size and place; one fire code allows about 1 kg of LPG indoors where the public comes.',
    tick: 'once_a_person',
  },
  {
    id: 'C18',
    when: 'peroxide and pickle, liver of sulphur, nitric',
    shownAt: ['bath'],
    words: 'Not together unless the sheet says so; small amounts; extraction; never sealed.',
    tick: 'each_time',
  },
  {
    id: 'C19',
    when: 'polishing machine',
    shownAt: ['list'],
    words: 'Tie back, no gloves, no chain held round the hand, dust drawn off, eyes covered.',
    tick: 'once_a_day',
  },
  {
    id: 'C20',
    when: 'student, alone, tired, ill',
    shownAt: ['heat'],
    words:
      'Students never alone, and light only after a tutor’s yes. Others: someone knows, phone and water in reach, your insurer’s terms kept.',
    tick: 'once_a_day',
  },
  {
    id: 'C21',
    when: 'charcoal, ceramic boards, fibre',
    shownAt: ['heat'],
    words: 'Old boards may be asbestos: do not use or cut. No fibre dust. Charcoal smoulders: water before leaving.',
    tick: 'once_a_person',
  },
] as const satisfies readonly Caution[];

export type CautionId = (typeof CAUTIONS)[number]['id'];

/** Said under every plan, bench sheet and list of cautions. */
export const DEFERRAL =
  'This plan is arithmetic from figures you or your supplier gave. Alloys, flames and hands differ: try it on scrap. It does not replace the supplier’s safety data sheets, your training, your country’s law on work safety, fire, gas, waste, precious-metal marking and tax, or the advice of those licensed to give it. Where they differ from this page, they are right. In an emergency call your local emergency number.';
