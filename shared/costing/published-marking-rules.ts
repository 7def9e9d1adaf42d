/** One rule for a place as it can be read somewhere, and how far it is to be trusted. */
export interface PublishedRule {
  place: string;
  field: 'markOverG' | 'leastSolderFinenessFraction' | 'toleranceWithoutSolderFraction' | 'toleranceWithSolderFraction';
  value: number;
  /** What it says, in a sentence. */
  says: string;
  source: string;
  /** found: read in a public page. memory: trade memory, to be looked up before anyone relies on it. */
  standing: 'found' | 'memory';
}

/**
 * What is published on the marking of silver in two places, to start a table from. Nothing computes with it: a studio enters
 * what its own office says.
 *
 * @source each row its own
 */
export const PUBLISHED_MARKING_RULES: readonly PublishedRule[] = [
  {
    place: 'GB',
    field: 'markOverG',
    value: 7.78,
    says: 'Silver over 7.78 g (a quarter of a troy ounce, rounded) is to be marked',
    source: 'Hallmarking Convention, country profile of the United Kingdom',
    standing: 'found',
  },
  {
    place: 'GB',
    field: 'leastSolderFinenessFraction',
    value: 0.65,
    says: 'Solder on silver of 800 to 999 is at least 650; excessive use of solder is not permitted',
    source: 'a table posted as copied from the UK hallmarking rules; where it stands in the law is not settled',
    standing: 'found',
  },
  {
    place: 'GB',
    field: 'toleranceWithoutSolderFraction',
    value: 0,
    says: 'Not less than the standard in all its parts, with no tolerance below it',
    source: 'Hallmarking Act 1973, s. 4(1) and s. 1(4)',
    standing: 'found',
  },
  {
    place: 'US',
    field: 'toleranceWithoutSolderFraction',
    value: 0.004,
    says: 'Assayed without solder, sterling is at least 921',
    source: '15 U.S.C. 296; state laws that mirror it were read (Rhode Island 6-11-3), the section itself was not',
    standing: 'memory',
  },
  {
    place: 'US',
    field: 'toleranceWithSolderFraction',
    value: 0.01,
    says: 'The whole article with its solder is at least 915',
    source: '15 U.S.C. 296',
    standing: 'memory',
  },
];
