import { layout, toCommission } from './report-columns.ts';

/** Reports of money: of commissions, quotes, accounts and the year. */
export const MONEY_REPORTS = {
  'quote-against-actual': layout('quote-against-actual', {
    rows: ({ rows }) => rows,
    columns: [
      { word: 'commission', kind: 'text', of: ({ number, title }) => `${number} ${title}`, href: toCommission },
      { word: 'day', kind: 'date', of: ({ day }) => day },
      { word: 'quotedMinutes', kind: 'minutes', of: ({ quoted }) => quoted.minutes },
      { word: 'actualMinutes', kind: 'minutes', of: ({ actual }) => actual.minutes },
      { word: 'quotedMetal', kind: 'mass', of: ({ quoted }) => quoted.metalG },
      { word: 'actualMetal', kind: 'mass', of: ({ actual }) => actual.metalG },
      { word: 'quotedSolder', kind: 'mass', of: ({ quoted }) => quoted.solderG },
      { word: 'actualSolder', kind: 'mass', of: ({ actual }) => actual.solderG },
      { word: 'quotedCost', kind: 'money', of: ({ quoted }) => quoted.cost },
      { word: 'actualCost', kind: 'money', of: ({ actual }) => actual.cost },
      { word: 'price', kind: 'money', of: ({ actual, quoted }) => actual.price ?? quoted.price },
      { word: 'quotedMargin', kind: 'share', of: ({ quoted }) => quoted.marginFraction },
      { word: 'actualMargin', kind: 'share', of: ({ actual }) => actual.marginFraction },
      { word: 'notes', kind: 'prose', of: ({ notes }) => notes },
    ],
  }),
  'earned-per-hour': layout('earned-per-hour', {
    rows: ({ rows }) => rows,
    columns: [
      { word: 'kind', kind: { group: 'kind' }, of: ({ kind }) => kind },
      { word: 'jobs', kind: 'count', of: ({ jobs }) => jobs },
      { word: 'benchHours', kind: 'hours', of: ({ benchHours }) => benchHours },
      { word: 'net', kind: 'money', of: ({ net }) => net },
      { word: 'boughtIn', kind: 'money', of: ({ boughtIn }) => boughtIn },
      { word: 'netLessBoughtIn', kind: 'money', of: ({ netLessBoughtIn }) => netLessBoughtIn },
      { word: 'earnedPerHour', kind: 'money', of: ({ earnedPerHour }) => earnedPerHour },
    ],
  }),
  'lost-money': layout('lost-money', {
    rows: ({ rows }) => rows,
    columns: [
      { word: 'commission', kind: 'text', of: ({ number, title }) => `${number} ${title}`, href: toCommission },
      { word: 'day', kind: 'date', of: ({ day }) => day },
      { word: 'plannedProfit', kind: 'money', of: ({ plannedProfit }) => plannedProfit },
      { word: 'plannedMargin', kind: 'share', of: ({ plannedMarginFraction }) => plannedMarginFraction },
      { word: 'trueProfit', kind: 'money', of: ({ trueProfit }) => trueProfit },
      { word: 'trueMargin', kind: 'share', of: ({ trueMarginFraction }) => trueMarginFraction },
      { word: 'largestCause', kind: { group: 'report.cause' }, of: ({ largestCause }) => largestCause },
    ],
  }),
  'quote-outcomes': layout('quote-outcomes', {
    rows: ({ rows }) => rows,
    columns: [
      { word: 'month', kind: 'month', of: ({ month }) => month },
      { word: 'sent', kind: 'count', of: ({ sent }) => sent },
      { word: 'accepted', kind: 'count', of: ({ accepted }) => accepted },
      { word: 'declined', kind: 'count', of: ({ declined }) => declined },
      { word: 'lapsed', kind: 'count', of: ({ lapsed }) => lapsed },
      { word: 'replaced', kind: 'count', of: ({ replaced }) => replaced },
      { word: 'unanswered', kind: 'count', of: ({ open }) => open },
      { word: 'acceptedShare', kind: 'share', of: ({ acceptedFraction }) => acceptedFraction },
      { word: 'medianDays', kind: 'days', of: ({ medianDays }) => medianDays },
      { word: 'medianDiscount', kind: 'share', of: ({ medianDiscountFraction }) => medianDiscountFraction },
    ],
  }),
  'money-owed': layout('money-owed', {
    rows: ({ rows }) => rows,
    sums: ({ owedToUs, weOwe, depositsNotBegun }) => [
      { word: 'owedToUs', kind: 'money', value: owedToUs },
      { word: 'weOwe', kind: 'money', value: weOwe },
      { word: 'depositNotBegun', kind: 'money', value: depositsNotBegun },
    ],
    columns: [
      { word: 'commission', kind: 'text', of: ({ number, title }) => `${number} ${title}`, href: toCommission },
      { word: 'client', kind: 'text', of: ({ client }) => client },
      { word: 'state', kind: { group: 'commission.state' }, of: ({ state }) => state },
      { word: 'day', kind: 'date', of: ({ day }) => day },
      { word: 'age', kind: 'days', of: ({ ageDays }) => ageDays },
      { word: 'gross', kind: 'money', of: ({ gross }) => gross },
      { word: 'received', kind: 'money', of: ({ received }) => received },
      { word: 'balance', kind: 'money', of: ({ balance }) => balance },
      { word: 'depositNotBegun', kind: 'money', of: ({ depositNotBegun }) => depositNotBegun },
    ],
  }),
  'year-end': layout('year-end', {
    rows: ({ rows }) => rows,
    sums: ({ totals }) => [
      { word: 'stock', kind: 'money', value: totals.stock },
      { word: 'unfinished', kind: 'money', value: totals.unfinished },
      { word: 'filings', kind: 'money', value: totals.filings },
      { word: 'deposits', kind: 'money', value: totals.deposits },
      { word: 'tax', kind: 'money', value: totals.tax },
    ],
    columns: [
      { word: 'section', kind: { group: 'report.section' }, of: ({ section }) => section },
      { word: 'number', kind: 'text', of: ({ number }) => number },
      // Of the rest it is a sentence whose numbers stand in the other columns.
      {
        word: 'product',
        kind: 'text',
        of: ({ section, what }) => (section === 'stock' || section === 'client_metal' ? what : null),
      },
      { word: 'mass', kind: 'mass', of: ({ grams }) => grams },
      { word: 'cost', kind: 'money', of: ({ cost }) => cost },
      { word: 'value', kind: 'money', of: ({ value }) => value },
      { word: 'counted', kind: 'money', of: ({ counted }) => counted },
      { word: 'month', kind: 'month', of: ({ month }) => month },
      { word: 'taxRate', kind: 'share', of: ({ rateFraction }) => rateFraction },
    ],
  }),
};
